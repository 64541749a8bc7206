#include "engine/base/number.h"

#include <cmath>
#include <system_error>

#include <fast_float/fast_float.h>
#include <fmt/format.h>

namespace axlewright {

namespace {

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

}  // namespace

std::optional<NumberPrefix> read_number_prefix(std::string_view text) {
  // The library also takes signs, "inf" and "nan": a digit or a point must come first here.
  const bool begins = !text.empty() && (is_digit(text[0]) ||
                                        (text[0] == '.' && text.size() > 1 && is_digit(text[1])));
  if (!begins) return std::nullopt;
  double value = 0;
  const char* end = text.data() + text.size();
  const auto [stop, fault] = fast_float::from_chars(text.data(), end, value);
  // It reports no overflow: a number too large comes back infinite.
  if (fault != std::errc() || !std::isfinite(value)) return std::nullopt;
  return NumberPrefix{value, static_cast<std::size_t>(stop - text.data())};
}

std::optional<double> read_number(std::string_view text) {
  const bool negative = !text.empty() && text[0] == '-';
  if (negative || (!text.empty() && text[0] == '+')) text.remove_prefix(1);
  const std::optional<NumberPrefix> number = read_number_prefix(text);
  if (!number || number->length != text.size()) return std::nullopt;
  return negative ? -number->value : number->value;
}

std::string decimal_text(double value, int least, int most) {
  std::string text = fmt::format("{:.{}f}", value, most);
  const std::size_t point = text.find('.');
  if (point != std::string::npos) {
    const std::size_t shortest = point + 1 + static_cast<std::size_t>(least);
    while (text.size() > shortest && text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
  }
  if (text.find_first_not_of("-0.") == std::string::npos && text[0] == '-') text.erase(0, 1);
  return text;
}

}  // namespace axlewright
