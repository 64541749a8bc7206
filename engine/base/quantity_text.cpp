#include "engine/base/quantity_text.h"

#include <array>
#include <cmath>
#include <iterator>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "engine/base/did_you_mean.h"
#include "engine/base/number.h"
#include "engine/base/units.h"

namespace axlewright {

namespace {

constexpr double kTurn = 360 * kRadiansPerDegree;

constexpr Unit kMillimetre{"mm", UnitKind::length, 1e-3, 3};
constexpr Unit kCentimetre{"cm", UnitKind::length, 1e-2, 4};
constexpr Unit kMetre{"m", UnitKind::length, 1.0, 6};
constexpr Unit kInch{"in", UnitKind::length, kMetresPerInch, 4};
constexpr Unit kFoot{"ft", UnitKind::length, 12 * kMetresPerInch, 5};
constexpr Unit kDegree{"deg", UnitKind::angle, kRadiansPerDegree, 4};
constexpr Unit kMinute{"min", UnitKind::angle, kRadiansPerDegree / 60, 2};
constexpr Unit kRadian{"rad", UnitKind::angle, 1.0, 6};
constexpr Unit kTurns{"turns", UnitKind::angle, kTurn, 6};

struct Spelling {
  std::string_view text;
  const Unit* unit;
};

constexpr std::array<Spelling, 22> kSpellings{{
    {"mm", &kMillimetre}, {"cm", &kCentimetre},  {"m", &kMetre},       {"in", &kInch},
    {"inch", &kInch},     {"inches", &kInch},    {"\"", &kInch},       {"ft", &kFoot},
    {"foot", &kFoot},     {"feet", &kFoot},      {"'", &kFoot},        {"deg", &kDegree},
    {"degree", &kDegree}, {"degrees", &kDegree}, {"\u00b0", &kDegree}, {"min", &kMinute},
    {"minute", &kMinute}, {"minutes", &kMinute}, {"rad", &kRadian},    {"turn", &kTurns},
    {"turns", &kTurns},   {"\u2032", &kMinute},
}};

const Unit* unit_spelled(std::string_view text) {
  for (const Spelling& spelling : kSpellings) {
    if (spelling.text == text) return spelling.unit;
  }
  return nullptr;
}

constexpr const char* kUnitsFix =
    "write a length in mm, cm, m, in or ft, or an angle in deg, min, rad or turns";

bool is_blank(char c) {
  return c == ' ' || c == '\t';
}
bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool starts_number(char c) {
  return is_digit(c) || c == '.';
}

/// Walks the text term by term; stops at the first fault.
class QuantityReader {
 public:
  explicit QuantityReader(std::string_view text) : text_(text) {}

  tl::expected<Quantity, QuantityFault> read() {
    skip_blanks();
    read_sign();
    skip_blanks();
    if (at_end())
      return fault("there is no number", "write a number and its unit, such as \"902 mm\"");
    while (!at_end()) {
      if (auto bad = read_term()) return tl::unexpected<QuantityFault>(std::move(*bad));
      skip_blanks();
    }
    return finish();
  }

 private:
  bool at_end() const { return at_ >= text_.size(); }
  void skip_blanks() {
    while (!at_end() && is_blank(text_[at_])) ++at_;
  }

  void read_sign() {
    if (at_end() || (text_[at_] != '+' && text_[at_] != '-')) return;
    quantity_.explicit_sign = true;
    quantity_.negative = text_[at_] == '-';
    ++at_;
  }

  QuantityFault make_fault(std::string what, std::string fix, std::size_t begin,
                           std::size_t end) const {
    if (begin >= text_.size()) begin = text_.empty() ? 0 : text_.size() - 1;
    return {std::move(what), std::move(fix), begin, end > begin ? end - begin : 1};
  }

  tl::unexpected<QuantityFault> fault(std::string what, std::string fix) const {
    return tl::unexpected<QuantityFault>(
        make_fault(std::move(what), std::move(fix), at_, text_.size()));
  }

  std::optional<QuantityFault> read_term() {
    QuantityTerm term;
    term.number_begin = at_;
    if (auto bad = read_term_number(term)) return bad;
    term.number_end = at_;
    skip_blanks();
    if (auto bad = read_unit(term)) return bad;
    if (auto bad = check_order(term)) return bad;
    quantity_.terms.push_back(std::move(term));
    return std::nullopt;
  }

