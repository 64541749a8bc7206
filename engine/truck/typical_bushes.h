#pragma once

#include <string>
#include <vector>

namespace axlewright {

/// How a bush of a usual kind gives: rubber between steel sleeves, of a heavy pickup. Common practice, no source: such bushes
/// differ by a factor of two from one to the next, and stiffen when cold or pushed hard. A measured value replaces each.
struct TypicalBush {
  std::string kind;   ///< as the truck file spells it
  double radial = 0;  ///< square to its line [N/m]
  double axial = 0;   ///< along it [N/m]
  double tilt = 0;    ///< of its line [N m/rad]
  double twist = 0;   ///< about it [N m/rad]
};

/// All kinds, in the order in which docs/truck-file.md lists them; the first is the default.
const std::vector<TypicalBush>& typical_bushes();

/// The one of that kind, which must be among them.
const TypicalBush& typical_bush(const std::string& kind);

}  // namespace axlewright
