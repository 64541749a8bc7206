// A rear axle of its own: what locates it spins against it, and its wheels' heights and heading set the truck as well.

#include <cmath>

#include "engine/base/invariant.h"
#include "engine/truck/expander.h"

namespace axlewright {

namespace {

double half_apart(const Mechanism& m, const PerSide<AnchorId>& wheels) {
  return 0.5 * (m.anchor(wheels.left).at - m.anchor(wheels.right).at).norm();
}

/// The bodies that a part between frame and rear axle makes.
std::vector<std::string> bodies_of_rear_part(const Truck& truck, const Part& part) {
  if (const auto* bar = std::get_if<Bar>(&part.what)) {
    if (bar->body && locates_rear_axle(truck, *bar)) return {part.name};
  } else if (const auto* guided = std::get_if<GuidedBar>(&part.what)) {
    if (guided->carries != kRearAxle && guided->near_end_on != kRearAxle) return {};
    std::vector<std::string> bodies = {part.name + "_through"};
    if (guided->half_link != HalfLink::distance) bodies.push_back(part.name + "_half");
    if (guided->carriage == Carriage::slide) bodies.push_back(part.name + "_carriage");
    return bodies;
  }
  return {};
}

InputId add_height(Expander& x, const char* name, AnchorId wheel, AxisId up) {
  return x.m().add_input(
      {.name = name, .kind = InputKind::coordinate, .anchor = wheel, .axis = up});
}

}  // namespace

void set_rear_carriers(Expander& x) {
  if (!x.truck().rear_wheels) return;
  const auto carry = [&](const std::string& body, BodyId carrier) {
    x.m().bodies[static_cast<std::size_t>(x.body(body).value)].carrier = carrier;
  };
  carry(kRearAxle, kFrame);
  for (const Part& part : x.truck().parts) {
    for (const std::string& body : bodies_of_rear_part(x.truck(), part))
      carry(body, x.body(kRearAxle));
  }
}

void expand_rear_axle(Expander& x) {
  Expansion& out = x.out();
  if (!x.truck().rear_wheels) return;
  const RearWheels& wheels = *x.truck().rear_wheels;
  RearAxlePlace rear;
  rear.body = x.body(kRearAxle);
  rear.wheel = {x.anchor(wheels.centre_left, kRearAxle), x.anchor(wheels.centre_right, kRearAxle)};
  const double thrust = x.truck().thrust_angle;
  rear.spin =
      wheels.square_to_centres
          ? x.m().add_axis("rear wheels' axis", rear.body, rear.wheel.right, rear.wheel.left)
          : x.m().add_axis("rear wheels' axis", rear.body,
                           Vec3(-std::sin(thrust), std::cos(thrust), 0));
  const AxisId up = x.m().add_axis("up", kFrame, Vec3::UnitZ());
  rear.height.left = add_height(x, "left rear wheel's height", rear.wheel.left, up);
  rear.height.right = add_height(x, "right rear wheel's height", rear.wheel.right, up);
  out.straight =
      x.m().add_input({.name = "mean road-wheel steer against the rear axle",
                       .kind = InputKind::heading,
                       .axis = rear.spin,
                       .headings = {HeadingOf{out.stub.left}, HeadingOf{out.stub.right}}});
  out.rear = rear;
}

double half_track(const Expansion& expansion) {
  return half_apart(expansion.mechanism, expansion.wheel_on_axle);
}

double rear_half_track(const Expansion& expansion) {
  AXLEWRIGHT_INVARIANT(expansion.rear);
  return half_apart(expansion.mechanism, expansion.rear->wheel);
}

std::vector<InputId> height_inputs(const Expansion& expansion) {
  std::vector<InputId> heights = {expansion.height.left, expansion.height.right};
  if (expansion.rear)
    heights.insert(heights.end(), {expansion.rear->height.left, expansion.rear->height.right});
  return heights;
}

bool locates_rear_axle(const Truck& truck, const Bar& bar) {
  const auto is_rear = [&](const std::string& end) {
    const Point* point = find_point(truck, end);
    return point != nullptr && point->on == kRearAxle;
  };
  return truck.rear_wheels && (is_rear(bar.ends[0]) || is_rear(bar.ends[1]));
}

}  // namespace axlewright
