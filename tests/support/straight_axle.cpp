#include "tests/support/straight_axle.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/base/units.h"

namespace axlewright::testing {

namespace {

constexpr double kBallHeight = 0.420;
constexpr double kThroughLink = 0.900;

class Builder {
 public:
  explicit Builder(const StraightAxle& shape) : shape_(shape) {}

  Truck run() {
    truck_.name = "straight axle";
    truck_.wheelbase = shape_.wheelbase;
    truck_.height_range = {0, 0.270};
    truck_.lean = from_deg(4);
    add_axle();
    add_knuckles();
    add_sideways();
    const Vec3 pitman_ball = shape_.drag_link ? add_drag_link() : add_guided_steering();
    add_pitman(pitman_ball);
    add_wheels();
    return std::move(truck_);
  }

 private:
  double half_tie_rod() const { return shape_.kingpins_apart / 2; }

  void point(const std::string& name, const std::string& on, const Vec3& at) {
    add_point(truck_, name, on, at);
  }

  template <class What>
  void part(const std::string& name, const What& what) {
    Part p;
    p.name = name;
    p.words = name;
    p.what = what;
    truck_.parts.push_back(p);
  }

  static Direction fixed(const Vec3& v) {
    Direction d;
    d.fixed = v;
    return d;
  }

  void square(const std::string& name, const Vec3& on_frame, const Vec3& on_axle) {
    PlainJoint joint;
    joint.name = joint.words = name;
    joint.kind = PlainJointKind::perpendicular;
    joint.between = {"frame", "axle"};
    joint.first = fixed(on_frame);
    joint.second = fixed(on_axle);
    truck_.joints.push_back(joint);
  }

  void hold(const std::string& name, const Vec3& along) {
    PlainJoint joint;
    joint.name = joint.words = name;
    joint.kind = PlainJointKind::held_coordinate;
    joint.between = {"frame", "axle"};
    joint.point = "axle_middle";
    joint.first = fixed(along);
    truck_.joints.push_back(joint);
  }

  void add_axle() {
    point("axle_middle", "axle", {0, 0, 0.460});
    hold("axle fore-aft", Vec3::UnitX());
    square("axle yaw", Vec3::UnitY(), Vec3::UnitX());
    square("axle pitch", Vec3::UnitZ(), Vec3::UnitX());
  }

  void add_knuckles() {
    for (const double side : {1.0, -1.0}) {
      const std::string name = side > 0 ? "left" : "right";
      Vec3 up(-std::tan(from_deg(shape_.caster_deg)), -side * std::tan(from_deg(shape_.kpi_deg)),
              1);
      const Vec3 pivot(0, side * half_tie_rod(), kBallHeight);
      point("kingpin_lower_" + name, "axle", pivot - 0.060 * up);
      point("kingpin_upper_" + name, "axle", pivot + 0.090 * up);
      point("tie_rod_ball_" + name, "knuckle_" + name, pivot + Vec3(shape_.arm, 0, 0));
      Kingpin kingpin;
      kingpin.knuckle = "knuckle_" + name;
      kingpin.lower = "kingpin_lower_" + name;
      kingpin.upper = "kingpin_upper_" + name;
      part("kingpin_" + name, kingpin);
    }
    Bar tie_rod;
    tie_rod.kind = BarKind::tie_rod;
    tie_rod.ends = {"tie_rod_ball_left", "tie_rod_ball_right"};
    tie_rod.body = !shape_.drag_link;
    part("tie_rod", tie_rod);
  }

  void add_bar(const std::string& name, BarKind kind, const std::string& a, const std::string& b) {
    Bar bar;
    bar.kind = kind;
    bar.ends = {a, b};
    part(name, bar);
  }

  static Vec3 span(const CrossBar& bar) {
    return {0, std::sqrt(bar.length * bar.length - bar.drop * bar.drop), bar.drop};
  }

  void add_sideways() {
    if (shape_.track_bar) {
      const Vec3 axle_end(-0.090, -0.430, 0.500);
      point("track_bar_axle", "axle", axle_end);
      point("track_bar_frame", "frame", axle_end + span(*shape_.track_bar));
      add_bar("track_bar", BarKind::track_bar, "track_bar_frame", "track_bar_axle");
    } else if (shape_.locator_below_pitman_ball) {
      const double z = kBallHeight + shape_.steering_drop - *shape_.locator_below_pitman_ball;
      add_guided("locator", "axle", "frame", {-0.090, 0, z}, 0.130);
    } else {
      hold("axle sideways", Vec3::UnitY());
    }
  }

