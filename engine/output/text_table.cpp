#include "engine/output/text_table.h"

#include <algorithm>
#include <utility>

#include "engine/base/invariant.h"

namespace axlewright {

int width_before_point(const std::string& text) {
  const std::size_t number = text.find_first_not_of("+-0123456789");
  return text_width(std::string_view(text).substr(0, number));
}

void TextTable::row(std::vector<TableCell> cells) {
  AXLEWRIGHT_INVARIANT(cells.size() == columns_.size());
  std::vector<std::vector<TableCell>> lines(1, std::vector<TableCell>(cells.size()));
  for (std::size_t c = 0; c < cells.size(); ++c) {
    const std::vector<std::string> parts = columns_[c].most > 0
                                               ? wrapped(cells[c].text, columns_[c].most)
                                               : std::vector<std::string>{cells[c].text};
    if (parts.size() > lines.size())
      lines.resize(parts.size(), std::vector<TableCell>(cells.size()));
    for (std::size_t l = 0; l < parts.size(); ++l) lines[l][c] = {parts[l], cells[c].ink};
  }
  rows_.insert(rows_.end(), lines.begin(), lines.end());
}

TextTable::Extent TextTable::extent(std::size_t column) const {
  Extent extent;
  const TableColumn& c = columns_[column];
  for (const std::vector<TableCell>& row : rows_) {
    if (row.size() != columns_.size()) continue;
    const std::string& text = row[column].text;
    const int before = c.alignment == Alignment::point ? width_before_point(text) : 0;
    extent.before = std::max(extent.before, before);
    extent.after = std::max(extent.after, text_width(text) - before);
  }
  extent.width = std::max(extent.before + extent.after, c.least);
  for (const std::string& heading : c.heading)
    extent.width = std::max(extent.width, text_width(heading));
  return extent;
}

void TextTable::span(const std::string& text) {
  rows_.push_back({{text, Ink::strong}});
}

int TextTable::width() const {
  int width = 0;
  for (std::size_t c = 0; c < columns_.size(); ++c)
    width += (c == 0 ? 0 : columns_[c].gap) + extent(c).width;
  return width;
}

std::string TextTable::aligned(std::size_t column, const Extent& extent,
                               const std::string& text) const {
  switch (columns_[column].alignment) {
    case Alignment::left:
      return padded_right(text, extent.width);
    case Alignment::right:
      return padded_left(text, extent.width);
    case Alignment::point:
      break;
  }
  const int front = extent.before - width_before_point(text);
  return padded_right(std::string(static_cast<std::size_t>(front), ' ') + text, extent.width);
}

std::string TextTable::gap(std::size_t column) const {
  return std::string(static_cast<std::size_t>(column == 0 ? 0 : columns_[column].gap), ' ');
}

std::vector<std::string> TextTable::heading_lines(const std::vector<Extent>& extents) const {
  std::size_t tall = 0;
  for (const TableColumn& column : columns_) tall = std::max(tall, column.heading.size());
  std::vector<std::string> lines(tall);
  for (std::size_t l = 0; l < tall; ++l) {
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      const std::vector<std::string>& heading = columns_[c].heading;
      // Short headings stand at the bottom, right above the numbers.
      const std::size_t above = tall - heading.size();
      const std::string text = l < above ? "" : heading[l - above];
      lines[l] += gap(c) + (columns_[c].alignment == Alignment::right
                                ? padded_left(text, extents[c].width)
                                : padded_right(text, extents[c].width));
    }
  }
  return lines;
}

std::vector<std::string> TextTable::lines(bool colour) const {
  std::vector<Extent> extents;
  for (std::size_t c = 0; c < columns_.size(); ++c) extents.push_back(extent(c));
  std::vector<std::string> lines = heading_lines(extents);
  for (const std::vector<TableCell>& row : rows_) {
    std::string line;
    if (row.size() != columns_.size()) line = inked(row[0].text, row[0].ink, colour);
    for (std::size_t c = 0; c < columns_.size() && row.size() == columns_.size(); ++c)
      line += gap(c) + inked(aligned(c, extents[c], row[c].text), row[c].ink, colour);
    lines.push_back(std::move(line));
  }
  for (std::string& line : lines) line.erase(line.find_last_not_of(' ') + 1);
  return lines;
}

}  // namespace axlewright
