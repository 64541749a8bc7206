#pragma once

#include <string>

#include "engine/ask/start_layouts.h"

// What to read beside the points (docs/measuring.md): optional, so the file has it as comments.

namespace axlewright {

/// The part of the sheet, before the truck is moved: the frame's lean, slopes of the bars that cross the truck.
std::string readings_to_take(const StartLayout& layout, bool inches);

/// What is read with the steering wheel turned: cambers on turn plates.
std::string sweep_to_take();

/// Sections for the end of the truck file, commented out: one reading of each of these kinds, ready to be filled in.
std::string reading_sections(bool inches);

}  // namespace axlewright
