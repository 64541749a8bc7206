#include "engine/output/height_table.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "engine/output/text_table.h"

namespace axlewright {
namespace {

constexpr int kStripWidth = 9;                     // odd, so that it has a middle
constexpr const char* kMark = "\xE2\x97\x8F";      // a filled circle
constexpr const char* kZeroLine = "\xE2\x94\x82";  // an upright line
constexpr int kGap = 2;
constexpr int kLeastHeading = 13;  // "deg per 25 mm" is not torn

int place_in_strip(const StripSpan& span, double value) {
  if (span.right == span.left) return kStripWidth / 2;
  const double share = (value - span.left) / (span.right - span.left);
  return std::clamp(static_cast<int>(std::lround(share * (kStripWidth - 1))), 0, kStripWidth - 1);
}

/// How the numbers of a column, or of several that are held against each other, are written and drawn.
struct Look {
  int decimals = 1;
  std::string side;  ///< told by the heading, not by the cells
  StripSpan span;
};

StripSpan span_of(const ShownQuantity& quantity, const std::string& side,
                  const std::vector<std::optional<double>>& values) {
  double least = std::numeric_limits<double>::infinity(), most = -least;
  for (const std::optional<double>& value : values) {
    if (!value) continue;
    least = std::min(least, *value);
    most = std::max(most, *value);
  }
  if (least > most) return {};
  const bool left_is_positive = quantity.positive == "left";
  const bool magnitudes_of_negatives = !side.empty() && side == quantity.negative;
  const bool turned = quantity.positive == "left" || quantity.positive == "right"
                          ? left_is_positive
                          : magnitudes_of_negatives;
  return turned ? StripSpan{most, least} : StripSpan{least, most};
}

Look look_of(const std::vector<HeightColumn>& columns) {
  const ShownQuantity& quantity = columns.front().quantity;
  std::vector<std::optional<double>> values;
  for (const HeightColumn& column : columns)
    values.insert(values.end(), column.values.begin(), column.values.end());
  Look look;
  look.decimals = decimals_for(quantity, largest_shown(quantity, values));
  look.side = one_side(quantity, values, look.decimals);
  look.span = span_of(quantity, look.side, values);
  // An end that reads 0 is 0: else the last digits of the solver would decide whether zero has its line.
  for (double* end : {&look.span.left, &look.span.right})
    if (rounds_to_zero(quantity, *end, look.decimals)) *end = 0;
  return look;
}

/// Numbers under each other with their points in line, filled to one width.
std::vector<std::string> numbers_of(const HeightColumn& column, const Look& look) {
  std::vector<std::string> cells;
  int before = 0, width = 0;
  for (const std::optional<double>& value : column.values) {
    std::string cell = cell_text(column.quantity, value, look.decimals);
    if (!look.side.empty()) cell = cell.substr(0, cell.find(' '));
    before = std::max(before, width_before_point(cell));
    cells.push_back(std::move(cell));
  }
  for (std::string& cell : cells) {
    cell.insert(0, static_cast<std::size_t>(before - width_before_point(cell)), ' ');
    width = std::max(width, text_width(cell));
  }
  for (std::string& cell : cells) cell = padded_right(cell, width);
  return cells;
}

/// A column ready to be set: its heading and its cells, all within `width`.
struct SetColumn {
  std::vector<std::string> heading, cells;
  int width = 0;
};

SetColumn set_column(const HeightColumn& column, const Look& look) {
  SetColumn set;
  set.cells = numbers_of(column, look);
  for (std::size_t r = 0; r < set.cells.size(); ++r)
    set.cells[r] += ' ' + strip_row(look.span, column.values[r]);
  set.width = std::max(text_width(set.cells.front()), kLeastHeading);
  set.heading = wrapped(column.heading, set.width);
  const std::string unit = column.quantity.unit + (look.side.empty() ? "" : ' ' + look.side);
  for (std::string& line : wrapped(unit, set.width)) set.heading.push_back(std::move(line));
  return set;
}

std::vector<std::string> height_cells(const Json& heights_mm, const ShownQuantity& height) {
  const bool whole = std::all_of(heights_mm.begin(), heights_mm.end(), [&](const Json& mm) {
    return std::abs(mm.get<double>() - std::round(mm.get<double>())) < 0.05;
  });
  const int decimals = height.unit == "mm" && whole ? 0 : decimals_for(height, 0);
  std::vector<std::string> cells;
  for (const Json& mm : heights_mm)
    cells.push_back(number_text(height, mm.get<double>(), decimals));
  return cells;
}

/// How many of the columns from `first` on stand beside each other.
std::size_t fitting(const std::vector<SetColumn>& columns, std::size_t first, int room) {
  std::size_t count = 0;
  for (int width = 0; first + count < columns.size(); ++count) {
    width += kGap + columns[first + count].width;
    if (width > room && count > 0) break;
  }
  return count;
}

/// Evenly: three and three read better than five and one.
std::size_t share_of_next_table(const std::vector<SetColumn>& columns, std::size_t first,
                                int room) {
  std::size_t tables = 1;
  for (std::size_t c = first + fitting(columns, first, room); c < columns.size();
       c += fitting(columns, c, room))
    ++tables;
  const std::size_t share = (columns.size() - first + tables - 1) / tables;
  return std::min(share, fitting(columns, first, room));
}

/// Everything that the tables are made of.
struct SetTables {
  std::vector<std::string> heights;
  std::string height_unit;
  std::vector<SetColumn> columns;
  int room = 0;  ///< for the columns beside the heights

