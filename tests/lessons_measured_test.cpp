// What trucks/plain-measured.toml is there to show, and what `check` tells of it.

#include <cmath>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "engine/study/sweep.h"
#include "engine/truck/read.h"
#include "tests/support/asked.h"
#include "tests/support/raised_example.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

using testing::answer;
using testing::source_path;
using testing::text_of_file;
using testing::truck_of;

constexpr const char* kMeasured = "trucks/plain-measured.toml";
constexpr double kDigit = 0.05;  // half the last digit told

/// A file on top of the example, in the same folder.
Result<Truck> read_layer(const std::string& layer) {
  const std::string path = source_path("trucks/on-top.toml");
  return read_truck(path, [&](const std::string& asked) {
    return asked == path ? tl::expected<std::string, std::string>(layer) : text_of_file(asked);
  });
}

Truck with_layer(const std::string& layer) {
  const Result<Truck> truck = read_layer(layer);
  EXPECT_TRUE(truck) << truck.error().front().what;
  return truck ? *truck : Truck{};
}

constexpr const char* kOnTop = "format = 1\nunits = \"mm\"\nbased_on = [\"plain-measured.toml\"]\n";

/// What is wrong with the example where one reading is another.
std::string fault_with(const std::string& reading) {
  const Result<Truck> truck = read_layer(kOnTop + reading);
  return truck ? std::string() : truck.error().front().what;
}

/// The points of the tape alone, set straight by the gauge.
Truck by_the_tape() {
  std::string remove;
  for (const char* reading :
       {"track_bar_length", "drag_link_length", "tie_rod_length", "lower_link_left_length",
        "lower_link_right_length", "upper_link_length", "track_bar_slope", "drag_link_slope",
        "caster_sweep_left", "caster_sweep_right"})
    remove += std::string(remove.empty() ? "" : ", ") + "\"readings." + reading + "\"";
  return with_layer(std::string(kOnTop) + "remove = [" + remove + "]\n");
}

double off_centre_at_top_deg(const Truck& truck) {
  Rig rig(truck);
  PoseRequest top;
  top.height = truck.height_range[1];
  const PoseResult pose = rig.solve(top);
  EXPECT_TRUE(pose.report.usable()) << pose.report.message;
  return pose.report.usable() ? to_deg(pose.values[kSteeringWheelOffCentre]) : NAN;
}

// Seen: 9.3 by the tape alone, 4.9 fitted, 4.2 of the truck that was built.
TEST(LessonOfMeasuring, WhatWasReadBesideThePointsTellsTheTruckThatWasBuilt) {
  const double allowed = 5, built = off_centre_at_top_deg(truck_of("trucks/plain-parallel.toml"));
  const double tape = off_centre_at_top_deg(by_the_tape());
  const double fitted = off_centre_at_top_deg(truck_of(kMeasured));
  EXPECT_NEAR(tape, 2 * allowed, 0.2 * allowed);
  EXPECT_LT(fitted, allowed);
  EXPECT_LT(built, allowed);
  EXPECT_LT(std::abs(fitted - built), 0.2 * std::abs(tape - built));
}

TEST(LessonOfMeasuring, TheLimitIsMetByTheFittedTruck) {
  for (const Limit& limit : truck_of(kMeasured).limits) {
    if (limit.name != "wheel_off_centre") continue;
    EXPECT_NEAR(to_deg(*limit.max), 5, 1e-9);
  }
  EXPECT_EQ(testing::verdict_on("plain-measured", "wheel_off_centre"), Verdict::met);
}

TEST(LessonOfMeasuring, TheTruckLeanedHalfADegreeAndIsToldStraight) {
  const Truck truck = truck_of(kMeasured);
  EXPECT_NEAR(to_deg(truck.fit->stance.lean), 0.5, kDigit);
  // Level under the frame: both wheel centres as high, but for what the tape missed.
  const double left = find_point(truck, "wheel_centre_left")->at.z();
  const double right = find_point(truck, "wheel_centre_right")->at.z();
  EXPECT_LT(std::abs(left - right), 3e-3);
}

// Where the bench was within half a millimetre so is the fit, whatever the tape made of it.
TEST(LessonOfMeasuring, TheBarsAreAsLongAsTheyWereBuilt) {
  const Truck fitted = truck_of(kMeasured), tape = by_the_tape();
  const Truck built = truck_of("trucks/plain-parallel.toml");
  const auto miss_of = [&](const Truck& truck, const char* bar) {
    const auto length = [&](const Truck& one) -> double {
      for (const Part& part : one.parts) {
        if (part.name != bar) continue;
        const auto& ends = std::get<Bar>(part.what).ends;
        return (find_point(one, ends[0])->at - find_point(one, ends[1])->at).norm();
      }
      return NAN;
    };
    return std::abs(length(truck) - length(built));
  };
  for (const char* bar : {"track_bar", "drag_link"}) {
    EXPECT_LT(miss_of(fitted, bar), 0.5e-3) << bar;
  }
  EXPECT_GT(miss_of(tape, "track_bar"), 0.5e-3);
}

