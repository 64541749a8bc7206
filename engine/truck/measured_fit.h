#pragma once

#include <string>
#include <vector>

#include "engine/base/vec.h"
#include "engine/solve/report.h"
#include "engine/truck/measured.h"

// What came of fitting a measured truck: where its points are, how well that is known, and how what was measured differs from it. Lengths
// in m, angles in rad.

namespace axlewright {

/// How a measured number and the fit differ. `plus_minus` is the half-width of the band that the true value lies in, any value in it
/// as likely as another: a standard deviation of plus_minus / sqrt(3) (JCGM 100:2008, the GUM, 4.3.7).
///   normal   error over the standard deviation that such an error has: beyond 3 or 4 something is wrong; 0 if nothing checks it
///   checked  the part of an error that shows: 0 nothing checks the number, 1 the others tell it exactly
struct Misfit {
  std::string name;   ///< a reading's, or "POINT.x"
  std::string words;  ///< "length of the track bar", "x of 'track_bar_frame'"
  bool is_angle = false;
  bool is_coordinate = false;
  bool is_exact = false;  ///< a statement of the file or the layout, without a plus_minus
  double value = 0, fitted = 0, plus_minus = 0;
  double normal = 0, checked = 0;
  double by_others = 0;  ///< what it should be by all others; not a number where they do not say
  TextPlace place;

  double error() const { return fitted - value; }
};

/// Where a point was measured, and where it is by all that was measured.
struct FittedPoint {
  Vec3 measured = Vec3::Zero();    ///< as measured, in the measuring axes
  Vec3 as_stood = Vec3::Zero();    ///< fitted, in frame axes as the truck stood
  double moved = 0;                ///< by the fit, in the measuring axes [m]
  Mat3 covariance = Mat3::Zero();  ///< of as_stood [m^2]; formal, from the linearised fit
  /// Half-width of the band with that standard deviation, by coordinate: what `plus_minus` means.
  Vec3 plus_minus = Vec3::Zero();
};

/// How the truck stood, against the measuring axes or the road, each with its plus_minus (0: told, not fitted).
struct FoundStance {
  double lean = 0, lean_plus_minus = 0;
  double rake = 0, rake_plus_minus = 0;
  double yaw = 0, yaw_plus_minus = 0;  ///< of the frame in the measuring axes, to the left
};

/// What came of fitting a measured truck. Its points are then those of the truck set straight: without lean.
struct MeasuredFit {
  MeasuringAxes axes = MeasuringAxes::frame;
  SolveReport report;
  double chi_square = 0;
  int redundancy = 0;
  double chance = 1;             ///< of a sum of squares as large or larger; 1 without redundancy
  double chance_of_largest = 1;  ///< of a largest misfit as large or larger
  std::vector<Misfit>
      misfits;     ///< readings in the file's order, exact statements, then coordinates
  int worst = -1;  ///< of those; -1 where nothing is checked
  FoundStance stance;
  std::vector<FittedPoint> points;  ///< by Truck::points
  std::vector<std::string> measuring_only;
  bool has_section = false, has_readings = false;
};

}  // namespace axlewright
