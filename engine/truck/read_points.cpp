// [points] and the bodies they ride on.

#include <utility>

#include <fmt/format.h>

#include "engine/truck/ranges.h"
#include "engine/truck/read_context.h"
#include "engine/truck/sections.h"

namespace axlewright {

namespace {

/// Adds a body; complains if there is one of that name.
void add_body(ReadContext& context, const std::string& name, const std::string& maker,
              const TextPlace& place, const std::array<std::string, 2>& line = {}) {
  if (const NamedBody* other = find_body(context, name)) {
    const std::string first =
        other->maker.empty() ? "every truck has it" : other->maker + " makes it";
    context.complaints.error(place, fmt::format("a second body is called '{}': {}", name, first),
                             "give it another name, or take one of the two away");
    return;
  }
  if (!is_name(name)) {
    context.complaints.error(place, fmt::format("'{}' is no name for a body", name),
                             "use a to z, 0 to 9 and _");
    return;
  }
  context.bodies.push_back({name, maker, place, line});
}

std::string text_or_empty(const Node& table, const std::string& key) {
  const Node* node = find(table, key);
  return node != nullptr && node->kind == NodeKind::text ? node->text : std::string();
}

/// The two texts of a list, or two empty ones.
std::array<std::string, 2> texts_of(const Node& table, const std::string& key) {
  const Node* node = find(table, key);
  if (node == nullptr || node->kind != NodeKind::array || node->items.size() != 2) return {};
  return {node->items[0].text, node->items[1].text};
}

/// The bodies that a part makes. What is wrong with the part itself is told when the part is read.
void collect_from_part(ReadContext& context, const Entry& entry) {
  const Node& part = entry.value;
  const std::string kind = text_or_empty(part, "kind"),
                    maker = fmt::format("[parts.{}]", entry.key);
  const auto place_of = [&](const std::string& key) {
    const Node* node = find(part, key);
    return node != nullptr ? node->place : entry.key_place;
  };
  const Node* body = find(part, "body");
  if (kind == "kingpin" && !text_or_empty(part, "knuckle").empty()) {
    add_body(context, text_or_empty(part, "knuckle"), maker, place_of("knuckle"));
  } else if (kind == "pitman arm") {
    add_body(context, "pitman", maker, place_of("kind"));
  } else if (kind == "clamp" && !text_or_empty(part, "body").empty()) {
    add_body(context, text_or_empty(part, "body"), maker, place_of("body"));
  } else if (kind == "guided bar") {
    add_body(context, entry.key + "_through", maker, entry.key_place,
             {text_or_empty(part, "near_end"), text_or_empty(part, "guide_end")});
    const std::string half = text_or_empty(part, "half_link");
    const bool half_is_body = half == "pinned body" || half == "ball body";
    if (half_is_body) add_body(context, entry.key + "_half", maker, entry.key_place);
    const std::string carriage = text_or_empty(part, "carriage");
    if (carriage == "slide") add_body(context, entry.key + "_carriage", maker, entry.key_place);
    if (carriage == "rocker") add_body(context, entry.key + "_rocker", maker, entry.key_place);
  } else if (kind == "radius arm" || kind == "relay") {
    add_body(context, entry.key, maker, entry.key_place);
  } else if (kind == "leaf spring") {
    add_body(context, entry.key + "_shackle", maker, entry.key_place);
  } else if (kind == "four-bar") {
    add_body(context, entry.key + "_crank", maker, entry.key_place);
  } else if (body != nullptr && body->kind == NodeKind::boolean && body->boolean) {
    add_body(context, entry.key, maker, entry.key_place, texts_of(part, "ends"));
  }
}

constexpr std::array<const char*, 3> kAxes{"x", "y", "z"};

/// A point that is still to be measured, or one of its coordinates: told once for the point. True if it is one.
bool complain_of_blanks(ReadContext& context, const Node& at, const std::string& point) {
  std::vector<std::string> axes;
  const Node* first = has_question_mark(at) ? &at : nullptr;
  for (std::size_t i = 0; i < at.items.size() && i < kAxes.size(); ++i) {
    if (!has_question_mark(at.items[i])) continue;
    if (axes.empty()) first = &at.items[i];
    axes.push_back(kAxes[i]);
  }
  if (first == nullptr) return false;
  const bool whole = axes.empty() || axes.size() == at.items.size();
  context.complaints.error(
      whole ? at.place : first->place,
      whole ? fmt::format("point '{}' is not measured yet", point)
            : fmt::format("point '{}' is not measured yet in {}", point, one_of(axes, " and ")),
      "measure it (see the measuring sheet) and write at = [x, y, z] in numbers, without quotes");
  return true;
}

std::optional<Vec3> read_place(ReadContext& context, const Node& node, const std::string& point) {
  if (complain_of_blanks(context, node, point)) return std::nullopt;
  if (node.kind != NodeKind::array || node.items.size() != 3) {
    context.complaints.error(node.place, "'at' is no list of three lengths",
                             "write at = [x, y, z]: forward, left, up" + decimal_comma_hint(node));
    return std::nullopt;
  }
  Vec3 at = Vec3::Zero();
  bool good = true;
  for (std::size_t i = 0; i < 3; ++i) {
    const auto length =
        read_length(node.items[i], kAxes[i], ranges::kCoordinate, context.complaints);
    good = good && length.has_value();
    at[static_cast<Eigen::Index>(i)] = length.value_or(0);
  }
  return good ? std::optional<Vec3>(at) : std::nullopt;
}

void check_side(ReadContext& context, const Point& point, const Node& at) {
  const int side = side_of(point.name);
  if (side == 0 || point.at.y() * side > 0) return;
  const char* sign = side > 0 ? "above" : "below";
  context.complaints.error(
      at.items[1].place,
      fmt::format("'{}' has y = {}: left and right are swapped", point.name,
                  length_words(point.at.y(), at.items[1].unit)),
      fmt::format("y points to the left: give a y {} 0, or name the point for the other side",
                  sign));
}

/// What is still to be done of a point when all of them are read.
struct PendingPlace {
  const Node* from = nullptr;  ///< the point that it counts from
  bool mirrored = false;
  bool open = false;  ///< being counted: to meet it again is a circle
};

/// Adds to places that count from another point's where that one is, however long the row of them.
class PlacesFromPoints {
 public:
  PlacesFromPoints(ReadContext& context, std::vector<PendingPlace> pending)
      : context_(context), pending_(std::move(pending)) {}

