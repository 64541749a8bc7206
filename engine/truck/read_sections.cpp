// The sections that are sets of keys: [truck], [wheels], [gear], [axle_stops], [travel]. [rear_wheels] has a file of its own.

#include <cmath>

#include <fmt/format.h>

#include "engine/truck/ranges.h"
#include "engine/truck/read_context.h"

namespace axlewright {

namespace {

void read_height_range(ReadContext& context, Fields& fields) {
  const Node* range = fields.need("height_range", "height_range = [low, high]");
  if (range == nullptr) return;
  if (range->kind != NodeKind::array || range->items.size() != 2) {
    context.complaints.error(range->place, "'height_range' is no list of two heights",
                             "write height_range = [low, high]" + decimal_comma_hint(*range));
    return;
  }
  const auto low =
      read_length(range->items[0], "height_range", ranges::kHeight, context.complaints);
  const auto high =
      read_length(range->items[1], "height_range", ranges::kHeight, context.complaints);
  if (!low || !high) return;
  context.truck.height_range = {*low, *high};
  if (*low > *high) {
    context.complaints.error(range->place, "'height_range' runs downwards",
                             "write the lower height first");
  } else if (*low > 0 || *high < 0) {
    context.complaints.error(
        range->place, "'height_range' does not contain 0, the height as measured",
        "heights count from as measured: write one below or at 0 and one above or at 0");
  } else if (*low == *high) {
    context.complaints.error(range->place, "'height_range' is empty",
                             "write a lower and a higher height");
  }
}

void check_aligned_height(ReadContext& context, Fields& fields) {
  const Node* aligned = fields.get("aligned_height");
  const auto& [low, high] = context.truck.height_range;
  const double height = context.truck.aligned_height;
  // Without a height range there is nothing to hold it against.
  if (aligned == nullptr || low >= high || (height >= low && height <= high)) return;
  context.complaints.error(
      aligned->place,
      fmt::format("'aligned_height' is {}, outside 'height_range'",
                  length_words(height, aligned->unit)),
      fmt::format("give a height from {} to {}", length_words(low, aligned->unit),
                  length_words(high, aligned->unit)));
}

void read_ratio_table(ReadContext& context, const Node& table) {
  const char* kForm =
      "write ratio_table = [[0, 16.0], [360, 13.5]]: steering-wheel angle, ratio there";
  if (table.kind != NodeKind::array || table.items.empty()) {
    context.complaints.error(table.place, "'ratio_table' is no list of rows", kForm);
    return;
  }
  for (const Node& row : table.items) {
    if (row.kind != NodeKind::array || row.items.size() != 2) {
      context.complaints.error(row.place, "a row of 'ratio_table' is no pair",
                               kForm + decimal_comma_hint(row));
      continue;
    }
    const auto angle = read_angle(row.items[0], "angle", ranges::kRatioAngle, context.complaints);
    const auto ratio =
        read_plain_number(row.items[1], "ratio", ranges::kGearRatio, context.complaints);
    if (!angle || !ratio) continue;
    std::vector<GearRatio>& rows = context.truck.gear.ratio;
    if (rows.empty() && &row == &table.items.front() && *angle != 0) {
      context.complaints.error(row.items[0].place, "'ratio_table' does not begin at the centre",
                               "let the first row be [0, ratio at centre]");
    }
    if (!rows.empty() && *angle <= rows.back().wheel_angle) {
      context.complaints.error(row.items[0].place, "the angles of 'ratio_table' do not rise",
                               "write the rows in the order of their angles, each once");
    }
    rows.push_back({*angle, *ratio});
  }
}

/// A steering wheel cannot stand beyond the stop on its side.
void read_as_found(ReadContext& context, Fields& fields) {
  Gear& gear = context.truck.gear;
  gear.as_found = fields.angle("as_found", ranges::kAsFound).value_or(0);
  const double stop = gear.as_found > 0 ? gear.stop_left : gear.stop_right;
  if (stop == 0 || std::abs(gear.as_found) <= stop) return;
  context.complaints.error(
      fields.get("as_found")->place,
      fmt::format("'as_found' is {}, beyond the gear's stop at {}", angle_words(gear.as_found),
                  angle_words(std::copysign(stop, gear.as_found))),
      "count both from the gear's centre, to the left positive for 'as_found'");
}

}  // namespace

const Entry* find_section(ReadContext& context, const std::string& name, bool required) {
  for (const Entry& entry : context.root.entries) {
    if (entry.key == name) return &entry;
  }
  if (required) {
    context.complaints.error(
        context.head, fmt::format("the section [{}] is missing", name),
        fmt::format("add [{}] with its keys; docs/truck-file.md lists them", name));
  }
  return nullptr;
}

Fields fields_of(ReadContext& context, const Entry& entry) {
  return Fields(entry.value, fmt::format("[{}]", entry.key), entry.key_place, context.complaints);
}

double need_length(Fields& fields, const std::string& key, const Range& range) {
  if (fields.need(key, key + " = LENGTH") == nullptr) return 0;
  return fields.length(key, range).value_or(0);
}

std::string need_wheel_centre(ReadContext& context, Fields& fields, const std::string& key,
                              const std::string& axle) {
  const auto name = need_point(context, fields, key);
  if (!name) return {};
  const std::string on = body_of(context, *name);
  if (!on.empty() && on != axle) {
    context.complaints.error(fields.get(key)->place,
                             fmt::format("the wheel centre '{}' rides on {}, not on the {}", *name,
                                         on, axle == "axle" ? "axle" : "rear axle"),
                             fmt::format("give it on = \"{}\": its place straight ahead", axle));
  }
  return *name;
}

void check_track(ReadContext& context, Fields& fields, const std::string& left,
                 const std::string& right) {
  const Point *l = placed_point(context, left), *r = placed_point(context, right);
  if (l == nullptr || r == nullptr) return;
  const double track = l->at.y() - r->at.y();
  const TextPlace place = fields.get("centre_left")->place;
  if (track <= 0) {
    context.complaints.error(
        place, "the left wheel centre is not left of the right one: left and right are swapped",
        "y points to the left: swap 'centre_left' and 'centre_right'");
  } else if (track < ranges::kTrack.low || track > ranges::kTrack.high) {
    context.complaints.error(place,
                             fmt::format("the wheel centres are {} apart, out of reason",
                                         length_words(track, context.unit)),
                             fmt::format("place them at least {} and at most {} apart",
                                         length_words(ranges::kTrack.low, context.unit),
                                         length_words(ranges::kTrack.high, context.unit)));
  }
}

void read_truck_section(ReadContext& context) {
  const Entry* entry = find_section(context, "truck", true);
  if (entry == nullptr) return;
  Fields fields = fields_of(context, *entry);
  Truck& truck = context.truck;
  truck.wheelbase = need_length(fields, "wheelbase", ranges::kWheelbase);
  read_height_range(context, fields);
  truck.aligned_height = fields.length("aligned_height", ranges::kHeight).value_or(0);
  check_aligned_height(context, fields);
  truck.aligned_rear_height = fields.length("aligned_rear_height", ranges::kHeight).value_or(0);
  truck.rake = fields.angle("rake", ranges::kRake).value_or(0);
  truck.thrust_angle = fields.angle("thrust_angle", ranges::kThrustAngle).value_or(0);
  truck.lean = fields.angle("lean", ranges::kLean).value_or(0);
  truck.steering = fields.angle("steering", ranges::kSteeringWheel);
  truck.tolerance = fields.length("tolerance", ranges::kTolerance).value_or(truck.tolerance);
  fields.reject_unknown();
}

void read_wheels(ReadContext& context) {
  const Entry* entry = find_section(context, "wheels", true);
  if (entry == nullptr) return;
  Fields fields = fields_of(context, *entry);
  Wheels& wheels = context.truck.wheels;
  wheels.centre_left = need_wheel_centre(context, fields, "centre_left", "axle");
  wheels.centre_right = need_wheel_centre(context, fields, "centre_right", "axle");
  check_track(context, fields, wheels.centre_left, wheels.centre_right);
  wheels.loaded_radius = need_length(fields, "loaded_radius", ranges::kLoadedRadius);
  wheels.section = need_length(fields, "section", ranges::kSection);
  wheels.toe_in = fields.angle("toe_in", ranges::kToe).value_or(0);
  wheels.camber = fields.angle("camber", ranges::kCamber).value_or(0);
  fields.reject_unknown();
}

void read_gear(ReadContext& context) {
  const bool has_pitman = find_body(context, "pitman") != nullptr;
  const Entry* entry = find_section(context, "gear", has_pitman);
  if (entry == nullptr) return;
  Fields fields = fields_of(context, *entry);
  Gear& gear = context.truck.gear;
  const Node* table = fields.get("ratio_table");
  const Node* ratio =
      table == nullptr ? fields.need("ratio", "ratio = NUMBER") : fields.get("ratio");
  if (table != nullptr && ratio != nullptr) {
    context.complaints.error(ratio->place, "both 'ratio' and 'ratio_table' are given",
                             "take one of the two away");
  } else if (table != nullptr) {
    read_ratio_table(context, *table);
  } else if (const auto number = fields.plain_number("ratio", ranges::kGearRatio)) {
    gear.ratio.push_back({0, *number});
  }
  gear.stop_left = fields.angle("stop_left", ranges::kSteeringWheel).value_or(0);
  gear.stop_right = fields.angle("stop_right", ranges::kSteeringWheel).value_or(0);
  read_as_found(context, fields);
  fields.reject_unknown();
}

void read_axle_stops(ReadContext& context) {
  const Entry* entry = find_section(context, "axle_stops", false);
  if (entry == nullptr) return;
  Fields fields = fields_of(context, *entry);
  context.truck.axle_stops.turn_left = fields.angle("turn_left", ranges::kAxleStop).value_or(0);
  context.truck.axle_stops.turn_right = fields.angle("turn_right", ranges::kAxleStop).value_or(0);
  fields.reject_unknown();
}

void read_travel(ReadContext& context) {
  const Entry* entry = find_section(context, "travel", false);
  if (entry == nullptr) return;
  Fields fields = fields_of(context, *entry);
  Travel& travel = context.truck.travel;
  travel.bump = need_length(fields, "bump", ranges::kTravel);
  travel.droop = need_length(fields, "droop", ranges::kTravel);
  travel.fixed_in_truck = fields.choice("kind", {"about every height", "fixed in truck"}, 0) == 1u;
  fields.reject_unknown();
}

}  // namespace axlewright
