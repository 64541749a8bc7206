#include "engine/output/extreme_text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "engine/base/number.h"
#include "engine/output/answer_parts.h"
#include "engine/output/text_table.h"

namespace axlewright {
namespace {

constexpr int kMostWords = 30;
constexpr int kLeastWords = 12;
constexpr int kSteerDigits = 3;
constexpr std::size_t kColumns = 6;

/// A quantity with the ends of what it comes to.
struct Span {
  ShownQuantity quantity;
  double least = 0, most = 0;
  Json least_at, most_at;  ///< requests
  int decimals = 0;

  std::string least_text() const { return cell_text(quantity, least, decimals); }
  std::string most_text() const { return cell_text(quantity, most, decimals); }
};

std::vector<Span> spans_of(const Json& sweep) {
  std::vector<Span> spans;
  for (const Json& extreme : sweep.value("extremes", Json::array())) {
    const Json* quantity = find_quantity_of(sweep, text_at(extreme, "name"));
    const Json& lowest = extreme["lowest"];
    const Json& highest = extreme["highest"];
    const std::optional<double> least = number_at(lowest, "value");
    const std::optional<double> most = number_at(highest, "value");
    if (quantity == nullptr || !least || !most) continue;
    Span span;
    span.quantity = shown_quantity(*quantity, in_inches(sweep));
    span.least = *least;
    span.most = *most;
    span.least_at = lowest["where"];
    span.most_at = highest["where"];
    span.decimals = decimals_for(span.quantity, largest_shown(span.quantity, {least, most}));
    spans.push_back(std::move(span));
  }
  return spans;
}

/// A number as short as it can be, its sign in words: "4 left", "2.5 right", "-" for none.
std::string short_cell(const ShownQuantity& quantity, double value, int decimals) {
  const std::string text = decimal_text(std::abs(value) * quantity.scale, 0, decimals);
  if (text == "0") return "-";
  return text + ' ' + (value > 0 ? quantity.positive : quantity.negative);
}

std::string steer_cell(const Json& where) {
  const std::optional<double> angle = number_at(where, "steer_deg");
  if (!angle) return text_at(where, "steer_by") == "held" ? "held" : "straight";
  // Beside "straight" and "held" a column of numbers cannot align: the cell does it itself.
  return padded_left(decimal_text(std::abs(*angle), 0, 0), kSteerDigits) +
         (*angle > 0 ? " left" : " right");
}

std::array<TableCell, 4> place_cells(const Json& where, bool inches) {
  const ShownQuantity height = shown_plain("", "mm", inches);
  const ShownQuantity travel = shown_plain("", "mm", inches, "up", "down");
  const ShownQuantity lean = shown_plain("", "deg", inches, "left", "right");
  const int decimals = inches ? 1 : 0;
  return {
      TableCell{number_text(height, number_at(where, "height_mm").value_or(0), decimals)},
      TableCell{short_cell(travel, number_at(where, "travel_mm").value_or(0), decimals)},
      TableCell{short_cell(lean, number_at(where, "lean_deg").value_or(0), 1)},
      TableCell{steer_cell(where)},
  };
}

/// Two rows, least and most; the words in front run on beside both.
void add_rows(TextTable& table, const Span& span, bool inches, int words_width) {
  const std::string unit = span.quantity.unit.empty() ? "" : ", " + span.quantity.unit;
  std::vector<std::string> words = wrapped(span.quantity.words + unit, words_width);
  words.resize(std::max<std::size_t>(words.size(), 2));
  const std::array<std::string, 2> values{span.least_text(), span.most_text()};
  const std::array<const Json*, 2> places{&span.least_at, &span.most_at};
  for (std::size_t k = 0; k < words.size(); ++k) {
    std::vector<TableCell> row{{words[k]}, {k < 2 ? values[k] : ""}};
    if (k < 2) {
      for (TableCell& cell : place_cells(*places[k], inches)) row.push_back(std::move(cell));
    }
    row.resize(kColumns);
    table.row(std::move(row));
  }
}

bool is_steady(const Span& span) {
  return span.least_text() == span.most_text();
}

TextTable table_of(const std::vector<Span>& spans, bool inches, int words_width) {
  const std::string length = shown_plain("", "mm", inches).unit;
  TextTable table({{{"quantity"}},
                   {{"least", "and most"}, Alignment::point},
                   {{"height", length}, Alignment::right},
                   {{"wheels", length}, Alignment::point},
                   {{"side up", "deg"}, Alignment::point},
                   {{"steering", "deg"}}});
  for (const Span& span : spans) {
    if (is_steady(span)) continue;
    add_rows(table, span, inches, words_width);
  }
  return table;
}

}  // namespace

void print_extremes(Page& page, const Json& sweep) {
  const std::vector<Span> spans = spans_of(sweep);
  if (spans.empty()) return;
  page.heading("Least and most", "over the whole grid: height, travel, lean and steering");
  const bool inches = in_inches(sweep);
  int words_width = kMostWords;
  while (words_width > kLeastWords && table_of(spans, inches, words_width).width() > page.room())
    --words_width;
  const TextTable table = table_of(spans, inches, words_width);
  if (!table.empty()) page.table(table);
  std::vector<std::string> steady;
  for (const Span& span : spans) {
    if (is_steady(span))
      steady.push_back(span.quantity.words + ' ' +
                       value_text(span.quantity, span.most, span.decimals));
  }
  if (steady.empty()) return;
  if (!table.empty()) page.blank();
  page.note("The same in every pose: " + with_semicolons(steady) + ".");
}

}  // namespace axlewright
