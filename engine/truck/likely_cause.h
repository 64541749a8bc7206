#pragma once

#include "engine/base/result.h"
#include "engine/truck/document.h"
#include "engine/truck/measured_model.h"

namespace axlewright {

/// Why measurements contradict each other, as one fault. Single slips are tried one by one, each by a fit of its own:
///   a coordinate with the wrong sign; two coordinates of a point exchanged; left and right exchanged; a bar's sleeve a turn or two from
///   where it was when its length was read; an angle or a whole sweep with the wrong sign; one number wrong by whatever it takes
///   (coordinate, reading or given length)
/// Only numbers of equations that miss by two deviations are suspected; where the search did not settle, those of the eight that miss most.
/// A slip explains the misfit if without it the measurements pass both tests at kDoubted. Of those the likeliest is that which leaves the
/// least sum of squares, a number free to be anything charged with kFreedom, and a sleeve whose turns are finer than what the rest says; others as good within kAlike are named with it. Where none
/// explains it, the worst misfits are named.
///
///   fit  of the problem as measured, usable or not
/// The fault stands at the number that the likeliest slip is in.
Fault contradiction(const MeasuredModel& model, const FitProblem& problem, const Fit& fit,
                    const Sources& sources, BareUnit unit);

/// What a slip with a number to choose is charged for it: chi-square of one degree at 0.1 per cent. Any number can be made to
/// agree with one equation by choosing it; a sign that does so by itself is evidence.
inline constexpr double kFreedom = 10.8;

/// Sums of squares that differ by less tell no slip from the other: chi-square of one degree at 5 per cent.
inline constexpr double kAlike = 3.84;

}  // namespace axlewright
