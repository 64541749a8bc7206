// What each example truck is there to show, held to named quantities and thresholds: the opening comment of its file says what to look
// for, and here it is looked for. Every number in a comment of a truck file is held here too.

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "engine/study/sweep.h"
#include "tests/support/raised_example.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

using testing::at_top;
using testing::change_over_heights;
using testing::grows_all_the_way;
using testing::largest;
using testing::over_heights;
using testing::place_of;
using testing::raised;
using testing::rig_of;
using testing::source_path;
using testing::text_of_file;
using testing::verdict_on;

constexpr const char* kMismatched = "plain-mismatched";
constexpr const char* kParallel = "plain-parallel";
constexpr const char* kHalfConverted = "half-converted";
constexpr const char* kLoose = "guided-loose";
constexpr const char* kGuided = "guided";
const char* const kExamples[] = {kMismatched, kParallel, kHalfConverted, kLoose, kGuided};

double largest_deg(const std::string& example, int quantity) {
  return to_deg(largest(over_heights(example, quantity)));
}

double largest_mm(const std::string& example, int quantity) {
  return to_mm(largest(over_heights(example, quantity)));
}

/// Change of the left wheel's caster from as measured to the top, the rear raised as much as the front [deg].
double caster_change_raised_level_deg(const std::string& example) {
  Rig rig = rig_of(example);
  PoseRequest top;
  top.height = top.rear_height = rig.truck().height_range[1];
  const PoseResult low = rig.solve({}), high = rig.solve(top);
  if (!low.report.usable() || !high.report.usable()) return NAN;
  return to_deg(high.values[kCasterLeft] - low.values[kCasterLeft]);
}

TEST(Lessons, EveryPoseWithinTheStopsCanBeHad) {
  for (const char* example : kExamples) {
    const Sweep& sweep = raised(example);
    ASSERT_EQ(sweep.rows.size(), 11u) << example;
    for (const HeightRow& row : sweep.rows)
      EXPECT_TRUE(row.rolling.report.usable()) << example << " at " << to_mm(row.height);
    EXPECT_EQ(sweep.refused, 0) << example;
  }
}

// Tall, in full droop and leaned, the axle has walked so far that a steering wheel held straight turns the road wheels past lock.
TEST(Lessons, HalfAConversionSteersPastLockWithTheWheelHeld) {
  const auto held_at_worst = [](const std::string& example) {
    const Sweep& sweep = raised(example);
    return std::max(std::abs(sweep.lowest[kMeanSteer].value),
                    std::abs(sweep.highest[kMeanSteer].value));
  };
  EXPECT_GT(held_at_worst(kHalfConverted), raised(kHalfConverted).lock_low.left.mean_steer);
  EXPECT_LT(to_deg(held_at_worst(kGuided)), 1);
}

// --- plain-mismatched: two arcs that differ ---

TEST(Lessons, MismatchedBarsWalkTurnTheWheelAndSteerOverBumps) {
  EXPECT_GT(std::abs(to_deg(at_top(kMismatched, kSteeringWheelOffCentre))), 45);
  EXPECT_GT(std::abs(to_mm(at_top(kMismatched, kAxleWalkSide))), 50);
  EXPECT_GT(largest_deg(kMismatched, kBumpSteer), 0.5);
  EXPECT_EQ(verdict_on(kMismatched, "wheel_off_centre"), Verdict::broken);
  EXPECT_EQ(verdict_on(kMismatched, "bump_steer"), Verdict::broken);
  EXPECT_EQ(verdict_on(kMismatched, "walk"), Verdict::broken);
}

// --- plain-parallel: plain bars at their best ---

TEST(Lessons, ParallelBarsKeepTheWheelThoughTheAxleWalks) {
  // Equal and parallel as measured, to what doubles can hold.
  EXPECT_NEAR(over_heights(kParallel, "length_miss").front(), 0, 1e-12);
  EXPECT_NEAR(over_heights(kParallel, "parallel_miss").front(), 0, 1e-12);
  EXPECT_LT(largest_deg(kParallel, kSteeringWheelOffCentre), 5);
  EXPECT_GT(std::abs(to_mm(at_top(kParallel, kAxleWalkSide))), 50);
  EXPECT_EQ(verdict_on(kParallel, "wheel_off_centre"), Verdict::met);
  EXPECT_EQ(verdict_on(kParallel, "bump_steer"), Verdict::met);
  EXPECT_EQ(verdict_on(kParallel, "walk"), Verdict::broken);
}

