#include "engine/study/rig.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "engine/base/index.h"
#include "engine/base/invariant.h"
#include "engine/truck/gear.h"

namespace axlewright {
namespace {

bool rolls(SteerBy by) {
  return by == SteerBy::straight_ahead || by == SteerBy::road_wheels;
}

/// The mechanism with its heights and one input of the steering held.
PathFollower steered_by(const Expansion& x, InputId steering) {
  std::vector<InputId> held = height_inputs(x);
  held.push_back(steering);
  return PathFollower(assemble(x.mechanism, held));
}

/// Without a pitman arm it is the road wheels that are held.
InputId steering_input(const Expansion& x) {
  return x.pitman_turn.value >= 0 ? x.pitman_turn : x.road_wheels;
}

/// How a point moves when another is drawn elsewhere: with it, since it is that one or counts from it, or as its mirror image.
enum class Moves { not_at_all, along, in_the_mirror };

Moves moves_with(const Truck& truck, const Point& drawn, const Point& point) {
  const Point* base = &point;
  while (base != nullptr) {
    if (base->name == drawn.name) return Moves::along;
    if (base->mirror_of == drawn.name) return Moves::in_the_mirror;
    base = base->from.empty() ? nullptr : find_point(truck, base->from);
  }
  return Moves::not_at_all;
}

/// Definition 2: the road is where it is with all travel zero, everything else equal.
PoseRequest on_the_road(const PoseRequest& request) {
  PoseRequest on_road = request;
  on_road.travel = on_road.travel_left = on_road.travel_right = 0;
  return on_road;
}

bool stands_on_the_road(const PoseRequest& request) {
  return request.travel == 0 && request.travel_left == 0 && request.travel_right == 0;
}

}  // namespace

/// A way to change the design: places and lengths that move together, per metre.
struct Rig::Seed {
  Influence label;
  DesignDirection direction;
};

Rig::Rig(Truck truck)
    : truck_(std::move(truck)),
      x_(expand(truck_)),
      infos_(list_quantities(x_)),
      held_(steered_by(x_, steering_input(x_))),
      rolling_(steered_by(x_, x_.straight)) {
  if (x_.road_wheels != x_.straight) road_wheels_ = steered_by(x_, x_.road_wheels);
  if (place(aligned_request(), aligned_report_)) {
    if (x_.pitman_turn.value >= 0) {
      context_.aligned_wheel =
          wheel_for_pitman(truck_.gear, rolling_.inputs()[index(x_.pitman_turn.value)]);
    }
    context_.aligned_axle_middle =
        axle_middle<double>(x_, rolling_.design(), rolling_.kinematics());
    if (x_.rear)
      context_.aligned_rear_middle =
          rear_axle_middle<double>(x_, rolling_.design(), rolling_.kinematics());
  }
}

PoseRequest Rig::aligned_request() const {
  PoseRequest aligned;
  aligned.height = truck_.aligned_height;
  aligned.rear_height = truck_.aligned_rear_height;
  return aligned;
}

void Rig::restart() {
  held_.restart();
  rolling_.restart();
  if (road_wheels_) road_wheels_->restart();
}

PathFollower& Rig::follower_for(SteerBy by) {
  if (!rolls(by)) return held_;
  return by == SteerBy::road_wheels && road_wheels_ ? *road_wheels_ : rolling_;
}

Rig::HeightPlace& Rig::height_place_for(SteerBy by) {
  if (!rolls(by)) return held_height_;
  return by == SteerBy::road_wheels && road_wheels_ ? road_wheels_height_ : rolling_height_;
}

std::vector<double> Rig::inputs_for(const PoseRequest& request) const {
  std::vector<double> inputs = held_.as_measured_inputs();
  const double middle = request.travel - request.height;
  const double side = half_track(x_) * std::sin(request.lean);
  inputs[index(x_.height.left.value)] += middle + request.travel_left - side;
  inputs[index(x_.height.right.value)] += middle + request.travel_right + side;
  if (x_.rear) {
    // The same road under both axles: the rear wheels stand on it at every travel of the front ones.
    const double rear_side = rear_half_track(x_) * std::sin(request.lean);
    inputs[index(x_.rear->height.left.value)] -= request.rear_height + rear_side;
    inputs[index(x_.rear->height.right.value)] -= request.rear_height - rear_side;
  }
  inputs[index(x_.straight.value)] = straight_ahead();
  if (request.steer_by == SteerBy::road_wheels) inputs[index(x_.road_wheels.value)] = request.steer;
  if (x_.pitman_turn.value >= 0) {
    double& pitman = inputs[index(x_.pitman_turn.value)];
    switch (request.steer_by) {
      case SteerBy::held:
        pitman = pitman_for_wheel(truck_.gear, context_.aligned_wheel);
        break;
      case SteerBy::steering_wheel:
        pitman = pitman_for_wheel(truck_.gear, request.steer);
        break;
      case SteerBy::pitman:
        pitman = request.steer;
        break;
      case SteerBy::straight_ahead:
      case SteerBy::road_wheels:
        break;
    }
  }
  return inputs;
}

bool Rig::place(const PoseRequest& request, SolveReport& report) {
  present_ = request.steer_by;
  context_ = context_at(request);  // the road of the pose at hand, for motion_effect()
  report = go_by_height({&request, 1});
  if (report.usable()) return true;
  if (rolls(present_)) tell_dead_centre(report);
  // The straight line may leave what is in reach though the pose itself is not out of it: once more with the steering first, and
  // with it last. What is told if none leads there is told of the straight line.
  const PoseRequest steered = steering_alone(request);
  PoseRequest unsteered = request;
  unsteered.steer_by = height_alone(request).steer_by;
  unsteered.steer = 0;
  for (const PoseRequest& first : {unsteered, steered}) {
    const PoseRequest legs[] = {first, request};
    const SolveReport there = go_by_height(legs);
    if (!there.usable()) continue;
    report = there;
    return true;
  }
  follower().restart();
  return false;
}

/// From as measured to the height of all legs, and on. The place at the height is kept: most poses are asked of the height of the one
/// before. It is taken up as a place alone each time, so that no digit hangs on whether it was at hand.
SolveReport Rig::go_by_height(std::span<const PoseRequest> legs) {
  PathFollower& follower = this->follower();
  HeightPlace& kept = height_place_for(present_);
  const std::vector<double> wanted = inputs_for(height_alone(legs.front()));
  if (kept.wanted != wanted) {
    follower.restart();
    const SolveReport report = follower.go_to(wanted);
    if (!report.usable()) return report;
    kept = {wanted, follower.state()};
  }
  follower.start_from(kept.state, kept.wanted);
  SolveReport report;
  for (const PoseRequest& leg : legs) {
    report = follower.go_to(inputs_for(leg));
    if (!report.usable()) break;
  }
  return report;
}

PoseRequest Rig::steering_alone(const PoseRequest& request) const {
  PoseRequest alone = request;
  alone.travel = alone.travel_left = alone.travel_right = alone.lean = 0;
  return alone;
}

PoseRequest Rig::height_alone(const PoseRequest& request) const {
  PoseRequest alone;
  alone.height = request.height;
  alone.rear_height = request.rear_height;
  alone.steer_by =
      request.steer_by == SteerBy::straight_ahead ? SteerBy::straight_ahead : SteerBy::road_wheels;
  if (!rolls(request.steer_by)) alone.steer_by = SteerBy::pitman;
  return alone;
}

PoseRequest Rig::part_of(const PoseRequest& request, double share) const {
  PoseRequest part = request;
  part.travel *= share;
  part.travel_left *= share;
  part.travel_right *= share;
  part.lean = std::asin(share * std::sin(request.lean));
  if (request.steer_by == SteerBy::road_wheels) {
    part.steer *= share;
  } else if (!rolls(request.steer_by) && x_.pitman_turn.value >= 0) {
    part.steer_by = SteerBy::steering_wheel;
    part.steer =
        wheel_for_pitman(truck_.gear, share * inputs_for(request)[index(x_.pitman_turn.value)]);
  }
  return part;
}

PoseResult Rig::last_on_the_way_to(const PoseRequest& request) {
  // Short of the end by what rounding of the request's own angles may add; by more where what is left counts as bound.
  constexpr double kShort[] = {1e-6, 1e-4, 1e-3, 1e-2, 0.1, 0.5};
  PathFollower& follower = follower_for(request.steer_by);
  follower.restart();
  const PoseRequest raised = height_alone(request);
  const SolveReport first = follower.go_to(inputs_for(raised));
  const double share =
      first.usable() ? follower.go_to(inputs_for(request)).path_reached : first.path_reached;
  PoseResult last;
  for (const double part : kShort) {
    PoseRequest there = raised;
    if (first.usable()) {
      there = part_of(request, share * (1 - part));
    } else {
      there.height *= share * (1 - part);
      // Without a rear axle the rear height is no part of the path, and only pitches the road.
      if (x_.rear) there.rear_height *= share * (1 - part);
    }
    last = solve(there);
    if (last.report.usable()) return last;
  }
  // Then it is the road under it that cannot be had: that of the same without travel (definition 2).
  return stands_on_the_road(request) ? last : last_on_the_way_to(on_the_road(request));
}

void Rig::tell_dead_centre(SolveReport& report) {
  if (report.outcome != Outcome::out_of_reach || x_.pitman_turn.value < 0) return;
  // The last good place is near the limit point. If the mechanism is regular there with the pitman arm held, only the heading
  // has run out: the wheels do not answer the arm.
  constexpr double kMuch = 10;
  const PathFollower& wheels = follower();
  held_.start_from(wheels.state(), wheels.inputs());
  if (held_.smallest_singular_value() < kMuch * wheels.smallest_singular_value()) return;
  report.outcome = Outcome::dead_centre;
  report.what_ran_out = "the road wheels' answer to the pitman arm";
  report.message = fmt::format(
      "dead centre: at {:.1f} % of the way the road wheels stop answering the steering wheel",
      100 * report.path_reached);
}

QuantityContext Rig::context_at(const PoseRequest& request) {
  QuantityContext context = context_;
  context.height = request.height;
  context.rear_height = request.rear_height;
  context.lean = request.lean;
  return context;
}

PoseResult Rig::solve_place(const PoseRequest& request) {
  PoseResult result;
  result.request = request;
  if (!place(request, result.report)) return result;
  result.state = follower().state();
  result.inputs = follower().inputs();
  return result;
}

PoseResult Rig::solve(const PoseRequest& request) {
  const QuantityContext context = context_at(request);
  PoseResult result;
  result.request = request;
  std::optional<Vec3> road_place;
  if (!stands_on_the_road(request)) {
    if (!place(on_the_road(request), result.report)) return result;
    road_place = contact_middle<double>(truck_, x_, follower().design(), follower().kinematics(),
                                        road_normal(truck_, context));
  }
  if (!place(request, result.report)) return result;
  result.state = follower().state();
  result.inputs = follower().inputs();
  SolvedPose here = solved_here(context);
  here.road_place = road_place;
  result.values = quantities_at(here);
  result.road_place =
      road_place ? *road_place
                 : contact_middle<double>(truck_, x_, follower().design(), follower().kinematics(),
                                          road_normal(truck_, context));
  return result;
}

std::vector<double> Rig::values_here(const PoseResult& pose) {
  SolvedPose here = solved_here(context_at(pose.request));
  if (!stands_on_the_road(pose.request)) here.road_place = pose.road_place;
  return quantities_at(here);
}

SolvedPose Rig::solved_here(const QuantityContext& context) {
  PathFollower& present = follower();
  if (rolls(present_)) held_.start_from(present.state(), present.inputs());
  return {truck_, x_, present, held_, context};
}

std::vector<double> Rig::motion_effect(const LooseMotion& motion) {
  SolvedPose here = solved_here(context_);
  return slopes_along(here, motion);
}

/// How an anchor moves as a point of the file does along a coordinate: with that point itself and what counts from it, with what a mirror
/// made of them, and in part where it lies between two.
Vec3 Rig::way_with(const Anchor& anchor, const Point& moved, int coordinate) const {
  const auto way_of = [&](int point) -> Vec3 {
    if (point < 0) return Vec3::Zero();
    switch (moves_with(truck_, moved, truck_.points[index(point)])) {
      case Moves::not_at_all:
        return Vec3::Zero();
      case Moves::along:
        return Vec3::Unit(coordinate);
      case Moves::in_the_mirror:
        return Vec3::Unit(coordinate) * (coordinate == 1 ? -1.0 : 1.0);
    }
    return Vec3::Zero();
  };
  return (1 - anchor.share) * way_of(anchor.point) + anchor.share * way_of(anchor.towards);
}

std::vector<Rig::Seed> Rig::design_seeds() const {
  static const char* const kNames[] = {"x", "y", "z"};
  const Mechanism& m = x_.mechanism;
  std::vector<Seed> seeds;
  for (std::size_t p = 0; p < truck_.points.size(); ++p) {
    const Point& point = truck_.points[p];
    if (!point.mirror_of.empty()) continue;  // moves with the point that was written
    for (int k = 0; k < 3; ++k) {
      Seed seed;
      seed.label = {point.name, kNames[k], "", {}};
      for (std::size_t a = 0; a < m.anchors.size(); ++a) {
        const Vec3 way = way_with(m.anchors[a], point, k);
        if (way != Vec3::Zero())
          seed.direction.places.emplace_back(AnchorId{static_cast<int>(a)}, way);
      }
      if (seed.direction.places.empty()) continue;
      for (std::size_t l = 0; l < m.lengths.size(); ++l) {
        const Length& length = m.lengths[l];
        if (!length.follows) continue;
        const Vec3 span = m.anchor(length.to).at - m.anchor(length.from).at;
        double change = 0;
        for (const auto& [anchor, way] : seed.direction.places) {
          if (anchor == length.to) change += way.dot(span) / span.norm();
          if (anchor == length.from) change -= way.dot(span) / span.norm();
        }
        if (change != 0) seed.direction.lengths.emplace_back(LengthId{static_cast<int>(l)}, change);
      }
      seeds.push_back(std::move(seed));
    }
  }
  return seeds;
}

std::vector<Rig::Seed> Rig::build_seeds() const {
  static const char* const kNames[] = {"x", "y", "z"};
  const Mechanism& m = x_.mechanism;
  std::vector<Seed> seeds;
  for (std::size_t a = 0; a < m.anchors.size(); ++a) {
    const Anchor& anchor = m.anchors[a];
    if (anchor.point < 0 || anchor.towards >= 0) continue;
    for (int k = 0; k < 3; ++k) {
      Seed seed;
      seed.label = {anchor.name, kNames[k], x_.body_names[index(anchor.body.value)], {}};
      seed.direction.places.emplace_back(AnchorId{static_cast<int>(a)}, Vec3(Vec3::Unit(k)));
      seeds.push_back(std::move(seed));
    }
  }
  for (std::size_t l = 0; l < m.lengths.size(); ++l) {
    Seed seed;
    seed.label = {m.lengths[l].name, "length", "itself", {}};
    seed.direction.lengths.emplace_back(LengthId{static_cast<int>(l)}, 1.0);
    seeds.push_back(std::move(seed));
  }
  return seeds;
}

std::vector<Influence> Rig::influences(const PoseRequest& request, std::vector<Seed> seeds) {
  std::vector<Influence> list;
  SolveReport report;
  const PoseRequest aligned = aligned_request();
  if (!place(aligned, report)) return list;
  SolvedPose where_aligned = solved_here(context_at(aligned));
  std::vector<std::vector<double>> at_aligned;
  for (Seed& seed : seeds) {
    at_aligned.push_back(slopes_along(where_aligned, seed.direction));
    if (request.steer_by == SteerBy::held) seed.direction.pitman = at_aligned.back()[kPitmanAngle];
  }
  std::optional<Vec3> road_place;
  if (!stands_on_the_road(request)) {
    if (!place(on_the_road(request), report)) return list;
    SolvedPose there = solved_here(context_at(request));
    road_place = contact_middle<double>(truck_, x_, follower().design(), follower().kinematics(),
                                        road_normal(truck_, there.context));
    for (Seed& seed : seeds) seed.direction.road_place = contact_slope_along(there, seed.direction);
  }
  if (!place(request, report)) return list;
  SolvedPose here = solved_here(context_at(request));
  here.road_place = road_place;
  for (std::size_t k = 0; k < seeds.size(); ++k) {
    Influence influence = seeds[k].label;
    influence.per_metre = slopes_along(here, seeds[k].direction);
    for (const int q : told_from_aligned(x_))
      influence.per_metre[index(q)] -= at_aligned[k][index(q)];
    list.push_back(std::move(influence));
  }
  return list;
}

std::vector<Influence> Rig::design_moves(const PoseRequest& request) {
  return influences(request, design_seeds());
}

std::vector<Influence> Rig::build_errors(const PoseRequest& request) {
  return influences(request, build_seeds());
}

}  // namespace axlewright
