#include "engine/truck/key_kinds.h"

#include <algorithm>
#include <initializer_list>
#include <string_view>

#include "engine/truck/quantity_keys.h"

namespace axlewright {

namespace {

bool is_one_of(std::string_view key, std::initializer_list<std::string_view> keys) {
  return std::find(keys.begin(), keys.end(), key) != keys.end();
}

KeyKind kind_of_bound(const ParsedSetting& setting, const Node& document) {
  const Node* limits = find(document, "limits");
  const Node* limit = limits != nullptr ? find(*limits, setting.name) : nullptr;
  const Node* quantity = limit != nullptr ? find(*limit, "quantity") : nullptr;
  if (quantity == nullptr) return KeyKind::words;
  std::string subject;
  const QuantityKey* known = find_quantity(quantity->text, subject);
  if (known == nullptr) return KeyKind::words;
  if (known->unit == QuantityUnit::length) return KeyKind::length;
  return known->unit == QuantityUnit::angle || known->unit == QuantityUnit::angle_per_bump
             ? KeyKind::angle
             : KeyKind::plain;
}

/// Lengths and heights are lengths, all else that is read are angles.
KeyKind kind_of_reading(const ParsedSetting& setting, const Node& document) {
  const Node* readings = find(document, "readings");
  const Node* reading = readings != nullptr ? find(*readings, setting.name) : nullptr;
  const Node* kind = reading != nullptr ? find(*reading, "kind") : nullptr;
  if (kind == nullptr) return KeyKind::words;
  return is_one_of(kind->text, {"length", "height"}) ? KeyKind::length : KeyKind::angle;
}

}  // namespace

KeyKind kind_of(const ParsedSetting& setting, const Node& document) {
  if (setting.coordinate >= 0) return KeyKind::length;
  if (setting.section == "readings" && (setting.key == "value" || setting.key == "plus_minus"))
    return kind_of_reading(setting, document);
  const std::string& key = setting.key;
  if (is_one_of(key, {"length", "sleeve", "plus_minus", "wheelbase", "aligned_height",
                      "aligned_rear_height", "tolerance", "loaded_radius", "section", "bump",
                      "droop", "plumbed_at", "holes_plus_minus"})) {
    return KeyKind::length;
  }
  if (is_one_of(key, {"rake", "thrust_angle", "lean", "steering", "toe_in", "camber", "stop_left",
                      "stop_right", "as_found", "turn_left", "turn_right", "largest_tilt"})) {
    return KeyKind::angle;
  }
  if (key == "ratio") return KeyKind::plain;
  if (setting.section == "limits" && (key == "min" || key == "max"))
    return kind_of_bound(setting, document);
  return KeyKind::words;
}

}  // namespace axlewright