TEST(Lessons, ShortLinksTipTheAxleSoTheCasterChangesAllTheWayUp) {
  EXPECT_TRUE(grows_all_the_way(over_heights(kParallel, kCasterLeft)));
  EXPECT_GT(to_deg(change_over_heights(kParallel, kCasterLeft)), 5);
  EXPECT_EQ(verdict_on(kParallel, "caster"), Verdict::broken);
  // Not only because the frame's nose goes up: the links' own part.
  EXPECT_GT(caster_change_raised_level_deg(kParallel), 1.5);
  EXPECT_GT(largest_deg(kParallel, kPinionAngle), 1.5);
}

// --- half-converted: the worst of both ---

TEST(Lessons, HalfAConversionIsWorseThanTwoBarsThatDiffer) {
  EXPECT_GT(largest_deg(kHalfConverted, kSteeringWheelOffCentre),
            5 * largest_deg(kMismatched, kSteeringWheelOffCentre));
  EXPECT_GT(largest_deg(kHalfConverted, kBumpSteer), 3 * largest_deg(kMismatched, kBumpSteer));
  EXPECT_GT(largest_deg(kHalfConverted, kSteeringWheelOffCentre), 180);
  EXPECT_EQ(verdict_on(kHalfConverted, "wheel_off_centre"), Verdict::broken);
}

// First-hour check 6, derived there: the pitman ball has to follow the axle's whole walk, so the wheel turns by ratio x asin(walk / arm).
TEST(Lessons, AllOfTheTrackBarsWalkGoesIntoTheSteeringWheel) {
  constexpr double kRatio = 16, kPitmanArm = 0.165;
  // The axle keeps its angles in the frame, so the tie rod's bracket goes sideways as the axle does.
  constexpr double kAngle = 1e-6;
  const std::vector<double> walk = over_heights(kHalfConverted, kAxleWalkSide);
  const std::vector<double> wheel = over_heights(kHalfConverted, kSteeringWheelOffCentre);
  for (std::size_t k = 0; k < walk.size(); ++k)
    EXPECT_NEAR(std::abs(wheel[k]), kRatio * std::asin(walk[k] / kPitmanArm), kAngle) << k;
}

// --- guided-loose: perfect in heave, bad in a lean ---

TEST(Lessons, LooseGuidedBarsArePerfectInHeave) {
  EXPECT_LT(largest_deg(kLoose, kSteeringWheelOffCentre), 0.05);
  EXPECT_LT(largest_mm(kLoose, kAxleWalkSide), 0.05);
  EXPECT_LT(largest_deg(kLoose, kBumpSteer), 0.01);
}

TEST(Lessons, LooseGuidedBarsSteerInALeanAndMoreTheTallerTheyStand) {
  EXPECT_GT(std::abs(at_top(kLoose, kLeanSteer)), 10 * std::abs(at_top(kGuided, kLeanSteer)));
  EXPECT_TRUE(grows_all_the_way(over_heights(kLoose, kLeanSteer)));
  EXPECT_EQ(verdict_on(kLoose, "lean_steer"), Verdict::broken);

  // Why: the pitman ball stands above the locator's free end, and goes up with the frame.
  Rig rig = rig_of(kLoose);
  std::vector<double> above;
  for (const double height : {0.0, rig.truck().height_range[1]}) {
    PoseRequest request;
    request.height = height;
    ASSERT_TRUE(rig.solve(request).report.usable());
    above.push_back(place_of(rig, "pitman_ball").z() - place_of(rig, "locator_near_end").z());
  }
  EXPECT_GT(to_mm(above.front()), 100);
  EXPECT_NEAR(above.back() - above.front(), rig.truck().height_range[1], 1e-9);
}

/// The tie rod's turn about its own line, if nothing holds it.
const LooseMotion* tie_rod_spin(const PathFollower& follower) {
  for (const LooseMotion& motion : follower.assembly().loose) {
    if (motion.name == "tie rod: turns about its own line") return &motion;
  }
  return nullptr;
}

