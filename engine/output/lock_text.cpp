#include "engine/output/lock_text.h"

#include <array>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "engine/base/number.h"
#include "engine/output/answer_parts.h"
#include "engine/output/height_table.h"
#include "engine/output/text_table.h"

namespace axlewright {
namespace {

constexpr int kStopWidth = 16;
constexpr std::array<const char*, 2> kWays{"left", "right"};

/// A column of the table: what of a side, and how it is shown.
struct LockColumn {
  std::string key;
  std::vector<std::string> heading;
  ShownQuantity quantity;
};

ShownQuantity circle(bool inches) {
  ShownQuantity shown = shown_plain("", "mm", inches);
  // Turning circles are spoken of in metres and feet.
  shown.unit = inches ? "ft" : "m";
  shown.scale *= inches ? 1.0 / 12 : 1e-3;
  return shown;
}

ShownQuantity ackermann(bool inches) {
  return shown_plain("", "deg", inches, "too much", "too little");
}

std::vector<LockColumn> lock_columns(bool inches) {
  const ShownQuantity plain = shown_plain("", "deg", inches);
  const ShownQuantity round = circle(inches);
  return {{"steering_wheel_deg", {"steering", "wheel", "deg"}, plain},
          {"outer_deg", {"outer", "wheel", "deg"}, plain},
          {"inner_deg", {"inner", "wheel", "deg"}, plain},
          {"turning_circle_mm", {"turning", "circle", round.unit}, round},
          {"ackermann_error_deg", {"Ackermann", "error", "deg"}, ackermann(inches)}};
}

/// What else is told of the same turns.
std::vector<LockColumn> more_lock_columns(bool inches) {
  const ShownQuantity plain = shown_plain("", "deg", inches);
  const ShownQuantity round = circle(inches);
  return {{"pitman_deg", {"pitman", "arm", "deg"}, plain},
          {"mean_steer_deg", {"mean", "steer", "deg"}, plain},
          {"kerb_circle_mm", {"kerb", "circle", round.unit}, round},
          {"ackermann_error_20_deg",
           {"Ackermann error", "where the outer", "has turned 20", "deg"},
           ackermann(inches)},
          {"steering_ratio", {"steering", "ratio", "to 1"}, shown_plain("", "to 1", inches)}};
}

/// Both sides at all heights, in the order of the rows.
std::vector<std::optional<double>> values_of(const Json& locks, const LockColumn& column) {
  std::vector<std::optional<double>> values;
  for (const Json& lock : locks) {
    for (const char* way : kWays) {
      std::optional<double> value = number_at(lock[way], column.key);
      // Angles are told as magnitudes: which way is told beside them.
      if (value && !column.quantity.has_sides()) value = std::abs(*value);
      values.push_back(value);
    }
  }
  return values;
}

/// A column's cells, its side moved to its heading if it has but one.
std::vector<std::string> cells_of(const Json& locks, LockColumn& column) {
  const std::vector<std::optional<double>> values = values_of(locks, column);
  const int decimals = column.quantity.unit == "deg" ? 1 : 2;
  const std::string side = one_side(column.quantity, values, decimals);
  if (!side.empty()) column.heading.push_back(side);
  std::vector<std::string> cells;
  for (const std::optional<double>& value : values) {
    const std::string cell = cell_text(column.quantity, value, decimals);
    cells.push_back(side.empty() ? cell : cell.substr(0, cell.find(' ')));
  }
  return cells;
}

std::string height_text(const Json& lock, bool inches) {
  const ShownQuantity height = shown_plain("", "mm", inches);
  return number_text(height, number_at(lock, "height_mm").value_or(0), inches ? 1 : 0) + ' ' +
         height.unit;
}

void print_turns(Page& page, const Json& locks, bool inches) {
  std::vector<std::string> parts;
  for (const Json& lock : locks) {
    const std::optional<double> turns = number_at(lock, "turns");
    if (turns)
      parts.push_back(
          fmt::format("{} turns at {}", decimal_text(*turns, 2, 2), height_text(lock, inches)));
  }
  if (!parts.empty()) page.note("Lock to lock: " + listed(parts) + ".");
}

TableCell stop_cell(const Json& side) {
  const std::string stop = text_at(side, "stop");
  return {side.value("reached", false) ? stop : "no stop: " + stop};
}

void print_lock_table(Page& page, const Json& locks, std::vector<LockColumn> columns, bool inches,
                      bool with_stops) {
  std::vector<TableColumn> heads{{{"height"}, Alignment::right}, {{"turned"}}};
  std::vector<std::vector<std::string>> cells;
  for (LockColumn& column : columns) {
    cells.push_back(cells_of(locks, column));
    heads.push_back({column.heading, Alignment::point});
  }
  if (with_stops) heads.push_back({{"what stops it"}, Alignment::left, 2, 0, kStopWidth});
  TextTable table(std::move(heads));
  std::size_t r = 0;
  for (const Json& lock : locks) {
    for (const char* way : kWays) {
      std::vector<TableCell> row{{height_text(lock, inches)}, {way}};
      for (const std::vector<std::string>& column : cells) row.push_back({column[r]});
      if (with_stops) row.push_back(stop_cell(lock[way]));
      table.row(std::move(row));
      ++r;
    }
  }
  page.table(table);
}

}  // namespace

void print_locks(Page& page, const Json& answer) {
  const auto locks = answer.find("locks");
  if (locks == answer.end() || locks->empty()) return;
  const bool inches = in_inches(answer);
  page.heading("Turned to the first stop", "from straight ahead, without travel or lean");
  print_lock_table(page, *locks, lock_columns(inches), inches, true);
  print_turns(page, *locks, inches);
  if (!page.style().all) return;
  page.blank();
  print_lock_table(page, *locks, more_lock_columns(inches), inches, false);
}

}  // namespace axlewright
