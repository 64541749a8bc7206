// [joints]: the plain joints, as they stand in the file.

#include "engine/truck/expander.h"

namespace axlewright {

namespace {

/// The line's two points ride on one body of the pair, the point on the other, whichever comes first.
void add_point_on_line(Expander& x, const PlainJoint& joint) {
  const std::string& line_body =
      x.point(joint.ends[0]).on == joint.between[1] ? joint.between[1] : joint.between[0];
  const std::string& rider = line_body == joint.between[0] ? joint.between[1] : joint.between[0];
  const AxisId line =
      x.m().add_axis(joint.words, x.body(line_body), x.anchor(joint.ends[0], line_body),
                     x.anchor(joint.ends[1], line_body));
  x.m().add_joint({.name = joint.words,
                   .kind = JointKind::point_on_line,
                   .body_a = x.body(line_body),
                   .body_b = x.body(rider),
                   .a = x.anchor(joint.point, line_body),
                   .b = x.anchor(joint.point, rider),
                   .axis_a = line});
}

}  // namespace

void expand_joint(Expander& x, const PlainJoint& joint) {
  const std::string& a = joint.between[0];
  const std::string& b = joint.between[1];
  switch (joint.kind) {
    case PlainJointKind::ball:
      x.ball(joint.words, joint.name, joint.point, a, b);
      return;
    case PlainJointKind::pin:
      x.m().add_joint({.name = joint.words,
                       .kind = JointKind::pin,
                       .body_a = x.body(a),
                       .body_b = x.body(b),
                       .a = x.anchor(joint.point, a),
                       .b = x.anchor(joint.point, b),
                       .axis_a = x.axis(joint.words, a, joint.first),
                       .axis_b = x.axis(joint.words, b, joint.first)});
      return;
    case PlainJointKind::slide: {
      const AxisId way = x.axis(joint.words, a, joint.first);
      // No place of its own: any pair of places that agree as measured will do.
      const Vec3 origin =
          joint.first.from.empty() ? Vec3(Vec3::Zero()) : x.point(joint.first.from).at;
      x.m().add_joint({.name = joint.words,
                       .kind = JointKind::slide,
                       .body_a = x.body(a),
                       .body_b = x.body(b),
                       .a = x.m().add_anchor(joint.name, x.body(a), origin),
                       .b = x.m().add_anchor(joint.name, x.body(b), origin),
                       .axis_a = way});
      return;
    }
    case PlainJointKind::clamp:
      x.clamp(joint.words, x.body(a), x.body(b));
      return;
    case PlainJointKind::point_on_line:
      add_point_on_line(x, joint);
      return;
    case PlainJointKind::distance: {
      const AnchorId from = x.own_anchor(joint.ends[0]), to = x.own_anchor(joint.ends[1]);
      x.distance(joint.words, from, to, joint.length);
      x.note_ball(joint.name, joint.ends[0], x.point(joint.ends[0]).on, "", from, to);
      x.note_ball(joint.name, joint.ends[1], x.point(joint.ends[1]).on, "", to, from);
      return;
    }
    case PlainJointKind::perpendicular:
      x.m().add_joint({.name = joint.words,
                       .kind = JointKind::perpendicular,
                       .body_a = x.body(a),
                       .body_b = x.body(b),
                       .axis_a = x.axis(joint.words, a, joint.first),
                       .axis_b = x.axis(joint.words, b, joint.second)});
      return;
    case PlainJointKind::spin_keeper: {
      const Vec3 span = x.point(joint.ends[1]).at - x.point(joint.ends[0]).at;
      x.keeper(joint.words, a, b, span / span.norm());
      return;
    }
    case PlainJointKind::held_coordinate: {
      const AnchorId held = x.anchor(joint.point, b);
      const AnchorId from =
          x.m().add_anchor(joint.name, x.body(a), x.m().anchor(held).at, x.m().anchor(held).point);
      x.m().add_joint({.name = joint.words,
                       .kind = JointKind::held_coordinate,
                       .body_a = x.body(a),
                       .body_b = x.body(b),
                       .a = from,
                       .b = held,
                       .axis_a = x.axis(joint.words, a, joint.first)});
      return;
    }
  }
}

}  // namespace axlewright
