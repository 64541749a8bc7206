#include "engine/quantity/quantities.h"

#include <cmath>
#include <limits>
#include <utility>

#include "engine/base/index.h"
#include "engine/base/invariant.h"
#include "engine/truck/gear.h"

namespace axlewright {
namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();
constexpr double kTurning =
    0.5 * 3.14159265358979323846 / 180;  // [rad] of mean steer: below it there is no inner wheel

constexpr double kEndOn =
    1e-3;  // share of a bar's length across a view below which it is seen end-on

/// f(x) with its derivative, for functions that the engine has as plain doubles.
double chain(double /*x*/, double value, double /*derivative*/) {
  return value;
}
Dual chain(const Dual& x, double value, double derivative) {
  return {value, derivative * x.slope};
}

template <class T>
class Evaluator {
 public:
  Evaluator(const Truck& truck, const Expansion& x, const DesignT<T>& design,
            const KinematicsT<T>& kin)
      : truck_(truck), x_(x), design_(design), kin_(kin) {}

  Vec3T<T> place(AnchorId id) const {
    return kin_.pose[index(x_.mechanism.anchor(id).body.value)].place(
        design_.places[index(id.value)]);
  }
  Vec3T<T> direction(AxisId id) const {
    return kin_.pose[index(x_.mechanism.axis(id).body.value)].turn(
        design_.directions[index(id.value)]);
  }

  Vec3T<T> contact(const Vec3T<T>& normal, bool left) const {
    const Vec3T<T> s = direction(left ? x_.stub.left : x_.stub.right);
    const Vec3T<T> in_plane = normal - s * normal.dot(s);
    using std::sqrt;
    const T reach = T(truck_.wheels.loaded_radius) / sqrt(in_plane.dot(in_plane));
    return place(left ? x_.wheel_on_knuckle.left : x_.wheel_on_knuckle.right) - in_plane * reach;
  }

  Vec3T<T> middle() const { return between(x_.wheel_on_axle); }

  Vec3T<T> between(const PerSide<AnchorId>& places) const {
    return (place(places.left) + place(places.right)) * T(0.5);
  }