  SetTables(const Page& page, const Json& heights_mm, bool inches,
            const std::vector<HeightColumn>& all, Scale scale) {
    for (const HeightColumn& column : all) {
      const Look look =
          look_of(scale == Scale::one_for_all ? all : std::vector<HeightColumn>{column});
      columns.push_back(set_column(column, look));
    }
    const ShownQuantity height = shown_plain("height", "mm", inches);
    heights = height_cells(heights_mm, height);
    height_unit = height.unit;
    int width = text_width("height");
    for (const std::string& cell : heights) width = std::max(width, text_width(cell));
    room = page.room() - width;
  }
};

void print_table(Page& page, const SetTables& set, std::size_t first, std::size_t count) {
  std::vector<TableColumn> heads{{{"height", set.height_unit}, Alignment::right}};
  for (std::size_t c = first; c < first + count; ++c)
    heads.push_back({set.columns[c].heading, Alignment::left, kGap, set.columns[c].width});
  TextTable table(std::move(heads));
  for (std::size_t r = 0; r < set.heights.size(); ++r) {
    std::vector<TableCell> cells{{set.heights[r]}};
    for (std::size_t c = first; c < first + count; ++c) cells.push_back({set.columns[c].cells[r]});
    table.row(std::move(cells));
  }
  page.table(table);
}

}  // namespace

std::string strip_row(const StripSpan& span, std::optional<double> value) {
  const int mark = value ? place_in_strip(span, *value) : -1;
  const bool has_zero = span.left * span.right <= 0 && span.left != span.right;
  const int zero = has_zero ? place_in_strip(span, 0) : -1;
  std::string row;
  for (int place = 0; place < kStripWidth; ++place)
    row += place == mark ? kMark : place == zero ? kZeroLine : " ";
  return row;
}

bool is_steady(const HeightColumn& column) {
  if (column.values.empty()) return false;
  const int decimals = decimals_for(column.quantity, largest_shown(column.quantity, column.values));
  const auto cell = [&](const std::optional<double>& value) {
    return cell_text(column.quantity, value, decimals);
  };
  const std::string first = cell(column.values.front());
  return std::all_of(
      column.values.begin(), column.values.end(),
      [&](const std::optional<double>& value) { return value && cell(value) == first; });
}

std::string steady_text(const HeightColumn& column) {
  return value_text(column.quantity, *column.values.front());
}

std::string one_side(const ShownQuantity& quantity,
                     const std::vector<std::optional<double>>& values, int decimals) {
  if (!quantity.has_sides()) return "";
  bool positive = false, negative = false;
  for (const std::optional<double>& value : values) {
    if (!value || rounds_to_zero(quantity, *value, decimals)) continue;
    (*value > 0 ? positive : negative) = true;
  }
  if (positive == negative) return "";
  return positive ? quantity.positive : quantity.negative;
}

bool fit_in_one_table(const Page& page, const Json& heights_mm, bool inches,
                      const std::vector<HeightColumn>& columns, Scale scale) {
  const SetTables set(page, heights_mm, inches, columns, scale);
  return fitting(set.columns, 0, set.room) == set.columns.size();
}

bool print_over_heights(Page& page, const Json& heights_mm, bool inches,
                        const std::vector<HeightColumn>& columns, Scale scale) {
  if (columns.empty() || heights_mm.empty()) return false;
  const SetTables set(page, heights_mm, inches, columns, scale);
  for (std::size_t first = 0, count = 0; first < set.columns.size(); first += count) {
    if (first > 0) page.blank();
    count = share_of_next_table(set.columns, first, set.room);
    print_table(page, set, first, count);
  }
  return true;
}

std::string strip_legend() {
  return std::string("Beside each number: ") + kMark +
         " stands between the least and the most of its column, what is left or right on that "
         "side; " +
         kZeroLine + " is zero.";
}

}  // namespace axlewright
