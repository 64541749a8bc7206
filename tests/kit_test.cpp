// One kit on three platforms: trucks/kits/guided-kit.toml counts its places from points of the platform, so that it fits trucks that
// differ in size, in where their steering gear sits and even in where they were measured from. What differs then, and why.

#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/index.h"
#include "engine/base/units.h"
#include "engine/study/lock.h"
#include "tests/support/asked.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

using testing::answer;
using testing::example_file;
using testing::fault_of;
using testing::source_path;
using testing::text_of_file;

constexpr const char* kPlatforms[] = {"dunlin-28", "dunlin-35", "dunlin-45"};
const std::string kKit = "kits/guided-kit";

Truck with_kit(const std::string& platform, const std::vector<Setting>& settings = {}) {
  const Result<Truck> truck =
      read_truck(example_file(platform), text_of_file, settings, {example_file(kKit)});
  EXPECT_TRUE(truck) << (truck ? "" : truck.error().front().what);
  if (!truck) return {};
  EXPECT_TRUE(truck->warnings.empty()) << truck->warnings.front().what;
  return *truck;
}

/// Raised in front to the top, going straight.
PoseResult at_top(Rig& rig) {
  PoseRequest request;
  request.height = rig.truck().height_range[1];
  PoseResult pose = rig.solve(request);
  EXPECT_TRUE(pose.report.usable()) << rig.truck().name << ": " << pose.report.message;
  return pose;
}

Json compared() {
  Json files = Json::array();
  for (const char* platform : kPlatforms) files.push_back(example_file(platform));
  return answer({{"ask", "compare"},
                 {"files", files},
                 {"with", Json::array({example_file(kKit)})},
                 {"heights", 3}});
}

// The kit says what four layers of trucks/guided.toml say, which have its places on this one platform.
TEST(Kit, OnTheDunlin35IsTheGuidedTruck) {
  Rig kit(with_kit("dunlin-35")), guided(testing::truck_of("trucks/guided.toml"));
  EXPECT_EQ(kit.truck().name, "Dunlin 35");
  PoseRequest request;
  request.height = 0.180;
  request.lean = from_deg(3);
  request.steer_by = SteerBy::pitman;
  request.steer = from_deg(12);
  const PoseResult a = kit.solve(request), b = guided.solve(request);
  ASSERT_TRUE(a.report.usable() && b.report.usable());
  for (int q = 0; q < kFixedQuantities; ++q)
    EXPECT_NEAR(a.values[index(q)], b.values[index(q)], 1e-10) << kit.quantities()[index(q)].key;
}

// The linkage is exact on each of them, whatever their size: the steering wheel and the axle stay.
TEST(Kit, KeepsTheWheelOnEveryPlatform) {
  for (const char* platform : kPlatforms) {
    Rig rig(with_kit(platform));
    const PoseResult top = at_top(rig);
    EXPECT_LT(std::abs(top.values[kSteeringWheelOffCentre]), from_deg(0.05)) << platform;
    EXPECT_LT(std::abs(top.values[kAxleWalkSide]), 0.5e-3) << platform;
    EXPECT_LT(std::abs(top.values[kBumpSteer]), from_deg(0.005)) << platform;
  }
}

// What differs: raised in front alone the frame tips by the wheelbase, and parallel links take the axle along. By hand: the arc
// tangent of the height over the wheelbase, so the short truck gains most caster for the same raise.
TEST(Kit, TipsTheShortTruckMost) {
  double before = INFINITY;
  for (const char* platform : kPlatforms) {
    Rig rig(with_kit(platform));
    const PoseResult low = rig.solve({});
    PoseRequest raised;
    raised.height = 0.200;
    const PoseResult high = rig.solve(raised);
    ASSERT_TRUE(low.report.usable() && high.report.usable()) << platform;
    const double gained = high.values[kCasterLeft] - low.values[kCasterLeft];
    EXPECT_NEAR(gained, std::atan(0.200 / rig.truck().wheelbase), 1e-9) << platform;
    EXPECT_LT(gained, before);
    before = gained;
  }
}

// Nor does the kit change how the trucks turn: the long one needs the widest circle.
TEST(Kit, LeavesTheTurningCircleToTheWheelbase) {
  double before = 0;
  for (const char* platform : kPlatforms) {
    Rig rig(with_kit(platform));
    const LockSide left = find_lock(rig, {}).left;
    ASSERT_TRUE(left.reached) << platform << ": " << left.stop;
    EXPECT_GT(left.turning_circle, before);
    before = left.turning_circle;
  }
}

TEST(Kit, ComparesAsOneKitOnTrucksThatKeepTheirNames) {
  const Json comparison = compared();
  EXPECT_EQ(comparison["kits"], Json::array({"Guided kit"}));
  EXPECT_EQ(comparison["story"][0], "Guided kit on each of them.");
  ASSERT_EQ(comparison["trucks"].size(), 3u);
  EXPECT_EQ(comparison["trucks"][0]["truck"], "Dunlin 28");
  EXPECT_EQ(comparison["trucks"][2]["truck"], "Dunlin 45");
  EXPECT_EQ(comparison["trucks"][2]["kits"], Json::array({"Guided kit"}));
  // Over the heights, travel and lean zero: alike on all.
  EXPECT_EQ(comparison["comparison"][0]["name"], "steering_wheel_off_centre_deg");
  EXPECT_TRUE(comparison["comparison"][0]["best"].empty()) << comparison["comparison"][0]["text"];
}