 private:
  const Truck& truck_;
  const Expansion& x_;
  const DesignT<T>& design_;
  const KinematicsT<T>& kin_;
};

template <class T>
struct SteeringAxisAngles {
  T caster, kpi;
};

/// Definition 7: from the axis' components (pointing up) along forward, left and normal.
template <class T>
SteeringAxisAngles<T> axis_angles(const Vec3T<T>& k, const Vec3T<T>& forward, const Vec3T<T>& left,
                                  const Vec3T<T>& normal, bool on_left) {
  using std::atan2;
  const T up = k.dot(normal);
  const T inboard = on_left ? -k.dot(left) : k.dot(left);
  return {atan2(T(-k.dot(forward)), up), atan2(inboard, up)};
}

template <class T>
T heading_rate(const Vec3T<T>& s, const TwistT<T>& twist) {
  return heading_moment<T>(s).dot(twist.angular);
}

/// Turn of a body about its own line against a carrier, least from as measured (definition 17): the twist of a swing-twist
/// split, tan(turn/2) = a . l / (1 + trace) with a the axial vector of the relative rotation.
template <class T>
T turn_about_line(const Mat3T<T>& R, const Vec3& line) {
  using std::atan2;
  const Vec3T<T> axial(R(2, 1) - R(1, 2), R(0, 2) - R(2, 0), R(1, 0) - R(0, 1));
  const T trace = R(0, 0) + R(1, 1) + R(2, 2);
  const Vec3T<T> l = line.cast<T>();
  return T(2) * atan2(axial.dot(l), T(1) + trace);
}

template <class T>
T angle_between(const Vec3T<T>& a, const Vec3T<T>& b) {
  using std::atan2;
  using std::sqrt;
  const Vec3T<T> c = cross(a, b);
  return atan2(T(sqrt(c.dot(c))), a.dot(b));
}

/// Slope of a bar in a view, from what it spans across and up; NaN for a bar seen end-on, which has none: its slope would be
/// made of rounding alone.
template <class T>
T slope_in_view(const Vec3T<T>& span, const T& across) {
  using std::atan2;
  if (std::abs(value_of(across)) < kEndOn * std::sqrt(value_of(span.dot(span)))) return T(kNone);
  return across < T(0) ? atan2(T(-span.z()), T(-across)) : atan2(span.z(), across);
}

/// Slope of a bar seen along x: positive when its left end is the higher.
template <class T>
T front_angle(const Vec3T<T>& span) {
  return slope_in_view<T>(span, span.y());
}

/// Slope of a bar seen along y: positive when its forward end is the higher.
template <class T>
T side_angle(const Vec3T<T>& span) {
  return slope_in_view<T>(span, span.x());
}

/// Of the front axle.
const BarPlace* find_bar(const Expansion& x, BarKind kind) {
  for (const BarPlace& bar : x.bars) {
    if (bar.kind == kind && !bar.rear) return &bar;
  }
  return nullptr;
}

/// How a turn about a line reads, by the axis that the line lies along most.
std::pair<const char*, const char*> words_for_turn(const Vec3& line) {
  struct Reading {
    const char *positive, *negative;
  };
  static constexpr Reading kReadings[] = {{"left side up", "left side down"},
                                          {"top forward", "top back"},
                                          {"front to the left", "front to the right"}};
  Eigen::Index along = 0;
  line.cwiseAbs().maxCoeff(&along);
  const Reading& reading = kReadings[along];
  return line[along] > 0 ? std::pair{reading.positive, reading.negative}
                         : std::pair{reading.negative, reading.positive};
}

template <class T>
struct Wheel {
  T steer, camber;
  SteeringAxisAngles<T> to_road, to_axle;
  Vec3T<T> contact,
      ground;  ///< ground: where the steering axis meets the plane through the contact
  T scrub, trail;
};

template <class T>
Wheel<T> look_at_wheel(const Evaluator<T>& e, const Expansion& x, const KinematicsT<T>& kin,
                       const RoadAxesT<T>& road, bool left) {
  using std::asin;
  using std::sqrt;
  Wheel<T> w;
  const Vec3T<T> s = e.direction(left ? x.stub.left : x.stub.right);
  const Vec3T<T> k = e.direction(left ? x.kingpin.left : x.kingpin.right);
  const Mat3T<T>& R_CA = kin.pose[index(x.axle.value)].R;
  const T outboard = left ? T(1) : T(-1);
  w.steer = heading_of<T>(s);
  w.camber = -asin(T(s.dot(road.normal) * outboard));
  w.to_road = axis_angles<T>(k, road.forward, road.left, road.normal, left);
  w.to_axle = axis_angles<T>(k, R_CA.col(0), R_CA.col(1), R_CA.col(2), left);
  w.contact = e.contact(road.normal, left);
  const Vec3T<T> lower = e.place(left ? x.kingpin_lower.left : x.kingpin_lower.right);
  w.ground = lower + k * ((w.contact - lower).dot(road.normal) / k.dot(road.normal));
  const Vec3T<T> along = cross(s, road.normal);
  const Vec3T<T> ahead = along * (T(1) / sqrt(along.dot(along)));
  const Vec3T<T> across = cross(road.normal, ahead);
  w.scrub = (w.contact - w.ground).dot(across) * outboard;
  w.trail = (w.ground - w.contact).dot(ahead);
  return w;
}

template <class T>
void add_rear_quantities(const Evaluator<T>& e, const RearAxlePlace& rear,
                         const QuantityRates<T>& rates, const QuantityContext& context,
                         std::vector<T>& q) {
  const Vec3T<T> middle = e.between(rear.wheel);
  const Vec3T<T> spin = e.direction(rear.spin);
  q.resize(static_cast<std::size_t>(kEndOfRearQuantities));
  q[kRearWalkSide] = middle.y() - T(context.aligned_rear_middle.y());
  q[kRearWalkForward] = middle.x() - T(context.aligned_rear_middle.x());
  q[kThrustAngle] = heading_of<T>(spin);
  q[kRearLeanSteer] = heading_rate<T>(spin, rates.lean[index(rear.body.value)]);
}

/// Inner steer less ideal inner (definition 12), of the turn that the wheels are in.
template <class T>
T ackermann_error(const Truck& truck, const Wheel<T>& left, const Wheel<T>& right) {
  using std::atan2;
  using std::cos;
  using std::sin;
  using std::sqrt;
  const T mean = (left.steer + right.steer) * T(0.5);
  if (std::abs(value_of(mean)) < kTurning) return T(kNone);
  const bool to_left = mean > T(0);
  const T outer = to_left ? right.steer : -left.steer;
  const T inner = to_left ? left.steer : -right.steer;
  const Vec3T<T> apart = left.ground - right.ground;
  const T k = sqrt(T(apart.x() * apart.x() + apart.y() * apart.y()));
  const T cot_inner = cos(outer) / sin(outer) - k / T(truck.wheelbase);
  return inner - atan2(T(1), cot_inner);
}

}  // namespace