  Vec3 add_drag_link() {
    const Vec3 knuckle_end(shape_.arm, -half_tie_rod(), 0.470);
    point("drag_link_knuckle", "knuckle_right", knuckle_end);
    add_bar("drag_link", BarKind::drag_link, "pitman_ball", "drag_link_knuckle");
    return knuckle_end + span(*shape_.drag_link);
  }

  Vec3 add_guided_steering() {
    const Vec3 near(shape_.arm, 0, kBallHeight + shape_.steering_drop);
    add_guided("steering", "tie_rod", "pitman", near, shape_.steering_drop);
    return near;
  }

  /// Guide along y, `drop` below the near end, its pivot straight below it, the guide end to the right.
  void add_guided(const std::string& name, const std::string& carries, const std::string& near_on,
                  const Vec3& near, double drop) {
    const Vec3 pivot = near - Vec3(0, 0, drop);
    const Vec3 end = pivot - Vec3(0, std::sqrt(kThroughLink * kThroughLink - drop * drop), 0);
    GuidedBar bar;
    bar.near_end = near_on == "pitman" ? "pitman_ball" : name + "_near_end";
    if (near_on != "pitman") point(bar.near_end, near_on, near);
    bar.near_end_on = near_on;
    bar.carries = carries;
    bar.pivot = name + "_pivot";
    point(bar.pivot, carries, pivot);
    bar.guide = Direction{name + "_guide_inner", name + "_guide_outer", Vec3::Zero()};
    point(bar.guide.from, carries, pivot - Vec3(0, 0.5, 0));
    point(bar.guide.to, carries, pivot - Vec3(0, 1.0, 0));
    bar.middle = name + "_middle";
    point(bar.middle, name + "_through", 0.5 * (near + end));
    bar.guide_end = name + "_guide_end";
    point(bar.guide_end, name + "_through", end);
    part(name, bar);
  }

  void add_pitman(const Vec3& ball) {
    point("pitman_ball", "pitman", ball);
    point("sector_shaft_low", "frame", ball + Vec3(shape_.pitman, 0, -0.050));
    point("sector_shaft_high", "frame", ball + Vec3(shape_.pitman, 0, 0.100));
    PitmanArm arm;
    arm.axis = {"sector_shaft_low", "sector_shaft_high"};
    arm.anticlockwise = false;
    part("pitman_arm", arm);
    truck_.gear.ratio = {{0, shape_.ratio}};
  }

  void add_wheels() {
    point("wheel_centre_left", "axle", {0, shape_.wheels_apart / 2, 0.460});
    point("wheel_centre_right", "axle", {0, -shape_.wheels_apart / 2, 0.460});
    truck_.wheels.centre_left = "wheel_centre_left";
    truck_.wheels.centre_right = "wheel_centre_right";
    truck_.wheels.loaded_radius = 0.460;
    truck_.wheels.section = 0.315;
  }

  const StraightAxle& shape_;
  Truck truck_;
};

}  // namespace

Truck truck_of(const StraightAxle& shape) {
  return Builder(shape).run();
}

void release(Truck& truck, const std::string& joint) {
  const auto named = [&](const PlainJoint& j) { return j.name == joint; };
  truck.joints.erase(std::remove_if(truck.joints.begin(), truck.joints.end(), named),
                     truck.joints.end());
}

void add_point(Truck& truck, const std::string& name, const std::string& on, const Vec3& at) {
  Point point;
  point.name = name;
  point.on = on;
  point.at = at;
  truck.points.push_back(point);
}

void move_point(Truck& truck, const std::string& name, const Vec3& at) {
  for (Point& point : truck.points) {
    if (point.name == name) point.at = at;
  }
}

void add_link(Truck& truck, const std::string& name, const Vec3& on_frame, const Vec3& on_axle) {
  Bar bar;
  bar.ends = {name + "_frame", name + "_axle"};
  add_point(truck, bar.ends[0], "frame", on_frame);
  add_point(truck, bar.ends[1], "axle", on_axle);
  Part part;
  part.name = part.words = name;
  part.what = bar;
  truck.parts.push_back(part);
}

}  // namespace axlewright::testing
