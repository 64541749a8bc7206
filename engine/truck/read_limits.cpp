// [limits]: bands on quantities.

#include <fmt/format.h>

#include "engine/truck/quantity_keys.h"
#include "engine/truck/ranges.h"
#include "engine/truck/read_context.h"

namespace axlewright {

namespace {

/// What the quantity is told of in that part: the part, bodies or arms of it, or nothing.
std::vector<std::string> subjects_in(const std::string& key, const Part& part) {
  const std::string& name = part.name;
  const auto* bar = std::get_if<Bar>(&part.what);
  const auto* guided = std::get_if<GuidedBar>(&part.what);
  const bool four_bar = std::holds_alternative<FourBar>(part.what);
  if (key == "turn.") {
    if (four_bar) return {name + "_crank"};
    if (guided != nullptr && guided->carriage == Carriage::rocker) return {name + "_rocker"};
    if (std::holds_alternative<Relay>(part.what)) return {name};
    return {};
  }
  if (key == "spin.") {
    if (guided != nullptr) return {name + "_through"};
    // Only a body has a turn about its own line.
    if (bar == nullptr || !bar->body) return {};
    return {name};
  }
  const bool of_guided = key == "slide." || key == "half_link_angle." || key == "near_end_offset.";
  if (of_guided) return guided == nullptr ? std::vector<std::string>{} : std::vector{name};
  if (four_bar) return {name + "_upper_arm", name + "_lower_arm"};
  return bar == nullptr ? std::vector<std::string>{} : std::vector{name};
}

std::vector<std::string> quantity_names(const ReadContext& context) {
  std::vector<std::string> names;
  for (const QuantityKey& known : known_quantities()) {
    const std::string key = known.key;
    if (key.back() != '.') {
      names.push_back(key);
    } else if (key == "tilt.") {
      for (const Point& point : context.truck.points) names.push_back(key + point.name);
    } else {
      for (const Part& part : context.truck.parts) {
        for (const std::string& subject : subjects_in(key, part)) names.push_back(key + subject);
      }
    }
  }
  return names;
}

bool is_of_rear_axle(const std::string& key) {
  return key.rfind("rear_", 0) == 0 || key == "thrust_angle";
}

void check_subject(ReadContext& context, const Node& node, const std::string& key,
                   const std::string& subject) {
  if (is_of_rear_axle(key) && !context.truck.rear_wheels) {
    context.complaints.error(
        node.place, fmt::format("'{}' is told of a rear axle, and the truck has none", key),
        "take the limit away, or add [rear_wheels] and what holds the rear axle");
  }
  if (key.back() != '.' || context.incomplete) return;
  if (key == "tilt.") {
    if (context.ball_points.count(subject) == 0) {
      context.complaints.error(
          node.place, fmt::format("no ball is at a point '{}'", subject),
          fix_for_name(subject, {context.ball_points.begin(), context.ball_points.end()},
                       "write tilt.POINT of a point where a ball is"));
    }
    return;
  }
  std::vector<std::string> names;
  for (const Part& part : context.truck.parts) {
    for (const std::string& told : subjects_in(key, part)) {
      if (told == subject) return;
      names.push_back(told);
    }
  }
  context.complaints.error(
      node.place,
      fmt::format("nothing called '{}' has a {}", subject, key.substr(0, key.size() - 1)),
      fix_for_name(subject, names,
                   names.empty() ? "take the limit away: nothing has it"
                                 : "it is told of " + one_of(names, " and ")));
}

std::optional<double> read_turns(const Node& node, const std::string& name,
                                 Complaints& complaints) {
  if (node.kind != NodeKind::text)
    return read_plain_number(node, name, ranges::kLimitPlain, complaints);
  const auto angle = read_angle(node, name, ranges::kLimitAngle, complaints);
  return angle ? std::optional<double>(*angle / (360 * ranges::kDegree)) : std::nullopt;
}

std::optional<double> read_bound(ReadContext& context, Fields& fields, const std::string& name,
                                 QuantityUnit unit) {
  const Node* node = fields.get(name);
  if (node == nullptr) return std::nullopt;
  switch (unit) {
    case QuantityUnit::length:
      return read_length(*node, name, ranges::kLimitLength, context.complaints);
    case QuantityUnit::angle:
    case QuantityUnit::angle_per_bump:
      return read_angle(*node, name, ranges::kLimitAngle, context.complaints);
    case QuantityUnit::turns:
      return read_turns(*node, name, context.complaints);
    case QuantityUnit::ratio:
    case QuantityUnit::angle_per_angle:
      return read_plain_number(*node, name, ranges::kLimitPlain, context.complaints);
    case QuantityUnit::none:
      break;
  }
  context.complaints.error(node->place, "'reach' is met or broken: it has no 'min' or 'max'",
                           "take this key away");
  return std::nullopt;
}

void read_band(ReadContext& context, Fields& fields, QuantityUnit unit, Limit& limit) {
  limit.min = read_bound(context, fields, "min", unit);
  limit.max = read_bound(context, fields, "max", unit);
  const bool neither = fields.get("min") == nullptr && fields.get("max") == nullptr;
  if (neither && unit != QuantityUnit::none) {
    context.complaints.error(fields.place(),
                             fmt::format("{} has neither 'min' nor 'max'", fields.owner()),
                             "add min = VALUE, max = VALUE or both");
  }
  if (limit.min && limit.max && *limit.min > *limit.max) {
    context.complaints.error(fields.get("min")->place, "'min' is above 'max'", "swap the two");
  }
}

/// The quantity's unit; nothing if the quantity is not known.
std::optional<QuantityUnit> read_quantity_key(ReadContext& context, Fields& fields, Limit& limit) {
  const Node* node =
      fields.need("quantity", "quantity = \"toe\" or another key of docs/notation.md");
  if (node == nullptr) return std::nullopt;
  const auto quantity = read_text(*node, "quantity", context.complaints);
  if (!quantity) return std::nullopt;
  limit.quantity = *quantity;
  std::string subject;
  const QuantityKey* known = find_quantity(*quantity, subject);
  if (known == nullptr) {
    context.complaints.error(
        node->place, fmt::format("no quantity is called '{}'", *quantity),
        fix_for_name(*quantity, quantity_names(context), "docs/notation.md lists the quantities"));
    return std::nullopt;
  }
  check_subject(context, *node, known->key, subject);
  return known->unit;
}

}  // namespace

void read_limits(ReadContext& context) {
  for (const Entry* entry : named_entries(context, "limits")) {
    Fields fields(entry->value, fmt::format("[limits.{}]", entry->key), entry->key_place,
                  context.complaints);
    Limit limit;
    limit.name = entry->key;
    limit.place = entry->key_place;
    const auto unit = read_quantity_key(context, fields, limit);
    // Known keys all the same, so that they are not complained of as unknown.
    fields.get("min");
    fields.get("max");
    if (unit) read_band(context, fields, *unit, limit);
    limit.over_grid = fields.choice("over", {"heights", "grid"}, 0) == 1u;
    limit.held = fields.choice("wheel", {"rolling", "held"}, 0) == 1u;
    fields.reject_unknown();
    context.truck.limits.push_back(std::move(limit));
  }
}

}  // namespace axlewright
