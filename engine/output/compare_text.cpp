#include "engine/output/compare_text.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "engine/output/answer_parts.h"
#include "engine/output/height_table.h"
#include "engine/output/sweep_text.h"
#include "engine/output/text_table.h"

namespace axlewright {
namespace {

constexpr int kTruckWidth = 12;         // of a truck's name in a heading
constexpr int kLeastWords = 17;         // of what a row is about
constexpr std::size_t kMostCurves = 4;  // quantities shown over height unasked
constexpr double kSameHeight = 1e-6;    // mm

std::string truck_name(const Json& truck) {
  return text_at(truck, "truck");
}

/// Rows of a table with a column for each of some trucks.
struct TruckRows {
  std::string title;
  std::vector<std::string> words;  ///< what each row is about
  std::vector<std::vector<TableCell>>
      cells;  ///< by row, then by truck; none: the words head the rows below
  Alignment alignment = Alignment::left;
};

TextTable table_of(const TruckRows& rows, const Json& trucks, std::size_t first, std::size_t count,
                   int words_width) {
  std::vector<TableColumn> columns{
      {wrapped(rows.title, words_width), Alignment::left, 0, 0, words_width}};
  for (std::size_t t = first; t < first + count; ++t)
    columns.push_back({wrapped(truck_name(trucks[t]), kTruckWidth), rows.alignment});
  TextTable table(std::move(columns));
  for (std::size_t r = 0; r < rows.words.size(); ++r) {
    if (rows.cells[r].empty()) {
      table.span(rows.words[r]);
      continue;
    }
    std::vector<TableCell> row{{rows.words[r]}};
    for (std::size_t t = first; t < first + count; ++t) row.push_back(rows.cells[r][t]);
    table.row(std::move(row));
  }
  return table;
}

/// As many trucks beside each other as the page takes; the words in front take what they leave.
void print_rows(Page& page, const TruckRows& rows, const Json& trucks) {
  for (std::size_t first = 0, count = 0; first < trucks.size(); first += count) {
    if (first > 0) page.blank();
    count = trucks.size() - first;
    const auto fits = [&](int words_width) {
      return table_of(rows, trucks, first, count, words_width).width() <= page.room();
    };
    while (count > 1 && !fits(kLeastWords)) --count;
    int words_width = page.room();
    while (words_width > kLeastWords && !fits(words_width)) --words_width;
    page.table(table_of(rows, trucks, first, count, words_width));
  }
}

/// "bump steer" and "over the heights" of "bump steer, over the heights".
struct SplitWords {
  std::string what, over;
};

SplitWords split_words(const std::string& words) {
  const std::size_t at = words.rfind(", over ");
  if (at == std::string::npos) return {words, ""};
  return {words.substr(0, at), words.substr(at + 2)};
}

std::vector<TableCell> comparison_cells(const Json& one, const ShownQuantity& quantity) {
  std::vector<std::optional<double>> worst;
  for (const Json& value : one["worst"])
    worst.push_back(value.is_number() ? std::optional<double>(value.get<double>()) : std::nullopt);
  // Four trucks are to stand beside each other: two decimals tell them apart well enough.
  const int decimals = std::min(decimals_for(quantity, largest_shown(quantity, worst)), 2);
  const Json best = one.value("best", Json::array());
  std::vector<TableCell> cells;
  for (std::size_t t = 0; t < worst.size(); ++t) {
    const bool is_best = std::find(best.begin(), best.end(), Json(t)) != best.end();
    cells.push_back({cell_text(quantity, worst[t], decimals) + (is_best ? "*" : ""),
                     is_best ? Ink::strong : Ink::plain});
  }
  return cells;
}

void print_comparison(Page& page, const Json& answer) {
  // What is told over the same poses stands together.
  std::vector<std::string> kinds;
  for (const Json& one : answer["comparison"]) {
    const std::string over = split_words(text_at(one, "words")).over;
    if (std::find(kinds.begin(), kinds.end(), over) == kinds.end()) kinds.push_back(over);
  }
  TruckRows rows;
  rows.title = "worst of each truck";
  rows.alignment = Alignment::point;
  for (const std::string& over : kinds) {
    rows.words.push_back(over.empty() ? "otherwise:" : over + ":");
    rows.cells.emplace_back();
    for (const Json& one : answer["comparison"]) {
      const SplitWords words = split_words(text_at(one, "words"));
      if (words.over != over) continue;
      const ShownQuantity quantity = shown_quantity(one, in_inches(answer));
      rows.words.push_back(words.what + (quantity.unit.empty() ? "" : ", " + quantity.unit));
      rows.cells.push_back(comparison_cells(one, quantity));
    }
  }
  page.heading("Side by side", "* the least of its row");
  print_rows(page, rows, answer["trucks"]);
}

/// The names of the limits of all trucks, in the order in which they are first met.
std::vector<std::string> limit_names(const Json& trucks) {
  std::vector<std::string> names;
  for (const Json& truck : trucks) {
    for (const Json& limit : truck.value("limits", Json::array())) {
      const std::string name = text_at(limit, "name");
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    }
  }
  return names;
}

TableCell limit_cell(const Json& truck, const std::string& name) {
  for (const Json& limit : truck.value("limits", Json::array())) {
    if (text_at(limit, "name") != name) continue;
    const std::string verdict = text_at(limit, "verdict");
    if (verdict == "broken") return {"! broken", Ink::alarm};
    if (verdict == "not reached") return {"? not reached", Ink::alarm};
    return {"  " + verdict};
  }
  return {"  not set", Ink::faint};
}

void print_limit_board(Page& page, const Json& trucks) {
  TruckRows rows;
  rows.title = "limit of the file";
  rows.words = limit_names(trucks);
  if (rows.words.empty()) return;
  for (std::string& name : rows.words) {
    std::vector<TableCell> cells;
    for (const Json& truck : trucks) cells.push_back(limit_cell(truck, name));
    rows.cells.push_back(std::move(cells));
    name = with_blanks(name);
  }
  page.heading("Limits met and broken");
  print_rows(page, rows, trucks);
  const std::vector<std::string> not_checked = texts_at(trucks.front(), "not_checked");
  if (!not_checked.empty()) page.note("Not checked: " + with_commas(not_checked) + ".");
}

bool same_heights(const Json& a, const Json& b) {
  return a.size() == b.size() &&
         std::equal(a.begin(), a.end(), b.begin(), [](const Json& x, const Json& y) {
           return std::abs(x.get<double>() - y.get<double>()) < kSameHeight;
         });
}

/// Trucks that were asked at the same heights can share a table.
std::vector<std::vector<const Json*>> by_heights(const Json& trucks) {
  std::vector<std::vector<const Json*>> groups;
  for (const Json& truck : trucks) {
    const auto group = std::find_if(groups.begin(), groups.end(), [&](const auto& g) {
      return same_heights(heights_of(*g.front()), heights_of(truck));
    });
    if (group == groups.end()) {
      groups.push_back({&truck});
    } else {
      group->push_back(&truck);
    }
  }
  return groups;
}

/// What the comparison is about, each once, as far as a height has it.
std::vector<std::string> curve_names(const Json& answer) {
  std::vector<std::string> names;
  for (const Json& one : answer["comparison"]) {
    const std::string name = text_at(one, "name");
    const bool known = find_quantity_of(answer["trucks"].front(), name) != nullptr;
    if (known && std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  return names;
}

HeightColumn curve_of(const Json& truck, const std::string& name, bool inches) {
  const Json* quantity = find_quantity_of(truck, name);
  return {truck_name(truck),
          quantity == nullptr ? shown_plain(name, "", inches) : shown_quantity(*quantity, inches),
          values_over_heights(truck, name)};
}

void note_steady(Page& page, const std::vector<HeightColumn>& columns) {
  if (columns.empty()) return;
  std::string text;
  for (const HeightColumn& column : columns)
    text += (text.empty() ? "" : "; ") + column.heading + ": " + steady_text(column);
  page.note("The same at every height: " + text + ".");
}

/// One quantity of trucks that share their heights. Where there is not room for all, those that stand still are told in words.
void print_curve_of(Page& page, const std::string& name, bool inches,
                    const std::vector<const Json*>& trucks) {
  std::vector<HeightColumn> columns, steady;
  for (const Json* truck : trucks) {
    columns.push_back(curve_of(*truck, name, inches));
    steady.push_back(without_refused_heights(*truck, columns.back()));
  }
  const Json heights = heights_of(*trucks.front());
  const bool fit = fit_in_one_table(page, heights, inches, columns, Scale::one_for_all);
  if (!fit || std::all_of(steady.begin(), steady.end(), is_steady)) {
    for (std::size_t k = columns.size(); k-- > 0;) {
      std::vector<HeightColumn>& from = is_steady(steady[k]) ? columns : steady;
      from.erase(from.begin() + static_cast<long>(k));
    }
    note_steady(page, steady);
    if (!columns.empty() && !steady.empty()) page.blank();
  }
  print_over_heights(page, heights, inches, columns, Scale::one_for_all);
}

void print_curve(Page& page, const std::string& name, bool inches,
                 const std::vector<std::vector<const Json*>>& groups) {
  const HeightColumn first = curve_of(*groups.front().front(), name, inches);
  page.heading("Over height: " + first.quantity.words, "going straight");
  for (const std::vector<const Json*>& group : groups) {
    if (&group != &groups.front()) page.blank();
    print_curve_of(page, name, inches, group);
  }
}

void print_curves(Page& page, const Json& answer) {
  const std::vector<std::vector<const Json*>> groups = by_heights(answer["trucks"]);
  const bool inches = in_inches(answer);
  std::size_t shown = 0;
  for (const std::string& name : curve_names(answer)) {
    if (shown++ == kMostCurves && !page.style().all) break;
    print_curve(page, name, inches, groups);
  }
  page.blank();
  page.note(strip_legend() + " All trucks of a table have the same strip.", Ink::faint);
}

void print_trucks(Page& page, const Json& answer) {
  page.heading(counted(answer["trucks"].size(), "truck", "trucks") + " raised side by side");
  for (const Json& truck : answer["trucks"])
    page.item("\xC2\xB7 ", truck_name(truck) + " (" + text_at(truck, "file") + ")", 2);
}

}  // namespace

void print_compare(Page& page, const Json& answer) {
  print_trucks(page, answer);
  for (const std::string& sentence : texts_at(answer, "story")) print_sentence(page, sentence);
  if (answer["trucks"].empty()) return;
  print_comparison(page, answer);
  print_limit_board(page, answer["trucks"]);
  print_curves(page, answer);
  for (const Json& truck : answer["trucks"]) print_warnings(page, truck);
  print_cautions(page, answer);
}

}  // namespace axlewright
