#include "engine/truck/value.h"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "engine/base/number.h"
#include "engine/base/quantity_text.h"
#include "engine/base/units.h"
#include "engine/base/utf8.h"

namespace axlewright {

namespace {

constexpr const char* kLengthFix =
    "write a length: a bare number, or text such as \"902 mm\" or \"35 1/2 in\"";
constexpr const char* kAngleFix =
    "write an angle: a bare number in degrees, or text such as \"4 deg 30 min\" or \"3 turns\"";

constexpr const char* kMeasureFix =
    "measure it (see the measuring sheet) and write the number here, without quotes";

/// The part of a quoted text that is at fault. Only where the quotes hold the text as it is, without escapes.
TextPlace part_of(const Node& node, std::size_t begin, std::size_t length) {
  TextPlace place = node.place;
  const std::string_view text = node.text;
  const bool in_quotes = place.length == count_code_points(node.text) + 2;
  const bool bare = place.length == count_code_points(node.text);
  if (!in_quotes && !bare) return place;
  const int before = count_code_points(text.substr(0, begin));
  place.column += before + (in_quotes ? 1 : 0);
  place.length = std::max(1, count_code_points(text.substr(0, begin + length)) - before);
  return place;
}

/// Text with a unit of the kind asked for.
std::optional<double> read_with_unit(const Node& node, const std::string& name, UnitKind kind,
                                     Complaints& complaints) {
  const auto quantity = read_quantity(node.text);
  if (!quantity) {
    const QuantityFault& bad = quantity.error();
    complaints.error(part_of(node, bad.begin, bad.length), fmt::format("'{}': {}", name, bad.what),
                     bad.fix);
    return std::nullopt;
  }
  if (quantity->kind == kind) return quantity->value;
  const bool length = kind == UnitKind::length;
  complaints.error(node.place,
                   length ? fmt::format("'{}' is given as an angle where a length belongs", name)
                          : fmt::format("'{}' is given as a length where an angle belongs", name),
                   length ? kLengthFix : kAngleFix);
  return std::nullopt;
}

void complain_of_kind(const Node& node, const std::string& name, const char* wanted,
                      const std::string& fix, Complaints& complaints) {
  complaints.error(node.place,
                   fmt::format("'{}' is {} where {} belongs", name, kind_words(node), wanted), fix);
}

bool is_within(double value, const Range& range) {
  return value <= range.high && (range.above_low ? value > range.low : value >= range.low);
}

std::string span_words(const std::string& low, const std::string& high, bool above_low) {
  return fmt::format("give {} {} and at most {}", above_low ? "more than" : "at least", low, high);
}

std::optional<double> finite_number(const Node& node, const std::string& name,
                                    Complaints& complaints) {
  if (!std::isnan(node.number)) return node.number;
  complaints.error(node.place, fmt::format("'{}' is no finite number", name),
                   "write the value as measured");
  return std::nullopt;
}

/// The length, whatever its size.
std::optional<double> read_any_length(const Node& node, const std::string& name,
                                      Complaints& complaints) {
  if (is_blank(node, name, kMeasureFix, complaints)) return std::nullopt;
  if (node.kind == NodeKind::text) return read_with_unit(node, name, UnitKind::length, complaints);
  if (node.kind != NodeKind::number) {
    complain_of_kind(node, name, "a length", kLengthFix, complaints);
    return std::nullopt;
  }
  const std::optional<double> number = finite_number(node, name, complaints);
  if (!number || node.unit == BareUnit::unknown) return std::nullopt;
  return node.unit == BareUnit::inch ? from_inch(*number) : from_mm(*number);
}

/// A bare number that makes sense in the other unit was most likely meant in it.
std::string other_unit_hint(const Node& node, const Range& range) {
  if (node.kind != NodeKind::number) return {};
  const double number = node.negated ? -node.number : node.number;
  const bool inch = node.unit == BareUnit::inch;
  if (!is_within(inch ? from_mm(number) : from_inch(number), range)) return {};
  return fmt::format("; if this is meant in {}, write \"{} {}\"", inch ? "mm" : "inch",
                     decimal_text(node.number, 0, 4), inch ? "mm" : "in");
}

}  // namespace

bool has_question_mark(const Node& node) {
  return node.kind == NodeKind::text && node.text.rfind('?', 0) == 0;
}

std::string decimal_comma_hint(const Node& list) {
  const auto is_whole = [](const Node& node) {
    return node.kind == NodeKind::number && node.number == std::floor(node.number) &&
           std::abs(node.number) < 1e6;
  };
  for (std::size_t i = 0; i + 1 < list.items.size(); ++i) {
    const Node &whole = list.items[i], &decimals = list.items[i + 1];
    const bool close = whole.place.line == decimals.place.line &&
                       whole.place.column + whole.place.length + 1 == decimals.place.column;
    if (!close || !is_whole(whole) || !is_whole(decimals) || decimals.number < 0) continue;
    const std::string first = decimal_text(whole.number, 0, 0);
    const std::string second = decimal_text(decimals.number, 0, 0);
    return fmt::format("; if {0},{1} is one number, write it with a point: {0}.{1}", first, second);
  }
  return {};
}

bool is_blank(const Node& node, const std::string& name, const std::string& fix,
              Complaints& complaints) {
  if (!has_question_mark(node)) return false;
  complaints.error(node.place, fmt::format("'{}' is not filled in yet", name), fix);
  return true;
}

std::string length_words(double metres, BareUnit unit) {
  return unit == BareUnit::inch ? decimal_text(to_inch(metres), 0, 3) + " in"
                                : decimal_text(to_mm(metres), 0, 2) + " mm";
}

std::string angle_words(double radians) {
  return decimal_text(to_deg(radians), 0, 3) + " deg";
}

std::string kind_words(const Node& node) {
  switch (node.kind) {
    case NodeKind::table:
      return "a section";
    case NodeKind::array:
      return "a list";
    case NodeKind::text:
      return "text";
    case NodeKind::number:
      return "a number";
    case NodeKind::boolean:
      return "true or false";
    case NodeKind::other:
      break;
  }
  return "a date or a time";
}

std::optional<double> read_length(const Node& node, const std::string& name, const Range& range,
                                  Complaints& complaints) {
  std::optional<double> value = read_any_length(node, name, complaints);
  if (!value) return std::nullopt;
  if (node.negated) value = -*value;
  if (is_within(*value, range)) return value;
  complaints.error(node.place,
                   fmt::format("'{}' is {}, out of reason", name, length_words(*value, node.unit)),
                   span_words(length_words(range.low, node.unit),
                              length_words(range.high, node.unit), range.above_low) +
                       other_unit_hint(node, range));
  return std::nullopt;
}

std::optional<double> read_angle(const Node& node, const std::string& name, const Range& range,
                                 Complaints& complaints) {
  if (is_blank(node, name, kMeasureFix, complaints)) return std::nullopt;
  std::optional<double> value;
  if (node.kind == NodeKind::text) {
    value = read_with_unit(node, name, UnitKind::angle, complaints);
  } else if (node.kind == NodeKind::number) {
    value = finite_number(node, name, complaints);
    if (value) value = from_deg(*value);
  } else {
    complain_of_kind(node, name, "an angle", kAngleFix, complaints);
  }
  if (!value) return std::nullopt;
  if (node.negated) value = -*value;
  if (is_within(*value, range)) return value;
  complaints.error(node.place, fmt::format("'{}' is {}, out of reason", name, angle_words(*value)),
                   span_words(angle_words(range.low), angle_words(range.high), range.above_low));
  return std::nullopt;
}

std::optional<double> read_plain_number(const Node& node, const std::string& name,
                                        const Range& range, Complaints& complaints) {
  if (is_blank(node, name, kMeasureFix, complaints)) return std::nullopt;
  if (node.kind != NodeKind::number) {
    complain_of_kind(node, name, "a plain number", "write a bare number, without unit or quotes",
                     complaints);
    return std::nullopt;
  }
  const std::optional<double> bare = finite_number(node, name, complaints);
  if (!bare) return std::nullopt;
  const double value = node.negated ? -*bare : *bare;
  if (is_within(value, range)) return value;
  complaints.error(
      node.place, fmt::format("'{}' is {}, out of reason", name, decimal_text(value, 0, 4)),
      span_words(decimal_text(range.low, 0, 4), decimal_text(range.high, 0, 4), range.above_low));
  return std::nullopt;
}

std::optional<bool> read_yes_no(const Node& node, const std::string& name, Complaints& complaints) {
  if (node.kind == NodeKind::boolean) return node.boolean;
  complain_of_kind(node, name, "true or false",
                   fmt::format("write {} = true or {} = false", name, name), complaints);
  return std::nullopt;
}

std::optional<std::string> read_text(const Node& node, const std::string& name,
                                     Complaints& complaints) {
  if (node.kind != NodeKind::text) {
    complain_of_kind(node, name, "text", fmt::format("write {} = \"...\"", name), complaints);
    return std::nullopt;
  }
  if (!node.text.empty()) return node.text;
  complaints.error(node.place, fmt::format("'{}' is empty", name),
                   "write something between the quotes");
  return std::nullopt;
}

}  // namespace axlewright