// ---- a kit that does not fit

Result<Json> compare_texts(const std::string& kit, const std::string& second_platform) {
  const std::string platform = *text_of_file(example_file("dunlin-35"));
  AskContext context;
  context.text_of = [&](const std::string& path) -> tl::expected<std::string, std::string> {
    if (path == "kit.toml") return kit;
    if (path == "one.toml") return platform;
    if (path == "two.toml") return second_platform;
    return tl::unexpected<std::string>("no such file");
  };
  return ask({{"ask", "compare"},
              {"files", Json::array({"one.toml", "two.toml"})},
              {"with", Json::array({"kit.toml"})},
              {"heights", 2}},
             context);
}

std::string kit_text() {
  return *text_of_file(example_file(kKit));
}

std::string platform_without(const std::string& what, const std::string& instead) {
  std::string text = *text_of_file(example_file("dunlin-35"));
  for (std::size_t at; (at = text.find(what)) != std::string::npos;)
    text.replace(at, what.size(), instead);
  return text;
}

// The fault stands where the kit names the point, and says which platform lacks it.
TEST(Kit, ThatDoesNotFitSaysWhatIsMissingOnWhichPlatform) {
  const Result<Json> result =
      compare_texts(kit_text(), platform_without("tie_rod_ball_left", "tie_rod_end_left"));
  ASSERT_FALSE(result);
  const Fault* missing = nullptr;
  for (const Fault& fault : result.error()) {
    if (fault.what.rfind("no point is called 'tie_rod_ball_left'", 0) == 0) missing = &fault;
  }
  ASSERT_NE(missing, nullptr) << result.error().front().what;
  EXPECT_EQ(missing->what, "no point is called 'tie_rod_ball_left', on two.toml");
  EXPECT_EQ(missing->file, "kit.toml");
  EXPECT_NE(missing->source_line.find("ends = "), std::string::npos) << missing->source_line;
}

TEST(Kit, ThatIsWrongItselfIsToldSoOnce) {
  std::string broken = kit_text();
  broken.replace(broken.find("[0, 0, -130]"), 12, "[0, 0]");
  const Result<Json> result = compare_texts(broken, *text_of_file(example_file("dunlin-28")));
  ASSERT_FALSE(result);
  ASSERT_EQ(result.error().size(), 1u);
  EXPECT_EQ(result.error().front().what, "'at' is no list of three lengths");
  EXPECT_EQ(result.error().front().file, "kit.toml");
}

TEST(Kit, OfAWholeTruckIsAFault) {
  const Json question{
      {"ask", "compare"},
      {"files", Json::array({example_file("dunlin-28"), example_file("dunlin-45")})},
      {"with", Json::array({example_file("guided")})}};
  EXPECT_NE(fault_of(question).find("a whole truck, no kit: it gives the wheelbase"),
            std::string::npos);
}

TEST(Kit, IsNotWrittenIntoByAnEdit) {
  EXPECT_NE(fault_of({{"ask", "edit"},
                      {"file", example_file("dunlin-28")},
                      {"set", Json::array({"pitman_ball.z=+1mm"})},
                      {"with", Json::array({example_file(kKit)})}})
                .find("a kit of `with` is none of them"),
            std::string::npos);
}

// ---- points that others count from

// A point takes along what counts from it, in the file and so in what its influence says.
TEST(CountedFrom, MovesWithItsPoint) {
  Rig rig(with_kit("dunlin-35"));
  PoseRequest request;
  request.height = 0.180;
  request.lean = from_deg(2);
  ASSERT_TRUE(rig.solve(request).report.usable());
  const std::vector<Influence> moves = rig.design_moves(request);
  constexpr double kStep = 1e-4;  // [m] the difference errs with its square
  int told = 0;
  for (const Influence& move : moves) {
    if (move.name != "pitman_ball" && move.name != "wheel_centre_left") continue;
    const auto moved_by = [&](const char* way) {
      Rig other(
          with_kit("dunlin-35", {{"points." + move.name + "." + move.coordinate + "=" + way}}));
      return other.solve(request).values;
    };
    const std::vector<double> ahead = moved_by("+0.1mm"), behind = moved_by("-0.1mm");
    for (const int q : {kSteeringWheelOffCentre, kAxleWalkSide, kCasterLeft, kToe, kBumpSteer,
                        kLeanSteer, kRollCentreHeight}) {
      const double slope = (ahead[index(q)] - behind[index(q)]) / (2 * kStep);
      EXPECT_NEAR(move.per_metre[index(q)], slope, 2e-5 * (1 + std::abs(slope)))
          << rig.quantities()[index(q)].key << " by " << move.name << "." << move.coordinate;
    }
    ++told;
  }
  EXPECT_EQ(told, 6);
}

}  // namespace
}  // namespace axlewright
