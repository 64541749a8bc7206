#pragma once

#include <string>
#include <vector>

#include "engine/output/text.h"

namespace axlewright {

/// How the cells of a column stand under each other. `point`: decimal points line up, whatever follows the number.
enum class Alignment { left, right, point };

/// One cell of a table.
struct TableCell {
  std::string text;
  Ink ink = Ink::plain;
};

/// How one column of a table is headed and set.
struct TableColumn {
  std::vector<std::string> heading;  ///< lines; the last one stands right above the cells
  Alignment alignment = Alignment::left;
  int gap = 2;    ///< blanks in front of it, unless it is the first column
  int least = 0;  ///< columns that it takes at least
  int most = 0;   ///< cells wider than this are wrapped; 0: never
};

/// Rows and columns of text. The whole is as wide as it comes: whoever fills it keeps to the page.
class TextTable {
 public:
  explicit TextTable(std::vector<TableColumn> columns) : columns_(std::move(columns)) {}

  /// As many cells as there are columns.
  void row(std::vector<TableCell> cells);
  /// A line of its own over all columns, for the rows under it.
  void span(const std::string& text);

  int width() const;
  bool empty() const { return rows_.empty(); }

  /// Headings and rows, no blanks at the ends.
  std::vector<std::string> lines(bool colour) const;

 private:
  struct Extent {
    int before = 0, after = 0;  ///< of the decimal point; for other alignments all is `after`
    int width = 0;
  };
  Extent extent(std::size_t column) const;
  std::string gap(std::size_t column) const;
  std::vector<std::string> heading_lines(const std::vector<Extent>& extents) const;
  std::string aligned(std::size_t column, const Extent& extent, const std::string& text) const;

  std::vector<TableColumn> columns_;
  /// Lines: a wrapped row is several of them, a span has one cell.
  std::vector<std::vector<TableCell>> rows_;
};

/// Columns of a text in front of its decimal point: "12" of "12.4 left", "-" of "-".
int width_before_point(const std::string& text);

}  // namespace axlewright