std::vector<int> quantities_of(const std::vector<QuantityInfo>& infos, const std::string& key) {
  std::vector<int> found;
  for (std::size_t k = 0; k < infos.size(); ++k) {
    if (infos[k].key == key || infos[k].key.rfind(key + ".", 0) == 0)
      found.push_back(static_cast<int>(k));
  }
  return found;
}

Vec3 road_normal(const Truck& truck, const QuantityContext& context) {
  const double r = truck.rake + std::atan((context.height - context.rear_height) / truck.wheelbase);
  const double a = context.lean;
  return {std::sin(r), std::cos(r) * std::sin(a), std::cos(r) * std::cos(a)};
}

RoadAxes road_axes(const Vec3& normal) {
  const Vec3 forward = Vec3::UnitX() - normal.x() * normal;
  RoadAxes road;
  road.forward = forward / forward.norm();
  road.left = cross(normal, road.forward);
  road.normal = normal;
  return road;
}

template <class T>
Vec3T<T> contact_place(const Truck& truck, const Expansion& x, const DesignT<T>& design,
                       const KinematicsT<T>& kin, const Vec3& normal, bool left) {
  return Evaluator<T>(truck, x, design, kin).contact(normal.cast<T>(), left);
}

template <class T>
Vec3T<T> contact_middle(const Truck& truck, const Expansion& x, const DesignT<T>& design,
                        const KinematicsT<T>& kin, const Vec3& normal) {
  const Evaluator<T> e(truck, x, design, kin);
  const Vec3T<T> n = normal.cast<T>();
  return (e.contact(n, true) + e.contact(n, false)) * T(0.5);
}

template <class T>
Vec3T<T> axle_middle(const Expansion& x, const DesignT<T>& design, const KinematicsT<T>& kin) {
  const Truck none;
  return Evaluator<T>(none, x, design, kin).middle();
}

template <class T>
Vec3T<T> rear_axle_middle(const Expansion& x, const DesignT<T>& design, const KinematicsT<T>& kin) {
  const Truck none;
  return Evaluator<T>(none, x, design, kin).between(x.rear->wheel);
}

std::vector<int> told_from_aligned(const Expansion& x) {
  std::vector<int> told = {kSteeringWheelOffCentre, kAxleWalkSide, kAxleWalkForward};
  if (x.rear) told.insert(told.end(), {kRearWalkSide, kRearWalkForward});
  return told;
}

