#pragma once

#include "engine/base/units.h"
#include "engine/truck/value.h"

// What the reader takes for possible, in SI. Wide enough for any road truck with a live front axle; narrow enough
// that a slipped decimal point or the wrong unit is seen.

namespace axlewright::ranges {

inline constexpr double kDegree = kRadiansPerDegree;

inline constexpr Range kWheelbase{1.5, 8.0};
inline constexpr Range kHeight{-1.0, 1.0};
inline constexpr Range kRake{-10 * kDegree, 10 * kDegree};
inline constexpr Range kThrustAngle{-5 * kDegree, 5 * kDegree};
inline constexpr Range kLean{0, 30 * kDegree, true};
/// Ten turns of the steering wheel.
inline constexpr Range kSteeringWheel{0, 3600 * kDegree, true};
/// As found with the road wheels straight ahead: a turn off centre is no truck to measure.
inline constexpr Range kAsFound{-360 * kDegree, 360 * kDegree};
inline constexpr Range kTolerance{0, 0.05};
inline constexpr Range kCoordinate{-10.0, 10.0};
inline constexpr Range kPlusMinus{0, 0.1, true};
inline constexpr Range kAnglePlusMinus{0, 5 * kDegree, true};
inline constexpr Range kPlumbedAt{0, 2.0};
inline constexpr Range kReadLength{0.02, 10.0};
inline constexpr Range kReadHeight{-1.0, 5.0};
inline constexpr Range kReadSlope{-80 * kDegree, 80 * kDegree};
inline constexpr Range kReadLean{-10 * kDegree, 10 * kDegree};
inline constexpr Range kReadKingpin{-20 * kDegree, 30 * kDegree};
inline constexpr Range kReadSteer{-45 * kDegree, 45 * kDegree};
inline constexpr Range kReadCamber{-25 * kDegree, 25 * kDegree};
inline constexpr Range kBarLength{0.02, 5.0};
inline constexpr Range kSleeve{0, 0.02, true};
inline constexpr Range kLoadedRadius{0.2, 1.0};
inline constexpr Range kSection{0.05, 0.8};
inline constexpr Range kTrack{0.8, 3.0};
inline constexpr Range kToe{-5 * kDegree, 5 * kDegree};
inline constexpr Range kCamber{-10 * kDegree, 10 * kDegree};
inline constexpr Range kGearRatio{3.0, 40.0};
inline constexpr Range kRatioAngle{0, 3600 * kDegree};
inline constexpr Range kAxleStop{0, 80 * kDegree, true};
inline constexpr Range kTravel{0, 0.6, true};
inline constexpr Range kTilt{0, 90 * kDegree, true};
inline constexpr Range kBushForce{0, 1e9};                       // [N/m]
inline constexpr Range kBushMoment{0, 1e6 / kRadiansPerDegree};  // [N m/rad]
inline constexpr Range kLeafRate{5e3, 2e6};                      // [N/m]
inline constexpr Range kLeafClamp{0, 0.4};
inline constexpr Range kWidthToThickness{1, 30};
inline constexpr Range kLeafPieces{2, 12};
inline constexpr Range kLimitLength{-100.0, 100.0};
inline constexpr Range kLimitAngle{-7200 * kDegree, 7200 * kDegree};
inline constexpr Range kLimitPlain{-1000.0, 1000.0};
inline constexpr Range kDirectionNumber{-1e6, 1e6};
/// Two places nearer than this are one place.
inline constexpr double kSamePlace = 1e-3;

}  // namespace axlewright::ranges
