// Lateral four-bars, rockers in place of guides and unequal arms, held to closed forms: the kinematics references by section ("derived
// here": worked for that file and checked by another solution), and to a second way of closing the same loop.

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "tests/support/straight_axle.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

using testing::add_point;
using testing::place_of;
using testing::release;
using testing::StraightAxle;
using testing::truck_of;

constexpr double kLast = 6e-7;  // [in] half of the last digit where six are printed

template <class What>
void add_part(Truck& truck, const std::string& name, const What& what) {
  Part part;
  part.name = part.words = name;
  part.what = what;
  truck.parts.push_back(part);
}

Direction fixed(const Vec3& way) {
  Direction direction;
  direction.fixed = way;
  return direction;
}

double value_of(const Rig& rig, const PoseResult& pose, const std::string& key) {
  for (std::size_t k = 0; k < pose.values.size(); ++k) {
    if (rig.quantities()[k].key == key) return pose.values[k];
  }
  ADD_FAILURE() << "no quantity " << key;
  return NAN;
}

PoseResult raised(Rig& rig, double height) {
  PoseRequest request;
  request.height = height;
  const PoseResult pose = rig.solve(request);
  EXPECT_TRUE(pose.report.usable()) << pose.report.message;
  return pose;
}

// ---- four-bar

/// Arms and ends of the crank, drawn with arms level and crank upright [m].
struct FourBarShape {
  double upper_arm = 0, lower_arm = 0;
  double upper_end = 0, lower_end = 0;  ///< of the crank, from its pivot
  bool crank_on_axle = true;
};

Truck four_bar_truck(const FourBarShape& s) {
  Truck truck = truck_of(StraightAxle{});
  release(truck, "axle sideways");
  const std::string crank_on = s.crank_on_axle ? "axle" : "frame";
  const std::string arms_on = s.crank_on_axle ? "frame" : "axle";
  const Vec3 pivot(-0.090, 0, 0.560);
  const Vec3 top = pivot + Vec3(0, 0, s.upper_end), bottom = pivot - Vec3(0, 0, s.lower_end);
  add_point(truck, "pivot", crank_on, pivot);
  add_point(truck, "top", "locator_crank", top);
  add_point(truck, "bottom", "locator_crank", bottom);
  add_point(truck, "outer_left", arms_on, top + Vec3(0, s.upper_arm, 0));
  add_point(truck, "outer_right", arms_on, bottom - Vec3(0, s.lower_arm, 0));
  FourBar four_bar;
  four_bar.upper_arm = {"outer_left", "top"};
  four_bar.lower_arm = {"outer_right", "bottom"};
  four_bar.pivot = "pivot";
  four_bar.axis = fixed(Vec3::UnitX());
  four_bar.carries = crank_on;
  add_part(truck, "locator", four_bar);
  return truck;
}

/// Arms of 16 in, crank 8 in between its ends.
FourBarShape equal_arms() {
  const double arm = from_inch(16.0), end = from_inch(4.0);
  return {.upper_arm = arm, .lower_arm = arm, .upper_end = end, .lower_end = end};
}

// 2.1, derived here: x at the middle of the crank, whichever of the two bodies it stands on. The upper arm's outer end is on the left, so
// raised the axle goes to the left by as much as it goes to the right when lowered: an S.
TEST(FourBar, AxleWalksAlongTheCurveOfTheMiddleOfTheCrank) {
  struct Row {
    double height, x;
  };
  for (const bool on_axle : {true, false}) {
    FourBarShape shape = equal_arms();
    shape.crank_on_axle = on_axle;
    Rig rig(four_bar_truck(shape));
    for (const Row& row : {Row{3, 0.001924}, Row{4, 0.008366}, Row{5, 0.026692}, Row{6, 0.070623},
                           Row{8, 0.367301}}) {
      for (const double way : {1.0, -1.0}) {
        const PoseResult pose = raised(rig, way * from_inch(row.height));
        EXPECT_NEAR(to_inch(pose.values[kAxleWalkSide]), way * row.x, kLast) << row.height;
      }
    }
  }
}

// 4.2, read in source (lecture slides of the Euromotor project): the roll centre lies at the middle hinge.
TEST(FourBar, RollCentreIsAtTheMiddleHinge) {
  for (const bool on_axle : {true, false}) {
    FourBarShape shape = equal_arms();
    shape.crank_on_axle = on_axle;
    Rig rig(four_bar_truck(shape));
    // The road is at z = 0 as measured; of a rate and a difference of places about 1e-10 is left.
    EXPECT_NEAR(raised(rig, 0).values[kRollCentreHeight], 0.560, 1e-8);
  }
}