TEST(Lessons, OnlyAKeeperHoldsTheTieRodsBracketUpright) {
  const Rig kept = rig_of(kGuided);
  EXPECT_EQ(tie_rod_spin(kept.held()), nullptr);

  Rig rig = rig_of(kLoose);
  ASSERT_NE(tie_rod_spin(rig.held()), nullptr);
  for (const double steer_deg : {0.0, 20.0, -20.0}) {
    PoseRequest request;
    request.height = rig.truck().height_range[1];
    request.steer_by = SteerBy::road_wheels;
    request.steer = from_deg(steer_deg);
    ASSERT_TRUE(rig.solve(request).report.usable());
    const LooseMotion* spin = tie_rod_spin(rig.follower());
    ASSERT_NE(spin, nullptr);
    const std::vector<double> per_radian = rig.motion_effect(*spin);
    // Idle for the steering, the guide being parallel to the tie rod's line and the pivot on the guide's: 1e-7 rad per rad, over
    // a solve to 1e-10 m.
    EXPECT_LT(std::abs(per_radian[kSteeringWheel]), 1e-7) << steer_deg;
    EXPECT_LT(std::abs(per_radian[kMeanSteer]), 1e-7) << steer_deg;
  }
}

// --- guided: done properly, and what it costs ---

TEST(Lessons, GuidedBarsKeepWheelAxleAndAlignment) {
  EXPECT_LT(largest_deg(kGuided, kSteeringWheelOffCentre), 0.05);
  EXPECT_LT(largest_mm(kGuided, kAxleWalkSide), 0.05);
  EXPECT_LT(largest_deg(kGuided, kBumpSteer), 0.01);
  EXPECT_LT(largest_deg(kGuided, kToe), 0.01);
  EXPECT_LT(largest_deg(kGuided, kAxleYaw), 0.01);
  EXPECT_LT(largest_deg(kGuided, kPinionAngle), 0.01);
  EXPECT_LT(std::abs(to_deg(change_over_heights(kGuided, kCamberLeft))), 0.01);
  EXPECT_LT(std::abs(to_deg(change_over_heights(kGuided, kAxleCasterLeft))), 0.01);
  EXPECT_LT(largest(over_heights(kGuided, kLeanSteer)), 0.1);
  for (const LimitResult& result : raised(kGuided).limits)
    EXPECT_EQ(result.verdict, Verdict::met) << result.limit.name;
}

// Raising the front alone tips the whole truck, whatever its bars: atan(235 / 4060). First-hour check 12, derived there.
TEST(Lessons, TheFrontRaisedAloneAddsCasterToGuidedBarsToo) {
  const double tipped = to_deg(std::atan(235.0 / 4060));
  EXPECT_NEAR(to_deg(change_over_heights(kGuided, kCasterLeft)), tipped, 0.02);
  EXPECT_LT(std::abs(caster_change_raised_level_deg(kGuided)), 0.01);
}

TEST(Lessons, GuidedBarsCostSlidesAndJointAnglesThatGrowWithHeight) {
  const std::vector<double> slide = over_heights(kGuided, "slide.guided_steering");
  EXPECT_GT(to_mm(largest(slide)), 50);
  EXPECT_TRUE(grows_all_the_way(slide));
  const std::vector<double> tilt = over_heights(kGuided, "tilt.pitman_ball");
  EXPECT_TRUE(grows_all_the_way(tilt));
  EXPECT_GT(to_deg(largest(tilt)), 15);
  EXPECT_GT(largest(tilt), 1.2 * largest(over_heights(kParallel, "tilt.pitman_ball")));
  EXPECT_GT(to_deg(over_heights(kGuided, "half_link_angle.guided_steering").back()), 20);
}

/// The strongest build error on the steering wheel's off-centre at the top [deg per mm].
double strongest_build_error(const std::string& example) {
  Rig rig = rig_of(example);
  PoseRequest top;
  top.height = rig.truck().height_range[1];
  double strongest = 0;
  for (const Influence& error : rig.build_errors(top))
    strongest =
        std::max(strongest, std::abs(to_deg(error.per_metre[kSteeringWheelOffCentre]) * 1e-3));
  return strongest;
}

TEST(Lessons, GuidedBarsHavePlacesThatMustBeHeldTight) {
  EXPECT_GT(strongest_build_error(kGuided), 1);
}

// --- where plain bars are as good, and how the five stand to each other ---

TEST(Lessons, PlainBarsAtTheirBestAreAsGoodInALeanAndWithinTheirLimits) {
  EXPECT_LT(std::abs(at_top(kParallel, kLeanSteer)), std::abs(at_top(kGuided, kLeanSteer)));
  EXPECT_EQ(verdict_on(kParallel, "lean_steer"), Verdict::met);
  EXPECT_EQ(verdict_on(kParallel, "wheel_off_centre"), Verdict::met);
}

