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
  m.add_input({.name = "turn", .kind = InputKind::turn, .joint = shaft, .as_measured = 0.07});
  m.add_input({.name = "height",
               .kind = InputKind::coordinate,
               .anchor = high,
               .axis = m.add_axis("up", kFrame, Vec3::UnitZ())});
  const std::vector<HeadingOf> stubs = {{m.add_axis("stub", axle, Vec3::UnitY())},
                                        {m.add_axis("stub", rod, Vec3(0.1, 1, 0))}};
  m.add_input({.name = "heading", .kind = InputKind::heading, .headings = stubs});
  // Against a body that hangs on the frame alone, and against one that the two themselves hang on.
  for (const BodyId body : {arm, carriage}) {
    m.add_input({.name = "heading against a body",
                 .kind = InputKind::heading,
                 .axis = m.add_axis("post", body, Vec3(0.1, 1, 0.2)),
                 .headings = stubs});
  }
  return m;
}

const std::vector<InputId> kHeld = {InputId{0}, InputId{1}, InputId{2}, InputId{3}, InputId{4}};
const std::vector<double> kInputs = {0.1, 0.2, -0.3, 0.15, -0.05};

/// A pose that closes nothing and where nothing is aligned, moved on by `more` along one coordinate.
template <class T>
StateT<T> somewhere(const System& system, int coordinate = 0, const T& more = T(0)) {
  StateT<T> state(system.tree.size());
  std::vector<T> step(static_cast<std::size_t>(system.coordinates));
  for (std::size_t k = 0; k < step.size(); ++k)
    step[k] = T(0.03 * static_cast<double>(k % 5) - 0.05);
  move<T>(system, step.data(), state);
  for (T& s : step) s = T(0);
  step[static_cast<std::size_t>(coordinate)] = more;
  move<T>(system, step.data(), state);
  return state;
}

// A second derivation: the plain equations, one by one, at a pose that closes nothing and where nothing is aligned.
TEST(FlatEquations, AreThePlainOnes) {
  const System system = make_system(every_kind(), kHeld);
  const Design design = design_of(system.mechanism);
  const State state = somewhere<double>(system);
  Kinematics kin;
  update_kinematics(system, design, state, kin);
  std::vector<int> rows(static_cast<std::size_t>(system.equation_count()));
  std::iota(rows.begin(), rows.end(), 0);

  FlatEquations flat;
  flat.lay_down(system, design, rows);
  Vector got(system.equation_count());
  std::vector<double> entries(flat.entry_rows().size());
  flat.evaluate(state, kin, kInputs.data(), got.data(), entries.data());

  // 1e-15: rounding of numbers of about one.
  constexpr double kRounding = 4e-15;
  EXPECT_LT((got - residuals(system, design, state, kin, kInputs)).cwiseAbs().maxCoeff(),
            kRounding);
  Matrix jacobian = Matrix::Zero(system.equation_count(), system.coordinates);
  for (std::size_t k = 0; k < entries.size(); ++k) {
    jacobian(flat.entry_rows()[k], flat.entry_columns()[k]) += entries[k];
  }
  Matrix plain =
      scaled_jacobian(system, design, state, kin, kInputs) * coordinate_scales(system).asDiagonal();
  for (int k = 0; k < plain.rows(); ++k) {
    plain.row(k) /= residual_scale(system.equations[static_cast<std::size_t>(k)]);
  }
  EXPECT_LT((jacobian - plain).cwiseAbs().maxCoeff(), kRounding);
}

// What moves with a joint is one body of an equation, or all but one, or one that a heading counts against: whichever wrench stands
// for it, along the coordinate it makes the derivative of the equation.
TEST(Wrenches, AlongEachCoordinateAreWhatDualNumbersSay) {
  const System system = make_system(every_kind(), kHeld);
  const Design design = design_of(system.mechanism);
  const State state = somewhere<double>(system);
  Kinematics kin;
  update_kinematics(system, design, state, kin);
  const DesignT<Dual> dual_design = design_of<Dual>(system.mechanism);
  const std::vector<Dual> dual_inputs(kInputs.begin(), kInputs.end());
  Matrix by_wrench = Matrix::Zero(system.equation_count(), system.coordinates);
  Matrix by_dual = by_wrench;
  for (int c = 0; c < system.coordinates; ++c) {
    const StateT<Dual> moved = somewhere<Dual>(system, c, Dual(0, 1));
    KinematicsT<Dual> dual_kin;
    update_kinematics<Dual>(system, dual_design, moved, dual_kin);
    for (int k = 0; k < system.equation_count(); ++k) {
      const Equation& e = system.equations[static_cast<std::size_t>(k)];
      by_dual(k, c) =
          evaluate_equation<Dual>(system, e, dual_design, moved, dual_kin, dual_inputs.data())
              .residual.slope;
    }
  }
  for (int k = 0; k < system.equation_count(); ++k) {
    const Equation& e = system.equations[static_cast<std::size_t>(k)];
    const auto value = evaluate_equation(system, e, design, state, kin, kInputs.data());
    for (const JacobianEntry& entry : system.entries[static_cast<std::size_t>(k)])
      by_wrench(k, entry.column) += derivative(e, value, entry, kin);
  }
  constexpr double kRounding = 4e-15;  // of numbers of about one
  EXPECT_LT((by_wrench - by_dual).cwiseAbs().maxCoeff(), kRounding);
}

}  // namespace
}  // namespace axlewright
