#pragma once

#include "engine/base/result.h"
#include "engine/truck/document.h"
#include "engine/truck/measured.h"
#include "engine/truck/truck.h"

namespace axlewright {

/// Below this chance that honest measurements miss each other so much, they are refused; below kDoubted there is a warning.
inline constexpr double kRefused = 0.001;
inline constexpr double kDoubted = 0.01;

/// Puts the measurements of a truck together: finds the places that satisfy all of them with the least errors, each counted in its own
/// plus_minus (engine/truck/measured_model.h), and sets the truck straight where the frame leaned.
///
///   truck     as read: without faults, its points near their places in frame axes
///   measured  what was measured; its points in the order of the truck's
///   sources   for the lines of faults
/// Gives the truck with fitted points, its rake as fitted and `fit` filled in; or faults: with the likeliest cause where the
/// measurements contradict each other (two tests, both at kRefused: the sum of squares by chi-square, the largest single misfit by the
/// normal distribution), where they do not tell what was asked, or where the linkage cannot be set straight. Never a truck from a search
/// that did not settle.
Result<Truck> fit_measured(Truck truck, const Measured& measured, const Sources& sources);

}  // namespace axlewright
