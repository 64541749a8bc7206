#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/study/rig.h"

namespace axlewright {

/// The rule that a guided bar's lengths keep, within kRuleTolerance: near half b from near end to middle, guide half a from middle to guide end,
/// half-link r. Kinematics reference 1.3 and 1.4: equal halves with r = a are exact; unequal ones are straight to the fourth order of
/// the bar's angle where a is the mean proportional of r and b, r = a^2 / b. r = sqrt(a b), met in print, is not that.
enum class ArmRule { equal_halves, mean_proportional, root_of_product, none };

/// How a guided bar is proportioned, and how straight its near end then goes.
struct Straightness {
  std::string name, words;
  bool on_rocker = false;
  double near_half = 0, guide_half = 0, half_link = 0;  ///< between the points as measured [m]
  ArmRule rule = ArmRule::none;
  double half_link_by_rule = 0;  ///< a^2 / b [m]
  /// Way of the near end along the guide between its extremes, going straight over the heights of the file [m]; none if one of
  /// these cannot be had.
  std::optional<double> leaves_line;
};

/// What two hands with a calliper may differ by (common practice, no source) [m].
inline constexpr double kRuleTolerance = 0.5e-3;

/// Looks at every guided bar of a truck, in the order of its file.
std::vector<Straightness> guided_bar_paths(Rig& rig);

}  // namespace axlewright
