#pragma once

#include <string>

namespace axlewright {

/// `relative` as seen from the folder of `file`: "trucks/guided.toml" and "../kits/a.toml" give "kits/a.toml". A
/// path that begins with a stroke stays. The core has no file system: paths are text, strokes lean forward.
std::string path_from(const std::string& file, const std::string& relative);

/// The file's name without folders and without ".toml".
std::string stem_of(const std::string& path);

}  // namespace axlewright
