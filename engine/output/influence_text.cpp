#include "engine/output/influence_text.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "engine/base/units.h"
#include "engine/output/answer_parts.h"
#include "engine/output/text_table.h"

namespace axlewright {
namespace {

constexpr std::size_t kMostUnasked = 5;

// What a change is told per: one a shop can picture and measure.
constexpr const char* kStepMm = "1 mm";
constexpr const char* kStepInch = "0.1 in";
constexpr double kStepsPerMm = 1;
const double kMmOfTenthInch = to_mm(from_inch(0.1));

std::string way_words(const std::string& coordinate) {
  struct Way {
    const char *coordinate, *words;
  };
  static constexpr std::array<Way, 4> kWays{
      {{"x", "forward"}, {"y", "to the left"}, {"z", "up"}, {"length", "longer"}}};
  for (const Way& way : kWays) {
    if (coordinate == way.coordinate) return way.words;
  }
  return coordinate;
}

std::string who(const Json& influence) {
  const std::string on = with_blanks(text_at(influence, "on"));
  const std::string name = with_blanks(text_at(influence, "name"));
  return on.empty() || text_at(influence, "coordinate") == "length" ? name
                                                                    : name + ", end on the " + on;
}

void print_list(Page& page, const std::string& title, const Json& list,
                const ShownQuantity& quantity, bool inches) {
  if (list.empty()) return;
  const double step = inches ? kMmOfTenthInch : kStepsPerMm;
  std::vector<std::optional<double>> effects;
  for (const Json& influence : list) {
    if (effects.size() == kMostUnasked && !page.style().all) break;
    effects.push_back(number_at(influence, "per_mm").value_or(0) * step);
  }
  const int decimals = std::max(decimals_for(quantity, largest_shown(quantity, effects)), 3);
  TextTable table({{{title}, Alignment::left, 0, 0, 38},
                   {{inches ? kStepInch : kStepMm}},
                   {{quantity.unit}, Alignment::point}});
  for (std::size_t k = 0; k < effects.size(); ++k)
    table.row({{who(list[k])},
               {way_words(text_at(list[k], "coordinate"))},
               {cell_text(quantity, effects[k], decimals)}});
  page.table(table);
}

}  // namespace

void print_points_that_matter(Page& page, const Json& answer) {
  const auto found = answer.find("points_that_matter");
  if (found == answer.end()) return;
  const Json& points = *found;
  const bool inches = in_inches(answer);
  const Json* known = find_quantity_of(answer, text_at(points, "words"), text_at(points, "unit"));
  const ShownQuantity quantity =
      known != nullptr ? shown_quantity(*known, inches)
                       : shown_plain(text_at(points, "words"), text_at(points, "unit"), inches);
  const Json moves = points.value("design_moves", Json::array());
  const Json errors = points.value("build_errors", Json::array());
  if (moves.empty() && errors.empty()) return;
  page.heading("What matters most for: " + quantity.words);
  page.note(fmt::format("Told {}. What {} does:", text_at(points, "place_text"),
                        inches ? "a tenth of an inch" : "one millimetre"));
  page.blank();
  print_list(page, "moved in the drawing, bars cut to fit", moves, quantity, inches);
  page.blank();
  print_list(page, "off when built, bars as drawn", errors, quantity, inches);
}

}  // namespace axlewright