/// A second way to the same place, told in the plane of the linkage: the pivot `rise` above where it was drawn. For an angle of the crank the
/// upper arm's circle gives the pivot's way across, and the lower arm's length decides the angle, by bisection.
struct Closed {
  double across = 0;  ///< towards the right [m]
  double turn = 0;    ///< of the crank, top to the right [rad]
};

Closed close_by_circles(const FourBarShape& s, double rise) {
  Closed at;
  const auto miss = [&](double turn) {
    at.turn = turn;
    const double up = rise + s.upper_end * (std::cos(turn) - 1);
    at.across =
        std::sqrt(s.upper_arm * s.upper_arm - up * up) - s.upper_arm - s.upper_end * std::sin(turn);
    const double down = rise - s.lower_end * (std::cos(turn) - 1);
    const double over = s.lower_arm - at.across + s.lower_end * std::sin(turn);
    return std::hypot(over, down) - s.lower_arm;
  };
  double low = -0.7, high = 0.7;
  EXPECT_LT(miss(low) * miss(high), 0);
  const double sign = miss(high) > 0 ? 1 : -1;
  for (int k = 0; k < 60; ++k) {
    const double middle = 0.5 * (low + high);
    (sign * miss(middle) > 0 ? high : low) = middle;
  }
  return at;
}

TEST(FourBar, UnequalArmsCloseWhereTheirCirclesMeet) {
  const FourBarShape shape{
      .upper_arm = 0.5, .lower_arm = 0.36, .upper_end = 0.072, .lower_end = 0.1};
  Rig rig(four_bar_truck(shape));
  for (const double height : {-0.12, -0.05, 0.03, 0.11, 0.15}) {
    const PoseResult pose = raised(rig, height);
    // The axle, with the crank on it, goes down in the frame as the frame is raised.
    const Closed closed = close_by_circles(shape, -height);
    EXPECT_NEAR(pose.values[kAxleWalkSide], -closed.across, 1e-10) << height;
    // About a pin that points forward the top of the crank goes to the right as its left side comes up.
    EXPECT_NEAR(value_of(rig, pose, "turn.locator_crank"), closed.turn, 1e-9) << height;
    EXPECT_NEAR(value_of(rig, pose, "length.locator_upper_arm"), shape.upper_arm, 1e-10);
    EXPECT_NEAR(value_of(rig, pose, "length.locator_lower_arm"), shape.lower_arm, 1e-10);
  }
}

// Near its middle each end of the crank goes aside by height^2 / 2 arm, to opposite sides; the pivot stays where it divides the crank
// so that the two cancel: ends of the crank in the ratio of their arms turned over.
TEST(FourBar, PivotMustDivideTheCrankTheOtherWayRound) {
  const double height = 0.020;
  const FourBarShape right{
      .upper_arm = 0.5, .lower_arm = 0.36, .upper_end = 0.1 / 0.5, .lower_end = 0.1 / 0.36};
  FourBarShape wrong = right;
  wrong.upper_end = right.lower_end;
  wrong.lower_end = right.upper_end;
  Rig rig_right(four_bar_truck(right)), rig_wrong(four_bar_truck(wrong));
  const double bow = height * height / 2 *
                     (wrong.lower_end / wrong.upper_arm - wrong.upper_end / wrong.lower_arm) /
                     (wrong.upper_end + wrong.lower_end);
  ASSERT_GT(std::abs(bow), 100e-6);
  // Of the next order: (height / arm)^2 of it.
  EXPECT_NEAR(std::abs(raised(rig_wrong, height).values[kAxleWalkSide]), std::abs(bow),
              0.01 * std::abs(bow));
  EXPECT_LT(std::abs(raised(rig_right, height).values[kAxleWalkSide]), 0.01 * std::abs(bow));
}

// ---- rocker

struct RockerShape {
  double half = from_inch(18.0);        ///< half-link, and each half of the through-link [m]
  double rocker = 0;                    ///< R [m]
  double upright_at = from_inch(36.0);  ///< of the guide end from the pivot, x0 [m]
};

/// 1.5 with 1.3, derived here: places along the guide (x, towards the guide end) and square to it (y), from the pivot.
struct RockerPlaces {
  double near_x = 0, near_y = 0;
  double guide_x = 0, guide_y = 0;
};