  void run() {
    for (std::size_t k = 0; k < pending_.size(); ++k) {
      context_.complaints.set_mirrored(pending_[k].mirrored);
      count(k);
    }
    context_.complaints.set_mirrored(false);
  }

 private:
  Point& point(std::size_t k) { return context_.truck.points[k]; }
  bool is_unplaced(std::size_t k) { return context_.unplaced.count(point(k).name) > 0; }

  void count(std::size_t k) {
    const Node* from = pending_[k].from;
    if (from == nullptr) return;
    pending_[k].open = true;
    const std::optional<std::size_t> base = base_of(k, *from);
    pending_[k].open = false;
    pending_[k].from = nullptr;
    if (!base || is_unplaced(*base)) {
      context_.unplaced.insert(point(k).name);
      return;
    }
    point(k).from = point(*base).name;
    point(k).at += point(*base).at;
    check_range(k, *from);
  }

  /// The point that another counts from, counted itself; nothing after a complaint.
  std::optional<std::size_t> base_of(std::size_t k, const Node& from) {
    const std::optional<std::string> name = read_point_name(context_, from, "from");
    if (!name) return std::nullopt;
    const std::size_t base = context_.points.find(*name)->second;
    if (pending_[base].open) {
      context_.complaints.error(
          from.place,
          base == k
              ? fmt::format("'{}' counts from itself", *name)
              : fmt::format("'from' goes in a circle: '{}' counts from '{}'", *name, point(k).name),
          "count one of them from the origin: take its 'from' away");
      return std::nullopt;
    }
    count(base);
    const bool has_other_side = other_side(*name) != *name;
    if (pending_[k].mirrored && !has_other_side && !is_unplaced(base) && point(base).at.y() != 0) {
      context_.complaints.error(
          from.place,
          fmt::format("'{}' is off the middle plane and has no other side for the mirror to count "
                      "from",
                      *name),
          "count from a point with a side or from one on the middle plane, or write both sides");
      return std::nullopt;
    }
    return base;
  }

  void check_range(std::size_t k, const Node& from) {
    const Vec3& at = point(k).at;
    if (at.cwiseAbs().maxCoeff() <= ranges::kCoordinate.high) return;
    context_.complaints.error(
        from.place,
        fmt::format("'{}' comes to lie at {}, {}, {}, out of reason", point(k).name,
                    length_words(at.x(), from.unit), length_words(at.y(), from.unit),
                    length_words(at.z(), from.unit)),
        "'at' counts from the point that 'from' names: give the way from there");
    context_.unplaced.insert(point(k).name);
  }

