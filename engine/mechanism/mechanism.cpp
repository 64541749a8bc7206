#include "engine/mechanism/mechanism.h"

#include <utility>

#include "engine/base/invariant.h"

namespace axlewright {
namespace {

template <class T, class IdType>
IdType append(std::vector<T>& list, T item, IdType /*tag*/) {
  list.push_back(std::move(item));
  return IdType{static_cast<int>(list.size()) - 1};
}

}  // namespace

BodyId Mechanism::add_body(std::string name, BodyId carrier) {
  return append(bodies, Body{std::move(name), carrier}, BodyId{});
}

AnchorId Mechanism::add_anchor(std::string name, BodyId body, const Vec3& at, int point) {
  return append(anchors, Anchor{std::move(name), body, at, point}, AnchorId{});
}

AxisId Mechanism::add_axis(std::string name, BodyId body, const Vec3& direction) {
  AXLEWRIGHT_INVARIANT(direction.norm() > 0);
  Axis axis;
  axis.name = std::move(name);
  axis.body = body;
  axis.direction = direction / direction.norm();
  return append(axes, std::move(axis), AxisId{});
}

AxisId Mechanism::add_axis(std::string name, BodyId body, AnchorId from, AnchorId to, int side) {
  const Vec3 span = anchor(to).at - anchor(from).at;
  AXLEWRIGHT_INVARIANT(span.norm() > 0);
  AXLEWRIGHT_INVARIANT(anchor(from).body == body && anchor(to).body == body);
  const Vec3 line = span / span.norm();
  Axis axis;
  axis.name = std::move(name);
  axis.body = body;
  axis.direction = direction_on_side<double>(line, side, line);
  axis.from = from;
  axis.to = to;
  axis.side = side;
  return append(axes, std::move(axis), AxisId{});
}

LengthId Mechanism::add_length(std::string name, AnchorId from, AnchorId to) {
  const double value = (anchor(to).at - anchor(from).at).norm();
  return append(lengths, Length{std::move(name), value, from, to, true}, LengthId{});
}

JointId Mechanism::add_joint(Joint joint) {
  return append(joints, std::move(joint), JointId{});
}

InputId Mechanism::add_input(Input input) {
  return append(inputs, std::move(input), InputId{});
}

namespace {

/// A joint of two anchors at one place.
Joint joint_at(Mechanism& m, const std::string& name, JointKind kind, BodyId a, BodyId b,
               const Vec3& at) {
  return {.name = name,
          .kind = kind,
          .body_a = a,
          .body_b = b,
          .a = m.add_anchor(name, a, at),
          .b = m.add_anchor(name, b, at)};
}

/// One that has a line on both bodies, too.
Joint joint_about(Mechanism& m, const std::string& name, JointKind kind, BodyId a, BodyId b,
                  const Vec3& at, const Vec3& line) {
  Joint joint = joint_at(m, name, kind, a, b, at);
  joint.axis_a = m.add_axis(name, a, line);
  joint.axis_b = m.add_axis(name, b, line);
  return joint;
}

}  // namespace

JointId Mechanism::add_ball(const std::string& name, BodyId a, BodyId b, const Vec3& at) {
  return add_joint(joint_at(*this, name, JointKind::ball, a, b, at));
}

JointId Mechanism::add_pin(const std::string& name, BodyId a, BodyId b, const Vec3& at,
                           const Vec3& axis) {
  return add_joint(joint_about(*this, name, JointKind::pin, a, b, at, axis));
}

JointId Mechanism::add_slide(const std::string& name, BodyId a, BodyId b, const Vec3& way) {
  Joint joint = joint_at(*this, name, JointKind::slide, a, b, Vec3::Zero());
  joint.axis_a = add_axis(name, a, way);
  return add_joint(std::move(joint));
}

JointId Mechanism::add_bush(const std::string& name, BodyId a, BodyId b, const Vec3& at,
                            const Vec3& line, const Bush& bush) {
  Joint joint = joint_about(*this, name, JointKind::bush, a, b, at, line);
  joint.bush = bush;
  return add_joint(std::move(joint));
}

JointId Mechanism::add_bar(const std::string& name, BodyId a, const Vec3& end_a, BodyId b,
                           const Vec3& end_b) {
  const AnchorId from = add_anchor(name, a, end_a), to = add_anchor(name, b, end_b);
  return add_joint({.name = name,
                    .kind = JointKind::distance,
                    .body_a = a,
                    .body_b = b,
                    .a = from,
                    .b = to,
                    .length = add_length(name, from, to)});
}

int held_by(JointKind kind) {
  switch (kind) {
    case JointKind::ball:
      return 3;
    case JointKind::pin:
    case JointKind::slide:
      return 5;
    case JointKind::clamp:
      return 6;
    case JointKind::point_on_line:
      return 2;
    case JointKind::distance:
    case JointKind::point_on_plane:
    case JointKind::perpendicular:
    case JointKind::spin_keeper:
    case JointKind::held_coordinate:
      return 1;
    case JointKind::bush:
      return 0;
  }
  return 0;
}

const char* word_for(JointKind kind) {
  switch (kind) {
    case JointKind::ball:
      return "ball";
    case JointKind::pin:
      return "pin";
    case JointKind::slide:
      return "slide";
    case JointKind::clamp:
      return "clamp";
    case JointKind::distance:
      return "distance";
    case JointKind::point_on_line:
      return "point on line";
    case JointKind::point_on_plane:
      return "point on plane";
    case JointKind::perpendicular:
      return "perpendicular";
    case JointKind::spin_keeper:
      return "spin keeper";
    case JointKind::held_coordinate:
      return "held coordinate";
    case JointKind::bush:
      return "bush";
  }
  return "";
}

}  // namespace axlewright