std::vector<QuantityInfo> list_quantities(const Expansion& x) {
  using U = QuantityUnit;
  std::vector<QuantityInfo> list = {
      {"steering_wheel", "steering wheel", U::angle, "to the left", "to the right"},
      {"steering_wheel_off_centre", "steering wheel off centre", U::angle, "to the left",
       "to the right"},
      {"pitman_angle", "pitman arm", U::angle, "to the left", "to the right"},
      {"mean_steer", "mean steer", U::angle, "to the left", "to the right"},
      {"steer_left", "steer, left wheel", U::angle, "to the left", "to the right"},
      {"steer_right", "steer, right wheel", U::angle, "to the left", "to the right"},
      {"toe", "toe", U::angle, "in", "out"},
      {"camber_left", "camber, left", U::angle, "top out", "top in"},
      {"camber_right", "camber, right", U::angle, "top out", "top in"},
      {"caster_left", "caster, left", U::angle, "top back", "top forward"},
      {"caster_right", "caster, right", U::angle, "top back", "top forward"},
      {"kingpin_inclination_left", "kingpin inclination, left", U::angle, "top in", "top out"},
      {"kingpin_inclination_right", "kingpin inclination, right", U::angle, "top in", "top out"},
      {"axle_caster_left", "caster against the axle, left", U::angle, "top back", "top forward"},
      {"axle_caster_right", "caster against the axle, right", U::angle, "top back", "top forward"},
      {"axle_kingpin_inclination_left", "kingpin inclination against the axle, left", U::angle,
       "top in", "top out"},
      {"axle_kingpin_inclination_right", "kingpin inclination against the axle, right", U::angle,
       "top in", "top out"},
      {"scrub_radius_left", "scrub radius, left", U::length, "outboard", "inboard"},
      {"scrub_radius_right", "scrub radius, right", U::length, "outboard", "inboard"},
      {"trail_left", "trail, left", U::length, "axis ahead", "axis behind"},
      {"trail_right", "trail, right", U::length, "axis ahead", "axis behind"},
      {"bump_steer", "bump steer", U::angle_per_bump, "to the left", "to the right"},
      {"bump_steer_left", "bump steer, left wheel", U::angle_per_bump, "to the left",
       "to the right"},
      {"bump_steer_right", "bump steer, right wheel", U::angle_per_bump, "to the left",
       "to the right"},
      {"one_wheel_bump_steer_left", "bump steer, left wheel alone in a bump", U::angle_per_bump,
       "to the left", "to the right"},
      {"one_wheel_bump_steer_right", "bump steer, right wheel alone in a bump", U::angle_per_bump,
       "to the left", "to the right"},
      {"lean_steer", "lean steer", U::angle_per_angle, "to the left", "to the right"},
      {"roll_centre_height", "roll centre above the road", U::length, "above", "below"},
      {"axle_walk_side", "axle walk, sideways", U::length, "to the left", "to the right"},
      {"axle_walk_forward", "axle walk, fore-aft", U::length, "forward", "back"},
      {"axle_yaw", "axle yaw", U::angle, "to the left", "to the right"},
      {"pinion_angle", "pinion angle", U::angle, "nose up", "nose down"},
      {"steering_ratio", "steering ratio", U::ratio, "", ""},
      {"ackermann_error", "Ackermann error", U::angle, "too much", "too little"},
      {"pad_left", "pad under the left wheel", U::length, "above the road", "below the road"},
      {"pad_right", "pad under the right wheel", U::length, "above the road", "below the road"},
  };
  AXLEWRIGHT_INVARIANT(static_cast<int>(list.size()) == kFixedQuantities);
  if (x.rear) {
    list.push_back(
        {"rear_walk_side", "rear axle walk, sideways", U::length, "to the left", "to the right"});
    list.push_back({"rear_walk_forward", "rear axle walk, fore-aft", U::length, "forward", "back"});
    list.push_back({"thrust_angle", "thrust angle", U::angle, "to the left", "to the right"});
    list.push_back({"rear_lean_steer", "lean steer of the rear axle", U::angle_per_angle,
                    "to the left", "to the right"});
    AXLEWRIGHT_INVARIANT(static_cast<int>(list.size()) == kEndOfRearQuantities);
  }
  for (const BarPlace& bar : x.bars) {
    list.push_back({"length." + bar.name, bar.words + ", length", U::length, "", ""});
    list.push_back({"front_angle." + bar.name, bar.words + ", slope seen from the front", U::angle,
                    "left end up", "left end down"});
    list.push_back({"side_angle." + bar.name, bar.words + ", slope seen from the side", U::angle,
                    "front end up", "front end down"});
  }
  if (find_bar(x, BarKind::track_bar) != nullptr && find_bar(x, BarKind::drag_link) != nullptr) {
    list.push_back({"parallel_miss", "drag link against track bar, slope seen from the front",
                    U::angle, "left end up", "left end down"});
    list.push_back(
        {"length_miss", "drag link against track bar, length", U::length, "longer", "shorter"});
  }
  for (const BallPlace& ball : x.balls)
    list.push_back({"tilt." + ball.name, ball.words + ", joint tilt", U::angle, "", ""});
  for (const GuidedPlace& guided : x.guided) {
    list.push_back(
        {"slide." + guided.name, guided.words + ", slide travel", U::length, "outward", "inward"});
    list.push_back({"half_link_angle." + guided.name, guided.words + ", half-link to its guide",
                    U::angle, "", ""});
    list.push_back({"near_end_offset." + guided.name,
                    guided.words + ", near end along the guide from its pivot", U::length,
                    "outward", "inward"});
  }
  for (const TurnPlace& turn : x.turns) {
    const auto [positive, negative] = words_for_turn(turn.line);
    list.push_back(
        {"turn." + turn.name, turn.words + ", turn on its pin", U::angle, positive, negative});
  }
  for (const LinePlace& line : x.lines) {
    const auto [positive, negative] = words_for_turn(line.line);
    list.push_back({"spin." + line.name, line.words + ", turn about its own line", U::angle,
                    positive, negative});
  }
  return list;
}

