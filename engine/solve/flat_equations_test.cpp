#include "engine/solve/flat_equations.h"

#include <numeric>

#include <gtest/gtest.h>

#include "engine/solve/linearise.h"

namespace axlewright {
namespace {

/// Every kind of tree joint, and every kind of equation between bodies of the tree and the frame.
Mechanism every_kind() {
  Mechanism m;
  const BodyId arm = m.add_body("arm"), rail = m.add_body("rail"),
               carriage = m.add_body("carriage"), rod = m.add_body("rod"),
               axle = m.add_body("axle");
  const auto join = [&](JointKind kind, BodyId a, BodyId b, const Vec3& at, const Vec3& axis) {
    Joint joint{.name = word_for(kind), .kind = kind, .body_a = a, .body_b = b};
    joint.a = m.add_anchor("a", a, at);
    joint.b = m.add_anchor("b", b, at);
    joint.axis_a = m.add_axis("a", a, axis);
    joint.axis_b = m.add_axis("b", b, axis);
    return m.add_joint(joint);
  };
  const JointId shaft = join(JointKind::pin, kFrame, arm, Vec3(0.3, 0.2, 0.1), Vec3(0.1, 0.2, 1));
  join(JointKind::clamp, arm, rail, Vec3(0.4, 0, 0), Vec3::UnitX());
  join(JointKind::slide, rail, carriage, Vec3(0.5, 0, 0), Vec3(1, 0.3, 0));
  join(JointKind::ball, carriage, rod, Vec3(0.6, 0.1, 0.2), Vec3::UnitZ());
  join(JointKind::ball, rod, axle, Vec3(0.6, -0.7, 0.1), Vec3::UnitZ());
  join(JointKind::point_on_line, axle, arm, Vec3(0.2, -0.2, 0.3), Vec3(0.2, 1, 0.1));
  join(JointKind::point_on_plane, kFrame, axle, Vec3(-0.2, 0.5, 0.3), Vec3(0.3, 0.1, 1));
  join(JointKind::held_coordinate, axle, rod, Vec3(0.6, -0.1, 0.2), Vec3(1, 0.5, 0.2));
  m.add_joint({.name = "perpendicular",
               .kind = JointKind::perpendicular,
               .body_a = rod,
               .body_b = axle,
               .axis_a = m.add_axis("u", rod, Vec3::UnitX()),
               .axis_b = m.add_axis("v", axle, Vec3::UnitZ())});
  const AnchorId low = m.add_anchor("bar", kFrame, Vec3(-1, 0.5, 0.2));
  const AnchorId high = m.add_anchor("bar", axle, Vec3(0, 0.5, 0.4));
  m.add_joint({.name = "bar",
               .kind = JointKind::distance,
               .body_a = kFrame,
               .body_b = axle,
               .a = low,
               .b = high,
               .length = m.add_length("bar", low, high)});
  m.add_input({.name = "turn", .kind = InputKind::turn, .joint = shaft});
  m.add_input({.name = "height",
               .kind = InputKind::coordinate,
               .anchor = high,
               .axis = m.add_axis("up", kFrame, Vec3::UnitZ())});
  m.add_input({.name = "heading",
               .kind = InputKind::heading,
               .headings = {{m.add_axis("stub", axle, Vec3::UnitY())},
                            {m.add_axis("stub", rod, Vec3(0.1, 1, 0))}}});
  return m;
}

// A second derivation: the plain equations, one by one, at a pose that closes nothing and where nothing is aligned.
TEST(FlatEquations, AreThePlainOnes) {
  const System system = make_system(every_kind(), {InputId{0}, InputId{1}, InputId{2}});
  const Design design = design_of(system.mechanism);
  State state = as_measured(system);
  std::vector<double> step(static_cast<std::size_t>(system.coordinates));
  for (std::size_t k = 0; k < step.size(); ++k) step[k] = 0.03 * static_cast<double>(k % 5) - 0.05;
  move(system, step.data(), state);
  Kinematics kin;
  update_kinematics(system, design, state, kin);
  const std::vector<double> inputs = {0.1, 0.2, -0.3};
  std::vector<int> rows(static_cast<std::size_t>(system.equation_count()));
  std::iota(rows.begin(), rows.end(), 0);

  FlatEquations flat;
  flat.lay_down(system, design, rows);
  Vector got(system.equation_count());
  std::vector<double> entries(flat.entry_rows().size());
  flat.evaluate(state, kin, inputs.data(), got.data(), entries.data());

  // 1e-15: rounding of numbers of about one.
  constexpr double kRounding = 4e-15;
  EXPECT_LT((got - residuals(system, design, state, kin, inputs)).cwiseAbs().maxCoeff(), kRounding);
  Matrix jacobian = Matrix::Zero(system.equation_count(), system.coordinates);
  for (std::size_t k = 0; k < entries.size(); ++k) {
    jacobian(flat.entry_rows()[k], flat.entry_columns()[k]) += entries[k];
  }
  Matrix plain =
      scaled_jacobian(system, design, state, kin, inputs) * coordinate_scales(system).asDiagonal();
  for (int k = 0; k < plain.rows(); ++k) {
    plain.row(k) /= residual_scale(system.equations[static_cast<std::size_t>(k)]);
  }
  EXPECT_LT((jacobian - plain).cwiseAbs().maxCoeff(), kRounding);
}

}  // namespace
}  // namespace axlewright
