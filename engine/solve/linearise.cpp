#include "engine/solve/linearise.h"

namespace axlewright {

Vector residuals(const System& system, const Design& design, const State& state,
                 const Kinematics& kin, const std::vector<double>& inputs) {
  Vector r(system.equation_count());
  for (int k = 0; k < system.equation_count(); ++k) {
    r[k] = evaluate_equation(system, system.equations[static_cast<std::size_t>(k)], design, state,
                             kin, inputs.data())
               .residual;
  }
  return r;
}

Vector scaled_residuals(const System& system, const Design& design, const State& state,
                        const Kinematics& kin, const std::vector<double>& inputs) {
  Vector r = residuals(system, design, state, kin, inputs);
  for (int k = 0; k < r.size(); ++k)
    r[k] *= residual_scale(system.equations[static_cast<std::size_t>(k)]);
  return r;
}

Vector coordinate_scales(const System& system) {
  Vector scale(system.coordinates);
  for (int c = 0; c < system.coordinates; ++c) scale[c] = is_rotary(system, c) ? kAngleLength : 1.0;
  return scale;
}

Matrix scaled_jacobian(const System& system, const Design& design, const State& state,
                       const Kinematics& kin, const std::vector<double>& inputs) {
  const Vector scale = coordinate_scales(system);
  Matrix jacobian = Matrix::Zero(system.equation_count(), system.coordinates);
  for (int k = 0; k < system.equation_count(); ++k) {
    const Equation& e = system.equations[static_cast<std::size_t>(k)];
    const auto value = evaluate_equation(system, e, design, state, kin, inputs.data());
    for (const JacobianEntry& entry : system.entries[static_cast<std::size_t>(k)]) {
      jacobian(k, entry.column) +=
          residual_scale(e) * derivative(e, value, entry, kin) / scale[entry.column];
    }
  }
  return jacobian;
}

std::vector<double> input_values(const System& system, const Design& design, const State& state,
                                 const Kinematics& kin) {
  const Mechanism& m = system.mechanism;
  std::vector<double> values;
  for (const Input& input : m.inputs) {
    switch (input.kind) {
      case InputKind::coordinate: {
        const Vec3 p = kin.pose[static_cast<std::size_t>(m.anchor(input.anchor).body.value)].place(
            design.places[static_cast<std::size_t>(input.anchor.value)]);
        values.push_back(design.directions[static_cast<std::size_t>(input.axis.value)].dot(p));
        break;
      }
      case InputKind::turn: {
        double turn = input.as_measured;
        for (std::size_t t = 0; t < system.tree.size(); ++t) {
          if (system.tree[t].joint == input.joint) turn += system.tree[t].sign * state[t].x;
        }
        values.push_back(turn);
        break;
      }
      case InputKind::heading: {
        const auto heading = [&](AxisId axis) {
          const Pose& pose = kin.pose[static_cast<std::size_t>(m.axis(axis).body.value)];
          return heading_of<double>(
              pose.turn(design.directions[static_cast<std::size_t>(axis.value)]));
        };
        double sum = 0;
        for (const HeadingOf& one : input.headings) sum += heading(one.axis);
        const double against = input.axis.value < 0 ? 0 : heading(input.axis);
        values.push_back(sum / static_cast<double>(input.headings.size()) - against);
        break;
      }
    }
  }
  return values;
}

}  // namespace axlewright
