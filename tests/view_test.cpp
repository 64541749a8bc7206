// What screens ask for, `view` and `edit`, asked of the example trucks: drawings lie where the pose says, and say what they show.

#include "engine/ask/ask.h"

#include <cmath>
#include <fstream>
#include <map>
#include <set>
#include <string>

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "tests/support/asked.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

using testing::answer;
using testing::asked;
using testing::fault_of;

// [mm of paper] drawn places are told to a hundredth.
constexpr double kDrawn = 0.011;
// [mm] two solutions of one pose.
constexpr double kPose = 1e-6;

Json view_of(const std::string& truck, Json more) {
  Json question{{"ask", "view"}, {"file", testing::example_file(truck)}};
  question.update(more);
  return question;
}

/// By name, the entry of a list.
const Json& named(const Json& list, const std::string& name) {
  for (const Json& one : list) {
    if (one["name"] == name) return one;
  }
  static const Json none;
  ADD_FAILURE() << "nothing named " << name;
  return none;
}

double number(const Json& list, std::size_t k) {
  return list[k].get<double>();
}

// With the front no higher than the rear the road is level in the frame, so frame axes and paper differ by a scale and a shift
// alone: from ahead y goes right and z up, from the left x goes left, from above x goes up and y left.
TEST(View, PointsAreDrawnWhereThePoseHasThem) {
  struct Way {
    const char* view;
    std::size_t across, up;
    double sign_across;
  };
  for (const char* truck : testing::kExampleTrucks) {
    for (const Way& way :
         {Way{"front", 1, 2, 1.0}, Way{"side", 0, 2, -1.0}, Way{"top", 1, 0, -1.0}}) {
      const Json pose{{"height_mm", 140}, {"rear_height_mm", 140}, {"steering_wheel_deg", 90}};
      Json question = view_of(truck, pose);
      question["views"] = Json::array({Json{{"view", way.view}, {"paper_mm", {400, 300}}}});
      const Json there = answer(question);
      const Json& drawing = there["views"][0];
      const double scale = drawing["scale"];
      const Json& first = drawing["points"][0];
      const Json& from = named(there["points"], first["name"]);
      for (const Json& point : drawing["points"]) {
        const Json& to = named(there["points"], point["name"]);
        EXPECT_NEAR(number(point["at_mm"], 0) - number(first["at_mm"], 0),
                    scale * way.sign_across *
                        (number(to["place_mm"], way.across) - number(from["place_mm"], way.across)),
                    1e-9);
        EXPECT_NEAR(number(point["at_mm"], 1) - number(first["at_mm"], 1),
                    scale * (number(to["place_mm"], way.up) - number(from["place_mm"], way.up)),
                    1e-9);
      }
    }
  }
}

// The same pose asked as `pose` has the same points and values.
TEST(View, TellsThePoseThatPoseTells) {
  for (const char* truck : testing::kExampleTrucks) {
    const Json where{{"height_mm", 90}, {"travel_left_mm", 25}, {"lean_deg", 1.5}};
    Json pose{{"ask", "pose"}, {"file", testing::example_file(truck)}};
    pose.update(where);
    const Json told = answer(pose), view = answer(view_of(truck, where));
    EXPECT_EQ(told["values"], view["values"]) << truck;
    for (const Json& point : told["points"]) {
      for (std::size_t k = 0; k < 3; ++k)
        EXPECT_NEAR(number(point["place_mm"], k),
                    number(named(view["points"], point["name"])["place_mm"], k), kPose);
    }
  }
}

// Strips are the rows of a sweep over the same heights.
TEST(View, StripsAreTheRowsOfASweep) {
  for (const char* truck : testing::kExampleTrucks) {
    const Json sweep =
        answer({{"ask", "sweep"}, {"file", testing::example_file(truck)}, {"heights", 6}});
    const Json strips = answer(view_of(truck, {{"heights", 6},
                                               {"names",
                                                {"steering_wheel_off_centre_deg", "held_steer_deg",
                                                 "bump_steer_deg_per_25mm"}}}))["strips"];
    ASSERT_EQ(strips["columns"].size(), 3U);
    for (const Json& column : strips["columns"]) {
      for (std::size_t k = 0; k < 6; ++k)
        EXPECT_NEAR(column["values"][k].get<double>(),
                    sweep["rows"][k]["values"][column["name"].get<std::string>()].get<double>(),
                    kPose)
            << truck << " " << column["name"];
    }
  }
}

