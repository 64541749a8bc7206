#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/truck/read.h"

// Trucks as they come when much is wrong with them: points measured wrongly or on the wrong side, bars of the wrong length, folded or
// next to nothing, arms near a dead centre, bushes that give almost nothing or almost everything, ranges far too wide.

namespace axlewright::robust {

/// A truck file, on top of one of the tree, and what is wrong with it. The same seed gives the same file everywhere.
struct BadTruck {
  std::uint64_t seed = 0;
  std::string base;  ///< the file that it is made from, from the project's root
  std::string harm;  ///< "points thrown by 212 mm; track_bar folded"
  std::string text;  ///< the file
  std::vector<Setting> settings;

  /// As a shop's file would be read.
  Result<Truck> read() const;

  /// Everything that is needed to have it again.
  std::string words() const;
};

BadTruck bad_truck(std::uint64_t seed);

}  // namespace axlewright::robust
