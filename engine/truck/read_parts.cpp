// [parts]: bars, kingpins, the pitman arm, clamps and keepers; the others have files of their own.

#include <cmath>

#include <utility>

#include <fmt/format.h>

#include "engine/truck/ranges.h"
#include "engine/truck/read_context.h"

namespace axlewright {

namespace {

/// The length that is given wins over the points, so it may differ from them by the file's tolerance, no more.
void check_misfit(ReadContext& context, const Bar& bar, const TextPlace& place, BareUnit unit) {
  const auto between = distance(context, bar.ends[0], bar.ends[1]);
  if (!between || !bar.length || is_for_the_fit(context, {bar.ends[0], bar.ends[1]})) return;
  const double misfit = *bar.length - *between;
  if (std::abs(misfit) <= context.truck.tolerance) return;
  context.complaints.error(
      place,
      fmt::format("the ends do not reach: 'length' is {}, '{}' and '{}' are {} apart",
                  length_words(*bar.length, unit), bar.ends[0], bar.ends[1],
                  length_words(*between, unit)),
      fmt::format("measure again: they may differ by {} ('tolerance' in [truck])",
                  length_words(context.truck.tolerance, unit)));
}

void read_kingpin(ReadContext& context, Fields& fields, Part& part) {
  Kingpin kingpin;
  // The name itself was looked at when the bodies were collected.
  const Node* knuckle = fields.need("knuckle", "knuckle = \"knuckle_left\"");
  if (knuckle != nullptr) {
    kingpin.knuckle = read_text(*knuckle, "knuckle", context.complaints).value_or("");
  }
  const auto lower = need_point(context, fields, "lower");
  const auto upper = need_point(context, fields, "upper");
  const auto style = fields.choice("style", {"pin", "two balls"}, 0);
  kingpin.style = style == 1u ? KingpinStyle::two_balls : KingpinStyle::pin;
  for (const auto& end : {lower, upper}) {
    if (!end) continue;
    if (kingpin.style == KingpinStyle::two_balls) context.ball_points.insert(*end);
    const std::string on = body_of(context, *end);
    if (on.empty() || on == "axle") continue;
    context.complaints.error(
        fields.place(), fmt::format("the kingpin's '{}' rides on {}, not on the axle", *end, on),
        "give both points of a kingpin on = \"axle\"");
  }
  if (lower && upper) {
    kingpin.lower = *lower;
    kingpin.upper = *upper;
    check_line(context, {*lower, *upper}, "the kingpin", fields.place());
  }
  context.touched_bodies.insert({kingpin.knuckle, "axle"});
  part.what = kingpin;
}

void read_pitman_arm(ReadContext& context, Fields& fields, Part& part) {
  PitmanArm arm;
  if (const auto axis = need_point_pair(context, fields, "axis")) {
    arm.axis = *axis;
    check_line(context, *axis, "the pitman arm's axis", fields.place());
    for (const std::string& end : *axis) {
      const std::string on = body_of(context, end);
      if (on.empty() || on == "frame") continue;
      context.complaints.error(fields.place(),
                               fmt::format("the axis' '{}' rides on {}, not on the frame", end, on),
                               "give both points of the axis on = \"frame\"");
    }
  }
  arm.anticlockwise = fields.choice("turns", {"anticlockwise", "clockwise"}, 0) != 1u;
  context.touched_bodies.insert({"pitman", "frame"});
  part.what = arm;
}

void read_clamp(ReadContext& context, Fields& fields, Part& part) {
  Clamp clamp;
  const Node* body = fields.need("body", "body = \"NAME\"");
  if (body != nullptr) clamp.body = read_text(*body, "body", context.complaints).value_or("");
  clamp.to = need_body(context, fields, "to").value_or("");
  if (!clamp.to.empty() && clamp.body == clamp.to) {
    context.complaints.error(fields.place(), fmt::format("'{}' is clamped to itself", clamp.body),
                             "name the body that it is clamped to");
  }
  context.touched_bodies.insert({clamp.body, clamp.to});
  part.what = clamp;
}

void read_keeper(ReadContext& context, Fields& fields, Part& part) {
  Keeper keeper;
  const Node* holds = fields.need("holds", "holds = \"BODY\"");
  if (holds != nullptr) {
    keeper.holds = read_body_name(context, *holds, "holds").value_or("");
    const NamedBody* body = find_body(context, keeper.holds);
    if (body != nullptr && body->line[0].empty()) {
      context.complaints.error(
          holds->place,
          fmt::format("a keeper cannot hold '{}': it has no line of its own", keeper.holds),
          "hold a bar with body = true or the through-link of a guided bar (NAME_through)");
    }
  }
  keeper.against = need_body(context, fields, "against").value_or("");
  if (!keeper.holds.empty() && keeper.holds == keeper.against) {
    context.complaints.error(fields.place(),
                             fmt::format("the keeper holds '{}' against itself", keeper.holds),
                             "name another body in 'against', such as the axle");
  }
  part.what = keeper;
}

template <BarKind kind>
void read_bar_of(ReadContext& context, Fields& fields, Part& part) {
  read_bar(context, fields, kind, part);
}

struct PartKind {
  const char* name;
  void (*read)(ReadContext& context, Fields& fields, Part& part);
};

constexpr PartKind kPartKinds[] = {{"link", read_bar_of<BarKind::link>},
                                   {"track bar", read_bar_of<BarKind::track_bar>},
                                   {"drag link", read_bar_of<BarKind::drag_link>},
                                   {"tie rod", read_bar_of<BarKind::tie_rod>},
                                   {"lower link", read_bar_of<BarKind::lower_link>},
                                   {"upper link", read_bar_of<BarKind::upper_link>},
                                   {"kingpin", read_kingpin},
                                   {"pitman arm", read_pitman_arm},
                                   {"guided bar", read_guided_bar},
                                   {"four-bar", read_four_bar},
                                   {"relay", read_relay},
                                   {"clamp", read_clamp},
                                   {"keeper", read_keeper},
                                   {"radius arm", read_radius_arm},
                                   {"leaf spring", read_leaf_spring}};

std::vector<std::string> names_of_kinds() {
  std::vector<std::string> names;
  for (const PartKind& kind : kPartKinds) names.emplace_back(kind.name);
  return names;
}

}  // namespace

const std::vector<std::string>& part_kinds() {
  static const std::vector<std::string> kinds = names_of_kinds();
  return kinds;
}

void check_bar_length(ReadContext& context, const std::array<std::string, 2>& ends,
                      const TextPlace& place, BareUnit unit) {
  const auto between = distance(context, ends[0], ends[1]);
  if (!between || (*between >= ranges::kBarLength.low && *between <= ranges::kBarLength.high))
    return;
  context.complaints.error(place,
                           fmt::format("'{}' and '{}' are {} apart, out of reason for a bar",
                                       ends[0], ends[1], length_words(*between, unit)),
                           fmt::format("place the ends at least {} and at most {} apart",
                                       length_words(ranges::kBarLength.low, unit),
                                       length_words(ranges::kBarLength.high, unit)));
}

Bar read_distance_between(ReadContext& context, Fields& fields) {
  Bar bar;
  const Node* ends = fields.need("ends", "ends = [\"POINT\", \"POINT\"]");
  const auto pair = ends == nullptr ? std::nullopt : read_point_pair(context, *ends, "ends");
  const Node* length = fields.get("length");
  bar.length = fields.length("length", ranges::kBarLength);
  if (pair) {
    bar.ends = *pair;
    const std::string first = body_of(context, bar.ends[0]), second = body_of(context, bar.ends[1]);
    if (!first.empty() && first == second) {
      context.complaints.error(
          ends->place, fmt::format("both ends ride on the same body, {}: nothing is held", first),
          "let the two points ride on different bodies");
    }
    check_bar_length(context, bar.ends, ends->place, ends->unit);
    if (length != nullptr) check_misfit(context, bar, length->place, length->unit);
    context.touched_bodies.insert({first, second});
    context.ball_points.insert(bar.ends.begin(), bar.ends.end());
  }
  return bar;
}

void read_bar(ReadContext& context, Fields& fields, BarKind kind, Part& part) {
  Bar bar = read_distance_between(context, fields);
  bar.kind = kind;
  bar.sleeve = fields.length("sleeve", ranges::kSleeve);
  bar.body = fields.yes_no("body", false);
  part.what = std::move(bar);
}

void read_parts(ReadContext& context) {
  const std::size_t errors = context.complaints.error_count();
  for (const Entry* entry : named_entries(context, "parts")) {
    context.complaints.set_mirrored(!entry->mirror_of.empty());
    Fields fields(entry->value, fmt::format("[parts.{}]", entry->key), entry->key_place,
                  context.complaints);
    Part part;
    part.name = entry->key;
    part.place = entry->key_place;
    part.words = read_words(fields, entry->key);
    fields.get("mirror");
    const auto kind = fields.need_choice("kind", part_kinds());
    if (!kind) continue;
    kPartKinds[*kind].read(context, fields, part);
    fields.reject_unknown();
    context.truck.parts.push_back(std::move(part));
  }
  context.incomplete = context.incomplete || context.complaints.error_count() > errors;
  context.complaints.set_mirrored(false);
}

}  // namespace axlewright
