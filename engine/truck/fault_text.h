#pragma once

#include <string>

#include "engine/base/result.h"

namespace axlewright {

/// A fault for a terminal, ending in a line end:
///
///   trucks/guided.toml:41:12: error: no point is called 'track_bar_axel'
///     ends = ["track_bar_frame", "track_bar_axel"]
///                                ^^^^^^^^^^^^^^^^
///     fix: did you mean 'track_bar_axle'?
///
/// A fault without a place has no line and no caret. A tab counts as one column and stays a tab under which the caret
/// line has one too; other characters count one column each; control characters are shown as blanks. A long line is
/// cut around the caret.
std::string text_of(const Fault& fault);

}  // namespace axlewright
