#pragma once

#include <functional>
#include <string>

#include "engine/base/result.h"
#include "engine/truck/truck.h"

namespace axlewright {

/// Hands out the text of a file by the path that `based_on` spells, already joined to the folder of the file that
/// names it; nothing if it cannot be had. The core itself opens no file.
using TextOf = std::function<tl::expected<std::string, std::string>(const std::string& path)>;

/// One change on top of what the files say, as `--set point.z=+10mm` spells it (docs/truck-file.md, Settings). In faults
/// the settings are a file called "--set" whose lines they are: the third one stands in line 3.
struct Setting {
  std::string text;
};

/// Reads a truck file with its layers, and kits on top of them: each wins over what lies below it, and the file keeps its name and unit. Gives the truck, or every error and warning found, errors first, then in
/// the order of files and lines. A truck without errors carries its warnings.
Result<Truck> read_truck(const std::string& path, const TextOf& text_of,
                         const std::vector<Setting>& settings = {},
                         const std::vector<std::string>& kits = {});

}  // namespace axlewright
