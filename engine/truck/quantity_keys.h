#pragma once

#include <string>
#include <vector>

namespace axlewright {

/// What a bare number means in a limit on a quantity, and what the number in the Truck counts.
enum class QuantityUnit {
  none,             ///< no band: the quantity is met or broken (`reach`)
  length,           ///< the file's unit; metre in the Truck
  angle,            ///< degrees; radian in the Truck
  turns,            ///< whole turns, bare or as "3 turns"; turns in the Truck
  ratio,            ///< a plain number
  angle_per_angle,  ///< degrees per degree: a plain number
  angle_per_bump  ///< degrees per 25 mm of travel (definition 6), written as an angle; radian per 25 mm in the Truck
};

/// A quantity that a limit can name. A key that ends in a dot takes the name of a part or a point behind it:
/// "length." stands for length.track_bar.
struct QuantityKey {
  const char* key;
  QuantityUnit unit;
};

/// Every quantity a limit can name, in the order of docs/notation.md.
const std::vector<QuantityKey>& known_quantities();

/// The entry for `quantity`, with `subject` the name behind the dot ("track_bar", empty for most); null if there is
/// none. The subject is not checked.
const QuantityKey* find_quantity(const std::string& quantity, std::string& subject);

}  // namespace axlewright
