#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace axlewright {

/// Bytes of the UTF-8 sequence at the start of `text`; 0 if it is none. Overlong forms, surrogates and what lies
/// beyond U+10FFFF are none, nor is the empty text.
inline std::size_t utf8_sequence_length(std::string_view text) {
  const auto byte = [&](std::size_t i) {
    return i < text.size() ? static_cast<unsigned char>(text[i]) : 0u;
  };
  const auto continues = [&](std::size_t i) { return (byte(i) & 0xC0u) == 0x80u; };
  const unsigned first = byte(0);
  if (text.empty()) return 0;
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first <= 0xDF) return continues(1) ? 2 : 0;
  if (first >= 0xE0 && first <= 0xEF) {
    const bool overlong = first == 0xE0 && byte(1) < 0xA0;
    const bool surrogate = first == 0xED && byte(1) >= 0xA0;
    return continues(1) && continues(2) && !overlong && !surrogate ? 3 : 0;
  }
  if (first >= 0xF0 && first <= 0xF4) {
    const bool overlong = first == 0xF0 && byte(1) < 0x90;
    const bool beyond = first == 0xF4 && byte(1) >= 0x90;
    return continues(1) && continues(2) && continues(3) && !overlong && !beyond ? 4 : 0;
  }
  return 0;
}

inline bool is_utf8(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = utf8_sequence_length(text);
    if (length == 0) return false;
    text.remove_prefix(length);
  }
  return true;
}

/// The text with each byte that belongs to no sequence turned into U+FFFD, so that it can be shown and sent.
inline std::string valid_utf8(std::string_view text) {
  std::string valid;
  while (!text.empty()) {
    const std::size_t length = utf8_sequence_length(text);
    valid += length > 0 ? text.substr(0, length) : std::string_view("\xEF\xBF\xBD");
    text.remove_prefix(length > 0 ? length : 1);
  }
  return valid;
}

/// Code points of a text that is UTF-8.
inline int count_code_points(std::string_view text) {
  int count = 0;
  for (const char c : text) count += (static_cast<unsigned char>(c) & 0xC0) != 0x80 ? 1 : 0;
  return count;
}

}  // namespace axlewright
