#pragma once

#include <array>
#include <string>
#include <vector>

#include "engine/base/vec.h"
#include "engine/truck/text_place.h"

// A truck as it was measured: in which axes, and what was read beside the points. Lengths in m, angles in rad.

namespace axlewright {

/// What the places of [points] count from.
///   frame        the truck's own axes, as everywhere else
///   road         x forward from the axle line and y left from the middle line that were chalked on a level floor, z up from it
///   gauge_holes  axes of the shop's own, z plumb, in which points of the frame with known places were measured too
enum class MeasuringAxes { frame, road, gauge_holes };

/// What was read beside the points. Angles to the road count against gravity: the floor is level.
///   length               distance of two points
///   height               of a point over the floor
///   slope                of the line between two points, positive where the second is higher
///   lean, rake           of the frame to the road, as the inputs of a pose count them
///   caster, kingpin_inclination   of a kingpin to the road, as definition 7 has them
///   camber_sweep         cambers of one wheel at several of its steering angles, left positive
enum class ReadingKind {
  length,
  height,
  slope,
  lean,
  rake,
  caster,
  kingpin_inclination,
  camber_sweep
};

/// One thing that was read beside the points.
struct Reading {
  std::string name, words;
  ReadingKind kind = ReadingKind::length;
  std::array<std::string, 2>
      points;  ///< of length and slope; height has the first alone; a kingpin's lower and upper
  std::string part;  ///< the bar or kingpin that it is told of; may be empty
  double value = 0;
  std::vector<double> steers, cambers;  ///< of a sweep
  double plus_minus = 0;
  TextPlace place;
};

/// A point of the frame whose place in frame axes is known.
struct GaugeHole {
  std::string point;
  Vec3 known = Vec3::Zero();
  TextPlace place;  ///< of the known place
};

/// A point as it is written: in the axes that were measured in, from the origin or from the point that it counts from.
struct MeasuredPoint {
  Vec3 at = Vec3::Zero();
  double plus_minus = 0;  ///< 0: it counts as exact
  std::array<TextPlace, 3> places;
};

/// All that a file says of how its truck was measured.
struct Measured {
  MeasuringAxes axes = MeasuringAxes::frame;
  double plumbed_at =
      0;  ///< of road axes: height at which the frame was plumbed for the middle line
  std::vector<GaugeHole> holes;
  double holes_plus_minus = 0;  ///< 0: their known places are exact
  std::vector<Reading> readings;
  std::vector<MeasuredPoint> points;        ///< by Truck::points
  std::vector<std::string> measuring_only;  ///< points that no part, joint, stud or wheel uses
  bool has_section = false, has_readings = false;
  bool rake_by_wheels = false;  ///< nothing tells the rake but the wheels of two axles
  TextPlace place;              ///< of [measured], or of the first reading
};

}  // namespace axlewright
