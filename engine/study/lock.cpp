#include "engine/study/lock.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <optional>
#include <vector>

#include "engine/base/index.h"
#include "engine/base/units.h"
#include "engine/truck/gear.h"

namespace axlewright {
namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();
constexpr double kStride = 2 * kRadiansPerDegree;  // of the pitman arm, while looking for a stop
constexpr double kNearStride = 0.5 * kRadiansPerDegree;  // beside a stop that is known
constexpr int kMostNearStrides = 40;
constexpr double kEndless =
    100 * kRadiansPerDegree;                       // of the pitman arm, where the gear has no stop
constexpr double kAngleTolerance = 1e-10;          // [rad]
constexpr double kOuter = 20 * kRadiansPerDegree;  // where Ackermann error is told (definition 12)

/// Turn of a knuckle on the axle about its kingpin, left positive: the swing-twist twist about the axis.
double knuckle_turn(const Rig& rig, const Kinematics& kin, bool left) {
  const Expansion& x = rig.expansion();
  const BodyId knuckle = left ? x.knuckle.left : x.knuckle.right;
  const AxisId axis = left ? x.kingpin.left : x.kingpin.right;
  const Mat3 R = kin.pose[index(x.axle.value)].R.transpose() * kin.pose[index(knuckle.value)].R;
  const Vec3 axial(R(2, 1) - R(1, 2), R(0, 2) - R(2, 0), R(1, 0) - R(0, 1));
  return 2 * std::atan2(axial.dot(x.mechanism.axis(axis).direction), 1 + R.trace());
}

/// How far past its stop the tightest of gear and axle stops is; negative while free. `side` +1 left, -1 right.
double past_stop(const Rig& rig, const Kinematics& kin, double pitman, double side,
                 std::string* which) {
  const Truck& truck = rig.truck();
  double most = -std::numeric_limits<double>::infinity();
  const auto consider = [&](double turn, double stop, const char* name) {
    if (stop <= 0 || turn - stop <= most) return;
    most = turn - stop;
    *which = name;
  };
  const double gear_stop = side > 0 ? truck.gear.stop_left : truck.gear.stop_right;
  consider(side * pitman, gear_stop > 0 ? pitman_for_wheel(truck.gear, gear_stop) : 0, "gear stop");
  const AxleStops& stops = truck.axle_stops;
  // The right knuckle is the mirror of the left: its turn to the left is limited as the left one's to the right.
  consider(side * knuckle_turn(rig, kin, true), side > 0 ? stops.turn_left : stops.turn_right,
           "left wheel's axle stop");
  consider(side * knuckle_turn(rig, kin, false), side > 0 ? stops.turn_right : stops.turn_left,
           "right wheel's axle stop");
  return most;
}

/// A place and a direction of the frame's axes.
struct Line {
  Vec3 at, along;
};

/// The rear wheels' axis. Without a rear axle of its own: one wheelbase behind, square to the frame, the rear wheels as high above the
/// road as the front ones as measured.
Line rear_axle_line(const Truck& truck, const Expansion& x, const PathFollower& there,
                    const QuantityContext& context) {
  if (x.rear) {
    const Pose& axle = there.kinematics().pose[index(x.rear->body.value)];
    return {rear_axle_middle<double>(x, there.design(), there.kinematics()),
            axle.turn(there.design().directions[index(x.rear->spin.value)])};
  }
  const Vec3 front = 0.5 * (x.mechanism.anchor(x.wheel_on_axle.left).at +
                            x.mechanism.anchor(x.wheel_on_axle.right).at);
  return {front + Vec3(-truck.wheelbase, 0,
                       truck.wheelbase * std::tan(truck.rake) - context.rear_height),
          road_axes(road_normal(truck, context)).left};
}

/// Diameter on the road of the outer contact's circle. Seen square to the road the contact lies on the axis line of its wheel, since
/// the tyre's radius stands square to that.
double circle_of(const Truck& truck, const Expansion& x, const PathFollower& there,
                 const QuantityContext& context, bool outer_left) {
  const RoadAxes road = road_axes(road_normal(truck, context));
  const Vec3 contact =
      contact_place<double>(truck, x, there.design(), there.kinematics(), road.normal, outer_left);
  const AxisId stub = outer_left ? x.stub.left : x.stub.right;
  const Vec3 s = there.kinematics().pose[index(x.mechanism.axis(stub).body.value)].turn(
      x.mechanism.axis(stub).direction);
  const Line rear = rear_axle_line(truck, x, there, context);
  // contact + r s meets the line where both lie in one plane with the road's normal.
  const Vec3 square = cross(rear.along, road.normal);
  const double way = (rear.at - contact).dot(square) / s.dot(square);
  return 2 * std::abs(way) * std::hypot(s.dot(road.forward), s.dot(road.left));
}

/// A place of the pitman arm that closes.
struct Steered {
  double pitman = 0;
  double past = 0;   ///< how far past the tightest stop; negative while free [rad]
  double outer = 0;  ///< steer of the outer wheel, magnitude [rad]
};

/// Looks for the first stop on one side. `side` +1 left, -1 right.
class SideSearch {
 public:
  SideSearch(Rig& rig, const PoseRequest& at, double side) : rig_(rig), at_(at), side_(side) {}

