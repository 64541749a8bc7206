#include "tests/oracle/restate.h"

#include <cmath>
#include <numbers>

#include "engine/base/invariant.h"
#include "engine/mechanism/kinematics.h"

namespace axlewright::oracle {
namespace {

constexpr double kSquare = std::numbers::pi / 2;

class Restater {
 public:
  explicit Restater(const Mechanism& mechanism) : m_(mechanism) {
    out_.problem.bodies = static_cast<int>(m_.bodies.size()) - 1;
  }

  Restated run(const std::vector<HeldInput>& held, const Assembly& gauges_of) {
    for (const Joint& joint : m_.joints) {
      add(joint);
      ++label_;
    }
    out_.first_input = label_;
    for (const HeldInput& input : held) {
      add(input);
      ++label_;
    }
    out_.first_gauge = label_;
    for (const Equation& equation : gauges_of.system.equations) {
      if (equation.role != EquationRole::gauge) continue;
      const Axis& u = gauges_of.system.mechanism.axis(equation.u);
      const Axis& v = gauges_of.system.mechanism.axis(equation.v);
      square(u.body, u.direction, v.body, v.direction);
      ++label_;
    }
    out_.problem.labels = label_;
    return out_;
  }

 private:
  const Vec3& at(AnchorId id) const { return m_.anchor(id).at; }
  const Vec3& along(AxisId id) const { return m_.axis(id).direction; }

  void add(const Joint& joint) {
    const int a = joint.body_a.value, b = joint.body_b.value;
    switch (joint.kind) {
      case JointKind::ball:
        out_.problem.balls.push_back({a, triple(at(joint.a)), b, triple(at(joint.b)), label_});
        return;
      case JointKind::pin: {
        out_.problem.balls.push_back({a, triple(at(joint.a)), b, triple(at(joint.b)), label_});
        const Vec3 first = direction_on_side<double>(along(joint.axis_b), 1, along(joint.axis_b));
        square(joint.body_a, along(joint.axis_a), joint.body_b, first);
        square(joint.body_a, along(joint.axis_a), joint.body_b, cross(along(joint.axis_b), first));
        return;
      }
      case JointKind::slide:
        on_line(joint);
        out_.problem.same_turns.push_back({a, b, label_});
        return;
      case JointKind::clamp:
        out_.problem.welds.push_back({a, b, label_});
        return;
      case JointKind::distance:
        out_.problem.rods.push_back({a, triple(at(joint.a)), b, triple(at(joint.b)),
                                     m_.length(joint.length).value, label_});
        return;
      case JointKind::point_on_line:
        on_line(joint);
        return;
      case JointKind::point_on_plane:
        in_plane(joint, along(joint.axis_a).dot(at(joint.a)));
        return;
      case JointKind::held_coordinate:
        in_plane(joint, along(joint.axis_a).dot(at(joint.b)));
        return;
      case JointKind::perpendicular:
      case JointKind::spin_keeper:
        square(joint.body_a, along(joint.axis_a), joint.body_b, along(joint.axis_b));
        return;
      case JointKind::bush:
        bushing(joint);
        return;
    }
  }

  void add(const HeldInput& held) {
    const Input& input = m_.inputs[static_cast<std::size_t>(held.input.value)];
    AXLEWRIGHT_INVARIANT(input.kind != InputKind::heading);
    if (input.kind == InputKind::coordinate) {
      const Anchor& anchor = m_.anchor(input.anchor);
      out_.problem.planes.push_back(
          {0, triple(along(input.axis)), held.value, anchor.body.value, triple(anchor.at), label_});
      return;
    }
    // Two directions about the pin, one on each body, that are square to each other at the wanted turn.
    const Joint& pin = m_.joint(input.joint);
    const Vec3 axis = along(pin.axis_a);
    const Vec3 u = direction_on_side<double>(axis, 1, axis);
    const Vec3 v = rotation_about<double>(axis, -held.value) * cross(axis, u);
    square(pin.body_a, u, pin.body_b, v);
  }

  void on_line(const Joint& joint) {
    out_.problem.lines.push_back({joint.body_a.value, triple(at(joint.a)),
                                  triple(along(joint.axis_a)), joint.body_b.value,
                                  triple(at(joint.b)), label_});
  }

  void in_plane(const Joint& joint, double height) {
    out_.problem.planes.push_back({joint.body_a.value, triple(along(joint.axis_a)), height,
                                   joint.body_b.value, triple(at(joint.b)), label_});
  }

  /// Its axes are x and y across, z along: relaxed as measured, those of both bodies are the same then.
  void bushing(const Joint& joint) {
    const Vec3& z = along(joint.axis_a);
    const Vec3 x = direction_on_side<double>(z, 1, z);
    out_.problem.bushings.push_back({joint.body_a.value,
                                     triple(at(joint.a)),
                                     joint.body_b.value,
                                     triple(at(joint.b)),
                                     {triple(x), triple(cross(z, x)), triple(z)},
                                     triple(joint.bush.along),
                                     triple(joint.bush.about),
                                     label_});
  }

  void square(BodyId body_u, const Vec3& u, BodyId body_v, const Vec3& v) {
    out_.problem.angles.push_back(
        {body_u.value, triple(u), body_v.value, triple(v), kSquare, label_});
  }

  const Mechanism& m_;
  Restated out_;
  int label_ = 0;
};

}  // namespace

Restated restate(const Mechanism& mechanism, const std::vector<HeldInput>& held,
                 const Assembly& gauges_of) {
  return Restater(mechanism).run(held, gauges_of);
}

Triple triple(const Vec3& v) {
  return {v.x(), v.y(), v.z()};
}

Vec3 vec3(const Triple& v) {
  return {v[0], v[1], v[2]};
}

Pose pose_of(const Placement& placement) {
  Pose pose;
  for (int row = 0; row < 3; ++row) {
    for (int column = 0; column < 3; ++column) {
      pose.R(row, column) = placement.R[static_cast<std::size_t>(3 * row + column)];
    }
  }
  pose.t = vec3(placement.t);
  return pose;
}

Placement placement_of(const Pose& pose) {
  Placement placement;
  for (int row = 0; row < 3; ++row) {
    for (int column = 0; column < 3; ++column) {
      placement.R[static_cast<std::size_t>(3 * row + column)] = pose.R(row, column);
    }
  }
  placement.t = triple(pose.t);
  return placement;
}

}  // namespace axlewright::oracle