  ReadContext& context_;
  std::vector<PendingPlace> pending_;
};

PendingPlace read_point(ReadContext& context, const Entry& entry) {
  Fields fields(entry.value, fmt::format("[points.{}]", entry.key), entry.key_place,
                context.complaints);
  Point point;
  point.name = entry.key;
  point.place = entry.key_place;
  point.mirror_of = entry.mirror_of;
  point.on = need_body(context, fields, "on").value_or("");
  const Node* at = fields.need("at", "at = [x, y, z]");
  const std::optional<Vec3> place =
      at == nullptr ? std::nullopt : read_place(context, *at, point.name);
  point.plus_minus = fields.length("plus_minus", ranges::kPlusMinus);
  MeasuredPoint measured;
  measured.plus_minus = point.plus_minus.value_or(0);
  const Node* from = fields.get("from");
  fields.get("mirror");
  fields.reject_unknown();
  if (place) {
    point.at = measured.at = *place;
    for (std::size_t k = 0; k < 3; ++k) measured.places[k] = at->items[k].place;
  } else {
    context.unplaced.insert(point.name);
  }
  context.points[point.name] = context.truck.points.size();
  context.truck.points.push_back(std::move(point));
  context.measured->points.push_back(std::move(measured));
  return {from, !entry.mirror_of.empty()};
}

void complain_of_no_table(ReadContext& context, const std::string& section, const Entry& entry) {
  const Node& value = entry.value;
  std::string fix = section == "points"
                        ? "write NAME = { on = \"...\", at = [x, y, z] }"
                        : fmt::format("write [{}.NAME] and its keys below", section);
  // A word or `false` for an entry means that it should go.
  if (value.kind == NodeKind::text || (value.kind == NodeKind::boolean && !value.boolean)) {
    fix += fmt::format(
        "; to take away what a layer below gives, write remove = [\"{}.{}\"] in the head of the "
        "file",
        section, entry.key);
  }
  context.complaints.error(
      value.place,
      fmt::format("[{}] '{}' is {} where a table belongs", section, entry.key, kind_words(value)),
      fix);
}

}  // namespace

std::vector<const Entry*> named_entries(ReadContext& context, const std::string& section) {
  std::vector<const Entry*> entries;
  const Node* table = find(context.root, section);
  if (table == nullptr) return entries;
  for (const Entry& entry : table->entries) {
    const bool good = is_name(entry.key) && entry.value.kind == NodeKind::table;
    if (!good && (section == "parts" || section == "joints")) context.incomplete = true;
    if (!is_name(entry.key)) {
      context.complaints.error(entry.key_place, fmt::format("'{}' is no name", entry.key),
                               "use a to z, 0 to 9 and _");
    } else if (entry.value.kind != NodeKind::table) {
      complain_of_no_table(context, section, entry);
    } else {
      entries.push_back(&entry);
    }
  }
  return entries;
}

void collect_bodies(ReadContext& context) {
  context.bodies.push_back({"frame", "", {}, {}});
  context.bodies.push_back({"axle", "", {}, {}});
  if (const Node* rear = find(context.root, "rear_wheels"))
    context.bodies.push_back({"rear_axle", "[rear_wheels]", rear->place, {}});
  for (const Entry* entry : named_entries(context, "parts")) {
    context.complaints.set_mirrored(!entry->mirror_of.empty());
    collect_from_part(context, *entry);
  }
  for (const Entry* entry : named_entries(context, "bodies")) {
    context.complaints.set_mirrored(!entry->mirror_of.empty());
    Fields fields(entry->value, fmt::format("[bodies.{}]", entry->key), entry->key_place,
                  context.complaints);
    ExtraBody body{entry->key, read_words(fields, entry->key), entry->key_place};
    fields.get("mirror");
    fields.reject_unknown();
    add_body(context, body.name, fmt::format("[bodies.{}]", entry->key), entry->key_place);
    context.truck.bodies.push_back(std::move(body));
  }
  context.complaints.set_mirrored(false);
}

void read_points(ReadContext& context) {
  std::vector<PendingPlace> pending;
  for (const Entry* entry : named_entries(context, "points")) {
    context.complaints.set_mirrored(!entry->mirror_of.empty());
    pending.push_back(read_point(context, *entry));
  }
  PlacesFromPoints(context, std::move(pending)).run();
}

void check_point_sides(ReadContext& context) {
  const Node* points = find(context.root, "points");
  for (const Point& point : context.truck.points) {
    if (context.unplaced.count(point.name) > 0) continue;
    context.complaints.set_mirrored(!point.mirror_of.empty());
    check_side(context, point, *find(*find(*points, point.name), "at"));
  }
  context.complaints.set_mirrored(false);
}

}  // namespace axlewright