// As measured every body stands as the file has it, whatever the points are: so a drag moves the drawn point by itself, the
// mirrored one on the other side as its twin's file entry says.
TEST(View, ADragMovesThePointUnderTheFinger) {
  const double a = 3, b = -2;  // mm of paper
  for (const char* view : {"front", "side", "top", "pictorial"}) {
    const Json views = Json::array({Json{{"view", view}, {"paper_mm", {400, 300}}}});
    const Json before = answer(view_of("guided", {{"views", views}}))["views"][0];
    for (const char* name : {"locator_pivot", "lower_link_frame_left", "lower_link_frame_right"}) {
      const Json& point = named(before["points"], name);
      Json set = Json::array();
      for (std::size_t k = 0; k < 3; ++k) {
        set.push_back("points." + point["sets"].get<std::string>() + "." + "xyz"[k] + "==" +
                      std::to_string(number(point["measured_mm"], k) +
                                     a * number(point["across"], k) + b * number(point["up"], k)) +
                      "mm");
      }
      const Json after = answer(view_of("guided", {{"views", views}, {"set", set}}))["views"][0];
      // What room the truck takes may have changed with the point: only the same scale compares.
      if (after["scale"] != before["scale"]) continue;
      const Json& moved = named(after["points"], name);
      const Json& still_before = named(before["points"], "pitman_ball");
      const Json& still_after = named(after["points"], "pitman_ball");
      const auto way = [&](std::size_t k) {
        return (number(moved["at_mm"], k) - number(still_after["at_mm"], k)) -
               (number(point["at_mm"], k) - number(still_before["at_mm"], k));
      };
      EXPECT_NEAR(way(0), a, kDrawn) << view << " " << name;
      EXPECT_NEAR(way(1), b, kDrawn) << view << " " << name;
    }
  }
}

// The ball of a rod's end is drawn around the point that it is: outlines and points are one drawing.
TEST(View, JointsAreDrawnAroundTheirPoints) {
  const Json drawing = answer(view_of(
      "plain-mismatched",
      {{"height_mm", 120},
       {"views", Json::array({Json{{"view", "front"}, {"paper_mm", {400, 300}}}})}}))["views"][0];
  std::set<std::string> found;
  for (const Json& item : drawing["items"]) {
    if (item["part"] != "track_bar" || !item.contains("arc")) continue;
    for (const char* name : {"track_bar_frame", "track_bar_axle"}) {
      const Json& at = named(drawing["points"], name)["at_mm"];
      if (std::hypot(number(item["arc"], 0) - number(at, 0),
                     number(item["arc"], 1) - number(at, 1)) < kDrawn)
        found.insert(name);
    }
  }
  EXPECT_EQ(found.size(), 2U);
}

TEST(View, EveryPartIsDrawn) {
  for (const char* view : {"front", "side", "top", "pictorial"}) {
    const Json drawing =
        answer(view_of("guided", {{"views", Json::array({Json{{"view", view}}})}}))["views"][0];
    std::set<std::string> parts;
    for (const Json& item : drawing["items"]) parts.insert(item["part"].get<std::string>());
    for (const char* part :
         {"axle", "knuckle_left", "knuckle_right", "wheel_left", "wheel_right", "tie_rod", "gear",
          "pitman_arm", "guided_steering", "guided_steering.half_link", "guided_steering.guide",
          "guided_steering.carriage", "locator", "lower_link_left", "lower_link_right",
          "upper_link", "frame", "spring_left"})
      EXPECT_TRUE(parts.count(part) == 1) << view << ": " << part;
  }
}

// A point swept over the heights passes through where it is now, at every height of the range.
TEST(View, ASweptWayPassesThroughItsPoint) {
  for (const double height : {0.0, 117.5, 235.0}) {
    const Json drawing = answer(view_of(
        "plain-mismatched",
        {{"height_mm", height},
         {"views",
          Json::array({Json{{"view", "front"},
                            {"paper_mm", {400, 300}},
                            {"swept", {"track_bar_axle", "track_bar_frame"}}}})}}))["views"][0];
    int ways = 0;
    for (const Json& item : drawing["items"]) {
      if (item["layer"] != "swept") continue;
      ++ways;
      const Json& at = named(drawing["points"], item["part"])["at_mm"];
      double nearest = 1e9;
      for (std::size_t k = 0; k + 1 < item["line"].size(); k += 2)
        nearest = std::min(nearest, std::hypot(number(item["line"], k) - number(at, 0),
                                               number(item["line"], k + 1) - number(at, 1)));
      // The three heights are among those that the way is drawn through.
      EXPECT_LT(nearest, kDrawn) << item["part"];
    }
    EXPECT_EQ(ways, 2);
  }
}