template <class T>
std::vector<T> evaluate_quantities(const Truck& truck, const Expansion& x, const DesignT<T>& design,
                                   const KinematicsT<T>& kin, const T& pitman,
                                   const QuantityRates<T>& rates, const QuantityContext& context,
                                   const std::optional<Vec3T<T>>& road_place) {
  using std::abs;
  using std::asin;
  using std::atan2;
  using std::sqrt;
  std::vector<T> q(static_cast<std::size_t>(kFixedQuantities), T(kNone));
  const Evaluator<T> e(truck, x, design, kin);
  const RoadAxes axes = road_axes(road_normal(truck, context));
  const RoadAxesT<T> road{axes.forward.cast<T>(), axes.left.cast<T>(), axes.normal.cast<T>()};
  const Wheel<T> left = look_at_wheel(e, x, kin, road, true);
  const Wheel<T> right = look_at_wheel(e, x, kin, road, false);
  const Vec3T<T> s_left = e.direction(x.stub.left);
  const Vec3T<T> s_right = e.direction(x.stub.right);
  const auto mean_steer_rate = [&](const std::vector<TwistT<T>>& twists) {
    return (heading_rate<T>(s_left, twists[index(x.knuckle.left.value)]) +
            heading_rate<T>(s_right, twists[index(x.knuckle.right.value)])) *
           T(0.5);
  };

  if (x.pitman_turn.value >= 0) {
    const double wheel = wheel_for_pitman(truck.gear, value_of(pitman));
    const double ratio = gear_ratio_at(truck.gear, wheel);
    q[kSteeringWheel] = chain(pitman, wheel, ratio);
    q[kSteeringWheelOffCentre] = q[kSteeringWheel] - T(context.aligned_wheel);
    q[kPitmanAngle] = pitman;
    // The gear's ratio is piecewise linear in the table: its own slope is left out of second derivatives.
    q[kSteeringRatio] = T(ratio) / mean_steer_rate(rates.pitman);
  }
  q[kMeanSteer] = (left.steer + right.steer) * T(0.5);
  q[kSteerLeft] = left.steer;
  q[kSteerRight] = right.steer;
  q[kToe] = right.steer - left.steer;
  q[kCamberLeft] = left.camber;
  q[kCamberRight] = right.camber;
  q[kCasterLeft] = left.to_road.caster;
  q[kCasterRight] = right.to_road.caster;
  q[kKpiLeft] = left.to_road.kpi;
  q[kKpiRight] = right.to_road.kpi;
  q[kAxleCasterLeft] = left.to_axle.caster;
  q[kAxleCasterRight] = right.to_axle.caster;
  q[kAxleKpiLeft] = left.to_axle.kpi;
  q[kAxleKpiRight] = right.to_axle.kpi;
  q[kScrubLeft] = left.scrub;
  q[kScrubRight] = right.scrub;
  q[kTrailLeft] = left.trail;
  q[kTrailRight] = right.trail;
  const T bump = T(kBump);
  q[kBumpSteer] = mean_steer_rate(rates.travel) * bump;
  q[kBumpSteerLeft] = heading_rate<T>(s_left, rates.travel[index(x.knuckle.left.value)]) * bump;
  q[kBumpSteerRight] = heading_rate<T>(s_right, rates.travel[index(x.knuckle.right.value)]) * bump;
  q[kOneWheelBumpSteerLeft] = mean_steer_rate(rates.travel_left) * bump;
  q[kOneWheelBumpSteerRight] = mean_steer_rate(rates.travel_right) * bump;
  q[kLeanSteer] = mean_steer_rate(rates.lean);

  const Vec3T<T> middle = e.middle();
  const Vec3T<T> on_road =
      road_place ? *road_place : Vec3T<T>((left.contact + right.contact) * T(0.5));
  // Definition 10: the frame point P in the middle plane with (v_axle(P))_y = 0, in the plane through the axle's middle.
  const TwistT<T>& axle = rates.lean[index(x.axle.value)];
  const T p_z = (axle.origin.y() + axle.angular.z() * middle.x()) / axle.angular.x();
  const Vec3T<T> centre(middle.x(), T(0), p_z);
  q[kRollCentreHeight] = (centre - on_road).dot(road.normal);
  q[kAxleWalkSide] = middle.y() - T(context.aligned_axle_middle.y());
  q[kAxleWalkForward] = middle.x() - T(context.aligned_axle_middle.x());
  const Vec3T<T> across = e.place(x.wheel_on_axle.left) - e.place(x.wheel_on_axle.right);
  // Both ends are fixed on the axle: as measured it is their places in the design.
  const Vec3T<T> across_measured = design.places[index(x.wheel_on_axle.left.value)] -
                                   design.places[index(x.wheel_on_axle.right.value)];
  q[kAxleYaw] = heading_of<T>(across) - heading_of<T>(across_measured);
  const Mat3T<T>& R_CA = kin.pose[index(x.axle.value)].R;
  // How far the shaft, which points back, has risen from level.
  q[kPinionAngle] = asin(T(-R_CA(2, 0)));
  q[kAckermannError] = ackermann_error(truck, left, right);
  q[kPadLeft] = (left.contact - on_road).dot(road.normal);
  q[kPadRight] = (right.contact - on_road).dot(road.normal);

  if (x.rear) add_rear_quantities(e, *x.rear, rates, context, q);
  const auto span_of = [&](const BarPlace& bar) {
    return Vec3T<T>(e.place(bar.b) - e.place(bar.a));
  };
  for (const BarPlace& bar : x.bars) {
    const Vec3T<T> span = span_of(bar);
    q.push_back(sqrt(span.dot(span)));
    q.push_back(front_angle<T>(span));
    q.push_back(side_angle<T>(span));
  }
  const BarPlace* track = find_bar(x, BarKind::track_bar);
  const BarPlace* drag = find_bar(x, BarKind::drag_link);
  if (track != nullptr && drag != nullptr) {
    const Vec3T<T> t = span_of(*track), d = span_of(*drag);
    q.push_back(front_angle<T>(d) - front_angle<T>(t));
    q.push_back(sqrt(d.dot(d)) - sqrt(t.dot(t)));
  }
  for (const BallPlace& ball : x.balls) {
    const Vec3T<T> stud = e.direction(ball.stud_axis);
    if (ball.housing_axis.value >= 0) {
      q.push_back(angle_between<T>(stud, e.direction(ball.housing_axis)));
      continue;
    }
    const Vec3T<T> line = e.place(ball.bar_to) - e.place(ball.bar_from);
    q.push_back(abs(asin(T(stud.dot(line) / sqrt(line.dot(line))))));
  }
  for (const GuidedPlace& guided : x.guided) {
    const Vec3T<T> guide = e.direction(guided.guide);
    const T slide = guide.dot(e.place(guided.guide_end) - e.place(guided.slide_origin));
    const Vec3T<T> half = e.place(guided.middle) - e.place(guided.pivot);
    // Outward is away from the half-link's pivot.
    const T outward = half.dot(guide) < T(0) ? T(-1) : T(1);
    q.push_back(outward * slide);
    const Vec3T<T> square = half - guide * guide.dot(half);
    q.push_back(atan2(T(sqrt(square.dot(square))), T(abs(T(guide.dot(half))))));
    q.push_back(outward * guide.dot(e.place(guided.near_end) - e.place(guided.pivot)));
  }
  for (const TurnPlace& turn : x.turns) {
    const Mat3T<T> R_AB =
        kin.pose[index(turn.carrier.value)].R.transpose() * kin.pose[index(turn.body.value)].R;
    q.push_back(turn_about_line<T>(R_AB, turn.line));
  }
  for (const LinePlace& line : x.lines) {
    const BodyId carrier = x.mechanism.body(line.body).carrier;
    const Mat3T<T> R_AB =
        kin.pose[index(carrier.value)].R.transpose() * kin.pose[index(line.body.value)].R;
    q.push_back(turn_about_line<T>(R_AB, line.line));
  }
  return q;
}

