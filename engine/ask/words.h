#pragma once

#include <string>

#include "engine/quantity/quantities.h"
#include "engine/study/rig.h"

// Numbers in sentences: in the reader's unit, with the sign in words.

namespace axlewright {

/// Writes numbers for one reader: in millimetres or in inches.
struct Words {
  bool inches = false;

  /// "12.4 mm", "0.49 in": the magnitude with its unit.
  std::string length(double metres) const;
  std::string height(double metres) const;  ///< rounded to the millimetre or the tenth of an inch
  /// "12.4 deg".
  std::string angle(double radians) const;
  /// A quantity's magnitude in its own unit, with one decimal, two where one says too little.
  std::string magnitude(const QuantityInfo& info, double si) const;
  /// "12.4 deg to the right"; plain "0.0 deg" where it rounds to nothing; a minus sign where the quantity has no words for one.
  std::string with_sign(const QuantityInfo& info, double si) const;
  /// The same with three decimals, for what a millimetre does.
  std::string small_with_sign(const QuantityInfo& info, double si) const;
  /// "at height 120 mm, travel +45 mm, lean 4.0 deg left side up, wheel 180 deg to the left".
  std::string place(const PoseRequest& request) const;
};

}  // namespace axlewright
