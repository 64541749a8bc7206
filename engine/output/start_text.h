#pragma once

#include <string>

#include "engine/output/shown.h"
#include "engine/output/text.h"

namespace axlewright {

/// The answer to `start`, once its two files are written: what to do with them.
///   truck_file, sheet_file   as the person can type them
void print_start(Page& page, const Json& answer, const std::string& truck_file,
                 const std::string& sheet_file);

}  // namespace axlewright
