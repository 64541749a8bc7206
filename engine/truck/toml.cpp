// The only file that sees toml++. Natively it links the system's library, for WebAssembly toml_library.cpp.

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <string_view>
#include <utility>

#include <toml++/toml.h>

#include "engine/truck/document.h"
#include "engine/truck/toml_guard.h"
#include "engine/truck/toml_slip.h"

namespace axlewright {

namespace {

TextPlace place_of(const std::string& file, const toml::source_region& region) {
  TextPlace place;
  place.file = file;
  place.line = static_cast<int>(region.begin.line);
  place.column = static_cast<int>(region.begin.column);
  const bool one_line =
      region.end.line == region.begin.line && region.end.column > region.begin.column;
  place.length = one_line ? static_cast<int>(region.end.column - region.begin.column) : 1;
  return place;
}

Node node_of(const std::string& file, const toml::node& from);

void fill_table(const std::string& file, const toml::table& from, Node& node) {
  node.kind = NodeKind::table;
  for (auto&& [key, value] : from) {
    node.entries.push_back(
        {std::string(key.str()), place_of(file, key.source()), node_of(file, value), {}});
  }
  // The library sorts by name; what a person wrote has an order that its places remember.
  std::stable_sort(node.entries.begin(), node.entries.end(), [](const Entry& a, const Entry& b) {
    return std::pair(a.key_place.line, a.key_place.column) <
           std::pair(b.key_place.line, b.key_place.column);
  });
}

void fill_number(double number, Node& node) {
  node.kind = NodeKind::number;
  node.number = std::isfinite(number) ? number : std::numeric_limits<double>::quiet_NaN();
}

Node node_of(const std::string& file, const toml::node& from) {
  Node node;
  node.place = place_of(file, from.source());
  if (const auto* table = from.as_table()) {
    fill_table(file, *table, node);
  } else if (const auto* array = from.as_array()) {
    node.kind = NodeKind::array;
    for (const toml::node& item : *array) node.items.push_back(node_of(file, item));
  } else if (const auto* text = from.as_string()) {
    node.kind = NodeKind::text;
    node.text = text->get();
  } else if (const auto* number = from.as_floating_point()) {
    fill_number(number->get(), node);
  } else if (const auto* integer = from.as_integer()) {
    fill_number(static_cast<double>(integer->get()), node);
  } else if (const auto* boolean = from.as_boolean()) {
    node.kind = NodeKind::boolean;
    node.boolean = boolean->get();
  } else {
    node.kind = NodeKind::other;
  }
  return node;
}

bool contains(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

/// In our own words if it is a usual slip, else in the parser's.
Fault fault_of(const std::string& file, const std::string& text, const toml::parse_error& error) {
  Fault fault;
  fault.file = file;
  fault.line = std::max(1, static_cast<int>(error.source().begin.line));
  fault.column = std::max(1, static_cast<int>(error.source().begin.column));
  // A slip behind what the parser stopped at is the second fault of the file, not the first.
  const std::optional<Fault> slip = slip_in_toml(file, text);
  if (slip && slip->line <= fault.line) return *slip;
  const std::string_view description = error.description();
  if (contains(description, "cannot redefine") || contains(description, "already")) {
    fault.what = "this name is given twice in the same file";
    fault.fix = "give it another name, or take one of the two away";
  } else {
    fault.what = "this is not TOML: " + std::string(description);
    fault.fix = "write NAME = VALUE, text in quotes, lists as [a, b, c], sections as [NAME]";
  }
  return fault;
}

}  // namespace

tl::expected<Node, Fault> parse_document(const std::string& file, const std::string& text) {
  if (std::optional<Fault> bad = guard_toml(file, text)) {
    return tl::unexpected<Fault>(std::move(*bad));
  }
  const std::string_view view = text;
#if TOML_EXCEPTIONS
  try {
    return node_of(file, toml::parse(view));
  } catch (const toml::parse_error& error) {
    return tl::unexpected<Fault>(fault_of(file, text, error));
  }
#else
  const toml::parse_result parsed = toml::parse(view);
  if (!parsed) return tl::unexpected<Fault>(fault_of(file, text, parsed.error()));
  return node_of(file, parsed.table());
#endif
}

}  // namespace axlewright
