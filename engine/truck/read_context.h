#pragma once

#include <array>
#include <initializer_list>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "engine/truck/complaints.h"
#include "engine/truck/fields.h"
#include "engine/truck/measured.h"
#include "engine/truck/truck.h"

// What the parts of the reader share; nobody outside engine/truck includes it. The reader goes through the merged
// tree section by section and fills the truck. A value that cannot be had is complained of once and left at its
// default; checks that need it then stay silent.

namespace axlewright {

/// A body and what makes it.
struct NamedBody {
  std::string name;
  std::string maker;  ///< "[parts.kingpin_left]"; empty for frame and axle
  TextPlace place;
  /// For a bar or a through-link: its ends, the line a keeper keeps it from turning about.
  std::array<std::string, 2> line;
};

/// What the readers of the sections share: the merged file, the truck as far as it is read, the complaints.
struct ReadContext {
  ReadContext(const Node& merged, BareUnit file_unit, Complaints& list)
      : root(merged), unit(file_unit), complaints(list) {}

  const Node& root;
  BareUnit unit;  ///< of the file itself, for words
  Complaints& complaints;
  Truck truck;
  TextPlace head;
  std::vector<NamedBody> bodies;
  std::map<std::string, std::size_t> points;     ///< name -> index in truck.points
  std::set<std::string> unplaced;                ///< points whose place could not be read
  std::map<std::string, std::string> mirror_of;  ///< both kinds of names, made -> written
  std::set<std::string> used_points;
  bool incomplete =
      false;  ///< a part, joint or section could not be read: what it uses is not known
  std::set<std::string> touched_bodies;  ///< held by some part or joint
  std::set<std::string> ball_points;     ///< where a ball joint or a bar's end is
  /// Points as written and what is told of how they were measured; none if the truck is not to be fitted.
  std::optional<Measured> measured = Measured{};
};

/// A key of [truck] as the file has it, or null.
const Node* truck_key(const ReadContext& context, const std::string& key);

const NamedBody* find_body(const ReadContext& context, const std::string& name);

// --- names that refer to something (references.cpp); nothing after a complaint ---

/// The point that the node names; from then on it is used.
std::optional<std::string> read_point_name(ReadContext& context, const Node& node,
                                           const std::string& key);
std::optional<std::string> need_point(ReadContext& context, Fields& fields, const std::string& key);
/// Two points that differ; both must be good.
std::optional<std::array<std::string, 2>> read_point_pair(ReadContext& context, const Node& node,
                                                          const std::string& key);
std::optional<std::array<std::string, 2>> need_point_pair(ReadContext& context, Fields& fields,
                                                          const std::string& key);
std::optional<std::string> read_body_name(ReadContext& context, const Node& node,
                                          const std::string& key);
std::optional<std::string> need_body(ReadContext& context, Fields& fields, const std::string& key);
/// Two points of one body, or three numbers. `on`: the body it must lie on; empty if any will do.
std::optional<Direction> need_direction(ReadContext& context, Fields& fields,
                                        const std::string& key, const std::string& on);

/// The point of that name; null if there is none or its place is unknown.
const Point* placed_point(const ReadContext& context, const std::string& name);
/// The body named by `key`, or else the one that the point rides on: the point says it already. Empty if unknown.
std::string body_or_that_of(ReadContext& context, Fields& fields, const std::string& key,
                            const std::string& point);
/// Complains if the point rides on a body that is none of `allowed`.
void check_rides_on_one_of(ReadContext& context, Fields& fields, const std::string& key,
                           const std::string& point, const std::vector<std::string>& allowed);

/// The body a point rides on; empty if unknown.
std::string body_of(const ReadContext& context, const std::string& point);
/// Distance of two points; nothing if a place is unknown.
std::optional<double> distance(const ReadContext& context, const std::string& a,
                               const std::string& b);
/// Distance of a point from the line through two others; nothing if a place is unknown or the line has no length.
std::optional<double> distance_from_line(const ReadContext& context, const std::string& point,
                                         const std::array<std::string, 2>& line);
/// Complains if two points that make a line are at the same place. True if they do make one.
bool check_line(ReadContext& context, const std::array<std::string, 2>& line,
                const std::string& what, const TextPlace& place);

/// Whether the truck is to be fitted and one of the points has a plus_minus: then how they fit is for the fit to judge.
bool is_for_the_fit(const ReadContext& context, std::initializer_list<std::string> points);

/// The words of an entry: given, or the name with blanks.
std::string read_words(Fields& fields, const std::string& name);

// --- what sections that are sets of keys share (read_sections.cpp) ---

/// The section's table; null and, if it must be there, a complaint otherwise.
const Entry* find_section(ReadContext& context, const std::string& name, bool required);
Fields fields_of(ReadContext& context, const Entry& entry);
double need_length(Fields& fields, const std::string& key, const Range& range);
/// The point of a wheel centre, which rides on the axle named; empty after a complaint.
std::string need_wheel_centre(ReadContext& context, Fields& fields, const std::string& key,
                              const std::string& axle);
/// Complains unless the left wheel centre lies left of the right one, as far as wheels of a truck are apart.
void check_track(ReadContext& context, Fields& fields, const std::string& left,
                 const std::string& right);

// --- the sections, in the order they are read ---

void collect_bodies(ReadContext& context);
void read_points(ReadContext& context);
void read_measured(ReadContext& context);
/// Left above y = 0 and right below, in frame axes.
void check_point_sides(ReadContext& context);
void read_truck_section(ReadContext& context);
void read_parts(ReadContext& context);
void read_joints(ReadContext& context);
void read_studs(ReadContext& context);
void read_bushes(ReadContext& context);
void read_wheels(ReadContext& context);
/// After the front wheels. What the rear ones say of wheelbase, rake and thrust angle is held against what [truck] says.
void read_rear_wheels(ReadContext& context);
void read_gear(ReadContext& context);
void read_axle_stops(ReadContext& context);
void read_travel(ReadContext& context);
void read_readings(ReadContext& context);
void read_limits(ReadContext& context);
/// What only the whole truck shows: points nobody uses, bodies nothing holds, places that coincide.
void check_truck(ReadContext& context);

void read_bar(ReadContext& context, Fields& fields, BarKind kind, Part& part);

/// What a bar and a joint of kind "distance" share: `ends` and `length`.
Bar read_distance_between(ReadContext& context, Fields& fields);
void read_guided_bar(ReadContext& context, Fields& fields, Part& part);
void read_radius_arm(ReadContext& context, Fields& fields, Part& part);
void read_leaf_spring(ReadContext& context, Fields& fields, Part& part);

/// Complains if the point of a key rides on another body than it must.
void check_rides_on(ReadContext& context, Fields& fields, const std::string& key,
                    const std::string& point, const std::string& body);

void read_four_bar(ReadContext& context, Fields& fields, Part& part);
void read_relay(ReadContext& context, Fields& fields, Part& part);
/// Complains of ends that are nearer or farther apart than those of any bar.
void check_bar_length(ReadContext& context, const std::array<std::string, 2>& ends,
                      const TextPlace& place, BareUnit unit);

/// The words of each kind in the order of BarKind, then "kingpin", "pitman arm", "guided bar", "four-bar", "relay", "clamp",
/// "keeper", "radius arm", "leaf spring".
const std::vector<std::string>& part_kinds();

/// The entries of a section that are tables, each with its name in order; complains of the others.
std::vector<const Entry*> named_entries(ReadContext& context, const std::string& section);

}  // namespace axlewright
