// [measured]: what the places of [points] count from.

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/truck/measured_stance.h"
#include "engine/truck/ranges.h"
#include "engine/truck/read_context.h"

namespace axlewright {

namespace {

/// Holes nearer than this tell no direction that a tape could.
constexpr double kHolesApart = 0.2;

Measured& measured_of(ReadContext& context) {
  return *context.measured;
}

const Entry* entry_of(const ReadContext& context, const std::string& section) {
  for (const Entry& entry : context.root.entries) {
    if (entry.key == section) return &entry;
  }
  return nullptr;
}

/// Points without a plus_minus of their own have that of the section.
void read_plus_minus(ReadContext& context, Fields& fields) {
  const auto all = fields.length("plus_minus", ranges::kPlusMinus);
  if (!all) return;
  for (MeasuredPoint& point : measured_of(context).points) {
    if (point.plus_minus == 0) point.plus_minus = *all;
  }
}

void read_plumbed_at(ReadContext& context, Fields& fields) {
  const Node* node = fields.get("plumbed_at");
  const auto height = fields.length("plumbed_at", ranges::kPlumbedAt);
  if (node == nullptr || !height) return;
  if (measured_of(context).axes != MeasuringAxes::road) {
    context.complaints.error(node->place, "'plumbed_at' is told of road axes alone",
                             "take it away, or write axes = \"road\"");
    return;
  }
  measured_of(context).plumbed_at = *height;
}

std::optional<Vec3> read_known_place(ReadContext& context, const Node& node) {
  if (node.kind != NodeKind::array || node.items.size() != 3) {
    context.complaints.error(
        node.place, "a known place is no list of three lengths",
        "write known_places = [[x, y, z], [x, y, z]]" + decimal_comma_hint(node));
    return std::nullopt;
  }
  Vec3 place = Vec3::Zero();
  for (int k = 0; k < 3; ++k) {
    const auto length = read_length(node.items[static_cast<std::size_t>(k)], "known_places",
                                    ranges::kCoordinate, context.complaints);
    if (!length) return std::nullopt;
    place[k] = *length;
  }
  return place;
}

/// A hole is a point of the frame.
bool is_on_the_frame(ReadContext& context, const std::string& hole, const TextPlace& place) {
  const std::string on = body_of(context, hole);
  const Point& point = context.truck.points[context.points.at(hole)];
  if (!point.mirror_of.empty()) {
    context.complaints.error(
        place,
        fmt::format("the gauge hole '{}' is made by the mirror of '{}'", hole, point.mirror_of),
        "measure it too: take mirror = true away and write both");
    return false;
  }
  if (on == "frame") return true;
  if (!on.empty()) {
    context.complaints.error(place, fmt::format("the gauge hole '{}' rides on {}", hole, on),
                             "name a point that is on = \"frame\"");
  }
  return false;
}

void check_apart(ReadContext& context, const Node& list) {
  const std::vector<GaugeHole>& holes = measured_of(context).holes;
  double apart = 0;
  for (std::size_t k = 0; k < holes.size(); ++k) {
    for (std::size_t other = 0; other < k; ++other) {
      if (holes[k].point == holes[other].point) {
        context.complaints.error(list.items[k].place,
                                 fmt::format("the gauge hole '{}' is named twice", holes[k].point),
                                 "name each hole once");
        return;
      }
      const Vec3 way = holes[k].known - holes[other].known;
      apart = std::max(apart, std::hypot(way.x(), way.y()));
    }
  }
  if (apart >= kHolesApart) return;
  context.complaints.error(
      list.place,
      "the gauge holes stand too near to each other, seen from above, to tell a heading",
      fmt::format("name holes at least {} apart", length_words(kHolesApart, list.unit)));
}

void read_holes(ReadContext& context, Fields& fields) {
  const Node* names = fields.need("gauge_holes", "gauge_holes = [\"POINT\", \"POINT\"]");
  const Node* places = fields.need("known_places", "known_places = [[x, y, z], [x, y, z]]");
  if (names == nullptr || places == nullptr) return;
  constexpr std::size_t kMost = 12;
  if (names->kind != NodeKind::array || names->items.size() < 2 || names->items.size() > kMost) {
    context.complaints.error(names->place,
                             fmt::format("'gauge_holes' is no list of two to {} points", kMost),
                             "write gauge_holes = [\"POINT\", \"POINT\"]");
    return;
  }
  if (places->kind != NodeKind::array || places->items.size() != names->items.size()) {
    context.complaints.error(places->place, "'known_places' has not one place for each gauge hole",
                             "write known_places = [[x, y, z], [x, y, z]], in the holes' order");
    return;
  }
  bool good = true;
  for (std::size_t k = 0; k < names->items.size(); ++k) {
    const Node& node = names->items[k];
    const auto hole = read_point_name(context, node, "gauge_holes");
    const auto known = read_known_place(context, places->items[k]);
    good = good && hole && known && is_on_the_frame(context, *hole, node.place) &&
           context.unplaced.count(*hole) == 0;
    if (good) measured_of(context).holes.push_back({*hole, *known, places->items[k].place});
  }
  if (good) {
    check_apart(context, *names);
  } else {
    measured_of(context).holes.clear();
  }
}

/// Every point near its place in frame axes, so that what the reader looks at stands where it is meant to.
void place_in_frame(ReadContext& context) {
  const Measured& measured = measured_of(context);
  if (measured.axes == MeasuringAxes::frame) return;
  std::vector<Vec3> written, holes;
  for (const Point& point : context.truck.points) written.push_back(point.at);
  for (const GaugeHole& hole : measured.holes)
    holes.push_back(written[context.points.at(hole.point)]);
  if (measured.axes == MeasuringAxes::gauge_holes && holes.size() < 2) return;
  const MeasuredStance stance = start_stance(measured, holes, 0, context.truck.rake);
  for (std::size_t k = 0; k < written.size(); ++k) {
    Point& point = context.truck.points[k];
    const auto original = context.points.find(point.mirror_of);
    const bool mirrored = original != context.points.end();
    point.at = stance.frame_place(written[mirrored ? original->second : k]);
    if (mirrored) point.at.y() = -point.at.y();
  }
}

}  // namespace

bool is_for_the_fit(const ReadContext& context, std::initializer_list<std::string> points) {
  if (!context.measured) return false;
  return std::any_of(points.begin(), points.end(), [&](const std::string& name) {
    const auto found = context.points.find(name);
    return found != context.points.end() && context.measured->points[found->second].plus_minus > 0;
  });
}

void read_measured(ReadContext& context) {
  const Entry* section = entry_of(context, "measured");
  const Entry* readings = entry_of(context, "readings");
  if (section == nullptr && readings == nullptr) {
    context.measured.reset();
    return;
  }
  measured_of(context).place = (section != nullptr ? section : readings)->key_place;
  if (section == nullptr) return;
  measured_of(context).has_section = true;
  Fields fields(section->value, "[measured]", section->key_place, context.complaints);
  const auto axes = fields.choice("axes", {"frame", "road", "gauge holes"}, 0);
  if (axes) measured_of(context).axes = static_cast<MeasuringAxes>(*axes);
  read_plus_minus(context, fields);
  read_plumbed_at(context, fields);
  const std::set<std::string> used = context.used_points;
  if (measured_of(context).axes == MeasuringAxes::gauge_holes) {
    read_holes(context, fields);
    context.used_points = used;  // what only the fit uses is told apart (read_readings)
    measured_of(context).holes_plus_minus =
        fields.length("holes_plus_minus", ranges::kPlusMinus).value_or(0);
  } else {
    for (const char* key : {"gauge_holes", "known_places", "holes_plus_minus"}) {
      if (const Node* node = fields.get(key)) {
        context.complaints.error(node->place, fmt::format("'{}' goes with gauge holes alone", key),
                                 "take it away, or write axes = \"gauge holes\"");
      }
    }
  }
  fields.reject_unknown();
  place_in_frame(context);
}

}  // namespace axlewright
