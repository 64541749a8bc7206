#pragma once

#include <optional>
#include <string>
#include <vector>

// The layouts that `start` can make a truck file for, as data: the lines of the file in their order, and what is to be measured for
// each. File and measuring sheet are both written from it, so that neither can name a thing that the other lacks.

namespace axlewright {

/// What stands in one place to fill in.
enum class BlankKind {
  length,  ///< `example` in mm
  angle,   ///< in degrees
  turns,   ///< of the steering wheel
  plain,   ///< a bare number
  word     ///< one of the words that the comment names: `word`
};

/// What is to be filled in: what kind of thing, and the number or word that an example has there.
struct Blank {
  BlankKind kind = BlankKind::length;
  double example = 0;
  std::string word;
};

/// How well a thing is to be measured.
struct Accuracy {
  BlankKind kind = BlankKind::length;
  double within = 0;
};

/// One thing to measure: a step of the sheet.
struct MeasuringStep {
  std::string
      entry;  ///< a point's name, or the file's key: "wheels.toe_in", "parts.drag_link.length"
  std::string what;  ///< what it is and where to take it
  std::string from;  ///< the datum
  Accuracy accuracy;
  std::vector<std::string> to_write;  ///< names of the blanks on the sheet: "x", "y", "z"
  bool both_sides = false;            ///< measured left and right, written into the file once
  std::string why = {};               ///< why so well; mostly empty
  bool disturbs = false;  ///< the truck no longer stands as measured: all checks come before
};

/// A line of the truck file. In `text` each @ stands for the next of `blanks`, and % for how well the step is measured.
struct FileLine {
  std::string text;
  std::vector<Blank> blanks = {};
  std::optional<MeasuringStep> step = {};
};

/// One of the layouts that `start` writes a file for.
struct StartLayout {
  std::string name;   ///< as the question spells it: "half-converted"
  std::string words;  ///< "guided steering on a plain track bar"
  std::string suits;  ///< when to take it, in a sentence
  std::vector<FileLine> lines;
  std::vector<std::string> guided_bars = {};  ///< in words, for their checks
};

/// Every layout, the plainest first.
const std::vector<StartLayout>& start_layouts();

}  // namespace axlewright
