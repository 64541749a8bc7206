#include "tests/support/guided_steering.h"

#include <cmath>
#include <string>
#include <utility>

#include "engine/base/units.h"

namespace axlewright::testing {

namespace {

constexpr double kHalfTieRod = 1.415 / 2;
constexpr double kArm = 0.170;
constexpr double kPitman = 0.165;
constexpr double kThroughLink = 0.900;

class Builder {
 public:
  explicit Builder(const GuidedSteeringShape& shape) : shape_(shape) {}

  GuidedSteering run() {
    rod_ = m().add_body("tie rod");
    add_knuckle("left", 1, out_.stub.left);
    add_knuckle("right", -1, out_.stub.right);
    if (shape_.rod_kept_at_deg) keep_rod();
    const Vec3 near(0, 0, shape_.drop);
    const BodyId arm = add_pitman(near);
    // Toed about the half-link's pivot, which stays in the guide's line; near end straight above it as before.
    const double toe = from_deg(shape_.guide_toed_deg);
    guide_ = Vec3(-std::sin(toe), std::cos(toe), 0);
    const Vec3 end = -guide_ * std::sqrt(kThroughLink * kThroughLink - shape_.drop * shape_.drop);
    through_ = m().add_body("through-link");
    ball("near end", arm, through_, near);
    add_half_link(0.5 * (near + end), near);
    add_guide_end(end);
    return std::move(out_);
  }

 private:
  Mechanism& m() { return out_.mechanism; }

  void ball(const std::string& name, BodyId a, BodyId b, const Vec3& at) {
    m().add_joint({.name = name,
                   .kind = JointKind::ball,
                   .body_a = a,
                   .body_b = b,
                   .a = m().add_anchor(name, a, at),
                   .b = m().add_anchor(name, b, at)});
  }

  JointId pin(const std::string& name, BodyId a, BodyId b, const Vec3& at, const Vec3& axis) {
    return m().add_joint({.name = name,
                          .kind = JointKind::pin,
                          .body_a = a,
                          .body_b = b,
                          .a = m().add_anchor(name, a, at),
                          .b = m().add_anchor(name, b, at),
                          .axis_a = m().add_axis(name, a, axis),
                          .axis_b = m().add_axis(name, b, axis)});
  }

  void add_knuckle(const std::string& side, double y, AxisId& stub) {
    const Vec3 axis(-std::tan(from_deg(shape_.caster_deg)), -y * std::tan(from_deg(shape_.kpi_deg)),
                    1);
    const BodyId knuckle = m().add_body(side + " knuckle");
    pin("kingpin, " + side, kFrame, knuckle, {-kArm, y * (kHalfTieRod - shape_.balls_outboard), 0},
        axis);
    stub = m().add_axis("stub", knuckle, Vec3::UnitY());
    ball("tie rod ball, " + side, knuckle, rod_, {0, y * kHalfTieRod, 0});
  }

  /// The rod's up stays in the plane of frame y and an up turned about y.
  void keep_rod() {
    const double turn = from_deg(*shape_.rod_kept_at_deg);
    m().add_joint(
        {.name = "keeper",
         .kind = JointKind::spin_keeper,
         .body_a = rod_,
         .body_b = kFrame,
         .axis_a = m().add_axis("rod's up", rod_, Vec3::UnitZ()),
         .axis_b = m().add_axis("square to up", kFrame, Vec3(std::cos(turn), 0, -std::sin(turn)))});
  }

  BodyId add_pitman(const Vec3& near) {
    const BodyId arm = m().add_body("pitman");
    const JointId shaft =
        pin("sector shaft", kFrame, arm, near + Vec3(kPitman, 0, 0), Vec3::UnitZ());
    out_.pitman = m().add_input({.name = "pitman", .kind = InputKind::turn, .joint = shaft});
    return arm;
  }

  void add_half_link(const Vec3& middle, const Vec3& near) {
    if (shape_.half_link == HalfLink::distance) {
      const AnchorId pivot = m().add_anchor("pivot", rod_, Vec3::Zero());
      const AnchorId on_through = m().add_anchor("middle", through_, middle);
      m().add_joint({.name = "half-link",
                     .kind = JointKind::distance,
                     .body_a = rod_,
                     .body_b = through_,
                     .a = pivot,
                     .b = on_through,
                     .length = m().add_length("half-link", pivot, on_through)});
      return;
    }
    const BodyId half = m().add_body("half-link");
    ball("half-link pivot", rod_, half, Vec3::Zero());
    if (shape_.half_link == HalfLink::ball_body) {
      ball("half-link middle", through_, half, middle);
    } else {
      pin("half-link middle", through_, half, middle, cross(middle, near));
    }
  }

  void add_guide_end(const Vec3& end) {
    if (shape_.guide_end == GuideEnd::point) {
      on_guide("guide", through_, end, end);
      return;
    }
    const BodyId carriage = m().add_body("carriage");
    ball("guide end", carriage, through_, end);
    if (shape_.guide_end == GuideEnd::slide) {
      m().add_joint({.name = "carriage",
                     .kind = JointKind::slide,
                     .body_a = rod_,
                     .body_b = carriage,
                     .a = m().add_anchor("guide", rod_, end),
                     .b = m().add_anchor("guide", carriage, end),
                     .axis_a = m().add_axis("guide", rod_, guide_)});
      return;
    }
    // Two places of the carriage on the guide's line: it slides and turns.
    on_guide("carriage, inner", carriage, end, end);
    on_guide("carriage, outer", carriage, end, end - 0.1 * guide_);
  }

  void on_guide(const std::string& name, BodyId rider, const Vec3& line, const Vec3& at) {
    m().add_joint({.name = name,
                   .kind = JointKind::point_on_line,
                   .body_a = rod_,
                   .body_b = rider,
                   .a = m().add_anchor(name, rod_, line),
                   .b = m().add_anchor(name, rider, at),
                   .axis_a = m().add_axis(name, rod_, guide_)});
  }

  const GuidedSteeringShape& shape_;
  GuidedSteering out_;
  BodyId rod_{}, through_{};
  Vec3 guide_ = Vec3::UnitY();
};

}  // namespace

GuidedSteering guided_steering(const GuidedSteeringShape& shape) {
  return Builder(shape).run();
}

}  // namespace axlewright::testing
