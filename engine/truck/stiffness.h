#pragma once

#include <optional>
#include <string>

#include "engine/truck/complaints.h"
#include "engine/truck/document.h"
#include "engine/truck/value.h"

namespace axlewright {

/// What a stiffness pushes against: a way [N/m] or a turn [N m/rad].
enum class StiffnessKind { way, turn };

/// A stiffness with its unit, such as "8 kN/mm", "45000 lbf/in", "12 N m/deg", "9 lbf ft/deg"; a bare number is N/mm or N m/deg in
/// files in mm, lbf/in or lbf ft/deg in files in inches. `range` in SI. Nothing after a complaint.
std::optional<double> read_stiffness(const Node& node, const std::string& name, StiffnessKind kind,
                                     const Range& range, Complaints& complaints);

}  // namespace axlewright
