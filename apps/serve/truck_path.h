#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

namespace axlewright {

/// The place of a truck file below a folder: "kits/keeper.toml". Made by read_truck_path alone, so it leads nowhere else as
/// long as no name on its way is a link.
struct TruckPath {
  std::vector<std::string> folders;  ///< from the outside in
  std::string name;                  ///< ends in ".toml"
};

/// Folders within folders, at most.
inline constexpr std::size_t kMostFolders = 16;

/// Takes a path apart. In words what is wrong: no name is empty, longer than 255 bytes or begins with a dot (so there is no
/// ".."), none has a backslash or a control character, all are UTF-8, and the last ends in ".toml".
tl::expected<TruckPath, std::string> read_truck_path(std::string_view text);

bool ends_in_toml(std::string_view name);

/// What %41 and the like stand for. In words what is wrong with it.
tl::expected<std::string, std::string> percent_decoded(std::string_view text);

}  // namespace axlewright
