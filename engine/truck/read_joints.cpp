// [joints] and [studs].

#include <fmt/format.h>

#include "engine/truck/ranges.h"
#include "engine/truck/read_context.h"

namespace axlewright {

namespace {

const std::vector<std::string>& joint_kinds() {
  static const std::vector<std::string> kinds{"ball",          "pin",           "slide",
                                              "clamp",         "point on line", "distance",
                                              "perpendicular", "spin keeper",   "held coordinate"};
  return kinds;
}

bool read_between(ReadContext& context, Fields& fields, PlainJoint& joint) {
  const Node* between = fields.need("between", "between = [\"BODY\", \"BODY\"]");
  if (between == nullptr) return false;
  if (between->kind != NodeKind::array || between->items.size() != 2) {
    context.complaints.error(between->place, "'between' is no list of two bodies",
                             "write between = [\"BODY\", \"BODY\"]");
    return false;
  }
  const auto first = read_body_name(context, between->items[0], "between");
  const auto second = read_body_name(context, between->items[1], "between");
  if (!first || !second) return false;
  if (*first == *second) {
    context.complaints.error(between->place, fmt::format("both bodies of the joint are {}", *first),
                             "name two different bodies");
    return false;
  }
  joint.between = {*first, *second};
  context.touched_bodies.insert({*first, *second});
  return true;
}

/// Complains if the point rides on none of the bodies allowed.
void check_on(ReadContext& context, Fields& fields, const std::string& key,
              const std::string& point, const std::vector<std::string>& allowed) {
  const std::string on = body_of(context, point);
  if (on.empty()) return;
  for (const std::string& body : allowed) {
    if (body.empty() || body == on) return;
  }
  context.complaints.error(fields.get(key)->place,
                           fmt::format("'{}' rides on {}, no body of this joint", point, on),
                           fmt::format("give a point that rides on {}", one_of(allowed)));
}

void read_at(ReadContext& context, Fields& fields, PlainJoint& joint) {
  joint.point = need_point(context, fields, "at").value_or("");
  if (joint.point.empty()) return;
  check_on(context, fields, "at", joint.point, {joint.between[0], joint.between[1]});
  if (joint.kind == PlainJointKind::ball) context.ball_points.insert(joint.point);
}

/// The body of the joint that the point does not ride on; empty if unknown.
std::string other_body(const ReadContext& context, const PlainJoint& joint,
                       const std::string& point) {
  const std::string on = body_of(context, point);
  if (on == joint.between[0]) return joint.between[1];
  return on == joint.between[1] ? joint.between[0] : "";
}

void read_point_on_line(ReadContext& context, Fields& fields, PlainJoint& joint) {
  joint.point = need_point(context, fields, "point").value_or("");
  if (!joint.point.empty()) {
    check_on(context, fields, "point", joint.point, {joint.between[0], joint.between[1]});
  }
  const auto line = need_point_pair(context, fields, "line");
  if (!line) return;
  joint.ends = *line;
  const TextPlace place = fields.get("line")->place;
  for (const std::string& end : *line) {
    check_on(context, fields, "line", end, {other_body(context, joint, joint.point)});
  }
  if (!check_line(context, *line, "the line", place) || joint.point.empty()) return;
  const auto miss = distance_from_line(context, joint.point, *line);
  if (!miss || *miss <= context.truck.tolerance ||
      is_for_the_fit(context, {joint.point, (*line)[0], (*line)[1]}))
    return;
  context.complaints.error(
      fields.get("point")->place,
      fmt::format("'{}' misses the line by {}", joint.point, length_words(*miss, context.unit)),
      fmt::format("place it on the line from '{}' to '{}'", (*line)[0], (*line)[1]));
}

/// The bar of a distance joint: the same rules as for a link, and its ends ride on the bodies named.
void read_distance(ReadContext& context, Fields& fields, PlainJoint& joint) {
  const Bar bar = read_distance_between(context, fields);
  joint.ends = bar.ends;
  joint.length = bar.length;
  if (bar.ends[0].empty()) return;
  check_on(context, fields, "ends", bar.ends[0], {joint.between[0], joint.between[1]});
  check_on(context, fields, "ends", bar.ends[1], {joint.between[0], joint.between[1]});
}

void read_spin_keeper(ReadContext& context, Fields& fields, PlainJoint& joint) {
  const auto line = need_point_pair(context, fields, "line");
  if (!line) return;
  joint.ends = *line;
  for (const std::string& end : *line) check_on(context, fields, "line", end, {joint.between[0]});
  check_line(context, *line, "the line", fields.get("line")->place);
}

void read_keys_of_kind(ReadContext& context, Fields& fields, PlainJoint& joint) {
  const std::string &first = joint.between[0], &second = joint.between[1];
  const auto direction = [&](const std::string& key, const std::string& on) {
    return need_direction(context, fields, key, on).value_or(Direction{});
  };
  switch (joint.kind) {
    case PlainJointKind::ball:
      read_at(context, fields, joint);
      break;
    case PlainJointKind::pin:
      read_at(context, fields, joint);
      joint.first = direction("axis", "");
      break;
    case PlainJointKind::slide:
      joint.first = direction("axis", "");
      break;
    case PlainJointKind::clamp:
      break;
    case PlainJointKind::point_on_line:
      read_point_on_line(context, fields, joint);
      break;
    case PlainJointKind::distance:
      read_distance(context, fields, joint);
      break;
    case PlainJointKind::perpendicular:
      joint.first = direction("first", first);
      joint.second = direction("second", second);
      break;
    case PlainJointKind::spin_keeper:
      read_spin_keeper(context, fields, joint);
      break;
    case PlainJointKind::held_coordinate:
      joint.point = need_point(context, fields, "point").value_or("");
      if (!joint.point.empty()) check_on(context, fields, "point", joint.point, {second});
      joint.first = direction("along", first);
      break;
  }
}

void reject_name_of_part(ReadContext& context, const PlainJoint& joint) {
  for (const Part& part : context.truck.parts) {
    if (part.name != joint.name) continue;
    context.complaints.error(joint.place, fmt::format("a part is called '{}' too", joint.name),
                             "give the joint another name");
  }
}

}  // namespace

void read_joints(ReadContext& context) {
  const std::size_t errors = context.complaints.error_count();
  for (const Entry* entry : named_entries(context, "joints")) {
    context.complaints.set_mirrored(!entry->mirror_of.empty());
    Fields fields(entry->value, fmt::format("[joints.{}]", entry->key), entry->key_place,
                  context.complaints);
    PlainJoint joint;
    joint.name = entry->key;
    joint.place = entry->key_place;
    joint.words = read_words(fields, entry->key);
    reject_name_of_part(context, joint);
    fields.get("mirror");
    const auto kind = fields.need_choice("kind", joint_kinds());
    const bool between = read_between(context, fields, joint);
    if (!kind) continue;
    joint.kind = static_cast<PlainJointKind>(*kind);
    // With a body unknown the other keys are still read: their points are used and may be misspelled too.
    read_keys_of_kind(context, fields, joint);
    fields.reject_unknown();
    if (between) context.truck.joints.push_back(std::move(joint));
  }
  context.incomplete = context.incomplete || context.complaints.error_count() > errors;
  context.complaints.set_mirrored(false);
}

void read_studs(ReadContext& context) {
  for (const Entry* entry : named_entries(context, "studs")) {
    context.complaints.set_mirrored(!entry->mirror_of.empty());
    Fields fields(entry->value, fmt::format("[studs.{}]", entry->key), entry->key_place,
                  context.complaints);
    Stud stud;
    stud.name = entry->key;
    stud.place = entry->key_place;
    stud.ball = need_point(context, fields, "ball").value_or("");
    if (!stud.ball.empty() && !context.incomplete && context.ball_points.count(stud.ball) == 0) {
      context.complaints.error(fields.get("ball")->place,
                               fmt::format("no ball is at '{}'", stud.ball),
                               "name a point where a ball joint or a bar's end is");
    }
    stud.on = need_body(context, fields, "on").value_or("");
    stud.axis = need_direction(context, fields, "axis", "").value_or(Direction{});
    stud.largest_tilt = fields.angle("largest_tilt", ranges::kTilt);
    fields.get("mirror");
    fields.reject_unknown();
    context.truck.studs.push_back(std::move(stud));
  }
  context.complaints.set_mirrored(false);
}

}  // namespace axlewright