TEST(Lessons, TheFiveStandInThisOrder) {
  const std::vector<std::string> best_to_worst{kGuided, kParallel, kMismatched, kHalfConverted};
  for (std::size_t k = 1; k < best_to_worst.size(); ++k) {
    const std::string &better = best_to_worst[k - 1], &worse = best_to_worst[k];
    EXPECT_LT(largest_deg(better, kSteeringWheelOffCentre),
              largest_deg(worse, kSteeringWheelOffCentre));
    EXPECT_LT(largest_deg(better, kBumpSteer), largest_deg(worse, kBumpSteer));
  }
}

// --- the numbers in the comments ---

double between_mm(Rig& rig, const std::string& a, const std::string& b) {
  return to_mm((place_of(rig, a) - place_of(rig, b)).norm());
}

Rig as_measured(const std::string& example) {
  Rig rig = rig_of(example);
  EXPECT_TRUE(rig.solve({}).report.usable());
  return rig;
}

/// A number of a comment, as it is spelled there, and what the truck says to it.
struct Told {
  std::string file, number;
  double value = 0;
  double within = 0;  ///< half of the last digit told
};

std::vector<Told> told_in_comments() {
  Rig mismatched = as_measured(kMismatched), guided = as_measured(kGuided);
  const double half = between_mm(guided, "steer_middle", "steer_pivot");
  const double through = between_mm(guided, "pitman_ball", "steer_guide_end");
  return {
      {"dunlin-35.toml", "5", to_deg(over_heights(kGuided, kAxleCasterLeft).front()), 0.5},
      {"dunlin-35.toml", "9", to_deg(over_heights(kGuided, kAxleKpiLeft).front()), 0.5},
      {"plain-mismatched.toml", "1137", between_mm(mismatched, "pitman_ball", "drag_link_knuckle"),
       0.5},
      {"plain-mismatched.toml", "906", between_mm(mismatched, "track_bar_frame", "track_bar_axle"),
       0.5},
      {"kits/guided-steering.toml", "900", through, 0.5},
      {"kits/guided-steering.toml", "450", half, 0.5},
      {"kits/guided-kit.toml", "900", through, 0.5},
      {"kits/guided-kit.toml", "450", half, 0.5},
  };
}

TEST(Lessons, NumbersOfTheCommentsAreTheTrucks) {
  for (const Told& told : told_in_comments())
    EXPECT_NEAR(told.value, std::stod(told.number), told.within) << told.file;
}

/// The numbers in the comments of a file, in their order. A platform's name ("Dunlin 35") is none.
std::vector<std::string> numbers_in_comments(const std::string& text) {
  std::vector<std::string> numbers;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    std::string line = text.substr(at, end - at);
    at = end + 1;
    const std::size_t hash = line.find('#');
    if (hash == std::string::npos) continue;
    line = line.substr(hash);
    for (std::size_t name; (name = line.find("Dunlin ")) != std::string::npos;) line.erase(name, 9);
    for (std::size_t k = 0; k < line.size();) {
      const std::size_t digits = line.find_first_of("0123456789", k);
      if (digits == std::string::npos) break;
      k = std::min(line.find_first_not_of("0123456789.", digits), line.size());
      std::string number = line.substr(digits, k - digits);
      while (number.back() == '.') number.pop_back();
      numbers.push_back(number);
    }
  }
  return numbers;
}

TEST(Lessons, NoCommentTellsANumberThatIsNotHeld) {
  std::map<std::string, std::vector<std::string>> held;
  for (const Told& told : told_in_comments()) held[told.file].push_back(told.number);
  const std::filesystem::path trucks = source_path("trucks");
  int files = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(trucks)) {
    if (entry.path().extension() != ".toml") continue;
    ++files;
    const std::string name = entry.path().lexically_relative(trucks).generic_string();
    const auto text = text_of_file(entry.path().string());
    ASSERT_TRUE(text) << name;
    EXPECT_EQ(numbers_in_comments(*text), held[name]) << name;
  }
  EXPECT_GE(files, 12);
}

// The three links of the converted trucks: level in the middle of the height range and parallel.
TEST(Lessons, LongLinksAreLevelHalfwayUp) {
  for (const char* link : {"side_angle.lower_link_left", "side_angle.upper_link"}) {
    const std::vector<double> angle = over_heights(kGuided, link);
    EXPECT_LT(std::abs(to_deg(angle[angle.size() / 2])), 0.5) << link;
    EXPECT_LT(angle.front() * angle.back(), 0) << link;
  }
}

}  // namespace
}  // namespace axlewright
