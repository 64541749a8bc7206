#include "engine/solve/balance.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/solve/follower.h"
#include "engine/solve/linearise.h"

namespace axlewright {
namespace {

struct Sample {
  Mechanism mechanism;
  std::vector<InputId> inputs;
};

/// A beam on a rigid rod and three bushes of unlike stiffness, with a body that swings on it: closures of a ball and a rod in
/// the loop, free and ball coordinates, bushes with all six ways.
Sample beam_on_bushes() {
  Sample s;
  Mechanism& m = s.mechanism;
  const BodyId beam = m.add_body("beam"), arm = m.add_body("arm"), link = m.add_body("link");
  const auto bush = [&](BodyId a, BodyId b, const Vec3& at, const Vec3& line, double k) {
    m.add_bush("bush", a, b, at, line,
               {.along = Vec3(3e6, 2.5e6, 0.4e6) * k, .about = Vec3(900, 700, 60) * k});
  };
  bush(kFrame, beam, Vec3(0, 0.5, 0.4), Vec3(0.1, 1, 0), 1);
  bush(beam, kFrame, Vec3(0.1, -0.5, 0.4), Vec3(0, 1, 0.2), 0.7);
  bush(beam, arm, Vec3(0.2, 0.2, 0.5), Vec3(1, 0.2, 0.1), 0.5);
  m.add_ball("ball", arm, link, Vec3(0.5, 0.3, 0.6));
  bush(kFrame, link, Vec3(0.9, 0.3, 0.7), Vec3(0, 1, 0), 1.3);
  m.add_bar("rod", kFrame, Vec3(-0.8, 0.1, 0.3), beam, Vec3(-0.1, 0.1, 0.45));
  s.inputs.push_back(m.add_input({.name = "height",
                                  .kind = InputKind::coordinate,
                                  .anchor = m.add_anchor("end", beam, Vec3(0.1, -0.4, 0.4)),
                                  .axis = m.add_axis("up", kFrame, Vec3::UnitZ())}));
  return s;
}

/// What the beam has not: a pin and a slide in the tree, a right angle to be kept, the inputs of a turn and of a mean heading that counts
/// against a body's own.
Sample levers_on_bushes() {
  Sample s;
  Mechanism& m = s.mechanism;
  const BodyId arm = m.add_body("arm"), beam = m.add_body("beam"), lever = m.add_body("lever"),
               block = m.add_body("block");
  const auto joint = [&](JointKind kind, BodyId a, BodyId b, const Vec3& at, const Vec3& line) {
    return m.add_joint({.name = m.body(b).name,
                        .kind = kind,
                        .body_a = a,
                        .body_b = b,
                        .a = m.add_anchor("a", a, at),
                        .b = m.add_anchor("b", b, at),
                        .axis_a = m.add_axis("line", a, line),
                        .axis_b = m.add_axis("line", b, line),
                        .bush = {.along = Vec3(2e6, 1e6, 0.5e6), .about = Vec3(900, 500, 200)}});
  };
  const JointId pin = joint(JointKind::pin, kFrame, arm, Vec3(0.3, 0, 0.5), Vec3(0.2, 0.1, 1));
  joint(JointKind::slide, arm, block, Vec3(0.4, 0.2, 0.5), Vec3(1, 0.5, 0));
  joint(JointKind::bush, block, beam, Vec3(0.5, 0.2, 0.5), Vec3(0, 1, 0.3));
  joint(JointKind::bush, kFrame, beam, Vec3(0.4, 0.7, 0.4), Vec3(1, 0, 0.1));
  joint(JointKind::ball, beam, lever, Vec3(0.1, 0.4, 0.5), Vec3::UnitX());
  joint(JointKind::bush, kFrame, lever, Vec3(-0.2, 0.3, 0.6), Vec3(0.1, 0, 1));
  joint(JointKind::bush, kFrame, block, Vec3(0.6, 0.1, 0.5), Vec3(0.3, 0.3, 1));
  m.add_joint({.name = "right angle",
               .kind = JointKind::perpendicular,
               .body_a = beam,
               .body_b = lever,
               .axis_a = m.add_axis("along", beam, Vec3::UnitX()),
               .axis_b = m.add_axis("up", lever, Vec3::UnitZ())});
  s.inputs.push_back(m.add_input({.name = "turn", .kind = InputKind::turn, .joint = pin}));
  s.inputs.push_back(m.add_input({.name = "heading",
                                  .kind = InputKind::heading,
                                  .axis = m.add_axis("left", arm, Vec3(0.1, 1, 0.2)),
                                  .headings = {{m.add_axis("left", beam, Vec3(0, 1, 0.1))},
                                               {m.add_axis("left", lever, Vec3(0.1, 1, 0))}}}));
  return s;
}

std::vector<double> lowered(const PathFollower& follower, double way) {
  std::vector<double> inputs = follower.as_measured_inputs();
  inputs[0] -= way;
  return inputs;
}

// The flat evaluation is that of the equations' template, and its Jacobian the template's derivative by dual numbers.
void expect_jacobian_of_residuals(const Sample& sample, const std::vector<double>& moved_inputs) {
  // Rounding of sums of terms up to 1e3 (stiffness in units of kForceScale, ways of 1 m).
  constexpr double kTolerance = 1e-11;
  PathFollower follower(assemble(sample.mechanism, sample.inputs));
  std::vector<double> there = follower.as_measured_inputs();
  for (std::size_t k = 0; k < there.size(); ++k) there[k] += moved_inputs[k];
  ASSERT_TRUE(follower.go_to(there).usable()) << follower.report().message;
  const Assembly& assembly = follower.assembly();
  const System& system = assembly.system;
  // Off the place of rest, where nothing cancels.
  State state = follower.state();
  Vector step = Vector::Random(follower.size()) * 0.05;
  move(system, step.data(), state);
  Kinematics kin;
  update_kinematics(system, follower.design(), state, kin);
  const Vector multipliers = Vector::Random(static_cast<int>(assembly.active.size())) * 0.1;
  const std::vector<double> inputs = follower.inputs();

  Balance balance;
  balance.lay_down(assembly, follower.design());
  Vector residuals(balance.size());
  std::vector<double> entries(balance.entry_rows().size());
  balance.evaluate(system, state, kin, multipliers, inputs.data(), residuals.data(),
                   entries.data());
  Matrix jacobian = Matrix::Zero(balance.size(), balance.size());
  for (std::size_t k = 0; k < entries.size(); ++k)
    jacobian(balance.entry_rows()[k], balance.entry_columns()[k]) += entries[k];

  const DesignT<Dual> design = design_of<Dual>(system.mechanism);
  const std::vector<Dual> dual_inputs(inputs.begin(), inputs.end());
  for (int column = 0; column < balance.size(); ++column) {
    StateT<Dual> moved(state.size());
    for (std::size_t k = 0; k < state.size(); ++k) {
      moved[k].x = Dual(state[k].x);
      moved[k].turn = state[k].turn.cast<Dual>();
      moved[k].shift = state[k].shift.cast<Dual>();
    }
    std::vector<Dual> way(static_cast<std::size_t>(system.coordinates), Dual(0));
    std::vector<Dual> dual_multipliers(multipliers.begin(), multipliers.end());
    if (column < system.coordinates) {
      way[static_cast<std::size_t>(column)].slope = 1;
    } else {
      dual_multipliers[static_cast<std::size_t>(column - system.coordinates)].slope = 1;
    }
    move<Dual>(system, way.data(), moved);
    KinematicsT<Dual> dual_kin;
    update_kinematics<Dual>(system, design, moved, dual_kin);
    const std::vector<Dual> expected = square_residuals<Dual>(assembly, design, moved, dual_kin,
                                                              dual_multipliers, dual_inputs.data());
    for (int row = 0; row < balance.size(); ++row) {
      EXPECT_NEAR(residuals[row], expected[static_cast<std::size_t>(row)].value, kTolerance);
      EXPECT_NEAR(jacobian(row, column), expected[static_cast<std::size_t>(row)].slope, kTolerance)
          << "row " << row << ", column " << column;
    }
  }
}

TEST(Balance, ItsJacobianIsTheDerivativeOfItsResiduals) {
  expect_jacobian_of_residuals(beam_on_bushes(), {-0.04});
  expect_jacobian_of_residuals(levers_on_bushes(), {0.2, 0.1});
}

// Two springs in a row: a block between two bushes that give k and 2k along their line. Pushed away by u on the far side, the block goes
// u 2k / (k + 2k).
TEST(Balance, BushesInARowShareTheWayByTheirStiffness) {
  constexpr double kTolerance = 1e-12;  // [m]
  Mechanism m;
  const BodyId block = m.add_body("block"), slider = m.add_body("slider");
  const auto bush = [&](BodyId a, BodyId b, const Vec3& at, double k) {
    m.add_bush("bush", a, b, at, Vec3::UnitX(),
               {.along = Vec3::Constant(k), .about = Vec3::Constant(100)});
  };
  bush(kFrame, block, Vec3(0, 0, 0), 1e6);
  bush(block, slider, Vec3(0.1, 0, 0), 2e6);
  m.add_slide("slide", kFrame, slider, Vec3::UnitX());
  const InputId push = m.add_input({.name = "push",
                                    .kind = InputKind::coordinate,
                                    .anchor = m.add_anchor("end", slider, Vec3(0.2, 0, 0)),
                                    .axis = m.add_axis("forward", kFrame, Vec3::UnitX())});
  PathFollower follower(assemble(m, {push}));
  ASSERT_TRUE(follower.go_to({0.2 + 0.006}).usable()) << follower.report().message;
  const Vec3 at = follower.kinematics().pose[static_cast<std::size_t>(block.value)].t;
  EXPECT_NEAR(at.x(), 0.006 * 2 / 3, kTolerance);
  EXPECT_NEAR(at.y(), 0, kTolerance);
  // The force in both: 4 mm at 1e6 N/m, and so the push.
  EXPECT_NEAR(follower.closure_multipliers()[0] * kForceScale, -4000, 1e-6);
}

// The energy of a bush in a uniform stretch is unchanged by how the truck stands: every stiffness times ten gives the same place.
TEST(Balance, OnlyTheShareOfTheStiffnessCounts) {
  constexpr double kTolerance = 1e-9;  // [m] the steps of both stop at 1e-10
  Sample sample = beam_on_bushes();
  PathFollower soft(assemble(sample.mechanism, sample.inputs));
  for (Joint& joint : sample.mechanism.joints) {
    joint.bush.along *= 10;
    joint.bush.about *= 10;
  }
  PathFollower stiff(assemble(sample.mechanism, sample.inputs));
  ASSERT_TRUE(soft.go_to(lowered(soft, 0.05)).usable()) << soft.report().message;
  ASSERT_TRUE(stiff.go_to(lowered(stiff, 0.05)).usable()) << stiff.report().message;
  for (std::size_t b = 0; b < soft.kinematics().pose.size(); ++b) {
    EXPECT_LT((soft.kinematics().pose[b].t - stiff.kinematics().pose[b].t).norm(), kTolerance);
    EXPECT_LT((soft.kinematics().pose[b].R - stiff.kinematics().pose[b].R).norm(), kTolerance);
  }
}

}  // namespace
}  // namespace axlewright
