#include "apps/serve/truck_path.h"

#include <algorithm>
#include <charconv>
#include <utility>

#include "engine/base/utf8.h"

namespace axlewright {
namespace {

using Failure = tl::unexpected<std::string>;

constexpr std::size_t kMostBytesOfAName = 255;  // as file systems have it
constexpr std::size_t kMostBytes = 1000;

bool is_control(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte < 0x20 || byte == 0x7F;
}

/// In words what is wrong with one name of a path; empty if nothing.
std::string wrong_with(std::string_view name) {
  if (name.empty()) return "a path is names with single slashes between them";
  if (name.front() == '.') return "no name of a path may begin with a dot";
  if (name.size() > kMostBytesOfAName) return "a name of the path is too long";
  if (name.find('\\') != std::string_view::npos) return "a path has slashes, not backslashes";
  if (std::any_of(name.begin(), name.end(), is_control)) return "a path has no control characters";
  return "";
}

std::vector<std::string_view> names_of(std::string_view text) {
  std::vector<std::string_view> names;
  for (std::size_t slash; (slash = text.find('/')) != std::string_view::npos;) {
    names.push_back(text.substr(0, slash));
    text.remove_prefix(slash + 1);
  }
  names.push_back(text);
  return names;
}

}  // namespace

tl::expected<TruckPath, std::string> read_truck_path(std::string_view text) {
  if (text.size() > kMostBytes) return Failure("the path is too long");
  if (!is_utf8(text)) return Failure("the path is not UTF-8");
  const std::vector<std::string_view> names = names_of(text);
  for (const std::string_view name : names) {
    const std::string wrong = wrong_with(name);
    if (!wrong.empty()) return Failure(wrong);
  }
  if (!ends_in_toml(names.back())) return Failure("the name of a truck file ends in .toml");
  if (names.size() > kMostFolders + 1) return Failure("the path leads through too many folders");
  TruckPath path;
  path.folders.assign(names.begin(), names.end() - 1);
  path.name = names.back();
  return path;
}

bool ends_in_toml(std::string_view name) {
  constexpr std::string_view kEnding = ".toml";
  return name.size() >= kEnding.size() && name.substr(name.size() - kEnding.size()) == kEnding;
}

tl::expected<std::string, std::string> percent_decoded(std::string_view text) {
  std::string decoded;
  while (!text.empty()) {
    if (text.front() != '%') {
      decoded += text.front();
      text.remove_prefix(1);
      continue;
    }
    const std::string_view digits = text.substr(1, 2);
    const char* behind = digits.data() + digits.size();
    unsigned byte = 0;
    const auto [end, error] = std::from_chars(digits.data(), behind, byte, 16);
    if (digits.size() != 2 || error != std::errc{} || end != behind)
      return Failure("a % in the address has no two hexadecimal digits behind it");
    decoded += static_cast<char>(byte);
    text.remove_prefix(3);
  }
  return decoded;
}

}  // namespace axlewright
