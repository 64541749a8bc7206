#pragma once

#include <string>
#include <vector>

namespace axlewright {

/// The lines of a text without their ends, "\n" or "\r\n"; a text that ends in one has an empty last line.
inline std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines(1);
  for (const char c : text) {
    if (c == '\n') {
      lines.emplace_back();
    } else if (c != '\r') {
      lines.back() += c;
    }
  }
  return lines;
}

}  // namespace axlewright
