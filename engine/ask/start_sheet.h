#pragma once

#include <string>
#include <vector>

#include "engine/ask/json.h"
#include "engine/ask/start_layouts.h"

namespace axlewright {

/// Columns of the sheet, and of the comments in the file.
inline constexpr std::size_t kSheetWidth = 80;

/// Text broken at blanks into lines of at most kSheetWidth, each with its line end; the first begins with `first`, the others with `rest`.
std::string wrapped(const std::string& text, const std::string& first, const std::string& rest);

/// "2 mm", "0.1 deg", "by sight".
std::string accuracy_text(const Accuracy& accuracy, bool inches);

/// The steps of a layout, in the order of file and sheet.
std::vector<const MeasuringStep*> steps_of(const StartLayout& layout);

/// Something to try on the spot, before the truck moves: it finds a slipped number while that can still be measured again.
struct SpotCheck {
  std::string text;
  std::vector<std::string> of = {};  ///< what it is tried on, a line of blanks each; or nothing
  std::vector<std::string> to_write = {};  ///< names of the blanks
};

std::vector<SpotCheck> checks_of(const StartLayout& layout, bool inches);

/// The sheet to take to the truck: what to measure, in which order, from which datum, how well, with blanks to write on.
///   cautions   what stands at its end, as every answer has it
std::string sheet_text(const StartLayout& layout, bool inches, const Json& cautions);

}  // namespace axlewright
