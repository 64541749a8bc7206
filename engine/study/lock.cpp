#include "engine/study/lock.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include "engine/base/units.h"
#include "engine/quantity/gear.h"

namespace axlewright {
namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();
constexpr double kStride = 2 * kRadiansPerDegree;  // of the pitman arm, while looking for a stop
constexpr double kEndless =
    100 * kRadiansPerDegree;                       // of the pitman arm, where the gear has no stop
constexpr double kAngleTolerance = 1e-10;          // [rad]
constexpr double kOuter = 20 * kRadiansPerDegree;  // where Ackermann error is told (definition 12)

std::size_t index(int k) {
  return static_cast<std::size_t>(k);
}

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
    if (which != nullptr) *which = name;
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

struct Steering {
  Rig& rig;
  PoseRequest request;

  PoseResult at(double pitman, bool with_values) {
    request.steer_by = SteerBy::pitman;
    request.steer = pitman;
    return with_values ? rig.solve(request) : rig.solve_place(request);
  }
};

/// The zero of f between a (negative) and b (positive), by bisection with secant steps (Illinois).
double zero_between(double a, double f_a, double b, double f_b,
                    const std::function<double(double)>& f) {
  for (int k = 0; k < 80 && std::abs(b - a) > kAngleTolerance; ++k) {
    double c = b - f_b * (b - a) / (f_b - f_a);
    if (!(std::min(a, b) < c && c < std::max(a, b))) c = 0.5 * (a + b);
    const double f_c = f(c);
    if (f_c == 0) return c;
    if ((f_c < 0) == (f_b < 0)) {
      b = c;
      f_b = f_c;
      f_a *= 0.5;
    } else {
      a = b;
      f_a = f_b;
      b = c;
      f_b = f_c;
    }
  }
  return b;
}

double circle_of(const Rig& rig, const Kinematics& kin, const Design& design,
                 const QuantityContext& context, bool outer_left) {
  const Expansion& x = rig.expansion();
  const Vec3 contact = contact_place<double>(rig.truck(), x, design, kin,
                                             road_normal(rig.truck(), context), outer_left);
  const AxisId stub = outer_left ? x.stub.left : x.stub.right;
  const Vec3 s =
      kin.pose[index(x.mechanism.axis(stub).body.value)].turn(x.mechanism.axis(stub).direction);
  // The rear axle stands still in the frame, a wheelbase behind the front one as measured.
  const Vec3 middle = 0.5 * (x.mechanism.anchor(x.wheel_on_axle.left).at +
                             x.mechanism.anchor(x.wheel_on_axle.right).at);
  const double rear = middle.x() - rig.truck().wheelbase;
  return 2 * std::abs(contact.x() - rear) * std::hypot(s.x(), s.y()) / std::abs(s.x());
}

LockSide find_side(Rig& rig, double height, double side) {
  LockSide lock;
  lock.ackermann_error_20 = kNone;
  Steering steering{rig, {}};
  steering.request.height = height;
  PoseRequest straight = steering.request;
  const PoseResult start = rig.solve(straight);
  if (!start.report.usable()) {
    lock.stop = start.report.message;
    return lock;
  }
  double pitman = start.values[kPitmanAngle];
  double before = pitman;
  double past = past_stop(rig, rig.follower().kinematics(), pitman, side, nullptr);
  double past_before = past;
  double outer_before = 0, pitman_outer_before = pitman;
  while (past < 0) {
    before = pitman;
    past_before = past;
    pitman += side * kStride;
    const PoseResult pose = steering.at(pitman, true);
    if (!pose.report.usable() || std::abs(pitman) > kEndless) {
      lock.stop = pose.report.usable() ? "no stop on the way" : pose.report.what_ran_out;
      pitman = before;
      break;
    }
    past = past_stop(rig, rig.follower().kinematics(), pitman, side, &lock.stop);
    const double outer = std::abs(side > 0 ? pose.values[kSteerRight] : pose.values[kSteerLeft]);
    if (std::isnan(lock.ackermann_error_20) && outer >= kOuter && outer_before < kOuter) {
      const auto miss = [&](double p) {
        const PoseResult there = steering.at(p, true);
        return there.report.usable()
                   ? std::abs(side > 0 ? there.values[kSteerRight] : there.values[kSteerLeft]) -
                         kOuter
                   : kNone;
      };
      const double at_20 =
          zero_between(pitman_outer_before, outer_before - kOuter, pitman, outer - kOuter, miss);
      lock.ackermann_error_20 = steering.at(at_20, true).values[kAckermannError];
      steering.at(pitman, false);
    }
    outer_before = outer;
    pitman_outer_before = pitman;
  }
  if (past >= 0 && before != pitman) {
    pitman = zero_between(before, past_before, pitman, past, [&](double p) {
      return steering.at(p, false).report.usable()
                 ? past_stop(rig, rig.follower().kinematics(), p, side, &lock.stop)
                 : kNone;
    });
  }
  const PoseResult end = steering.at(pitman, true);
  if (!end.report.usable()) {
    lock.stop = end.report.message;
    return lock;
  }
  lock.solved = true;
  lock.reached = past >= 0;
  lock.pitman = pitman;
  lock.steering_wheel = end.values[kSteeringWheel];
  lock.mean_steer = end.values[kMeanSteer];
  lock.outer = std::abs(side > 0 ? end.values[kSteerRight] : end.values[kSteerLeft]);
  lock.inner = std::abs(side > 0 ? end.values[kSteerLeft] : end.values[kSteerRight]);
  lock.ackermann_error = end.values[kAckermannError];
  lock.steering_ratio = end.values[kSteeringRatio];
  QuantityContext context;
  context.height = height;
  const PathFollower& there = rig.follower();
  lock.turning_circle = circle_of(rig, there.kinematics(), there.design(), context, side < 0);
  lock.kerb_circle = lock.turning_circle + rig.truck().wheels.section;
  return lock;
}

}  // namespace

Lock find_lock(Rig& rig, double height) {
  return {find_side(rig, height, 1), find_side(rig, height, -1)};
}

}  // namespace axlewright