TEST(View, WhatCannotBeHadIsSaidAndDrawnWhereItEnds) {
  Json question = view_of("plain-mismatched", {{"height_mm", 700}});
  question["views"] = Json::array({Json{{"view", "front"}}});
  const Json there = answer(question);
  EXPECT_FALSE(there["complete"].get<bool>());
  EXPECT_FALSE(there.contains("values"));
  EXPECT_EQ(there["report"]["outcome"], "out of reach");
  EXPECT_NE(there["story"][0].get<std::string>().find("has no pose at height 700 mm"),
            std::string::npos);
  // What is drawn is a pose: asked for by itself it can be had, and has the same points.
  const double reached = there["drawn"]["height_mm"];
  EXPECT_NEAR(reached, 700 * there["report"]["path_reached"].get<double>(), 0.01);
  const Json last = answer(view_of("plain-mismatched", {{"height_mm", reached}}));
  EXPECT_TRUE(last["complete"].get<bool>());
  // The ends of a path are steep: a rounding of the height there moves points by its root.
  constexpr double kNearLimit = 1e-2;
  for (const Json& point : last["points"]) {
    for (std::size_t k = 0; k < 3; ++k)
      EXPECT_NEAR(number(point["place_mm"], k),
                  number(named(there["points"], point["name"])["place_mm"], k), kNearLimit);
  }
}

TEST(View, AnUnreachableLeanEndsOnTheWayToIt) {
  const Json there = answer(view_of("guided", {{"height_mm", 100}, {"lean_deg", 80}}));
  EXPECT_FALSE(there["complete"].get<bool>());
  EXPECT_EQ(there["drawn"]["height_mm"], 100.0);
  EXPECT_GT(there["drawn"]["lean_deg"].get<double>(), 1.0);
  EXPECT_LT(there["drawn"]["lean_deg"].get<double>(), 80.0);
}

TEST(View, HeightsOutOfReachAreNullInStripsAndSaid) {
  const std::string tall = "format = 1\nunits = \"mm\"\nname = \"Tall\"\nbased_on = [\"" +
                           testing::example_file("plain-mismatched") +
                           "\"]\n[truck]\nheight_range = [0, 800]\n";
  AskContext context;
  context.text_of = [&](const std::string& path) {
    return path == "/tall.toml" ? tl::expected<std::string, std::string>(tall)
                                : testing::text_of_file(path);
  };
  const Result<Json> there =
      ask({{"ask", "view"}, {"file", "/tall.toml"}, {"heights", 3}}, context);
  ASSERT_TRUE(there.has_value()) << there.error().front().what;
  const Json& strips = (*there)["strips"];
  EXPECT_TRUE(strips["columns"][0]["values"][2].is_null());
  EXPECT_FALSE(strips["columns"][0]["values"][0].is_null());
  ASSERT_EQ(strips["refused"].size(), 1U);
  EXPECT_EQ(strips["refused"][0]["height_mm"], 800.0);
}

// A tie rod that spins about its own line turns its bracket about that line and leaves its ends where they are.
TEST(View, ALooseMotionIsCarriedOut) {
  const double turn = 12;
  const Json still = answer(view_of("guided-loose", {{"height_mm", 0}}));
  const Json moved = answer(
      view_of("guided-loose",
              {{"height_mm", 0},
               {"loose", {{"name", "tie rod: turns about its own line"}, {"angle_deg", turn}}}}));
  const auto place = [](const Json& there, const char* name) {
    const Json& p = named(there["points"], name)["place_mm"];
    return Vec3(number(p, 0), number(p, 1), number(p, 2));
  };
  for (const char* end : {"tie_rod_ball_left", "tie_rod_ball_right"})
    EXPECT_NEAR((place(still, end) - place(moved, end)).norm(), 0, kPose) << end;
  const Vec3 left = place(still, "tie_rod_ball_left");
  const Vec3 line = (place(still, "tie_rod_ball_right") - left).normalized();
  const auto arm = [&](const Json& there) {
    const Vec3 from_left = place(there, "steer_pivot") - left;
    return Vec3(from_left - line * line.dot(from_left));
  };
  EXPECT_NEAR(arm(still).norm(), arm(moved).norm(), kPose);
  EXPECT_NEAR(std::atan2(cross(arm(still), arm(moved)).norm(), arm(still).dot(arm(moved))),
              from_deg(turn), from_deg(turn) * 1e-4);
}

