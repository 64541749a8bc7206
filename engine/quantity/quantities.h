#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/mechanism/equations.h"
#include "engine/truck/expand.h"
#include "engine/truck/quantity_keys.h"

// Everything that is told about one solved pose, as one list of numbers with one list of names. Definitions 5 to 13 and 17
// of docs/notation.md. Written over the scalar, so that design derivatives of every quantity are exact.

namespace axlewright {

/// What a quantity is called and how its sign reads. Values are in SI: m, rad; `angle_per_bump` is rad per kBump of travel.
struct QuantityInfo {
  std::string key;    ///< as limits and JSON spell it, without its unit
  std::string words;  ///< "caster, left"
  QuantityUnit unit = QuantityUnit::length;
  std::string positive,
      negative;  ///< words for the sign: "to the left", "to the right"; may be empty
};

/// Bump steer is told per this much travel (definition 6) [m].
inline constexpr double kBump = 0.025;

/// Places in the list of the quantities that every truck has.
enum FixedQuantity : int {
  kSteeringWheel,
  kSteeringWheelOffCentre,
  kPitmanAngle,
  kMeanSteer,
  kSteerLeft,
  kSteerRight,
  kToe,
  kCamberLeft,
  kCamberRight,
  kCasterLeft,
  kCasterRight,
  kKpiLeft,
  kKpiRight,
  kAxleCasterLeft,
  kAxleCasterRight,
  kAxleKpiLeft,
  kAxleKpiRight,
  kScrubLeft,
  kScrubRight,
  kTrailLeft,
  kTrailRight,
  kBumpSteer,
  kBumpSteerLeft,
  kBumpSteerRight,
  kOneWheelBumpSteerLeft,
  kOneWheelBumpSteerRight,
  kLeanSteer,
  kRollCentreHeight,
  kAxleWalkSide,
  kAxleWalkForward,
  kAxleYaw,
  kPinionAngle,
  kSteeringRatio,
  kAckermannError,
  kPadLeft,
  kPadRight,
  kFixedQuantities
};

/// And of those of a truck with a rear axle, right behind them.
enum RearQuantity : int {
  kRearWalkSide = kFixedQuantities,
  kRearWalkForward,
  kThrustAngle,
  kRearLeanSteer,
  kEndOfRearQuantities
};

/// The quantities that count from the aligned pose.
std::vector<int> told_from_aligned(const Expansion& expansion);

/// Names of all quantities of a truck, in the order of evaluate_quantities().
std::vector<QuantityInfo> list_quantities(const Expansion& expansion);

/// The quantities that a limit's key names: one, or the tilts of all joints on one ball.
std::vector<int> quantities_of(const std::vector<QuantityInfo>& infos, const std::string& key);

/// What a pose is measured against.
struct QuantityContext {
  double height = 0, rear_height = 0, lean = 0;  ///< inputs of the pose, for the road [m, rad]
  double aligned_wheel = 0;  ///< steering-wheel angle, rolling, at the aligned height [rad]
  Vec3 aligned_axle_middle = Vec3::Zero();  ///< in frame axes at the aligned height, rolling [m]
  Vec3 aligned_rear_middle = Vec3::Zero();  ///< of the rear axle, if there is one
};

/// Velocities of all bodies with the steering wheel held: per unit of both wheels' travel, of each, of lean, and of the
/// pitman arm's turn.
template <class T>
struct QuantityRates {
  std::vector<TwistT<T>> travel, travel_left, travel_right, lean, pitman;
};

/// Direction of the road's normal in frame axes (definition 2).
Vec3 road_normal(const Truck& truck, const QuantityContext& context);

/// Directions along the road: forward is the frame's x laid into it.
template <class T>
struct RoadAxesT {
  Vec3T<T> forward, left, normal;
};
using RoadAxes = RoadAxesT<double>;
RoadAxes road_axes(const Vec3& normal);

/// The point where a tyre meets the road (definition 8), frame axes [m].
template <class T>
Vec3T<T> contact_place(const Truck& truck, const Expansion& x, const DesignT<T>& design,
                       const KinematicsT<T>& kin, const Vec3& normal, bool left);

/// The middle of both contacts: a point of the road where all travel is zero (definition 2).
template <class T>
Vec3T<T> contact_middle(const Truck& truck, const Expansion& x, const DesignT<T>& design,
                        const KinematicsT<T>& kin, const Vec3& normal);

/// Middle of the axle: between the wheel centres fixed on it [m].
template <class T>
Vec3T<T> axle_middle(const Expansion& x, const DesignT<T>& design, const KinematicsT<T>& kin);

/// The same of the rear axle; there must be one.
template <class T>
Vec3T<T> rear_axle_middle(const Expansion& x, const DesignT<T>& design, const KinematicsT<T>& kin);

/// All quantities of a pose. A quantity that a pose does not have is NaN (Ackermann error straight ahead, steering ratio at a
/// dead centre, anything of the steering wheel without a pitman arm).
///   road_place  a point of the road; none: the middle of this pose's own contacts, which is what all travel zero means
template <class T>
std::vector<T> evaluate_quantities(const Truck& truck, const Expansion& x, const DesignT<T>& design,
                                   const KinematicsT<T>& kin, const T& pitman,
                                   const QuantityRates<T>& rates, const QuantityContext& context,
                                   const std::optional<Vec3T<T>>& road_place);

}  // namespace axlewright
