#pragma once

#include <string>
#include <vector>

#include "engine/base/result.h"
#include "engine/truck/read.h"

namespace axlewright {

/// Writes settings into the text of a truck file. Of each value that is set, only the bytes that spell it change:
/// comments, layout, line ends and everything else stay as they are. A value written with its unit keeps that unit;
/// numbers are rounded to what a shop can use (0.001 mm, 0.0001 in or deg), or finer if the file or the setting is.
///
///   text     the file as it is; it need not be a whole truck, a layer will do
///   path     its name for faults, and where `based_on` counts from
///   text_of  to tell in which layer an entry lives that is not in this file; may be empty
/// Gives the new text, already parsed again and compared: nothing but the values set has changed. Or every fault: a
/// bad setting (file "--set"), or an entry that is not written in this file but in a layer or by a mirror.
Result<std::string> edit_text(const std::string& text, const std::string& path,
                              const std::vector<Setting>& settings, const TextOf& text_of = {});

/// A file before and after its settings were written.
struct EditedFile {
  std::string file, before, after;
};

/// Writes each setting into the file, of a truck file and its layers, in which its value stands, as edit_text() does. Bare
/// lengths count in the unit of the truck file itself. Gives the files that were looked into, changed or not, in the order of the
/// settings; or every fault.
Result<std::vector<EditedFile>> edit_files(const std::string& path,
                                           const std::vector<Setting>& settings,
                                           const TextOf& text_of);

}  // namespace axlewright
