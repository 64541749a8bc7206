// Names in a truck file that refer to points and bodies, and the geometry that checks need.

#include <cmath>

#include <fmt/format.h>

#include "engine/truck/ranges.h"
#include "engine/truck/read_context.h"
#include "engine/truck/sections.h"

namespace axlewright {

namespace {

std::vector<std::string> point_names(const ReadContext& context) {
  std::vector<std::string> names;
  for (const Point& point : context.truck.points) names.push_back(point.name);
  return names;
}

std::vector<std::string> body_names(const ReadContext& context) {
  std::vector<std::string> names;
  for (const NamedBody& body : context.bodies) names.push_back(body.name);
  return names;
}

std::optional<Direction> read_fixed(ReadContext& context, const Node& node,
                                    const std::string& key) {
  Direction direction;
  for (int i = 0; i < 3; ++i) {
    const auto number = read_plain_number(node.items[static_cast<std::size_t>(i)], key,
                                          ranges::kDirectionNumber, context.complaints);
    if (!number) return std::nullopt;
    direction.fixed[i] = *number;
  }
  const double length = std::sqrt(direction.fixed.dot(direction.fixed));
  if (length < 1e-9) {
    context.complaints.error(node.place, fmt::format("'{}' points nowhere", key),
                             "give three numbers, not all zero, such as [0, 0, 1]");
    return std::nullopt;
  }
  direction.fixed /= length;
  return direction;
}

std::optional<Direction> read_two_points(ReadContext& context, const Node& node,
                                         const std::string& key, const std::string& on) {
  const auto pair = read_point_pair(context, node, key);
  if (!pair) return std::nullopt;
  const auto& [from, to] = *pair;
  const std::string first = body_of(context, from), second = body_of(context, to);
  if (!first.empty() && !second.empty() && first != second) {
    context.complaints.error(
        node.place,
        fmt::format("the points of '{}' ride on different bodies: '{}' on {}, '{}' on {}", key,
                    from, first, to, second),
        "give two points of one body");
    return std::nullopt;
  }
  if (!on.empty() && !first.empty() && first != on) {
    context.complaints.error(node.place, fmt::format("'{}' lies on {}, not on {}", key, first, on),
                             fmt::format("give two points that ride on {}", on));
    return std::nullopt;
  }
  if (!check_line(context, *pair, fmt::format("'{}'", key), node.place)) return std::nullopt;
  Direction direction;
  direction.from = from;
  direction.to = to;
  return direction;
}

}  // namespace

const Node* truck_key(const ReadContext& context, const std::string& key) {
  const Node* truck = find(context.root, "truck");
  return truck == nullptr ? nullptr : find(*truck, key);
}

const NamedBody* find_body(const ReadContext& context, const std::string& name) {
  for (const NamedBody& body : context.bodies) {
    if (body.name == name) return &body;
  }
  return nullptr;
}

std::optional<std::string> read_point_name(ReadContext& context, const Node& node,
                                           const std::string& key) {
  std::optional<std::string> name = read_text(node, key, context.complaints);
  if (!name) return std::nullopt;
  if (context.points.count(*name) > 0) {
    context.used_points.insert(*name);
    return name;
  }
  context.complaints.error(
      node.place, fmt::format("no point is called '{}'", *name),
      fix_for_name(*name, point_names(context),
                   fmt::format("add {} = {{ on = \"...\", at = [x, y, z] }} to [points]",
                               is_name(*name) ? *name : "NAME")));
  return std::nullopt;
}

std::optional<std::string> need_point(ReadContext& context, Fields& fields,
                                      const std::string& key) {
  const Node* node = fields.need(key, key + " = \"POINT\"");
  return node == nullptr ? std::nullopt : read_point_name(context, *node, key);
}

std::optional<std::array<std::string, 2>> read_point_pair(ReadContext& context, const Node& node,
                                                          const std::string& key) {
  if (node.kind != NodeKind::array || node.items.size() != 2) {
    context.complaints.error(node.place, fmt::format("'{}' is no list of two points", key),
                             fmt::format("write {} = [\"POINT\", \"POINT\"]", key));
    return std::nullopt;
  }
  const auto first = read_point_name(context, node.items[0], key);
  const auto second = read_point_name(context, node.items[1], key);
  if (!first || !second) return std::nullopt;
  if (*first == *second) {
    context.complaints.error(node.place, fmt::format("'{}' names the same point twice", key),
                             "give two points that differ");
    return std::nullopt;
  }
  return std::array<std::string, 2>{*first, *second};
}

std::optional<std::array<std::string, 2>> need_point_pair(ReadContext& context, Fields& fields,
                                                          const std::string& key) {
  const Node* node = fields.need(key, key + " = [\"POINT\", \"POINT\"]");
  return node == nullptr ? std::nullopt : read_point_pair(context, *node, key);
}

std::optional<std::string> read_body_name(ReadContext& context, const Node& node,
                                          const std::string& key) {
  std::optional<std::string> name = read_text(node, key, context.complaints);
  if (!name) return std::nullopt;
  if (find_body(context, *name) != nullptr) return name;
  context.complaints.error(
      node.place, fmt::format("no body is called '{}'", *name),
      *name == "rear_axle" ? "add [rear_wheels], which makes the rear axle"
                           : fix_for_name(*name, body_names(context),
                                          "the bodies are " + one_of(body_names(context), " and ") +
                                              "; [bodies.NAME] makes another"));
  return std::nullopt;
}

std::optional<std::string> need_body(ReadContext& context, Fields& fields, const std::string& key) {
  const Node* node = fields.need(key, key + " = \"BODY\"");
  return node == nullptr ? std::nullopt : read_body_name(context, *node, key);
}

std::optional<Direction> need_direction(ReadContext& context, Fields& fields,
                                        const std::string& key, const std::string& on) {
  const Node* node = fields.need(key, key + " = [\"POINT\", \"POINT\"] or [x, y, z]");
  if (node == nullptr) return std::nullopt;
  const std::size_t count = node->kind == NodeKind::array ? node->items.size() : 0;
  if (count == 2 && node->items[0].kind == NodeKind::text) {
    return read_two_points(context, *node, key, on);
  }
  if (count == 3) return read_fixed(context, *node, key);
  context.complaints.error(node->place, fmt::format("'{}' is no direction", key),
                           "write two points, [\"p\", \"q\"], or three numbers, [0, 0, 1]");
  return std::nullopt;
}

const Point* placed_point(const ReadContext& context, const std::string& name) {
  const auto found = context.points.find(name);
  if (found == context.points.end() || context.unplaced.count(name) > 0) return nullptr;
  return &context.truck.points[found->second];
}

void check_rides_on_one_of(ReadContext& context, Fields& fields, const std::string& key,
                           const std::string& point, const std::vector<std::string>& allowed) {
  const std::string on = body_of(context, point);
  if (on.empty() || point.empty()) return;
  for (const std::string& body : allowed) {
    if (body.empty() || body == on) return;
  }
  const Node* node = fields.get(key);
  context.complaints.error(node != nullptr ? node->place : fields.place(),
                           fmt::format("'{}' of '{}' rides on {}", point, key, on),
                           fmt::format("let it ride on {}", one_of(allowed)));
}

std::string body_or_that_of(ReadContext& context, Fields& fields, const std::string& key,
                            const std::string& point) {
  const Node* node = fields.get(key);
  if (node != nullptr) return read_body_name(context, *node, key).value_or("");
  return body_of(context, point);
}

std::string body_of(const ReadContext& context, const std::string& point) {
  const auto found = context.points.find(point);
  return found == context.points.end() ? "" : context.truck.points[found->second].on;
}

std::optional<double> distance(const ReadContext& context, const std::string& a,
                               const std::string& b) {
  const Point *p = placed_point(context, a), *q = placed_point(context, b);
  if (p == nullptr || q == nullptr) return std::nullopt;
  const Vec3 p_PQ = q->at - p->at;
  return std::sqrt(p_PQ.dot(p_PQ));
}

std::optional<double> distance_from_line(const ReadContext& context, const std::string& point,
                                         const std::array<std::string, 2>& line) {
  const Point *a = placed_point(context, point), *p = placed_point(context, line[0]),
              *q = placed_point(context, line[1]);
  if (a == nullptr || p == nullptr || q == nullptr) return std::nullopt;
  const Vec3 along = q->at - p->at, from = a->at - p->at;
  const double length = std::sqrt(along.dot(along));
  if (length < ranges::kSamePlace) return std::nullopt;
  const Vec3 across = cross(along, from);
  return std::sqrt(across.dot(across)) / length;
}

bool check_line(ReadContext& context, const std::array<std::string, 2>& line,
                const std::string& what, const TextPlace& place) {
  const std::optional<double> length = distance(context, line[0], line[1]);
  if (!length) return false;
  if (*length >= ranges::kSamePlace) return true;
  context.complaints.error(
      place,
      fmt::format("{} has no length: '{}' and '{}' are at the same place", what, line[0], line[1]),
      "give two points at least 1 mm apart");
  return false;
}

std::string read_words(Fields& fields, const std::string& name) {
  if (const std::optional<std::string> words = fields.text("words")) return *words;
  std::string words = name;
  for (char& c : words) c = c == '_' ? ' ' : c;
  return words;
}

}  // namespace axlewright
