#include "engine/solve/fight.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/base/index.h"
#include "engine/solve/linearise.h"

namespace axlewright {
namespace {

constexpr double kStride =
    0.02;  // of an input at once [m]: small enough for Gauss-Newton to stay near
constexpr int kMostSteps = 30;        // of Gauss-Newton a stride
constexpr double kSettled = 1e-12;    // [m] of a step
constexpr double kCloses = 1e-7;      // [m] what is left over is none
constexpr double kClosesAnew = 1e-3;  // of the largest miss before
constexpr double kAlike = 1 - 1e-6;
constexpr double kTakesPart = 0.05;  // of the joint that takes the most part

/// Brings the closures together as well as can be, from a place near; those of `open` are left out.
State close_but_for(const System& system, const Design& design, const std::vector<double>& inputs,
                    JointId open, State state) {
  const Vector scale = coordinate_scales(system);
  Kinematics kin;
  for (int k = 0; k < kMostSteps; ++k) {
    update_kinematics(system, design, state, kin);
    Matrix jacobian = scaled_jacobian(system, design, state, kin, inputs);
    Vector rest = scaled_residuals(system, design, state, kin, inputs);
    for (int e = 0; e < rest.size(); ++e) {
      if (open.value < 0 || system.equations[index(e)].joint != open) continue;
      jacobian.row(e).setZero();
      rest[e] = 0;
    }
    const Vector step = least_norm_solve(jacobian, -rest, 1e-8);
    const Vector unscaled = step.cwiseQuotient(scale);
    move(system, unscaled.data(), state);
    if (step.norm() < kSettled) break;
  }
  return state;
}

/// The same with all closures, by strides from as measured.
State close_along(const System& system, const Design& design, const std::vector<double>& to) {
  State state = as_measured(system);
  Kinematics kin;
  update_kinematics(system, design, state, kin);
  const std::vector<double> from = input_values(system, design, state, kin);
  double way = 0;
  for (std::size_t k = 0; k < from.size(); ++k) way = std::max(way, std::abs(to[k] - from[k]));
  const int strides = std::max(1, static_cast<int>(std::ceil(way / kStride)));
  std::vector<double> inputs = from;
  for (int stride = 1; stride <= strides; ++stride) {
    for (std::size_t k = 0; k < from.size(); ++k)
      inputs[k] = from[k] + (to[k] - from[k]) * stride / strides;
    state = close_but_for(system, design, inputs, JointId{}, std::move(state));
  }
  return state;
}

/// What each joint's closures miss by at a place.
std::vector<double> misses(const System& system, const Design& design, const State& state,
                           const std::vector<double>& inputs) {
  Kinematics kin;
  update_kinematics(system, design, state, kin);
  const Vector rest = scaled_residuals(system, design, state, kin, inputs);
  std::vector<double> squares(system.mechanism.joints.size(), 0.0);
  for (int e = 0; e < rest.size(); ++e) {
    const JointId joint = system.equations[index(e)].joint;
    if (joint.value >= 0) squares[index(joint.value)] += rest[e] * rest[e];
  }
  for (double& square : squares) square = std::sqrt(square);
  return squares;
}

Joint stiffened(Joint joint) {
  joint.kind = joint.bush.stiff_as_pin ? JointKind::pin : JointKind::ball;
  joint.bush = {};
  return joint;
}

}  // namespace

Mechanism rigid_of(const Mechanism& mechanism) {
  Mechanism rigid = mechanism;
  rigid.joints.clear();
  for (const Joint& joint : mechanism.joints) {
    if (joint.kind != JointKind::bush) {
      rigid.add_joint(joint);
    } else if (!joint.bush.along.isZero()) {
      rigid.add_joint(stiffened(joint));
    } else {
      // A hinge whose place another joint holds: its axis alone.
      Joint square = joint;
      square.kind = JointKind::perpendicular;
      square.bush = {};
      const Vec3 line = mechanism.axis(joint.axis_b).direction;
      for (const int side : {1, 2}) {
        square.axis_b =
            rigid.add_axis(joint.name, joint.body_b, direction_on_side<double>(line, side, line));
        rigid.add_joint(square);
      }
    }
  }
  return rigid;
}

Fight find_fight(const Mechanism& rigid, const std::vector<InputId>& held,
                 const std::vector<double>& inputs) {
  const System system = make_system(rigid, held);
  const Design design = design_of(system.mechanism);
  const State state = close_along(system, design, inputs);
  const std::vector<double> together = misses(system, design, state, inputs);
  const double most = *std::max_element(together.begin(), together.end());
  if (most < kCloses) return {};
  Fight fight;
  fight.one_opens = true;
  std::vector<double> opened(together.size(), 0.0);
  for (std::size_t j = 0; j < together.size(); ++j) {
    if (together[j] < kTakesPart * most) continue;
    const JointId open{static_cast<int>(j)};
    std::vector<double> rest =
        misses(system, design, close_but_for(system, design, inputs, open, state), inputs);
    opened[j] = std::exchange(rest[j], 0.0);
    fight.one_opens =
        fight.one_opens && *std::max_element(rest.begin(), rest.end()) < kClosesAnew * most;
    const JointKind kind = rigid.joints[j].kind;
    fight.gaps.push_back(
        {open, 0, kind == JointKind::perpendicular || kind == JointKind::spin_keeper});
  }
  for (JointGap& gap : fight.gaps) {
    gap.gap = (fight.one_opens ? opened : together)[index(gap.joint.value)] /
              (gap.is_angle ? kAngleLength : 1);
  }
  // Gaps that are alike stay in the file's order: rounding must not decide.
  std::stable_sort(fight.gaps.begin(), fight.gaps.end(), [&](const JointGap& a, const JointGap& b) {
    return fight.one_opens ? a.gap < b.gap * kAlike : a.gap * kAlike > b.gap;
  });
  return fight;
}

}  // namespace axlewright
