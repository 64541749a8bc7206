// What every truck has beside its parts: wheels, what sets it, and the studs of its balls.

#include <cmath>
#include <map>
#include <utility>

#include "engine/truck/expander.h"
#include "engine/truck/gear.h"

namespace axlewright {

namespace {

void add_wheel(Expander& x, const std::string& centre, BodyId knuckle, const Vec3& spin,
               AnchorId& on_axle, AnchorId& on_knuckle, AxisId& stub) {
  on_axle = x.anchor(centre, "axle");
  on_knuckle = x.anchor(centre, x.out().body_names[static_cast<std::size_t>(knuckle.value)]);
  stub = x.m().add_axis("wheel spin axis", knuckle, spin);
}

/// One point may be the ball of several joints: two bars on one stud.
void tell_balls_apart(Expander& x) {
  std::map<std::string, int> at_point;
  for (const BallPlace& ball : x.out().balls) ++at_point[ball.point];
  for (BallPlace& ball : x.out().balls) {
    if (at_point[ball.point] == 1) continue;
    ball.name = ball.point + "." + ball.of;
    ball.words += " of the " + words_of(ball.of);
  }
}

/// Without an entry the stud is a bush's own line, so that its twist is no tilt; else it stands upright, or as near to it as is square
/// to the bar.
Vec3 untilted_axis(Expander& x, const BallPlace& ball) {
  for (const Joint& joint : x.m().joints) {
    if (joint.kind == JointKind::bush && (joint.a == ball.centre || joint.b == ball.centre))
      return x.m().axis(joint.axis_a).direction;
  }
  if (ball.bar_from.value < 0) return Vec3::UnitZ();
  const Vec3 span = x.m().anchor(ball.bar_to).at - x.m().anchor(ball.bar_from).at;
  return upright_square(span / span.norm());
}

}  // namespace

void expand_wheels(Expander& x) {
  Expansion& out = x.out();
  const double toe = x.truck().wheels.toe_in / 2;
  const double camber = x.truck().wheels.camber;
  // The spin axis points left on both sides: outboard on the left, inboard on the right (kinematics reference 4.4).
  const Vec3 left(std::sin(toe) * std::cos(camber), std::cos(toe) * std::cos(camber),
                  -std::sin(camber));
  const Vec3 right(-left.x(), left.y(), -left.z());
  add_wheel(x, x.truck().wheels.centre_left, out.knuckle.left, left, out.wheel_on_axle.left,
            out.wheel_on_knuckle.left, out.stub.left);
  add_wheel(x, x.truck().wheels.centre_right, out.knuckle.right, right, out.wheel_on_axle.right,
            out.wheel_on_knuckle.right, out.stub.right);
}

void expand_inputs(Expander& x) {
  Expansion& out = x.out();
  Mechanism& m = x.m();
  const AxisId up = m.add_axis("up", kFrame, Vec3::UnitZ());
  out.height.left = m.add_input({.name = "left wheel's height",
                                 .kind = InputKind::coordinate,
                                 .anchor = out.wheel_on_axle.left,
                                 .axis = up});
  out.height.right = m.add_input({.name = "right wheel's height",
                                  .kind = InputKind::coordinate,
                                  .anchor = out.wheel_on_axle.right,
                                  .axis = up});
  if (x.shaft.value >= 0)
    out.pitman_turn =
        m.add_input({.name = "pitman arm's turn",
                     .kind = InputKind::turn,
                     .joint = x.shaft,
                     .as_measured = pitman_for_wheel(x.truck().gear, x.truck().gear.as_found)});
  out.road_wheels =
      m.add_input({.name = "mean road-wheel steer",
                   .kind = InputKind::heading,
                   .headings = {HeadingOf{out.stub.left}, HeadingOf{out.stub.right}}});
  out.straight = out.road_wheels;
}

void expand_studs(Expander& x) {
  for (std::size_t k = 0; k < x.out().balls.size(); ++k) {
    BallPlace& ball = x.out().balls[k];
    std::string stud_body = x.ball_bodies()[k].stud;
    std::string housing = x.ball_bodies()[k].housing;
    Vec3 direction = untilted_axis(x, ball);
    for (const Stud& stud : x.truck().studs) {
      if (stud.ball != ball.point) continue;
      if (stud.on == housing) std::swap(stud_body, housing);
      direction = x.line_of(stud.axis);
      ball.largest_tilt = stud.largest_tilt.value_or(0);
    }
    ball.centre = x.anchor(ball.point, stud_body);
    ball.stud_axis = x.m().add_axis(ball.words + " stud", x.body(stud_body), direction);
    if (!housing.empty())
      ball.housing_axis = x.m().add_axis(ball.words + " housing", x.body(housing), direction);
  }
  tell_balls_apart(x);
}

}  // namespace axlewright
