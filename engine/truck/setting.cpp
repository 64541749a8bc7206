#include "engine/truck/setting.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "engine/base/number.h"
#include "engine/base/units.h"
#include "engine/base/utf8.h"
#include "engine/truck/ranges.h"
#include "engine/truck/sections.h"

namespace axlewright {

namespace {

constexpr const char* kForm =
    "write POINT.z=+10mm, parts.NAME.length=902 or truck.aligned_height=50";

std::vector<std::string> split(const std::string& text) {
  std::vector<std::string> parts;
  std::size_t begin = 0;
  while (true) {
    const std::size_t dot = text.find('.', begin);
    parts.push_back(text.substr(begin, dot - begin));
    if (dot == std::string::npos) return parts;
    begin = dot + 1;
  }
}

std::string trimmed(const std::string& text) {
  const std::size_t begin = text.find_first_not_of(" \t");
  if (begin == std::string::npos) return {};
  return text.substr(begin, text.find_last_not_of(" \t") - begin + 1);
}

Node value_node(const std::string& text, BareUnit unit, const TextPlace& place) {
  Node node;
  node.place = place;
  node.unit = unit;
  if (const auto number = read_number(text)) {
    node.kind = NodeKind::number;
    node.number = *number;
  } else if (text == "true" || text == "false") {
    node.kind = NodeKind::boolean;
    node.boolean = text == "true";
  } else {
    node.kind = NodeKind::text;
    node.text = text;
  }
  return node;
}

int coordinate_of(const std::string& key) {
  return key == "x" ? 0 : key == "y" ? 1 : key == "z" ? 2 : -1;
}

bool is_section(const std::string& name) {
  const std::vector<std::string>& known = known_sections();
  return std::find(known.begin(), known.end(), name) != known.end();
}

/// Fills in what is set; false if the path is none.
bool parse_path(const std::vector<std::string>& path, ParsedSetting& parsed) {
  const auto is_empty = [](const std::string& part) { return part.empty(); };
  if (std::any_of(path.begin(), path.end(), is_empty)) return false;
  if (path.size() == 2 && is_section(path[0]) && !has_named_entries(path[0])) {
    parsed.section = path[0];
    parsed.key = path[1];
  } else if (path.size() == 2 && coordinate_of(path[1]) >= 0) {
    parsed.section = "points";
    parsed.name = path[0];
    parsed.key = path[1];
  } else if (path.size() == 3 && has_named_entries(path[0])) {
    parsed.section = path[0];
    parsed.name = path[1];
    parsed.key = path[2];
  } else {
    return false;
  }
  if (parsed.section == "points") parsed.coordinate = coordinate_of(parsed.key);
  if (parsed.coordinate >= 0) parsed.key.clear();
  return true;
}

Entry* find_entry(Node& table, const std::string& key) {
  for (Entry& entry : table.entries) {
    if (entry.key == key) return &entry;
  }
  return nullptr;
}

void put(Node& table, const ParsedSetting& setting) {
  if (Node* old = find(table, setting.key)) {
    *old = setting.value;
  } else {
    table.entries.push_back({setting.key, setting.target, setting.value, {}});
  }
}

void set_coordinate(Node& point, const ParsedSetting& setting, Complaints& complaints) {
  Node* at = find(point, "at");
  // A point without a good place is complained of when it is read.
  if (at == nullptr || at->kind != NodeKind::array || at->items.size() != 3) return;
  Node& item = at->items[static_cast<std::size_t>(setting.coordinate)];
  const std::optional<double> metres = new_coordinate(setting, item, complaints);
  if (!metres) return;
  item = setting.value;
  item.kind = NodeKind::number;
  item.number = setting.value.unit == BareUnit::inch ? to_inch(*metres) : to_mm(*metres);
}

void complain_of_entry(const ParsedSetting& setting, const Node& section, Complaints& complaints) {
  const Entry* other = find_entry(const_cast<Node&>(section), other_side(setting.name));
  if (other != nullptr && find(other->value, "mirror") != nullptr) {
    complaints.error(setting.target,
                     fmt::format("'{}' is made by the mirror of '{}'", setting.name, other->key),
                     fmt::format("set '{}': the mirror follows", other->key));
    return;
  }
  complaints.error(setting.target, fmt::format("[{}] has no '{}'", setting.section, setting.name),
                   fix_for_name(setting.name, keys(section), "name an entry that the files give"));
}

void apply(Layered& layered, const ParsedSetting& setting, Complaints& complaints) {
  Entry* section = find_entry(layered.root, setting.section);
  if (section == nullptr) {
    layered.root.entries.push_back({setting.section, setting.target, Node{}, {}});
    section = &layered.root.entries.back();
  }
  if (setting.name.empty()) {
    put(section->value, setting);
    return;
  }
  Entry* entry = find_entry(section->value, setting.name);
  if (entry == nullptr || entry->value.kind != NodeKind::table) {
    complain_of_entry(setting, section->value, complaints);
  } else if (setting.coordinate >= 0) {
    set_coordinate(entry->value, setting, complaints);
  } else {
    put(entry->value, setting);
  }
}

}  // namespace

std::optional<ParsedSetting> parse_setting(const Setting& setting, int line, BareUnit unit,
                                           Complaints& complaints) {
  const std::string& text = setting.text;
  const std::size_t equals = text.find('=');
  const TextPlace whole{kSettingsFile, line, 1, std::max(1, count_code_points(valid_utf8(text)))};
  if (!is_utf8(text)) {
    complaints.error(whole, "the setting is not UTF-8",
                     "names and units are a to z; " + std::string(kForm));
    return std::nullopt;
  }
  if (equals == std::string::npos) {
    complaints.error(whole, "the setting has no '='", kForm);
    return std::nullopt;
  }
  ParsedSetting parsed;
  const std::string path = trimmed(text.substr(0, equals));
  parsed.target = {kSettingsFile, line, 1, std::max(1, count_code_points(path))};
  parsed.target_words = path;
  if (!parse_path(split(path), parsed)) {
    complaints.error(parsed.target, fmt::format("'{}' is nothing that can be set", path), kForm);
    return std::nullopt;
  }
  const bool exact = equals + 1 < text.size() && text[equals + 1] == '=';
  const std::size_t begin = equals + (exact ? 2 : 1);
  const std::string value = trimmed(text.substr(begin));
  const std::size_t blanks = value.empty() ? 0 : text.substr(begin).find(value);
  const TextPlace place{kSettingsFile, line, count_code_points(text.substr(0, begin + blanks)) + 1,
                        std::max(1, count_code_points(value))};
  if (value.empty()) {
    complaints.error(whole, "the setting has no value", kForm);
    return std::nullopt;
  }
  parsed.value_words = value;
  parsed.value = value_node(value, unit, place);
  parsed.relative = parsed.coordinate >= 0 && !exact && (value[0] == '+' || value[0] == '-');
  return parsed;
}

std::optional<double> new_coordinate(const ParsedSetting& setting, const Node& before,
                                     Complaints& complaints) {
  static const char* const kAxes[] = {"x", "y", "z"};
  const auto value =
      read_length(setting.value, kAxes[setting.coordinate], ranges::kCoordinate, complaints);
  if (!value || !setting.relative) return value;
  const auto base = read_length(before, kAxes[setting.coordinate], ranges::kCoordinate, complaints);
  return base ? std::optional<double>(*base + *value) : std::nullopt;
}

void add_settings_source(const std::vector<Setting>& settings, Sources& sources) {
  std::string lines;
  for (const Setting& setting : settings) {
    std::string line = setting.text;
    std::replace(line.begin(), line.end(), '\n', ' ');
    lines += line + "\n";
  }
  sources.add(kSettingsFile, lines);
}

void apply_settings(Layered& layered, const std::vector<Setting>& settings, Sources& sources,
                    Complaints& complaints) {
  add_settings_source(settings, sources);
  for (std::size_t i = 0; i < settings.size(); ++i) {
    const auto parsed =
        parse_setting(settings[i], static_cast<int>(i) + 1, layered.unit, complaints);
    if (parsed) apply(layered, *parsed, complaints);
  }
}

}  // namespace axlewright