RockerPlaces on_rocker(const RockerShape& s, double phi) {
  RockerPlaces p;
  // s = R - sqrt(R^2 - (xA - x0)^2) and xB of 1.3 hang on each other: what is left over shrinks by tan(phi) (xA - x0) / R each time.
  for (int k = 0; k < 200; ++k) {
    const double up = p.guide_y + s.half * std::sin(phi);
    p.near_x = std::sqrt(s.half * s.half - up * up) - s.half * std::cos(phi);
    p.near_y = p.guide_y + 2 * s.half * std::sin(phi);
    p.guide_x = p.near_x + 2 * s.half * std::cos(phi);
    const double aside = p.guide_x - s.upright_at;
    p.guide_y = s.rocker - std::sqrt(s.rocker * s.rocker - aside * aside);
  }
  return p;
}

/// A locator with its near end on the frame, drawn with the through-link at `phi`: guide end to the right, rocker hanging from above.
Truck rocker_truck(const RockerShape& s, double phi) {
  Truck truck = truck_of(StraightAxle{});
  release(truck, "axle sideways");
  const Vec3 pivot(-0.090, 0, 0.450);
  const RockerPlaces p = on_rocker(s, phi);
  const auto at = [&](double x, double y) { return Vec3(pivot + Vec3(0, -x, y)); };
  add_point(truck, "pivot", "axle", pivot);
  add_point(truck, "near_end", "frame", at(p.near_x, p.near_y));
  add_point(truck, "guide_end", "locator_through", at(p.guide_x, p.guide_y));
  add_point(truck, "middle", "locator_through",
            at(0.5 * (p.near_x + p.guide_x), 0.5 * (p.near_y + p.guide_y)));
  add_point(truck, "rocker_pivot", "axle", at(s.upright_at, s.rocker));
  GuidedBar bar;
  bar.near_end = "near_end";
  bar.guide_end = "guide_end";
  bar.middle = "middle";
  bar.pivot = "pivot";
  bar.near_end_on = "frame";
  bar.carries = "axle";
  bar.carriage = Carriage::rocker;
  bar.rocker_pivot = "rocker_pivot";
  bar.rocker_axis = fixed(Vec3::UnitX());
  bar.guide = fixed(Vec3::UnitY());
  add_part(truck, "locator", bar);
  return truck;
}

// 1.5, derived here: exact (xB, yB) at the angles of heights 6, 9 and 12 of the exact line.
TEST(Rocker, NearEndGoesAsInTheReferences) {
  struct Row {
    double x, y;
  };
  struct Table {
    double rocker, upright_at;
    Row rows[3];
  };
  for (const Table& table :
       {Table{10, 36, {{-0.002167, 6.012794}, {-0.017593, 9.067595}, {-0.083919, 12.232276}}},
        Table{20, 36, {{-0.001077, 6.006367}, {-0.008604, 9.033191}, {-0.039429, 12.110376}}}}) {
    const RockerShape shape{.rocker = from_inch(table.rocker),
                            .upright_at = from_inch(table.upright_at)};
    const double drawn = std::asin(6.0 / 36);
    Rig rig(rocker_truck(shape, drawn));
    const double start = on_rocker(shape, drawn).near_y;
    for (const Row& row : table.rows) {
      const PoseResult pose = raised(rig, from_inch(row.y) - start);
      EXPECT_NEAR(to_inch(value_of(rig, pose, "near_end_offset.locator")), row.x, 2 * kLast)
          << row.y;
    }
  }
}

// 1.5: upright at half of the slider's stroke for 12 it errs a quarter as much at full lift.
TEST(Rocker, UprightInTheMiddleOfItsStrokeErrsLeast) {
  const RockerShape shape{.rocker = from_inch(20.0), .upright_at = from_inch(34.970563)};
  Rig rig(rocker_truck(shape, std::asin(6.0 / 36)));
  const double start = on_rocker(shape, std::asin(6.0 / 36)).near_y;
  struct Row {
    double height, x;
  };
  for (const Row& row : {Row{6, -0.001165}, Row{9, -0.000084}, Row{12, -0.009573}}) {
    const RockerPlaces p = on_rocker(shape, std::asin(row.height / 36));
    const PoseResult pose = raised(rig, p.near_y - start);
    EXPECT_NEAR(to_inch(value_of(rig, pose, "near_end_offset.locator")), row.x, 2 * kLast);
  }
}

