#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/truck/complaints.h"
#include "engine/truck/layers.h"
#include "engine/truck/read.h"

namespace axlewright {

/// The name that faults give to settings: a file whose lines are the settings in order.
inline constexpr const char* kSettingsFile = "--set";

/// One setting, taken apart: "points.NAME.z=+10mm".
struct ParsedSetting {
  std::string section;       ///< "points"
  std::string name;          ///< of the entry; empty in sections without named entries
  std::string key;           ///< "length"; empty for a coordinate
  int coordinate = -1;       ///< 0, 1, 2 for x, y, z of a point
  bool relative = false;     ///< a coordinate with a sign in front: add to what the files say
  Node value;                ///< text, number or boolean; its place is in the setting
  std::string target_words;  ///< what is spelled before the equals sign
  std::string value_words;   ///< and behind it
  TextPlace target;          ///< of what is spelled before the equals sign
};

/// Takes a setting apart. Nothing after a complaint. `unit`: what its bare lengths mean.
std::optional<ParsedSetting> parse_setting(const Setting& setting, int line, BareUnit unit,
                                           Complaints& complaints);

/// Applies settings to the merged file, before mirrors are written out. A bad one is complained of.
void apply_settings(Layered& layered, const std::vector<Setting>& settings, Sources& sources,
                    Complaints& complaints);

/// The coordinate in metre that the setting gives to a value that stands at `before` now; nothing after a complaint.
std::optional<double> new_coordinate(const ParsedSetting& setting, const Node& before,
                                     Complaints& complaints);

/// Makes the settings known as a file, so that faults can show them.
void add_settings_source(const std::vector<Setting>& settings, Sources& sources);

}  // namespace axlewright
