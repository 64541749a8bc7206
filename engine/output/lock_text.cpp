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

std::vector<LockColumn> lock_columns(bool inches) {
  const ShownQuantity plain = shown_plain("", "deg", inches);
  const ShownQuantity error = shown_plain("", "deg", inches, "too much", "too little");
  const ShownQuantity round = circle(inches);
  std::vector<LockColumn> columns = {
      {"steering_wheel_deg", {"steering", "wheel", "deg"}, plain},
      {"outer_deg", {"outer", "wheel", "deg"}, plain},
      {"inner_deg", {"inner", "wheel", "deg"}, plain},
      {"turning_circle_mm", {"turning", "circle", round.unit}, round},
  };
  columns.push_back({"ackermann_error_deg", {"Ackermann", "error", "deg"}, error});
  return columns;
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

void print_kerb_circles(Page& page, const Json& locks, bool inches) {
  const ShownQuantity round = circle(inches);
  std::vector<std::string> parts;
  for (const Json& lock : locks) {
    for (const char* way : kWays) {
      const std::optional<double> across = number_at(lock[way], "kerb_circle_mm");
      if (across)
        parts.push_back(fmt::format("{} {} turned {} at {}", number_text(round, *across, 2),
                                    round.unit, way, height_text(lock, inches)));
    }
  }
  if (!parts.empty()) page.note("Kerb to kerb: " + listed(parts) + ".");
}

}  // namespace

void print_locks(Page& page, const Json& answer) {
  const auto locks = answer.find("locks");
  if (locks == answer.end() || locks->empty()) return;
  const bool inches = in_inches(answer);
  page.heading("Turned to the first stop", "from straight ahead, without travel or lean");
  std::vector<LockColumn> columns = lock_columns(inches);
  std::vector<TableColumn> heads{{{"height"}, Alignment::right}, {{"turned"}}};
  std::vector<std::vector<std::string>> cells;
  for (LockColumn& column : columns) {
    cells.push_back(cells_of(*locks, column));
    heads.push_back({column.heading, Alignment::point});
  }
  heads.push_back({{"what stops it"}, Alignment::left, 2, 0, kStopWidth});
  TextTable table(std::move(heads));
  std::size_t r = 0;
  for (const Json& lock : *locks) {
    for (const char* way : kWays) {
      std::vector<TableCell> row{{height_text(lock, inches)}, {way}};
      for (const std::vector<std::string>& column : cells) row.push_back({column[r]});
      const std::string stop = text_at(lock[way], "stop");
      row.push_back({lock[way].value("reached", false) ? stop : "no stop: " + stop});
      table.row(std::move(row));
      ++r;
    }
  }
  page.table(table);
  print_turns(page, *locks, inches);
  if (page.style().all) print_kerb_circles(page, *locks, inches);
}

}  // namespace axlewright
