#pragma once

#include <cstdint>

#include "engine/truck/truck.h"

// Invented trucks, built in code, that tests and benches share: an axle on three links, or on four in bushes, with plain or guided bars
// or a four-bar.

namespace axlewright::oracle {

enum class Links { three, four_in_bushes };

struct FamilyChoice {
  Links links = Links::three;
  bool guided_steering = false;
  bool guided_locator = false;
  bool four_bar_locator = false;
  bool keeper = false;        ///< guided steering only: holds the tie rod upright
  bool tie_rod_body = false;  ///< plain steering only
  HalfLink half_link = HalfLink::distance;
  Carriage carriage = Carriage::point;
  KingpinStyle kingpins = KingpinStyle::pin;
};

/// The truck of a choice. Heights 0 to 235 mm, lean 4 deg either side.
Truck family_truck(const FamilyChoice& choice);

/// The truck with every point moved by up to `way` along each axis, those of guided bars by a tenth of it, lengths left to
/// follow. The same seed gives the same truck everywhere.
Truck with_moved_points(Truck truck, std::uint64_t seed, double way);

/// The truck with the stiffness of every bush and the rate of every leaf spring multiplied by a half to two, each by itself.
Truck with_other_bushes(Truck truck, std::uint64_t seed);

/// Uniform numbers that do not hang on the library at hand (SplitMix64, Steele, Lea and Flood, OOPSLA 2014).
class Random {
 public:
  explicit Random(std::uint64_t seed) : state_(seed) {}
  double between(double low, double high);

 private:
  std::uint64_t state_;
};

}  // namespace axlewright::oracle
