#include "engine/truck/mirror.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "engine/truck/sections.h"
#include "engine/truck/value.h"

namespace axlewright {

namespace {

constexpr const char* kMirror = "mirror";

/// "lower link, left" -> "lower link, right".
std::string other_side_words(const std::string& words) {
  std::string other;
  for (std::size_t at = 0; at < words.size();) {
    std::size_t end = at;
    while (end < words.size() && words[end] >= 'a' && words[end] <= 'z') ++end;
    const std::string word = words.substr(at, end - at);
    other += word == "left" ? "right" : word == "right" ? "left" : word;
    at = end;
    if (at < words.size()) other += words[at++];
  }
  return other;
}

void turn_names(Node& node) {
  if (node.kind == NodeKind::text) node.text = other_side(node.text);
  for (Node& item : node.items) turn_names(item);
}

/// A place, or a direction of three numbers: its y changes sign.
void turn_vector(Node& node) {
  if (node.kind != NodeKind::array || node.items.size() != 3) return;
  Node& y = node.items[1];
  y.negated = !y.negated;
}

bool is_direction(const Node& node) {
  return node.kind == NodeKind::array && !node.items.empty() &&
         node.items.front().kind == NodeKind::number;
}

Entry mirrored(const Entry& entry) {
  Entry other = entry;
  other.key = other_side(entry.key);
  other.mirror_of = entry.key;
  for (Entry& field : other.value.entries) {
    if (field.key == "words" && field.value.kind == NodeKind::text) {
      field.value.text = other_side_words(field.value.text);
    } else if (field.key == "at" || is_direction(field.value)) {
      if (field.key == "at") turn_names(field.value);
      turn_vector(field.value);
    } else {
      turn_names(field.value);
    }
  }
  return other;
}

/// Takes `mirror` out of the entry; true if it asks for a mirror.
bool take_mirror(Entry& entry, Complaints& complaints) {
  std::vector<Entry>& fields = entry.value.entries;
  const auto field =
      std::find_if(fields.begin(), fields.end(), [](const Entry& f) { return f.key == kMirror; });
  if (field == fields.end()) return false;
  const bool asked = read_yes_no(field->value, kMirror, complaints).value_or(false);
  const TextPlace place = field->key_place;
  fields.erase(field);
  if (asked && other_side(entry.key) == entry.key) {
    complaints.error(place, fmt::format("'{}' has no side to mirror", entry.key),
                     "let the name end in _left or _right");
    return false;
  }
  return asked;
}

void write_section_out(Node& section, Complaints& complaints) {
  std::vector<Entry> all;
  for (Entry& entry : section.entries) {
    const bool asked = take_mirror(entry, complaints);
    all.push_back(std::move(entry));
    if (asked) all.push_back(mirrored(all.back()));
  }
  // What is written itself wins over a mirror, so that the rest of the file is read as meant.
  const auto is_written = [&](const std::string& key) {
    return std::find_if(all.begin(), all.end(), [&](const Entry& entry) {
      return entry.key == key && entry.mirror_of.empty();
    });
  };
  section.entries.clear();
  for (const Entry& entry : all) {
    const auto written = entry.mirror_of.empty() ? all.end() : is_written(entry.key);
    if (written == all.end()) {
      section.entries.push_back(entry);
      continue;
    }
    complaints.error(written->key_place,
                     fmt::format("'{}' is written here and made by the mirror of '{}'", entry.key,
                                 entry.mirror_of),
                     "take one of the two away");
  }
}

}  // namespace

void write_mirrors_out(Node& root, Complaints& complaints) {
  for (Entry& section : root.entries) {
    // A limit has no side of its own: it names its quantity. A reading was made once.
    if (!has_named_entries(section.key) || section.key == "limits" || section.key == "readings")
      continue;
    write_section_out(section.value, complaints);
  }
}

}  // namespace axlewright
