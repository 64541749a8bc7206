#pragma once

#include <array>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "engine/base/result.h"
#include "engine/base/vec.h"
#include "engine/truck/measured_fit.h"
#include "engine/truck/text_place.h"

// A truck in trade words, typed, in SI, validated, mirrors written out, layers merged: what read_truck()
// makes of a truck file. Lengths in m, angles in rad, places in frame axes at the as-measured height.
// The meaning of every entry is fixed in docs/truck-file.md.

namespace axlewright {

/// A point: where it is as measured, and what it rides on.
struct Point {
  std::string name;
  std::string on;  ///< name of the body it rides on
  Vec3 at = Vec3::Zero();
  std::optional<double> plus_minus;
  std::string
      from;  ///< name of the point that its place was counted from; empty if from the origin
  std::string mirror_of;  ///< name of the point it was mirrored from; empty if written itself
  TextPlace place;
};

/// Two points, or a fixed direction.
struct Direction {
  std::string from, to;  ///< point names; empty if `fixed` counts
  Vec3 fixed = Vec3::Zero();
};

enum class BarKind { link, track_bar, drag_link, tie_rod, lower_link, upper_link };

/// A bar between two points.
struct Bar {
  BarKind kind = BarKind::link;
  std::array<std::string, 2> ends;
  std::optional<double> length;  ///< centre to centre, if given; it wins over the points
  std::optional<double> sleeve;  ///< change of length per turn of the adjuster [m]
  bool body = false;
};

enum class KingpinStyle { pin, two_balls };

/// A steering axis between axle and knuckle.
struct Kingpin {
  std::string knuckle;
  std::string lower, upper;
  KingpinStyle style = KingpinStyle::pin;
};

/// The arm on the steering gear's shaft.
struct PitmanArm {
  std::array<std::string, 2> axis;
  bool anticlockwise = true;
};

enum class HalfLink { distance, pinned_body, ball_body };
enum class Carriage { point, slide, rocker };

/// A guided bar: a through-link whose one end slides on a guide, and the half-link that holds its middle.
struct GuidedBar {
  std::string near_end, guide_end, middle, pivot;
  Direction guide;  ///< two points of its line; with a rocker its direction alone counts
  HalfLink half_link = HalfLink::distance;
  Carriage carriage = Carriage::point;
  std::string carries;       ///< body that carries guide and pivot
  std::string near_end_on;   ///< body that the near end rides on
  std::string rocker_pivot;  ///< with a rocker: a point of its pin, on the body that carries it
  Direction rocker_axis;     ///< with a rocker: its pin
};

/// A lateral four-bar: a crank pinned on one body, and from each end of the crank an arm to another body.
struct FourBar {
  std::array<std::string, 2> upper_arm, lower_arm;  ///< outer end, crank's end
  std::string pivot;
  Direction axis;       ///< of the crank's pin
  std::string carries;  ///< body that carries the pin
};

/// A body pinned on another about the line through two points; bars end on it.
struct Relay {
  std::array<std::string, 2> axis;
  std::string carries;
};

/// A body that is fixed to another.
struct Clamp {
  std::string body, to;
};

/// Keeps a bar from turning about its own line.
struct Keeper {
  std::string holds, against;
};

/// Bolted to the axle at two places, so that it keeps it from pitching; one end on the frame.
struct RadiusArm {
  std::string frame_end;
  std::array<std::string, 2> axle_ends;
};

/// How thick a half of a leaf spring is from its seat to its eye: `tapered` bends to a circle (a pack that is cut to length, a
/// tapered leaf), `even` is the same all along.
enum class LeafShape { tapered, even };

/// A leaf spring across an axle seat: one eye on the frame, the other on a shackle.
///   rate                of the seat against both eyes [N/m]
///   clamp               length of the seat that cannot bend [m], half of it each way
///   width_to_thickness  of a leaf: sideways it is stiffer by the square of it
///   pieces              of each half; 0: one link, as the three-link equivalent has it
struct LeafSpring {
  std::string eye, shackle_eye, shackle, seat;
  double rate = 0;
  double clamp = 0;
  double width_to_thickness = 7;
  LeafShape shape = LeafShape::tapered;
  int pieces = 0;
};

/// A part in trade words, with its place in the file.
struct Part {
  std::string name;
  std::string words;  ///< "track bar", "lower link, left"
  std::variant<Bar, Kingpin, PitmanArm, GuidedBar, FourBar, Relay, Clamp, Keeper, RadiusArm,
               LeafSpring>
      what;
  TextPlace place;
};

enum class PlainJointKind {
  ball,
  pin,
  slide,
  clamp,
  point_on_line,
  distance,
  perpendicular,
  spin_keeper,
  held_coordinate
};

/// A joint of `[joints]`, spelled by its kind.
struct PlainJoint {
  std::string name, words;
  PlainJointKind kind = PlainJointKind::ball;
  std::array<std::string, 2> between;
  std::string point;                ///< `at` or `point`
  std::array<std::string, 2> ends;  ///< `ends` or `line`
  Direction first, second;          ///< `axis` or `along` or `first`; `second`
  std::optional<double> length;
  TextPlace place;
};

/// An entry of `[studs]`: how a ball's stud stands and how far it tilts.
struct Stud {
  std::string name, ball, on;
  Direction axis;
  std::optional<double> largest_tilt;
  TextPlace place;
};

/// What a ball gives by, where rubber is in its place.
///   of     the part or joint that it belongs to; empty: every one that has a ball at the point
///   axis   the bush's own line
///   radial, axial [N/m], not both 0; tilt, twist [N m/rad]
struct BushEntry {
  std::string name, ball, of;
  Direction axis;
  double radial = 0, axial = 0, tilt = 0, twist = 0;
  TextPlace place;
};

/// `[wheels]`: the tyres, and how the wheels are set.
struct Wheels {
  std::string centre_left, centre_right;
  double loaded_radius = 0;
  double section = 0;
  double toe_in = 0;
  double camber = 0;
};

/// A rear axle of its own, the body "rear_axle".
struct RearWheels {
  std::string centre_left, centre_right;  ///< on the rear axle
  double loaded_radius = 0;
  double section = 0;
  /// No thrust angle was given: as measured they drive the truck square to the line through their centres.
  bool square_to_centres = true;
};

/// Ratio of the steering wheel's turn to the pitman arm's, tabulated over the steering-wheel angle either side of
/// centre; one row if constant. Rows rise in angle, the first is at 0.
struct GearRatio {
  double wheel_angle = 0;
  double ratio = 0;
};

/// `[gear]`: the steering gear.
struct Gear {
  std::vector<GearRatio> ratio;
  double stop_left = 0,
         stop_right = 0;  ///< of the steering wheel, from centre [rad]; 0 if not given
  double as_found = 0;    ///< where the steering wheel stood as measured, left positive [rad]
};

/// Where the knuckles meet the axle.
struct AxleStops {
  double turn_left = 0, turn_right = 0;  ///< of the left knuckle [rad]; 0 if not given
};

/// How far the wheels go up and down (definition 14).
struct Travel {
  double bump = 0, droop = 0;
  bool fixed_in_truck = false;
};

/// A limit: the band of a quantity, and where it holds (definition 15).
struct Limit {
  std::string name, quantity;
  std::optional<double> min, max;  ///< in SI, by the quantity's unit
  bool over_grid = false;
  bool held = false;
  TextPlace place;
};

/// A body of `[bodies]`.
struct ExtraBody {
  std::string name, words;
  TextPlace place;
};

/// A truck as its file and its layers say.
struct Truck {
  std::string name;
  std::string file;
  std::vector<std::string> kits;  ///< names of what was put on top of the file's own layers
  bool inches = false;            ///< the unit the file itself is written in
  double wheelbase = 0;
  std::array<double, 2> height_range{};
  double aligned_height = 0;
  double aligned_rear_height = 0;
  double rake = 0;
  double thrust_angle =
      0;  ///< direction of travel from frame x, of a rear axle as measured; left positive [rad]
  double lean = 0;
  std::optional<double> steering;
  double tolerance = 3e-3;
  std::vector<Point> points;
  std::vector<ExtraBody> bodies;
  std::vector<Part> parts;
  std::vector<PlainJoint> joints;
  std::vector<Stud> studs;
  std::vector<BushEntry> bushes;
  Wheels wheels;
  std::optional<RearWheels> rear_wheels;
  Gear gear;
  AxleStops axle_stops;
  Travel travel;
  std::vector<Limit> limits;
  std::optional<MeasuredFit>
      fit;  ///< of a truck with [measured] or [readings]; its points are the fitted ones
  std::vector<Fault> warnings;  ///< what the reader remarked on and let pass
};

/// The point of that name, or null.
const Point* find_point(const Truck& truck, const std::string& name);

}  // namespace axlewright