// After a loose motion everything is told where the truck then is: what the steering gear says is what its ball does.
TEST(View, ValuesAreThoseAfterALooseMotion) {
  const std::string file = testing::source_path("tests/layouts/drag_link_tie_rod_bracket.toml");
  const Json checked = answer({{"ask", "check"}, {"file", file}});
  const std::string name = checked["loose"][0]["name"];
  const Json still = answer({{"ask", "view"}, {"file", file}, {"height_mm", 60}});
  const Json moved = answer({{"ask", "view"},
                             {"file", file},
                             {"height_mm", 60},
                             {"loose", {{"name", name}, {"angle_deg", 60}}}});
  const double turned = moved["values"]["pitman_angle_deg"].get<double>() -
                        still["values"]["pitman_angle_deg"].get<double>();
  EXPECT_GT(std::abs(turned), 0.5);
}

// The road under a lifted wheel is that of the pose without travel: where that one cannot be had, its own way is drawn to its end.
TEST(View, ARoadThatCannotBeHadIsDrawnWhereItEnds) {
  const Json there =
      answer(view_of("guided-loose", {{"height_mm", 100}, {"lean_deg", 40}, {"travel_mm", 200}}));
  EXPECT_FALSE(there["complete"].get<bool>());
  EXPECT_EQ(there["drawn"]["height_mm"], 100.0);
  EXPECT_GT(there["drawn"]["lean_deg"].get<double>(), 1.0);
}

TEST(View, TheRearKeepsItsHeightOnTheWay) {
  const Json there =
      answer(view_of("plain-mismatched", {{"height_mm", 700}, {"rear_height_mm", 140}}));
  EXPECT_EQ(there["drawn"]["rear_height_mm"], 140.0);
  EXPECT_NE(there["drawn_text"].get<std::string>().find("rear 140 mm up"), std::string::npos);
}

TEST(View, AnotherHeightThatCannotBeDrawnIsSaid) {
  Json question = view_of("plain-mismatched", {{"height_mm", 60}});
  question["views"] = Json::array({Json{{"view", "front"}, {"beside_height_mm", 900}}});
  EXPECT_NE(answer(question)["story"][0].get<std::string>().find("no pose at height 900 mm"),
            std::string::npos);
}

TEST(View, SaysWhatIsWrongWithAQuestion) {
  EXPECT_NE(
      fault_of(view_of("guided", {{"views", Json::array({Json{{"view", "frnt"}}})}})).find("front"),
      std::string::npos);
  EXPECT_NE(
      fault_of(view_of("guided",
                       {{"views", Json::array({Json{{"view", "front"}, {"paper_mm", {1, 2}}}})}}))
          .find("paper_mm"),
      std::string::npos);
  EXPECT_NE(fault_of(view_of("guided", {{"heights", 1}})).find("2 or more"), std::string::npos);
  EXPECT_NE(fault_of(view_of("guided", {{"heights", 5}, {"names", {"toe_degg"}}})).find("toe_deg"),
            std::string::npos);
  EXPECT_NE(fault_of(view_of("guided", {{"loose", {{"name", "nothing"}}}})).find("check"),
            std::string::npos);
  EXPECT_NE(
      fault_of(
          view_of("guided",
                  {{"views", Json::array({Json{{"view", "front"}, {"swept", {"steer_pivott"}}}})}}))
          .find("steer_pivot"),
      std::string::npos);
}

// Each setting goes into the file where its value stands; nothing else of the text changes.
TEST(Edit, SettingsGoIntoTheirLayers) {
  const Json edit =
      answer({{"ask", "edit"},
              {"file", testing::example_file("guided")},
              {"set", {"points.pitman_ball.z=610.5mm", "points.steer_pivot.x=+2 mm"}}});
  ASSERT_EQ(edit["files"].size(), 2U);
  for (const Json& file : edit["files"]) {
    EXPECT_TRUE(file["layer"].get<bool>());
    EXPECT_EQ(file["lines"].size(), 1U);
  }
  EXPECT_EQ(edit["files"][0]["lines"][0]["after"],
            "pitman_ball = { on = \"pitman\", at = [175, 430, 610.5], plus_minus = \"2 mm\" }");
  EXPECT_EQ(edit["files"][1]["lines"][0]["after"],
            "steer_pivot = { on = \"tie_rod\", at = [177, 430, 470], plus_minus = \"1 mm\" }");
}

TEST(Edit, SaysWhatCannotBeSet) {
  EXPECT_NE(fault_of({{"ask", "edit"},
                      {"file", testing::example_file("guided")},
                      {"set", {"points.wheel_centre_right.z=+1mm"}}})
                .find("is made by the mirror of"),
            std::string::npos);
}

}  // namespace
}  // namespace axlewright