  LockSide from_straight() {
    LockSide lock;
    lock.ackermann_error_20 = kNone;
    if (rig_.expansion().pitman_turn.value < 0) {
      lock.stop = "no pitman arm";
      return lock;
    }
    PoseRequest straight = at_;
    straight.steer_by = SteerBy::straight_ahead;
    const PoseResult start = rig_.solve_place(straight);
    if (!start.report.usable()) {
      lock.stop = start.report.message;
      return lock;
    }
    const double pitman = start.inputs[index(rig_.expansion().pitman_turn.value)];
    const std::optional<Steered> first = look(pitman);
    if (!first) {
      lock.stop = ran_out_;
      return lock;
    }
    if (first->past >= 0) {
      lock.stop = "past the " + stop_ + " already when going straight";
      lock.asked = wheel_for_pitman(rig_.truck().gear, beside(pitman).value_or(pitman));
      return lock;
    }
    const std::vector<Steered> way = walk(*first);
    fill(way, lock);
    return lock;
  }

  /// The pitman angle of a stop beside a guess; nothing if there is none.
  std::optional<double> beside(double guess) {
    std::optional<Steered> here = look(guess);
    for (int k = 0; here && k < kMostNearStrides; ++k) {
      if (std::abs(here->past) <= kAngleTolerance) return here->pitman;
      const double way = here->past < 0 ? side_ : -side_;
      const std::optional<Steered> next = look(here->pitman + way * kNearStride);
      if (next && (next->past < 0) != (here->past < 0))
        return stop_between(here->past < 0 ? *here : *next, here->past < 0 ? *next : *here);
      here = next;
    }
    return {};
  }

 private:
  std::optional<Steered> look(double pitman) {
    PoseRequest request = at_;
    request.steer_by = SteerBy::pitman;
    request.steer = pitman;
    const PoseResult pose = rig_.solve_place(request);
    if (!pose.report.usable()) {
      ran_out_ = pose.report.what_ran_out;
      return {};
    }
    const Kinematics& kin = rig_.follower().kinematics();
    const Expansion& x = rig_.expansion();
    const AxisId stub = side_ > 0 ? x.stub.right : x.stub.left;
    const Vec3 s =
        kin.pose[index(x.mechanism.axis(stub).body.value)].turn(x.mechanism.axis(stub).direction);
    return Steered{pitman, past_stop(rig_, kin, pitman, side_, &stop_),
                   side_ * heading_of<double>(s)};
  }

  /// Strides outward, until a stop is passed or there is no pose or no stop.
  std::vector<Steered> walk(const Steered& first) {
    std::vector<Steered> way = {first};
    while (way.back().past < 0) {
      const double next = way.back().pitman + side_ * kStride;
      if (std::abs(next) > kEndless) break;
      const std::optional<Steered> place = look(next);
      if (!place) break;
      way.push_back(*place);
    }
    return way;
  }

  void fill(const std::vector<Steered>& way, LockSide& lock) {
    const Gear& gear = rig_.truck().gear;
    double pitman = way.back().pitman;
    lock.reached = way.back().past >= 0;
    if (lock.reached) {
      const std::optional<double> stop = stop_between(way[way.size() - 2], way.back());
      if (!stop) {
        lock.reached = false;
        pitman = way[way.size() - 2].pitman;
      } else {
        pitman = *stop;
      }
    }
    lock.stop = lock.reached ? stop_ : ran_out_.empty() ? "no stop on the way" : ran_out_;
    PoseRequest request = at_;
    request.steer_by = SteerBy::pitman;
    request.steer = pitman;
    const PoseResult end = rig_.solve(request);
    lock.asked = lock.reached ? wheel_for_pitman(gear, pitman) : asked_without_stop(pitman);
    if (!end.report.usable()) {
      lock.reached = false;
      lock.stop = end.report.message;
      return;
    }
    lock.solved = true;
    lock.pitman = pitman;
    lock.steering_wheel = end.values[kSteeringWheel];
    lock.mean_steer = end.values[kMeanSteer];
    lock.outer = std::abs(end.values[side_ > 0 ? kSteerRight : kSteerLeft]);
    lock.inner = std::abs(end.values[side_ > 0 ? kSteerLeft : kSteerRight]);
    lock.ackermann_error = end.values[kAckermannError];
    lock.steering_ratio = end.values[kSteeringRatio];
    QuantityContext context;
    context.height = at_.height;
    context.rear_height = at_.rear_height;
    lock.turning_circle =
        circle_of(rig_.truck(), rig_.expansion(), rig_.follower(), context, side_ < 0);
    lock.kerb_circle = lock.turning_circle + rig_.truck().wheels.section;
    if (lock.outer >= kOuter) lock.ackermann_error_20 = ackermann_error_at_20(way);
  }

