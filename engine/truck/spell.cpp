#include "engine/truck/spell.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/base/number.h"

namespace axlewright {

namespace {

constexpr int kFinest = 10;

/// Sixteenths and their like; empty if the number is none.
std::string fraction_text(double number) {
  const double whole = std::floor(number);
  int bottom = 64;
  int top = static_cast<int>(std::lround((number - whole) * bottom));
  const bool exact = std::abs(number - whole - static_cast<double>(top) / bottom) < 1e-9;
  if (!exact || top == 0 || top == bottom) return {};
  while (top % 2 == 0) {
    top /= 2;
    bottom /= 2;
  }
  return whole == 0 ? fmt::format("{}/{}", top, bottom)
                    : fmt::format("{:.0f} {}/{}", whole, top, bottom);
}

std::string term_text(double number, const QuantityTerm& term, const std::string& old, int wanted) {
  if (term.fraction) {
    std::string fraction = fraction_text(number);
    if (!fraction.empty()) return fraction;
    return decimal_text(number, 0, std::clamp(wanted, term.unit->decimals, kFinest));
  }
  return respelled_number(number, old, term.unit->decimals, wanted);
}

}  // namespace

std::string quoted(const std::string& text) {
  std::string spelled = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      spelled += '\\';
      spelled += c;
    } else if (byte < 0x20 || byte == 0x7F) {
      spelled += fmt::format("\\u{:04X}", static_cast<unsigned>(byte));
    } else {
      spelled += c;
    }
  }
  return spelled + "\"";
}

int decimals_of(const std::string& spelled) {
  const std::size_t point = spelled.find('.');
  if (point == std::string::npos) return 0;
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  const auto begin = spelled.begin() + static_cast<std::ptrdiff_t>(point) + 1;
  return static_cast<int>(std::find_if_not(begin, spelled.end(), is_digit) - begin);
}

std::string respelled_number(double value, const std::string& old, int most, int wanted) {
  const int before = decimals_of(old);
  // A number that was spelled to the last digit a shop can use keeps its look; a computed one does not ask for that.
  const int least = before <= most ? before : 0;
  const int finest = std::min(std::max({most, before, wanted}), kFinest);
  return decimal_text(value, least, finest);
}

std::string respelled_quantity(double value, const std::string& old, const Quantity& quantity,
                               int wanted) {
  const QuantityTerm& last = quantity.terms.back();
  const std::string sign = value < 0                                      ? "-"
                           : quantity.explicit_sign && !quantity.negative ? "+"
                                                                          : "";
  // Counted in the smallest unit and rounded there, so that 59.9999 min becomes one degree and not 60 min.
  const double scale = std::pow(10.0, std::clamp(wanted, last.unit->decimals, kFinest));
  double rest = std::round(std::abs(value) / last.unit->size * scale) / scale;
  std::string text;
  std::size_t copied = old.find_first_not_of(" \t");
  text += old.substr(0, copied) + sign;
  copied = quantity.terms.front().number_begin;
  for (const QuantityTerm& term : quantity.terms) {
    const bool is_last = &term == &last;
    const double in_rest = std::round(term.unit->size / last.unit->size);
    double number = is_last ? rest : std::floor(rest / in_rest + 1e-12);
    rest = is_last ? 0 : std::max(0.0, rest - number * in_rest);
    const std::string before = old.substr(term.number_begin, term.number_end - term.number_begin);
    text +=
        old.substr(copied, term.number_begin - copied) + term_text(number, term, before, wanted);
    copied = term.number_end;
  }
  return text + old.substr(copied);
}

}  // namespace axlewright