TEST(LessonOfMeasuring, CheckTellsEveryReadingAndPoint) {
  const Json check = answer({{"ask", "check"}, {"file", source_path(kMeasured)}});
  const Json& measured = check["measured"];
  EXPECT_EQ(measured["axes"], "road");
  EXPECT_EQ(measured["report"]["outcome"], "converged");
  EXPECT_GT(measured["chance"].get<double>(), 0.01);
  EXPECT_NEAR(measured["stood"]["lean_deg"].get<double>(), 0.5, kDigit);
  EXPECT_TRUE(measured["stood"]["rake_plus_minus_deg"].is_null());
  std::map<std::string, Json> readings;
  for (const Json& one : measured["readings"]) readings[one["name"]] = one;
  const Json& bench = readings["track_bar_length"];
  EXPECT_EQ(bench["value_mm"], 1137.7);
  EXPECT_EQ(bench["plus_minus_mm"], 0.5);
  EXPECT_NEAR(bench["misfit"].get<double>(), (bench["fitted_mm"].get<double>() - 1137.7) / 0.5,
              1e-9);
  EXPECT_TRUE(readings.count("track_bar_slope") && readings["track_bar_slope"]["value_deg"] == 6.7);
  EXPECT_TRUE(readings.count("track_bar_axle.z"));
  EXPECT_TRUE(readings.count(measured["worst"].get<std::string>()));
  EXPECT_EQ(measured["points"].size(), truck_of(kMeasured).points.size());
  bool told = false;
  for (const Json& sentence : check["story"])
    told = told || sentence.get<std::string>().rfind("What was measured fits together", 0) == 0;
  EXPECT_TRUE(told) << check["story"];
  EXPECT_FALSE(measured.contains("file_text"));
}

// Of a truck without readings nothing of this is told, and no fitted file is to be had.
TEST(LessonOfMeasuring, ATruckThatWasNotFittedHasNoneOfIt) {
  const std::string plain = source_path("trucks/plain-parallel.toml");
  EXPECT_FALSE(answer({{"ask", "check"}, {"file", plain}}).contains("measured"));
  EXPECT_EQ(testing::fault_of({{"ask", "check"}, {"file", plain}, {"fitted_on", "p.toml"}})
                .rfind("this truck is not fitted", 0),
            0u);
}

TEST(LessonOfMeasuring, TheFittedFileIsTheSameTruck) {
  const Json check = answer(
      {{"ask", "check"}, {"file", source_path(kMeasured)}, {"fitted_on", "plain-measured.toml"}});
  const Truck fitted = with_layer(check["measured"]["file_text"].get<std::string>());
  EXPECT_FALSE(fitted.fit.has_value());
  EXPECT_NEAR(off_centre_at_top_deg(fitted), off_centre_at_top_deg(truck_of(kMeasured)), 0.01);
}

TEST(LessonOfMeasuring, ASweepWrittenTheWrongWayRoundIsNamed) {
  const std::string fault = fault_with(
      "[readings.caster_sweep_left]\nkind = \"camber sweep\"\nkingpin = \"kingpin_left\"\n"
      "steers = [-20, 20]\ncambers = [2.4, -1.2]\nplus_minus = 0.1\n");
  EXPECT_NE(fault.find("the caster sweep left has left and right exchanged"), std::string::npos)
      << fault;
}

// Between points by tape the turns of a sleeve are so fine that they explain no more than any other number would.
TEST(LessonOfMeasuring, ATurnedSleeveIsNamedWithWhatElseItMayBe) {
  const std::string fault = fault_with(
      "[readings.track_bar_length]\nkind = \"length\"\nof = \"track_bar\"\nvalue = "
      "1144.05\nplus_minus = 0.5\n");
  EXPECT_NE(fault.find("likeliest, the sleeve of the track bar was turned"), std::string::npos)
      << fault;
  EXPECT_NE(fault.find("or y of 'track_bar_frame' is wrong"), std::string::npos) << fault;
}

// It stands on the measured file alone: what a question says besides would be lost with it.
TEST(LessonOfMeasuring, AFittedFileOfMoreThanTheFileIsRefused) {
  for (const auto& [key, said] : {std::pair("set", std::string("wheels.loaded_radius=470")),
                                  std::pair("with", source_path("trucks/kits/short-links.toml"))}) {
    const std::string fault = testing::fault_of({{"ask", "check"},
                                                 {"file", source_path(kMeasured)},
                                                 {"fitted_on", "plain-measured.toml"},
                                                 {key, Json::array({said})}});
    EXPECT_NE(fault.find("stands on the file alone"), std::string::npos) << fault;
  }
}

// What a fit has placed cannot be dragged: what moves it is what was measured.
TEST(LessonOfMeasuring, PointsOfAFittedTruckCannotBeDragged) {
  const Json view = answer(
      {{"ask", "view"},
       {"file", source_path(kMeasured)},
       {"views", Json::array({Json{{"view", "front"}, {"paper_mm", Json::array({400, 300})}}})}});
  ASSERT_FALSE(view["views"][0]["points"].empty());
  for (const Json& point : view["views"][0]["points"]) {
    EXPECT_EQ(point["across"], Json::array({0.0, 0.0, 0.0}));
    EXPECT_EQ(point["up"], Json::array({0.0, 0.0, 0.0}));
  }
}

}  // namespace
}  // namespace axlewright
