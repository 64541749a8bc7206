#include "engine/truck/bare_value.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/base/quantity_text.h"

namespace axlewright {

namespace {

constexpr std::size_t kLongestShown = 60;

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

bool is_control(char c) {
  return static_cast<unsigned char>(c) < 0x20 || c == 0x7F;
}

std::string_view without_sign(std::string_view text) {
  const bool sign = !text.empty() && (text[0] == '+' || text[0] == '-');
  return sign ? text.substr(1) : text;
}

/// Takes digits off the front, with single underscores between them; false if there are none.
bool take_digits(std::string_view& text) {
  std::size_t end = 0;
  while (end < text.size() &&
         (is_digit(text[end]) || (end > 0 && text[end] == '_' && text[end - 1] != '_')))
    ++end;
  if (end > 0 && text[end - 1] == '_') return false;
  text.remove_prefix(end);
  return end > 0;
}

bool is_decimal_number(std::string_view text) {
  text = without_sign(text);
  if (text.size() > 1 && text[0] == '0' && is_digit(text[1])) return false;
  if (!take_digits(text)) return false;
  if (!text.empty() && text[0] == '.') {
    text.remove_prefix(1);
    if (!take_digits(text)) return false;
  }
  if (!text.empty() && (text[0] == 'e' || text[0] == 'E')) {
    text = without_sign(text.substr(1));
    if (!take_digits(text)) return false;
  }
  return text.empty();
}

bool is_number_with_base(std::string_view text) {
  const std::string_view base = text.substr(0, 2);
  if (base != "0x" && base != "0o" && base != "0b") return false;
  const auto fits = [](char c) { return is_digit(c) || is_letter(c) || c == '_'; };
  return text.size() > 2 && std::all_of(text.begin() + 2, text.end(), fits);
}

bool is_date_or_time(std::string_view text) {
  const auto has = [&](std::size_t at, char c) { return at < text.size() && text[at] == c; };
  return !text.empty() && is_digit(text[0]) && ((has(4, '-') && has(7, '-')) || has(2, ':'));
}

/// Bytes of "10,5" at the start of the text, sign and all; 0 if it begins otherwise.
std::size_t decimal_comma_length(std::string_view text) {
  std::string_view rest = without_sign(text);
  if (!take_digits(rest) || rest.empty() || rest[0] != ',') return 0;
  rest.remove_prefix(1);
  return take_digits(rest) ? text.size() - rest.size() : 0;
}

std::optional<BareSlip> slip_with_comma(std::string_view value) {
  const std::size_t length = decimal_comma_length(value);
  const std::string_view rest = value.substr(length);
  if (length > 0 && rest.find(',') == std::string_view::npos) {
    std::string number(value.substr(0, length));
    std::replace(number.begin(), number.end(), ',', '.');
    const std::string right =
        rest.empty() ? number : fmt::format("\"{}{}\", in quotes", number, rest);
    return BareSlip{"a comma stands in the number", "write the decimal point as a point: " + right};
  }
  const char first = without_sign(value).empty() ? ' ' : without_sign(value)[0];
  if (!is_digit(first) || value.size() > kLongestShown) return std::nullopt;
  return BareSlip{"a list stands without brackets", fmt::format("write [{}]", value)};
}

std::optional<BareSlip> slip_at_point(std::string_view value) {
  const std::string_view digits = without_sign(value);
  const std::string sign(value.substr(0, value.size() - digits.size()));
  if (digits.size() < 2 || digits.size() > kLongestShown) return std::nullopt;
  const bool first = digits.front() == '.', last = digits.back() == '.';
  const std::string_view others = first ? digits.substr(1) : digits.substr(0, digits.size() - 1);
  if (first == last || !std::all_of(others.begin(), others.end(), is_digit)) return std::nullopt;
  if (first)
    return BareSlip{"a number begins with its point", fmt::format("write {}0.{}", sign, others)};
  return BareSlip{"a number ends with its point", fmt::format("write {}{}", sign, others)};
}

BareSlip slip_of_text(std::string_view value) {
  std::string small(value);
  for (char& c : small) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  const bool yes = small == "true" || small == "yes", no = small == "false" || small == "no";
  if (yes || no)
    return {fmt::format("'{}' is neither true nor false", value),
            yes ? "write true" : "write false"};
  // A quote that ends it has lost the one in front.
  while (!value.empty() && (value.back() == '"' || value.back() == '\'')) value.remove_suffix(1);
  return {"text stands without quotes", fix_in_quotes(value)};
}

}  // namespace

bool is_toml_scalar(std::string_view value) {
  const std::string_view word = without_sign(value);
  return value == "true" || value == "false" || word == "inf" || word == "nan" ||
         is_decimal_number(value) || is_number_with_base(value) || is_date_or_time(value);
}

std::string fix_in_quotes(std::string_view text) {
  const bool shown = !text.empty() && text.size() <= kLongestShown &&
                     std::none_of(text.begin(), text.end(), is_control) &&
                     text.find('\\') == std::string_view::npos;
  const bool has_double = text.find('"') != std::string_view::npos;
  const bool has_single = text.find('\'') != std::string_view::npos;
  if (!shown || (has_double && has_single)) return "put a quote at each end of the text: \"...\"";
  return fmt::format("write {0}{1}{0}", has_double ? '\'' : '"', text);
}

std::optional<BareSlip> slip_of_bare(std::string_view value) {
  if (value.empty() || std::any_of(value.begin(), value.end(), is_control)) return std::nullopt;
  if (is_letter(value[0]) || value[0] == '?') return slip_of_text(value);
  if (value.find(',') != std::string_view::npos) return slip_with_comma(value);
  if (read_quantity(value))
    return BareSlip{"a number with a unit stands without quotes", fix_in_quotes(value)};
  const std::string in_inches = std::string(value) + " in";
  if (value.find('/') != std::string_view::npos && read_quantity(in_inches))
    return BareSlip{"a fraction stands without a unit and quotes", fix_in_quotes(in_inches)};
  return slip_at_point(value);
}

}  // namespace axlewright
