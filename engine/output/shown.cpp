#include "engine/output/shown.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include "engine/base/number.h"
#include "engine/base/units.h"

namespace axlewright {
namespace {

/// An answer's unit, and how it is shown.
struct ShownUnit {
  std::string_view unit;
  std::string_view metric, inch;
  double inch_scale;
  int decimals;  ///< of the metric form
  int inch_decimals;
  double coarse_from;  ///< from here on one decimal less
};

constexpr double kNever = 1e300;

const std::array<ShownUnit, 6>& shown_units() {
  static const std::array<ShownUnit, 6> units{{
      {"mm", "mm", "in", to_inch(from_mm(1)), 1, 2, kNever},
      {"deg", "deg", "deg", 1, 2, 2, 10},
      {"deg per 25 mm", "deg per 25 mm", "deg per inch", kMetresPerInch / kBump, 3, 3, 10},
      {"deg per deg", "deg per deg", "deg per deg", 1, 3, 3, 10},
      {"to 1", "to 1", "to 1", 1, 2, 2, kNever},
      {"turns", "turns", "turns", 1, 2, 2, kNever},
  }};
  return units;
}

const ShownUnit* find_unit(std::string_view unit) {
  for (const ShownUnit& one : shown_units()) {
    if (one.unit == unit || one.metric == unit || one.inch == unit) return &one;
  }
  return nullptr;
}

/// "to the left" is "left" in a cell.
std::string short_side(std::string side) {
  static constexpr std::string_view kFront = "to the ";
  static constexpr std::string_view kEnd = " the road";
  if (side.rfind(kFront, 0) == 0) side.erase(0, kFront.size());
  if (side.size() > kEnd.size() && side.compare(side.size() - kEnd.size(), kEnd.size(), kEnd) == 0)
    side.erase(side.size() - kEnd.size());
  return side;
}

}  // namespace

bool in_inches(const Json& answer) {
  return text_at(answer, "units") == "inch";
}

ShownQuantity shown_quantity(const Json& quantity, bool inches) {
  ShownQuantity shown;
  shown.name = text_at(quantity, "name");
  shown.words = text_at(quantity, "words");
  shown.unit = text_at(quantity, "unit");
  shown.positive = short_side(text_at(quantity, "positive"));
  shown.negative = short_side(text_at(quantity, "negative"));
  const ShownUnit* unit = find_unit(shown.unit);
  if (inches && unit != nullptr) {
    shown.unit = unit->inch;
    shown.scale = unit->inch_scale;
  }
  return shown;
}

ShownQuantity shown_plain(const std::string& words, const std::string& unit, bool inches,
                          const std::string& positive, const std::string& negative) {
  return shown_quantity(Json{{"name", words},
                             {"words", words},
                             {"unit", unit},
                             {"positive", positive},
                             {"negative", negative}},
                        inches);
}

std::optional<double> number_at(const Json& values, const std::string& name) {
  const auto found = values.find(name);
  if (found == values.end() || !found->is_number()) return std::nullopt;
  return found->get<double>();
}

std::string text_at(const Json& object, const std::string& name) {
  const auto found = object.find(name);
  return found != object.end() && found->is_string() ? found->get<std::string>() : "";
}

std::vector<std::string> texts_at(const Json& object, const std::string& name) {
  std::vector<std::string> texts;
  const auto found = object.find(name);
  if (found == object.end()) return texts;
  if (found->is_string() && !found->get<std::string>().empty())
    texts.push_back(found->get<std::string>());
  if (!found->is_array()) return texts;
  for (const Json& entry : *found)
    texts.push_back(entry.is_string() ? entry.get<std::string>() : text_at(entry, "text"));
  return texts;
}

int decimals_for(const ShownQuantity& quantity, double largest) {
  const ShownUnit* unit = find_unit(quantity.unit);
  if (unit == nullptr) return 2;
  const int decimals = quantity.unit == unit->metric ? unit->decimals : unit->inch_decimals;
  return std::abs(largest) >= unit->coarse_from ? decimals - 1 : decimals;
}

double largest_shown(const ShownQuantity& quantity,
                     const std::vector<std::optional<double>>& values) {
  double largest = 0;
  for (const std::optional<double>& value : values)
    largest = std::max(largest, std::abs(value.value_or(0) * quantity.scale));
  return largest;
}

std::string number_text(const ShownQuantity& quantity, double value, int decimals) {
  return decimal_text(value * quantity.scale, decimals, decimals);
}

bool rounds_to_zero(const ShownQuantity& quantity, double value, int decimals) {
  return number_text(quantity, value, decimals).find_first_of("123456789") == std::string::npos;
}

std::string cell_text(const ShownQuantity& quantity, std::optional<double> value, int decimals) {
  if (!value) return "-";
  if (!quantity.has_sides() || rounds_to_zero(quantity, *value, decimals))
    return number_text(quantity, *value, decimals);
  return number_text(quantity, std::abs(*value), decimals) + ' ' +
         (*value > 0 ? quantity.positive : quantity.negative);
}

std::string value_text(const ShownQuantity& quantity, double value, int decimals) {
  std::string cell = cell_text(quantity, value, decimals);
  if (quantity.unit.empty()) return cell;
  const std::size_t blank = std::min(cell.find(' '), cell.size());
  return cell.substr(0, blank) + ' ' + quantity.unit + cell.substr(blank);
}

std::string value_text(const ShownQuantity& quantity, double value) {
  return value_text(quantity, value, decimals_for(quantity, value * quantity.scale));
}

}  // namespace axlewright
