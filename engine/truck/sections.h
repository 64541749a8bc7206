#pragma once

#include <string>
#include <vector>

namespace axlewright {

/// The sections of a truck file, in the order of docs/truck-file.md.
const std::vector<std::string>& known_sections();

/// True for sections of named entries (points, parts): a layer replaces an entry whole. Else a section is a set of
/// keys (truck, wheels), and a layer replaces single keys.
bool has_named_entries(const std::string& section);

/// True if the name is of a to z, 0 to 9 and _, and not empty.
bool is_name(const std::string& name);

/// The same name on the other side: every part of it that says left says right, and the other way round
/// ("arm_left_ball" -> "arm_right_ball"). Unchanged if it has no side.
std::string other_side(const std::string& name);

/// +1 for a name that ends in _left, -1 for one that ends in _right, 0 else.
int side_of(const std::string& name);

}  // namespace axlewright