template Vec3T<double> contact_place(const Truck&, const Expansion&, const DesignT<double>&,
                                     const KinematicsT<double>&, const Vec3&, bool);
template Vec3T<Dual> contact_place(const Truck&, const Expansion&, const DesignT<Dual>&,
                                   const KinematicsT<Dual>&, const Vec3&, bool);
template Vec3T<double> contact_middle(const Truck&, const Expansion&, const DesignT<double>&,
                                      const KinematicsT<double>&, const Vec3&);
template Vec3T<Dual> contact_middle(const Truck&, const Expansion&, const DesignT<Dual>&,
                                    const KinematicsT<Dual>&, const Vec3&);
template Vec3T<double> axle_middle(const Expansion&, const DesignT<double>&,
                                   const KinematicsT<double>&);
template Vec3T<Dual> axle_middle(const Expansion&, const DesignT<Dual>&, const KinematicsT<Dual>&);
template Vec3T<double> rear_axle_middle(const Expansion&, const DesignT<double>&,
                                        const KinematicsT<double>&);
template std::vector<double> evaluate_quantities(const Truck&, const Expansion&,
                                                 const DesignT<double>&, const KinematicsT<double>&,
                                                 const double&, const QuantityRates<double>&,
                                                 const QuantityContext&,
                                                 const std::optional<Vec3T<double>>&);
template std::vector<Dual> evaluate_quantities(const Truck&, const Expansion&, const DesignT<Dual>&,
                                               const KinematicsT<Dual>&, const Dual&,
                                               const QuantityRates<Dual>&, const QuantityContext&,
                                               const std::optional<Vec3T<Dual>>&);

}  // namespace axlewright
