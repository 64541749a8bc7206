#include "engine/output/setup_text.h"

#include <algorithm>
#include <utility>

#include "engine/output/answer_parts.h"
#include "engine/output/height_table.h"

namespace axlewright {
namespace {

/// The story; what is to be turned, one bar a line, right where the story tells it.
void print_setup_story(Page& page, const Json& answer) {
  const std::vector<std::string> turns = texts_at(answer, "adjustments");
  for (const std::string& sentence : texts_at(answer, "story")) {
    const bool is_turn = std::any_of(turns.begin(), turns.end(), [&](const std::string& turn) {
      return sentence.rfind(turn, 0) == 0;
    });
    if (is_turn) {
      page.item("\xC2\xB7 ", sentence, 2);
    } else {
      print_sentence(page, sentence);
    }
  }
}

HeightColumn column_of(const Json& answer, const std::string& heading, const std::string& key,
                       const std::string& unit) {
  HeightColumn column{
      heading, shown_plain(key, unit, in_inches(answer), "to the left", "to the right"), {}};
  for (const Json& row : answer["rows"]) column.values.push_back(number_at(row, key));
  return column;
}

/// Before and after, side by side, or what is where there is nothing to set; in words where none changes with height.
/// Whether a strip was drawn.
bool print_pair(Page& page, const Json& answer, const std::string& title, const std::string& before,
                const std::string& after, const std::string& unit) {
  Json heights = Json::array();
  for (const Json& row : answer["rows"]) heights.push_back(row["height_mm"]);
  std::vector<HeightColumn> columns = {column_of(answer, "as it is now", before, unit)};
  if (!answer.value("adjustments", Json::array()).empty())
    columns.push_back(column_of(answer, "set up so", after, unit));
  page.heading(title, "over height, going straight");
  if (std::all_of(columns.begin(), columns.end(), is_steady)) {
    std::vector<std::string> told;
    for (const HeightColumn& column : columns)
      told.push_back(column.heading + ' ' + steady_text(column));
    page.note("The same at every height: " + with_commas(told) + ".");
    return false;
  }
  return print_over_heights(page, heights, in_inches(answer), columns, Scale::one_for_all);
}

void print_before_and_after(Page& page, const Json& answer) {
  const auto rows = answer.find("rows");
  if (rows == answer.end() || rows->empty()) return;
  const bool wheel = print_pair(page, answer, "Steering wheel from its centre", "wheel_before_deg",
                                "wheel_after_deg", "deg");
  const bool axle = print_pair(page, answer, "Axle from the middle of the frame", "walk_before_mm",
                               "walk_after_mm", "mm");
  if (!wheel && !axle) return;
  page.blank();
  page.note(strip_legend(), Ink::faint);
}

}  // namespace

void print_setup(Page& page, const Json& answer) {
  const ShownQuantity height = shown_plain("", "mm", in_inches(answer));
  print_title(page, answer,
              "centred at height " +
                  number_text(height, number_at(answer, "height_mm").value_or(0),
                              height.unit == "mm" ? 0 : 1) +
                  ' ' + height.unit);
  print_setup_story(page, answer);
  print_before_and_after(page, answer);
  print_warnings(page, answer);
  print_cautions(page, answer);
}

}  // namespace axlewright