  std::optional<QuantityFault> read_term_number(QuantityTerm& term) {
    const std::optional<NumberPrefix> number = read_number_prefix(text_.substr(at_));
    if (!number) {
      return make_fault("a number is missing here",
                        "write a number and its unit, such as \"902 mm\"", at_, text_.size());
    }
    term.number = number->value;
    const std::size_t begin = at_;
    at_ += number->length;
    if (!at_end() && text_[at_] == ',') {
      return make_fault("a comma stands in the number", "write the decimal point as a point: 35.5",
                        at_, at_ + 1);
    }
    if (!at_end() && text_[at_] == '/') {
      at_ = begin;
      term.number = 0;
      return read_fraction(term);
    }
    const std::size_t after = at_;
    skip_blanks();
    // "35 1/2": a second number counts as a fraction only if a stroke follows its digits.
    std::size_t look = at_;
    while (look < text_.size() && is_digit(text_[look])) ++look;
    if (look > at_ && look < text_.size() && text_[look] == '/') return read_fraction(term);
    at_ = after;
    return std::nullopt;
  }

  std::optional<QuantityFault> read_fraction(QuantityTerm& term) {
    const std::size_t begin = at_;
    const std::optional<double> top = read_whole();
    const bool stroke = !at_end() && text_[at_] == '/';
    if (stroke) ++at_;
    const std::optional<double> bottom = read_whole();
    const bool whole = term.number == std::floor(term.number);
    if (!top || !stroke || !bottom || !whole || *bottom == 0 || *top >= *bottom) {
      return make_fault("this is no fraction",
                        "write a whole number and a fraction below 1, such as 35 1/2", begin, at_);
    }
    term.number += *top / *bottom;
    term.fraction = true;
    return std::nullopt;
  }

  /// Digits alone; no more than nine, so that a fraction stays exact.
  std::optional<double> read_whole() {
    const std::size_t begin = at_;
    double value = 0;
    while (!at_end() && is_digit(text_[at_])) value = value * 10 + (text_[at_++] - '0');
    if (at_ == begin || at_ - begin > 9) return std::nullopt;
    return value;
  }

  std::optional<QuantityFault> read_unit(QuantityTerm& term) {
    const std::size_t begin = at_;
    while (!at_end() && !is_blank(text_[at_]) && !starts_number(text_[at_]) && text_[at_] != '+' &&
           text_[at_] != '-') {
      ++at_;
    }
    term.spelled = std::string(text_.substr(begin, at_ - begin));
    if (term.spelled.empty()) {
      return make_fault("a unit is missing after the number", kUnitsFix, term.number_begin, begin);
    }
    term.unit = unit_spelled(term.spelled);
    if (term.unit != nullptr) return std::nullopt;
    return make_fault(fmt::format("no unit is called '{}'", term.spelled), unit_fix(term.spelled),
                      begin, at_);
  }

  static std::string unit_fix(const std::string& spelled) {
    std::vector<std::string> known;
    known.reserve(std::size(kSpellings));
    for (const Spelling& spelling : kSpellings) known.emplace_back(spelling.text);
    // Of units one or two letters long everything is near everything.
    const std::string meant = spelled.size() > 2 ? did_you_mean(spelled, known) : std::string();
    return meant.empty() ? kUnitsFix : fmt::format("did you mean '{}'?", meant);
  }

  std::optional<QuantityFault> check_order(const QuantityTerm& term) const {
    if (quantity_.terms.empty()) return std::nullopt;
    const QuantityTerm& before = quantity_.terms.back();
    if (before.unit->kind != term.unit->kind) {
      return make_fault("a length and an angle are mixed", "write one or the other",
                        term.number_begin, at_);
    }
    if (before.unit->size <= term.unit->size) {
      return make_fault(fmt::format("'{}' follows '{}'", term.spelled, before.spelled),
                        "write the larger unit first and each unit once, such as 2 ft 3 in",
                        term.number_begin, at_);
    }
    return std::nullopt;
  }

  tl::expected<Quantity, QuantityFault> finish() {
    quantity_.kind = quantity_.terms.front().unit->kind;
    double sum = 0;
    for (const QuantityTerm& term : quantity_.terms) sum += term.number * term.unit->size;
    if (!std::isfinite(sum)) {
      at_ = 0;
      return fault("the number is too large", "write the value as measured");
    }
    quantity_.value = quantity_.negative ? -sum : sum;
    return std::move(quantity_);
  }

  std::string_view text_;
  std::size_t at_ = 0;
  Quantity quantity_;
};

}  // namespace

tl::expected<Quantity, QuantityFault> read_quantity(std::string_view text) {
  return QuantityReader(text).read();
}

}  // namespace axlewright
