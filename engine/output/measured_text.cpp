#include "engine/output/measured_text.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "engine/base/number.h"
#include "engine/output/answer_parts.h"
#include "engine/output/text_table.h"

namespace axlewright {
namespace {

/// Rows shown of a list that may be long.
constexpr std::size_t kFew = 5;

double misfit_size(const Json& one) {
  return std::abs(number_at(one, "normal").value_or(0));
}

/// What was read, in the file's order; of the coordinates those that miss most.
std::vector<const Json*> rows_of(const Json& readings, bool all) {
  std::vector<const Json*> read, coordinates;
  for (const Json& one : readings)
    (one.value("coordinate", false) ? coordinates : read).push_back(&one);
  if (!all) {
    std::stable_sort(coordinates.begin(), coordinates.end(), [](const Json* a, const Json* b) {
      return misfit_size(*a) > misfit_size(*b);
    });
    coordinates.resize(std::min(coordinates.size(), kFew));
  }
  read.insert(read.end(), coordinates.begin(), coordinates.end());
  return read;
}

/// A number of a row, whichever unit it is in.
std::string number_of(const Json& one, const std::string& key, bool inches) {
  for (const char* unit : {"mm", "deg"}) {
    const auto value = number_at(one, key + '_' + unit);
    if (!value) continue;
    const ShownQuantity shown = shown_plain("", unit, inches);
    // A tape is read closer than a table of heights: one digit more.
    return number_text(shown, *value,
                       shown.unit == "in"   ? 3
                       : shown.unit == "mm" ? 1
                                            : 2) +
           ' ' + shown.unit;
  }
  return "-";
}

void print_readings(Page& page, const Json& measured, bool inches) {
  const std::vector<const Json*> rows = rows_of(measured["readings"], page.style().all);
  if (rows.empty()) return;
  page.heading("What was measured, against the fit");
  TextTable table({{{"", "what"}, Alignment::left, 0, 0, 26},
                   {{"", "measured"}, Alignment::point, 2},
                   {{"", "plus or", "minus"}, Alignment::point, 2},
                   {{"", "fits"}, Alignment::point, 2},
                   {{"misfit, in", "plus_minus"}, Alignment::point, 2}});
  const std::string worst = text_at(measured, "worst");
  for (const Json* one : rows) {
    const auto misfit = number_at(*one, "misfit");
    const bool is_checked = number_at(*one, "checked").value_or(0) > 0;
    const bool is_worst = text_at(*one, "name") == worst;
    table.row({{text_at(*one, "words")},
               {number_of(*one, "value", inches)},
               {number_of(*one, "plus_minus", inches)},
               {number_of(*one, "fitted", inches)},
               {is_checked && misfit ? decimal_text(*misfit, 2, 2) + (is_worst ? " worst" : "")
                                     : "unchecked"}});
  }
  page.table(table);
  const auto left_out = measured["readings"].size() - rows.size();
  if (left_out > 0) {
    page.note(
        fmt::format("Of the coordinates those that miss most; --all shows {} more.", left_out),
        Ink::faint);
  }
}

void print_points(Page& page, const Json& measured, bool inches) {
  std::vector<const Json*> points;
  for (const Json& point : measured["points"]) points.push_back(&point);
  const auto moved = [](const Json* point) { return number_at(*point, "moved_mm").value_or(0); };
  std::stable_sort(points.begin(), points.end(),
                   [&](const Json* a, const Json* b) { return moved(a) > moved(b); });
  if (!page.style().all) points.resize(std::min(points.size(), kFew));
  const ShownQuantity length = shown_plain("", "mm", inches);
  page.heading("Points that the fit moved most", "places in frame axes, " + length.unit);
  TextTable table({{{"", "point"}, Alignment::left, 0, 0, 26},
                   {{"", "moved"}, Alignment::point, 2},
                   {{"", "x, y, z"}, Alignment::left, 2},
                   {{"known within", "x, y, z"}, Alignment::left, 2}});
  const int decimals = length.unit == "in" ? 3 : 1;
  const auto three = [&](const Json& place) {
    std::vector<std::string> numbers;
    for (const Json& number : place)
      numbers.push_back(number_text(length, number.get<double>(), decimals));
    return with_commas(numbers);
  };
  for (const Json* point : points) {
    table.row({{with_blanks(text_at(*point, "name"))},
               {number_text(length, moved(point), decimals)},
               {three((*point)["place_mm"])},
               {three((*point)["plus_minus_mm"])}});
  }
  page.table(table);
}

}  // namespace

void print_measured(Page& page, const Json& answer) {
  const auto measured = answer.find("measured");
  if (measured == answer.end() || measured->is_null()) return;
  print_readings(page, *measured, in_inches(answer));
  print_points(page, *measured, in_inches(answer));
}

}  // namespace axlewright
