// [readings]: what was read beside the points.

#include <algorithm>

#include <fmt/format.h>

#include "engine/truck/measured_stance.h"
#include "engine/truck/ranges.h"
#include "engine/truck/read_context.h"

namespace axlewright {

namespace {

/// In the order of ReadingKind.
const std::vector<std::string>& reading_kinds() {
  static const std::vector<std::string> kinds{
      "length", "height", "slope", "lean", "rake", "caster", "kingpin inclination", "camber sweep"};
  return kinds;
}

/// The part of that name, or null; complains unless a fault in it has been told.
const Part* find_part(ReadContext& context, const Node& node, const std::string& key,
                      const std::string& what, bool (*fits)(const Part&)) {
  const auto name = read_text(node, key, context.complaints);
  if (!name) return nullptr;
  std::vector<std::string> names;
  for (const Part& part : context.truck.parts) {
    if (!fits(part)) continue;
    if (part.name == *name) return &part;
    names.push_back(part.name);
  }
  const Node* parts = find(context.root, "parts");
  const bool is_there = parts != nullptr && find(*parts, *name) != nullptr;
  if (is_there && context.incomplete) return nullptr;
  context.complaints.error(node.place, fmt::format("no {} is called '{}'", what, *name),
                           fix_for_name(*name, names, fmt::format("name a {}", what)));
  return nullptr;
}

bool is_bar(const Part& part) {
  return std::holds_alternative<Bar>(part.what);
}

bool is_kingpin(const Part& part) {
  return std::holds_alternative<Kingpin>(part.what);
}

void read_value(Fields& fields, bool is_angle, const Range& range, Reading& reading) {
  if (fields.need("value", is_angle ? "value = ANGLE" : "value = LENGTH") == nullptr) return;
  reading.value =
      (is_angle ? fields.angle("value", range) : fields.length("value", range)).value_or(0);
}

void read_length_reading(ReadContext& context, Fields& fields, Reading& reading) {
  const Node* of = fields.get("of");
  const Node* between = fields.get("between");
  if (of != nullptr && between != nullptr) {
    context.complaints.error(between->place, "both 'of' and 'between' are given",
                             "take one of the two away");
  } else if (of != nullptr) {
    if (const Part* part = find_part(context, *of, "of", "bar", is_bar)) {
      reading.part = part->name;
      reading.points = std::get<Bar>(part->what).ends;
    }
  } else if (between != nullptr) {
    reading.points =
        read_point_pair(context, *between, "between").value_or(std::array<std::string, 2>{});
  } else {
    context.complaints.error(fields.place(),
                             fmt::format("{} does not say what is so long", fields.owner()),
                             "add of = \"BAR\" or between = [\"POINT\", \"POINT\"]");
  }
  read_value(fields, false, ranges::kReadLength, reading);
}

void read_kingpin_name(ReadContext& context, Fields& fields, Reading& reading) {
  const Node* node = fields.need("kingpin", "kingpin = \"PART\"");
  if (node == nullptr) return;
  if (const Part* part = find_part(context, *node, "kingpin", "kingpin", is_kingpin)) {
    reading.part = part->name;
    const Kingpin& kingpin = std::get<Kingpin>(part->what);
    reading.points = {kingpin.lower, kingpin.upper};
  }
}

std::vector<double> need_angles(ReadContext& context, Fields& fields, const std::string& key,
                                const Range& range) {
  const Node* node = fields.need(key, key + " = [ANGLE, ANGLE]");
  std::vector<double> angles;
  if (node == nullptr) return angles;
  constexpr std::size_t kMost = 9;
  if (node->kind != NodeKind::array || node->items.size() < 2 || node->items.size() > kMost) {
    context.complaints.error(node->place,
                             fmt::format("'{}' is no list of two to {} angles", key, kMost),
                             fmt::format("write {} = [ANGLE, ANGLE]", key));
    return angles;
  }
  for (const Node& item : node->items) {
    if (const auto angle = read_angle(item, key, range, context.complaints))
      angles.push_back(*angle);
  }
  if (angles.size() != node->items.size()) angles.clear();
  return angles;
}

/// Steering angles that differ, a camber for each.
void read_sweep(ReadContext& context, Fields& fields, Reading& reading) {
  read_kingpin_name(context, fields, reading);
  reading.steers = need_angles(context, fields, "steers", ranges::kReadSteer);
  reading.cambers = need_angles(context, fields, "cambers", ranges::kReadCamber);
  if (reading.steers.empty() || reading.cambers.empty()) return;
  if (reading.steers.size() != reading.cambers.size()) {
    context.complaints.error(fields.get("cambers")->place,
                             "'cambers' has not one camber for each of 'steers'",
                             "write them in the same order");
    return;
  }
  constexpr double kApart = 2 * ranges::kDegree;
  std::vector<double> sorted = reading.steers;
  std::sort(sorted.begin(), sorted.end());
  for (std::size_t k = 1; k < sorted.size(); ++k) {
    if (sorted[k] - sorted[k - 1] >= kApart) continue;
    context.complaints.error(fields.get("steers")->place,
                             "two of 'steers' are nearly the same: they tell no kingpin",
                             "turn the wheel, say 20 deg to either side");
    return;
  }
}

void check_rake_once(ReadContext& context, const Fields& fields) {
  if (truck_key(context, "rake") == nullptr) return;
  context.complaints.error(fields.place(), "the rake is read here and told in [truck] too",
                           "take one of the two away");
}

/// Gauge holes one behind the other tell the rake.
void check_rake_of_holes(ReadContext& context) {
  const Node* rake = truck_key(context, "rake");
  if (rake == nullptr || !told_by(context.measured->holes).rake) return;
  context.complaints.error(rake->place, "the gauge holes tell the rake, and it is told here too",
                           "take 'rake' away, or name holes side by side alone");
}

void read_reading(ReadContext& context, Fields& fields, Reading& reading) {
  switch (reading.kind) {
    case ReadingKind::length:
      read_length_reading(context, fields, reading);
      break;
    case ReadingKind::height:
      reading.points[0] = need_point(context, fields, "point").value_or("");
      read_value(fields, false, ranges::kReadHeight, reading);
      break;
    case ReadingKind::slope:
      reading.points =
          need_point_pair(context, fields, "between").value_or(std::array<std::string, 2>{});
      read_value(fields, true, ranges::kReadSlope, reading);
      break;
    case ReadingKind::lean:
      read_value(fields, true, ranges::kReadLean, reading);
      break;
    case ReadingKind::rake:
      check_rake_once(context, fields);
      read_value(fields, true, ranges::kRake, reading);
      break;
    case ReadingKind::caster:
    case ReadingKind::kingpin_inclination:
      read_kingpin_name(context, fields, reading);
      read_value(fields, true, ranges::kReadKingpin, reading);
      break;
    case ReadingKind::camber_sweep:
      read_sweep(context, fields, reading);
      break;
  }
}

/// A line between two places that are one tells no length and no slope.
void check_points_apart(ReadContext& context, const Reading& reading) {
  if (reading.points[0].empty() || reading.points[1].empty()) return;
  check_line(context, reading.points, fmt::format("what '{}' reads", reading.name), reading.place);
}

void read_plus_minus(Fields& fields, Reading& reading) {
  if (fields.need("plus_minus", "plus_minus = HOW WELL") == nullptr) return;
  const bool is_length = reading.kind == ReadingKind::length || reading.kind == ReadingKind::height;
  reading.plus_minus = (is_length ? fields.length("plus_minus", ranges::kPlusMinus)
                                  : fields.angle("plus_minus", ranges::kAnglePlusMinus))
                           .value_or(0);
}

/// Beyond these it is no truck, and the search for a slip would take minutes.
void check_numbers(ReadContext& context) {
  constexpr std::size_t kMostReadings = 60, kMostPoints = 300;
  const Node* readings = find(context.root, "readings");
  const std::size_t count = readings != nullptr ? readings->entries.size() : 0;
  if (count > kMostReadings) {
    context.complaints.error(readings->place, fmt::format("{} readings are too many", count),
                             fmt::format("keep the best, {} at most", kMostReadings));
  }
  if (context.truck.points.size() > kMostPoints) {
    context.complaints.error(
        context.measured->place,
        fmt::format("a measured truck has at most {} points, and this one has {}", kMostPoints,
                    context.truck.points.size()),
        "take away what is no part of the front end");
  }
}

}  // namespace

void read_readings(ReadContext& context) {
  if (!context.measured) return;
  Measured& measured = *context.measured;
  const std::set<std::string> of_parts = context.used_points;
  for (const GaugeHole& hole : measured.holes) context.used_points.insert(hole.point);
  measured.has_readings = find(context.root, "readings") != nullptr;
  check_numbers(context);
  check_rake_of_holes(context);
  for (const Entry* entry : named_entries(context, "readings")) {
    Fields fields(entry->value, fmt::format("[readings.{}]", entry->key), entry->key_place,
                  context.complaints);
    Reading reading;
    reading.name = entry->key;
    reading.place = entry->key_place;
    reading.words = read_words(fields, entry->key);
    const auto kind = fields.need_choice("kind", reading_kinds());
    if (!kind) continue;
    reading.kind = static_cast<ReadingKind>(*kind);
    read_reading(context, fields, reading);
    read_plus_minus(fields, reading);
    fields.reject_unknown();
    check_points_apart(context, reading);
    measured.readings.push_back(std::move(reading));
  }
  measured.rake_by_wheels =
      context.truck.rear_wheels && truck_key(context, "rake") == nullptr &&
      std::none_of(measured.readings.begin(), measured.readings.end(),
                   [](const Reading& reading) { return reading.kind == ReadingKind::rake; });
  for (const Point& point : context.truck.points) {
    const bool for_the_fit =
        context.used_points.count(point.name) > 0 || context.used_points.count(point.mirror_of) > 0;
    if (for_the_fit && of_parts.count(point.name) == 0)
      measured.measuring_only.push_back(point.name);
  }
}

}  // namespace axlewright
