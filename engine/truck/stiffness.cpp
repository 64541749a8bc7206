#include "engine/truck/stiffness.h"

#include <array>

#include <fmt/format.h>

#include "engine/base/number.h"
#include "engine/base/units.h"

namespace axlewright {

namespace {

struct StiffnessUnit {
  std::string_view symbol;
  StiffnessKind kind;
  double size;  ///< in N/m or N m/rad
};

constexpr std::array<StiffnessUnit, 10> kUnits = {{
    {"N/mm", StiffnessKind::way, 1e3},
    {"kN/mm", StiffnessKind::way, 1e6},
    {"N/m", StiffnessKind::way, 1},
    {"kN/m", StiffnessKind::way, 1e3},
    {"lbf/in", StiffnessKind::way, kNewtonsPerPoundForce / kMetresPerInch},
    {"N m/deg", StiffnessKind::turn, 1 / kRadiansPerDegree},
    {"kN m/deg", StiffnessKind::turn, 1e3 / kRadiansPerDegree},
    {"N m/rad", StiffnessKind::turn, 1},
    {"lbf ft/deg", StiffnessKind::turn,
     12 * kNewtonsPerPoundForce* kMetresPerInch / kRadiansPerDegree},
    {"lbf in/deg", StiffnessKind::turn, kNewtonsPerPoundForce* kMetresPerInch / kRadiansPerDegree},
}};

const StiffnessUnit& bare_unit(StiffnessKind kind, BareUnit unit) {
  const bool inches = unit == BareUnit::inch;
  if (kind == StiffnessKind::way) return kUnits[inches ? 4 : 0];
  return kUnits[inches ? 8 : 5];
}

const StiffnessUnit* find_unit(std::string_view symbol, StiffnessKind kind) {
  for (const StiffnessUnit& unit : kUnits) {
    if (unit.symbol == symbol && unit.kind == kind) return &unit;
  }
  return nullptr;
}

std::string words_of(double value, const StiffnessUnit& unit) {
  return fmt::format("{} {}", decimal_text(value / unit.size, 0, 3), unit.symbol);
}

/// A number in front of its unit.
std::optional<double> read_with_unit(const std::string& text, StiffnessKind kind) {
  const std::optional<NumberPrefix> number = read_number_prefix(text);
  if (!number) return std::nullopt;
  std::string_view symbol = std::string_view(text).substr(number->length);
  while (!symbol.empty() && symbol.front() == ' ') symbol.remove_prefix(1);
  const StiffnessUnit* unit = find_unit(symbol, kind);
  if (unit == nullptr) return std::nullopt;
  return number->value * unit->size;
}

}  // namespace

std::optional<double> read_stiffness(const Node& node, const std::string& name, StiffnessKind kind,
                                     const Range& range, Complaints& complaints) {
  const StiffnessUnit& bare = bare_unit(kind, node.unit);
  const std::string form =
      fmt::format("write a number of {}, or text with a unit such as {}", bare.symbol,
                  kind == StiffnessKind::way ? "\"8 kN/mm\" or \"45000 lbf/in\""
                                             : "\"12 N m/deg\" or \"9 lbf ft/deg\"");
  if (is_blank(node, name, form, complaints)) return std::nullopt;
  std::optional<double> value;
  if (node.kind == NodeKind::text) {
    value = read_with_unit(node.text, kind);
  } else if (node.kind == NodeKind::number) {
    const auto number = read_plain_number(node, name, {-1e12, 1e12}, complaints);
    if (!number) return std::nullopt;
    value = *number * bare.size;
  }
  if (!value) {
    complaints.error(node.place,
                     fmt::format("'{}' is {} where a stiffness belongs", name, kind_words(node)),
                     form);
    return std::nullopt;
  }
  if (*value >= range.low && *value <= range.high) return value;
  complaints.error(
      node.place, fmt::format("'{}' is {}, out of reason", name, words_of(*value, bare)),
      fmt::format("it lies from {} to {}", words_of(range.low, bare), words_of(range.high, bare)));
  return std::nullopt;
}

}  // namespace axlewright
