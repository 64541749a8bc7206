// The bounds that a proof rests on (engine/solve/curvature.h), on whole trucks: every kind of joint and equation that a truck is made of.

#include "engine/solve/curvature.h"

#include <cmath>
#include <filesystem>
#include <random>
#include <set>

#include <gtest/gtest.h>

#include "engine/solve/linearise.h"
#include "engine/study/rig.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

using testing::source_path;
using testing::truck_of;

/// The pose with exponential coordinates x about another: each turn of a ball or free body exp([x]) after the one it has.
State moved(const std::vector<Block>& blocks, State state, const Vector& x) {
  for (const Block& block : blocks) {
    JointStateT<double>& joint = state[static_cast<std::size_t>(block.tree)];
    if (block.count == 1) {
      joint.x += x[block.first];
      continue;
    }
    const Vec3 part = x.segment<3>(block.first);
    if (!block.turns) {
      joint.shift += part;
    } else if (part.norm() > 0) {
      const Mat3 turn = rotation_about<double>(Vec3(part / part.norm()), part.norm());
      joint.turn = turn * joint.turn;
    }
  }
  return state;
}

/// Draws vectors with |x_j| = size * weights[j] in random directions.
class Draw {
 public:
  Draw(const std::vector<Block>& blocks, int coordinates)
      : blocks_(blocks), coordinates_(coordinates) {}

  double in(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random_);
  }

  Vector vector(const std::vector<double>& weights, double size) {
    Vector x = Vector::Zero(coordinates_);
    std::normal_distribution<double> normal;
    for (std::size_t b = 0; b < blocks_.size(); ++b) {
      auto part = x.segment(blocks_[b].first, blocks_[b].count);
      for (int k = 0; k < blocks_[b].count; ++k) part[k] = normal(random_);
      part *= size * weights[b] / part.norm();
    }
    return x;
  }

 private:
  const std::vector<Block>& blocks_;
  int coordinates_;
  std::mt19937 random_{16};
};

class Bends {
 public:
  explicit Bends(const PathFollower& there) : there_(there), blocks_(blocks_of(there.system())) {
    const int equations = there.system().equation_count();
    for (int e = 0; e < equations; ++e) rows_.push_back(e);
  }

  /// Largest |D^2 Phi [d, e]| over bound that was met, by equation.
  std::vector<double> largest_shares(int draws) {
    const System& system = there_.system();
    CurvatureBounds bounds(system, there_.design(), rows_);
    bounds.centre_on(there_.state(), there_.kinematics());
    Draw draw(blocks_, system.coordinates);
    std::vector<double> largest(rows_.size(), 0.0);
    for (int k = 0; k < draws; ++k) {
      std::vector<double> weights;
      for (const Block& block : blocks_)
        weights.push_back((block.turns ? 1 / kAngleLength : 1.0) * std::pow(10, draw.in(-2, 0)));
      const double radius = draw.in(0, 0.1);
      std::vector<double> by_row;
      bounds.evaluate(weights, radius, by_row);
      const Vector x = draw.vector(weights, radius * draw.in(0, 1));
      const Vector bend = second_derivative(x, draw.vector(weights, 1), draw.vector(weights, 1));
      for (std::size_t e = 0; e < rows_.size(); ++e) {
        // What the differences cannot tell from rounding is no bend.
        const double bent = std::abs(bend[static_cast<int>(e)]) - kDifferences;
        if (bent > 0) largest[e] = std::max(largest[e], bent / by_row[e]);
      }
    }
    return largest;
  }

 private:
  static constexpr double kStep = 1e-3;
  static constexpr double kDifferences = 1e-5;  // 1e-15 over the step's square, and its own error

  Vector second_derivative(const Vector& x, const Vector& d, const Vector& e) const {
    const Vector along = kStep * d, across = kStep * e;
    return (at(x + along + across) - at(x + along - across) - at(x - along + across) +
            at(x - along - across)) /
           (4 * kStep * kStep);
  }

  Vector at(const Vector& x) const {
    const State state = moved(blocks_, there_.state(), x);
    Kinematics kin;
    update_kinematics(there_.system(), there_.design(), state, kin);
    return residuals(there_.system(), there_.design(), state, kin, there_.as_measured_inputs());
  }

  const PathFollower& there_;
  std::vector<Block> blocks_;
  std::vector<int> rows_;
};

std::vector<std::string> files() {
  std::vector<std::string> names = {"trucks/guided.toml", "trucks/guided-loose.toml",
                                    "trucks/half-converted.toml", "trucks/plain-mismatched.toml"};
  for (const auto& entry : std::filesystem::directory_iterator(source_path("tests/layouts"))) {
    const std::string name = entry.path().filename().string();
    if (name != "base.toml") names.push_back("tests/layouts/" + name);
  }
  return names;
}

// Second derivatives by differences, at random poses and along random directions: none is larger than its bound. Equations that are a
// single distance or offset come close to theirs, so a bound that forgets a lever would be found out.
TEST(CurvatureBounds, HoldForWholeTrucks) {
  std::set<EquationKind> kinds;
  std::set<TreeKind> joints;
  double closest = 0;
  for (const std::string& name : files()) {
    Rig rig(truck_of(name));
    ASSERT_TRUE(rig.aligned_report().usable()) << name;
    if (!rig.held().assembly().bushes.empty()) continue;  // of those nothing is proved
    PoseRequest raised;
    raised.height = rig.truck().height_range[1];
    raised.lean = rig.truck().lean;
    for (const SteerBy by : {SteerBy::straight_ahead, SteerBy::held}) {
      raised.steer_by = by;
      ASSERT_TRUE(rig.solve_place(raised).report.usable()) << name;
      const System& system = rig.follower().system();
      const std::vector<double> shares = Bends(rig.follower()).largest_shares(200);
      for (std::size_t e = 0; e < shares.size(); ++e) {
        EXPECT_LE(shares[e], 1) << name << ": " << system.equations[e].name;
        closest = std::max(closest, shares[e]);
        kinds.insert(system.equations[e].kind);
      }
      for (const TreeJoint& joint : system.tree) joints.insert(joint.kind);
    }
  }
  EXPECT_GT(closest, 0.7);
  EXPECT_EQ(kinds.size(), 5u);   // all that there are
  EXPECT_GE(joints.size(), 4u);  // pin, slide, ball, free
}

}  // namespace
}  // namespace axlewright
