#include "tests/support/guided_bar.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/base/units.h"

namespace axlewright::testing {

GuidedBarParts guided_bar_parts(const GuidedBarShape& s) {
  GuidedBarParts g;
  Mechanism& m = g.mechanism;
  // Drawn at 4 deg: from the guide's line down the link to where the half-link's circle meets it.
  const double phi = from_deg(4);
  const Vec3 along(0, -std::cos(phi), std::sin(phi));
  const Vec3 square(0, std::sin(phi), std::cos(phi));
  const Vec3 from_guide_end = s.guide_to_pin * along + s.pin_off * square;
  const double pin_above = s.guide_above + from_guide_end.z();
  const Mat3 tilt = rotation_about<double>(Vec3::UnitX(), from_deg(s.guide_tilt_deg));
  const Vec3 pin(0, std::sqrt(s.half_link * s.half_link - pin_above * pin_above), pin_above);
  const Vec3 end = pin - from_guide_end;
  const Vec3 near = end + (s.guide_to_pin + s.pin_to_end) * along;

  const BodyId through = m.add_body("through-link");
  g.near_end = m.add_anchor("near end", through, tilt * near);
  g.guide_end = m.add_anchor("guide end", through, tilt * end);
  const AnchorId pivot = m.add_anchor("pivot", kFrame, Vec3::Zero());
  const AnchorId middle = m.add_anchor("middle", through, tilt * pin);
  m.add_joint({.name = "half-link",
               .kind = JointKind::distance,
               .body_a = kFrame,
               .body_b = through,
               .a = pivot,
               .b = middle,
               .length = m.add_length("half-link", pivot, middle)});
  m.add_joint({.name = "guide",
               .kind = JointKind::point_on_line,
               .body_a = kFrame,
               .body_b = through,
               .a = m.add_anchor("guide", kFrame, tilt * Vec3(0, 0, s.guide_above)),
               .b = g.guide_end,
               .axis_a = m.add_axis("guide", kFrame, tilt * Vec3::UnitY())});
  // The through-link's spin would otherwise carry an offset pin out of the plane.
  m.add_joint({.name = "keeper",
               .kind = JointKind::spin_keeper,
               .body_a = through,
               .body_b = kFrame,
               .axis_a = m.add_axis("across the link", through, Vec3::UnitX()),
               .axis_b = m.add_axis("up", kFrame, Vec3::UnitZ())});
  g.above = m.add_input(
      {.name = "above", .anchor = g.near_end, .axis = m.add_axis("up", kFrame, Vec3::UnitZ())});
  g.ahead = m.add_input(
      {.name = "ahead", .anchor = g.near_end, .axis = m.add_axis("ahead", kFrame, Vec3::UnitX())});
  return g;
}

GuidedBarAlone::GuidedBarAlone(const GuidedBarShape& shape)
    : parts_(guided_bar_parts(shape)),
      follower_(assemble(parts_.mechanism, {parts_.above, parts_.ahead})) {}

Vec3 GuidedBarAlone::place(AnchorId id) const {
  const Anchor& anchor = parts_.mechanism.anchor(id);
  return follower_.kinematics().pose[static_cast<std::size_t>(anchor.body.value)].place(anchor.at);
}

Vec3 GuidedBarAlone::near_end(double above, double ahead) {
  const SolveReport& report = follower_.go_to({above, ahead});
  EXPECT_TRUE(report.usable()) << report.message;
  return place(parts_.near_end);
}

double GuidedBarAlone::guide_end_across() const {
  return place(parts_.guide_end).y();
}

}  // namespace axlewright::testing
