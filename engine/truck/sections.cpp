#include "engine/truck/sections.h"

#include <algorithm>
#include <string_view>

namespace axlewright {

namespace {

bool ends_with(std::string_view text, std::string_view end) {
  return text.size() >= end.size() && text.substr(text.size() - end.size()) == end;
}

bool is_word_at(std::string_view name, std::size_t at, std::string_view word) {
  if (name.substr(at, word.size()) != word) return false;
  const std::size_t end = at + word.size();
  return end == name.size() || name[end] == '_';
}

}  // namespace

const std::vector<std::string>& known_sections() {
  static const std::vector<std::string> sections{
      "truck",       "points", "bodies",     "parts",  "joints",   "studs",    "bushes", "wheels",
      "rear_wheels", "gear",   "axle_stops", "travel", "measured", "readings", "limits"};
  return sections;
}

bool has_named_entries(const std::string& section) {
  return section == "points" || section == "bodies" || section == "parts" || section == "joints" ||
         section == "studs" || section == "bushes" || section == "readings" || section == "limits";
}

bool is_name(const std::string& name) {
  return !name.empty() && std::all_of(name.begin(), name.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
  });
}

std::string other_side(const std::string& name) {
  std::string other;
  for (std::size_t at = 0; at < name.size();) {
    if (is_word_at(name, at, "_left")) {
      other += "_right";
      at += 5;
    } else if (is_word_at(name, at, "_right")) {
      other += "_left";
      at += 6;
    } else {
      other += name[at++];
    }
  }
  return other;
}

int side_of(const std::string& name) {
  if (ends_with(name, "_left")) return 1;
  return ends_with(name, "_right") ? -1 : 0;
}

}  // namespace axlewright
