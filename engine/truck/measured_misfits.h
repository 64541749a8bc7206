#pragma once

#include <string>
#include <vector>

#include "engine/solve/fit.h"
#include "engine/truck/document.h"
#include "engine/truck/measured_fit.h"
#include "engine/truck/measured_model.h"

namespace axlewright {

/// Every measured number against a usable fit: what was read, in the file's order, then known places and exact statements, then the
/// coordinates that have a plus_minus.
std::vector<Misfit> misfits_of(const MeasuredModel& model, const Fit& fit);

/// The one whose error is largest against the standard deviation that it has: the likeliest to be wrong. Among those within a twentieth
/// of it a reading, then a coordinate that the others tell well, among equals the first; exact statements are passed over. -1 if nothing is checked.
int worst_of(const std::vector<Misfit>& misfits);

/// Of those that have a plus_minus, the `most` worst that are checked, worst first.
std::vector<int> worst_of(const std::vector<Misfit>& misfits, std::size_t most);

/// "906 mm", "4.2 deg".
std::string measured_words(double value, bool is_angle, BareUnit unit);

/// "track bar length: 906 mm measured, 911.2 mm by the rest, 10.4 times its plus_minus away"; by the fit where the rest does not tell.
std::string misfit_words(const Misfit& misfit, BareUnit unit);

}  // namespace axlewright