// 1.5: upright where the bar lies straight it errs by -L^2 phi^5 / 2R, and so the axle walks.
TEST(Rocker, ErrsByTheFifthPowerOfTheAngle) {
  const RockerShape shape{.rocker = from_inch(20.0)};
  const double drawn = std::asin(6.0 / 36);
  Rig rig(rocker_truck(shape, drawn));
  const RockerPlaces start = on_rocker(shape, drawn);
  for (const double phi_deg : {3.0, 4.0, 5.0}) {
    const double phi = from_deg(phi_deg);
    const double x = -shape.half * shape.half * std::pow(phi, 5) / (2 * shape.rocker);
    const RockerPlaces p = on_rocker(shape, phi);
    const PoseResult pose = raised(rig, p.near_y - start.near_y);
    // The next term is phi^2 times as large, with a factor near 1.
    EXPECT_NEAR(value_of(rig, pose, "near_end_offset.locator"), x, 2 * phi * phi * std::abs(x));
    // What the near end does against the axle, the axle does against the frame; walk counts from as measured.
    EXPECT_NEAR(pose.values[kAxleWalkSide], p.near_x - start.near_x, 1e-10) << phi_deg;
  }
}

// The rocker's swing is the angle of the line from its pivot to the guide end.
TEST(Rocker, TurnIsTheSwingOfItsLine) {
  Rig rig(truck_of("tests/layouts/guided_rocker_pinned.toml"));
  const auto angle = [&] {
    const Vec3 axle = place_of(rig, "wheel_centre_left") - place_of(rig, "wheel_centre_right");
    const Vec3 line = place_of(rig, "locator_guide_end") - place_of(rig, "locator_rocker_pivot");
    return std::atan2(line.z(), line.y()) - std::atan2(axle.z(), axle.y());
  };
  raised(rig, 0);
  const double before = angle();
  const PoseResult pose = raised(rig, 0.180);
  // Along a pin that points forward a turn is from left to up. The axle hardly pitches: half of its square goes into the angle.
  EXPECT_NEAR(value_of(rig, pose, "turn.locator_rocker"), angle() - before, 2e-5);
}

// ---- unequal arms

struct Arms {
  double half_link = 0, guide_half = 0, near_half = 0;  ///< r, a, b [m]
};

/// 1.3 with s = c = 0, derived here: near end along the guide from the pivot, from its height above the guide's line.
double near_end_offset(const Arms& arms, double above) {
  const double sine = above / (arms.guide_half + arms.near_half);
  return std::sqrt(arms.half_link * arms.half_link -
                   arms.guide_half * arms.guide_half * sine * sine) -
         arms.near_half * std::sqrt(1 - sine * sine);
}

/// Seen square to the guide: with the near end `ahead` of the pivot's plane the middle is ahead in proportion, and all three look shorter.
Arms seen_square(const Arms& arms, double ahead) {
  const double whole = arms.guide_half + arms.near_half, share = ahead / whole;
  const double shorter = std::sqrt(1 - share * share), middle = arms.guide_half * share;
  return {std::sqrt(arms.half_link * arms.half_link - middle * middle), arms.guide_half * shorter,
          arms.near_half * shorter};
}

/// Offsets of the near end over the heights of a layout, each held to the closed form [m].
std::vector<double> held_offsets(const std::string& layout, const Arms& arms) {
  Rig rig(truck_of("tests/layouts/" + layout + ".toml"));
  std::vector<double> offsets;
  for (const double height : {0.0, 0.045, 0.090, 0.135, 0.180}) {
    const PoseResult pose = raised(rig, height);
    const Vec3 from_pivot = place_of(rig, "locator_near_end") - place_of(rig, "locator_pivot");
    offsets.push_back(value_of(rig, pose, "near_end_offset.locator"));
    // The file's points are rounded to 1e-11 m. The axle pitches by a few minutes, which the square view leaves out: second order in that.
    EXPECT_NEAR(offsets.back(), near_end_offset(seen_square(arms, from_pivot.x()), from_pivot.z()),
                2e-8)
        << height;
  }
  return offsets;
}

double span(const std::vector<double>& values) {
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  return *high - *low;
}

TEST(UnequalArms, AreStraightWhereTheGuideHalfIsTheMeanProportional) {
  const double a = 0.4, b = 0.5;
  const double right = span(held_offsets("guided_unequal_arms", {a * a / b, a, b}));
  const double wrong = span(held_offsets("guided_unequal_arms_wrong", {std::sqrt(a * b), a, b}));
  // 1.4: (b/8)(1 - b^2/a^2) phi^4 against (b - a^2/r) phi^2 / 2, over sin(phi) from 125 to 305 in 900.
  EXPECT_LT(to_mm(right), 0.6);
  EXPECT_GT(to_mm(wrong), 6);
}

}  // namespace
}  // namespace axlewright
