#include "engine/truck/fault_text.h"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

namespace axlewright {

namespace {

constexpr std::size_t kWidest = 110;

bool continues_code_point(char c) {
  return (static_cast<unsigned char>(c) & 0xC0) == 0x80;
}

/// The line cut into code points, fit to be shown.
std::vector<std::string> code_points(const std::string& line) {
  std::vector<std::string> points;
  for (const char c : line) {
    if (continues_code_point(c) && !points.empty()) {
      points.back() += c;
      continue;
    }
    const auto byte = static_cast<unsigned char>(c);
    const bool control = (byte < 0x20 && c != '\t') || byte == 0x7F;
    points.emplace_back(1, control ? ' ' : c);
  }
  return points;
}

/// The first code point to show, so that the caret is seen.
std::size_t first_shown(std::size_t column, std::size_t count) {
  if (count <= kWidest || column < kWidest * 2 / 3) return 0;
  return std::min(column - kWidest / 3, count - kWidest);
}

std::string excerpt(const Fault& fault) {
  const std::vector<std::string> points = code_points(fault.source_line);
  const std::size_t at =
      std::min(static_cast<std::size_t>(std::max(fault.column, 1) - 1), points.size());
  const std::size_t begin = first_shown(at, points.size());
  const std::size_t end = std::min(points.size(), begin + kWidest);
  std::string line, caret;
  for (std::size_t i = begin; i < end; ++i) {
    line += points[i];
    if (i < at) caret += points[i] == "\t" ? "\t" : " ";
  }
  const std::size_t length = static_cast<std::size_t>(std::max(fault.length, 1));
  const std::size_t shown = std::min(length, end > at ? end - at : 1);
  return fmt::format("  {}\n  {}{}\n", line, caret, std::string(shown, '^'));
}

std::string place(const Fault& fault) {
  std::string text = fault.file;
  if (fault.line > 0) text += fmt::format(":{}:{}", fault.line, fault.column);
  return text.empty() ? text : text + ": ";
}

}  // namespace

std::string text_of(const Fault& fault) {
  const char* severity = fault.severity == Severity::error ? "error" : "warning";
  std::string text = fmt::format("{}{}: {}\n", place(fault), severity, fault.what);
  if (fault.line > 0 && fault.column > 0 && !fault.source_line.empty()) text += excerpt(fault);
  if (!fault.fix.empty()) text += fmt::format("  fix: {}\n", fault.fix);
  return text;
}

}  // namespace axlewright
