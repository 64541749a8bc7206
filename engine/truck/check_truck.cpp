// What only the whole truck shows.

#include <algorithm>

#include <fmt/format.h>

#include "engine/truck/ranges.h"
#include "engine/truck/read_context.h"

namespace axlewright {

namespace {

bool is_used(const ReadContext& context, const std::string& point) {
  return context.used_points.count(point) > 0;
}

void check_unused_points(ReadContext& context) {
  if (context.incomplete) return;
  for (const Point& point : context.truck.points) {
    if (is_used(context, point.name)) continue;
    const bool mirrored = !point.mirror_of.empty();
    // Said once for both sides.
    if (mirrored && !is_used(context, point.mirror_of)) continue;
    context.complaints.warning(
        point.place,
        mirrored ? fmt::format("nothing uses '{}', the mirror of '{}'", point.name, point.mirror_of)
                 : fmt::format("nothing uses the point '{}'", point.name),
        mirrored ? "take its mirror = true away if only one side has it"
                 : "take it away, or let a part or joint use it");
  }
}

void check_held_bodies(ReadContext& context) {
  if (context.incomplete) return;
  for (const ExtraBody& body : context.truck.bodies) {
    if (context.touched_bodies.count(body.name) > 0) continue;
    context.complaints.error(body.place, fmt::format("nothing holds the body '{}'", body.name),
                             "add a part or a joint that holds it, or take it away");
  }
  const NamedBody* rear = context.truck.rear_wheels ? find_body(context, "rear_axle") : nullptr;
  if (rear == nullptr || context.touched_bodies.count("rear_axle") > 0) return;
  context.complaints.error(rear->place, "nothing holds the rear axle",
                           "add the links and the track bar that do, or take [rear_wheels] away: "
                           "without it the rear axle stays where it is");
}

void warn_of_same_place(ReadContext& context, const Point& a, const Point& b) {
  const bool pair = a.mirror_of == b.name || b.mirror_of == a.name;
  const bool both_mirrored = !a.mirror_of.empty() && !b.mirror_of.empty();
  // A mirror repeats what was said of the side that is written.
  if (pair || both_mirrored) return;
  const Point& later = &a < &b ? b : a;
  const Point& earlier = &a < &b ? a : b;
  context.complaints.warning(
      later.place,
      a.on == b.on ? fmt::format("'{}' is at the same place as '{}'", later.name, earlier.name)
                   : fmt::format("'{}' on {} is at the same place as '{}' on {}", later.name,
                                 later.on, earlier.name, earlier.on),
      "if they are one joint, let both parts use one point");
}

void check_same_places(ReadContext& context) {
  std::vector<const Point*> points;
  for (const Point& point : context.truck.points) {
    if (context.unplaced.count(point.name) == 0) points.push_back(&point);
  }
  // Sorted by x, each is compared with the few that follow within reach.
  std::stable_sort(points.begin(), points.end(),
                   [](const Point* a, const Point* b) { return a->at.x() < b->at.x(); });
  for (std::size_t i = 0; i < points.size(); ++i) {
    for (std::size_t j = i + 1; j < points.size(); ++j) {
      const Vec3 apart = points[j]->at - points[i]->at;
      if (apart.x() > ranges::kSamePlace) break;
      if (apart.dot(apart) < ranges::kSamePlace * ranges::kSamePlace)
        warn_of_same_place(context, *points[i], *points[j]);
    }
  }
}

/// Clamps must end at a body that something else makes.
void check_clamp_circles(ReadContext& context) {
  const auto clamped_to = [&](const std::string& body) -> std::string {
    for (const Part& part : context.truck.parts) {
      const Clamp* clamp = std::get_if<Clamp>(&part.what);
      if (clamp != nullptr && clamp->body == body) return clamp->to;
    }
    return {};
  };
  for (const Part& part : context.truck.parts) {
    const Clamp* clamp = std::get_if<Clamp>(&part.what);
    if (clamp == nullptr || clamp->body == clamp->to) continue;
    std::string body = clamp->to;
    for (std::size_t steps = 0;
         !body.empty() && body != clamp->body && steps < context.truck.parts.size(); ++steps) {
      body = clamped_to(body);
    }
    if (body != clamp->body) continue;
    context.complaints.error(
        part.place, fmt::format("'{}' is clamped to itself, through other clamps", clamp->body),
        "let one of them be clamped to a body that is no clamp's own");
  }
}

/// One kingpin on each side: every question about steering needs both.
void check_kingpins(ReadContext& context) {
  // Of a part that could not be read nobody knows what it is.
  if (context.incomplete) return;
  PerSide<int> count;
  for (const Part& part : context.truck.parts) {
    const Kingpin* kingpin = std::get_if<Kingpin>(&part.what);
    if (kingpin == nullptr) continue;
    const auto lower = context.points.find(kingpin->lower);
    if (lower == context.points.end() || context.unplaced.count(kingpin->lower) > 0) return;
    int& side = context.truck.points[lower->second].at.y() > 0 ? count.left : count.right;
    if (++side < 2) continue;
    context.complaints.error(part.place, "a second kingpin stands on the same side",
                             "give one kingpin with its lower point at y above 0, one below 0");
  }
  const bool one_each = count.left > 0 && count.right > 0;
  if (one_each) return;
  const char* side = count.left > 0 ? "the right" : count.right > 0 ? "the left" : "either side";
  context.complaints.error(context.head, fmt::format("no kingpin stands on {}", side),
                           "add [parts.kingpin_left] with kind = \"kingpin\" and mirror = true");
}

}  // namespace

void check_truck(ReadContext& context) {
  check_kingpins(context);
  check_held_bodies(context);
  check_clamp_circles(context);
  check_unused_points(context);
  check_same_places(context);
}

}  // namespace axlewright
