#pragma once

#include <array>
#include <initializer_list>
#include <string>
#include <vector>

#include "engine/ask/start_layouts.h"

// How the lines of a truck file to fill in are written down as data. For the files start_*.cpp alone.

namespace axlewright {

// Common practice, no source: a tape on a truck is good to 2 mm, a measuring arm to 0.5 mm, an angle gauge to 0.1 deg.
inline constexpr Accuracy kTape{BlankKind::length, 2};
inline constexpr Accuracy kCareful{BlankKind::length, 1};
inline constexpr Accuracy kMatched{BlankKind::length, 0.5};
inline constexpr Accuracy kThread{BlankKind::length, 0.1};
inline constexpr Accuracy kBumpStops{BlankKind::length, 5};
inline constexpr Accuracy kAngleGauge{BlankKind::angle, 0.1};
inline constexpr Accuracy kTurnPlate{BlankKind::angle, 0.5};
inline constexpr Accuracy kSteeringWheel{BlankKind::angle, 10};
inline constexpr Accuracy kRatio{BlankKind::plain, 0.3};
inline constexpr Accuracy kBySight{BlankKind::word, 0};

/// What most points are measured from.
inline constexpr const char* kDatums = "axle line, middle line, floor";

Blank length(double mm);
Blank angle(double deg);
Blank turns(double count);

/// A place in mm, as the example has it.
using Place = std::array<double, 3>;

/// A point to be measured: how its line stands in the file, and its step of the sheet.
struct PointForm {
  std::string name, on;
  Place example;
  Accuracy accuracy;
  std::string what;
  std::string from = kDatums;
  std::string why = {};
};

/// The line of a point. One whose name ends in _left is measured on both sides and mirrored.
FileLine point(PointForm form);

/// The line of one key. `section` as the file spells it in its heading; the step's entry is made here.
FileLine key(const std::string& section, const std::string& name, std::vector<Blank> blanks,
             MeasuringStep step);

using Lines = std::vector<FileLine>;

void add(Lines& lines, const Lines& more);
Lines joined(std::initializer_list<Lines> parts);

/// Lines that are the same in every file of the layout.
Lines as_they_are(std::initializer_list<const char*> texts);

}  // namespace axlewright