  double asked_without_stop(double pitman) const {
    const Truck& truck = rig_.truck();
    const double gear_stop = side_ > 0 ? truck.gear.stop_left : truck.gear.stop_right;
    if (gear_stop > 0) return side_ * gear_stop;
    if (truck.steering) return side_ * *truck.steering;
    return wheel_for_pitman(truck.gear, ran_out_.empty() ? pitman : pitman + side_ * kStride);
  }

  double ackermann_error_at_20(const std::vector<Steered>& way) {
    for (std::size_t k = 1; k < way.size(); ++k) {
      if (way[k - 1].outer >= kOuter || way[k].outer < kOuter) continue;
      const std::optional<double> pitman =
          zero_between(way[k - 1].pitman, way[k - 1].outer - kOuter, way[k].pitman,
                       way[k].outer - kOuter, [&](double p) -> std::optional<double> {
                         const std::optional<Steered> there = look(p);
                         if (!there) return {};
                         return there->outer - kOuter;
                       });
      if (!pitman) return kNone;
      PoseRequest request = at_;
      request.steer_by = SteerBy::pitman;
      request.steer = *pitman;
      const PoseResult pose = rig_.solve(request);
      return pose.report.usable() ? pose.values[kAckermannError] : kNone;
    }
    return kNone;
  }

  std::optional<double> stop_between(const Steered& free, const Steered& past) {
    return zero_between(free.pitman, free.past, past.pitman, past.past,
                        [&](double p) -> std::optional<double> {
                          const std::optional<Steered> there = look(p);
                          if (!there) return {};
                          return there->past;
                        });
  }

  /// The zero of f between a (negative) and b (positive or zero), by bisection with secant steps (Illinois); nothing where f has no
  /// value.
  static std::optional<double> zero_between(double a, double f_a, double b, double f_b,
                                            const std::function<std::optional<double>(double)>& f) {
    for (int k = 0; k < 80 && std::abs(b - a) > kAngleTolerance; ++k) {
      double c = b - f_b * (b - a) / (f_b - f_a);
      if (!(std::min(a, b) < c && c < std::max(a, b))) c = 0.5 * (a + b);
      const std::optional<double> f_c = f(c);
      if (!f_c) return {};
      if (std::abs(*f_c) <= kAngleTolerance) return c;
      if ((*f_c < 0) == (f_b < 0)) {
        b = c;
        f_b = *f_c;
        f_a *= 0.5;
      } else {
        a = b;
        f_a = f_b;
        b = c;
        f_b = *f_c;
      }
    }
    return b;
  }

  Rig& rig_;
  PoseRequest at_;
  double side_;
  std::string stop_;     ///< the tightest at the place looked at last
  std::string ran_out_;  ///< where a place did not close
};

double asked_beside(Rig& rig, const PoseRequest& at, const LockSide& known, double side) {
  if (!known.reached) return known.asked;
  SideSearch search(rig, at, side);
  const std::optional<double> stop = search.beside(known.pitman);
  if (stop) return wheel_for_pitman(rig.truck().gear, *stop);
  // The known stop may lie where this pose does not close at all.
  const LockSide lock = search.from_straight();
  return lock.solved ? lock.asked : known.asked;
}

}  // namespace

Lock find_lock(Rig& rig, const PoseRequest& at) {
  return {SideSearch(rig, at, 1).from_straight(), SideSearch(rig, at, -1).from_straight()};
}

SteeringRange steering_range_beside(Rig& rig, const PoseRequest& at, const Lock& known) {
  return {asked_beside(rig, at, known.left, 1), asked_beside(rig, at, known.right, -1)};
}

}  // namespace axlewright
