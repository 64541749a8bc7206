#include "engine/truck/merge.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "engine/truck/sections.h"

namespace axlewright {

namespace {

std::vector<Entry>::iterator find_entry(Node& table, const std::string& key) {
  return std::find_if(table.entries.begin(), table.entries.end(),
                      [&](const Entry& entry) { return entry.key == key; });
}

void put(Node& table, const Entry& entry) {
  const auto old = find_entry(table, entry.key);
  if (old == table.entries.end()) {
    table.entries.push_back(entry);
  } else {
    *old = entry;
  }
}

void add_layer(Node& root, const Layer& layer) {
  for (const Entry& section : layer.sections.entries) {
    const auto old = find_entry(root, section.key);
    if (old == root.entries.end()) {
      root.entries.push_back(section);
    } else {
      for (const Entry& entry : section.value.entries) put(old->value, entry);
    }
  }
}

std::vector<std::string> removable(const Node& root) {
  std::vector<std::string> paths;
  for (const Entry& section : root.entries) {
    for (const Entry& entry : section.value.entries) paths.push_back(section.key + "." + entry.key);
  }
  return paths;
}

void remove_one(Node& root, const Node& what, Complaints& complaints) {
  const std::size_t dot = what.text.find('.');
  const std::string section = what.text.substr(0, dot);
  const std::string name = dot == std::string::npos ? "" : what.text.substr(dot + 1);
  const auto table = find_entry(root, section);
  if (table != root.entries.end() && dot == std::string::npos) {
    root.entries.erase(table);
    return;
  }
  if (table != root.entries.end()) {
    std::vector<Entry>& entries = table->value.entries;
    const auto entry = find_entry(table->value, name);
    if (entry != entries.end()) {
      entries.erase(entry);
      return;
    }
    if (!name.empty() && find_entry(table->value, other_side(name)) != entries.end()) {
      complaints.error(
          what.place,
          fmt::format("no layer below writes '{}' itself: a mirror makes it", what.text),
          fmt::format("remove '{}.{}'", section, other_side(name)));
      return;
    }
  }
  complaints.error(what.place, fmt::format("no layer below gives '{}'", what.text),
                   fix_for_name(what.text, removable(root),
                                "write SECTION.NAME or SECTION as a layer below gives it"));
}

}  // namespace

Node merge_layers(const std::vector<Layer>& layers, Complaints& complaints) {
  Node root;
  for (const Layer& layer : layers) {
    for (const Node& what : layer.remove) remove_one(root, what, complaints);
    add_layer(root, layer);
  }
  return root;
}

}  // namespace axlewright
