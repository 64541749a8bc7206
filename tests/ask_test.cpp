// Questions asked of the example trucks, as every face asks them: the answers keep to api/README.md.

#include "engine/ask/ask.h"

#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/units.h"
#include "tests/support/asked.h"
#include "tests/support/truck_files.h"

namespace axlewright {
namespace {

using testing::answer;
using testing::asked;
using testing::fault_of;

bool names(const Json& quantities, const std::string& name) {
  for (const Json& quantity : quantities) {
    if (quantity["name"] == name) return true;
  }
  return false;
}

TEST(Ask, EveryRowOfASweepTellsEveryQuantity) {
  for (const char* truck : testing::kExampleTrucks) {
    const Json sweep =
        answer({{"ask", "sweep"}, {"file", testing::example_file(truck)}, {"heights", 5}});
    ASSERT_EQ(sweep["rows"].size(), 5u) << truck;
    for (const Json& row : sweep["rows"]) {
      ASSERT_EQ(row["report"]["outcome"], "converged") << truck;
      EXPECT_EQ(row["report"]["certificate"], "followed");
      EXPECT_EQ(row["values"].size(), sweep["quantities"].size());
      for (const Json& quantity : sweep["quantities"])
        EXPECT_TRUE(row["values"].contains(quantity["name"].get<std::string>())) << quantity;
    }
    for (const Json& group : sweep["groups"]) {
      for (const Json& name : group["names"])
        EXPECT_TRUE(names(sweep["quantities"], name.get<std::string>())) << name;
    }
  }
}

TEST(Ask, NoAnswerSpeaksOfNanOrApproval) {
  for (const char* truck : testing::kExampleTrucks) {
    for (const char* verb : {"check", "pose", "sweep", "setup"}) {
      const std::string text =
          answer({{"ask", verb}, {"file", testing::example_file(truck)}}).dump();
      for (const char* word : {"nan", "inf ", "safe", " ok"})
        EXPECT_EQ(text.find(word), std::string::npos) << verb << " of " << truck << ": " << word;
    }
  }
}

TEST(Ask, UnitsChangeSentencesAndNoNumber) {
  Json question{
      {"ask", "sweep"}, {"file", testing::example_file("plain-mismatched")}, {"heights", 3}};
  const Json metric = answer(question);
  question["units"] = "inch";
  const Json inch = answer(question);
  EXPECT_EQ(metric["rows"], inch["rows"]);
  EXPECT_NE(metric["story"], inch["story"]);
  EXPECT_NE(inch["story"][1].get<std::string>().find(" in "), std::string::npos);
}

// Definition 1: in frame z the wheel centres fixed on the axle go down by the height, and with travel and lean.
TEST(Ask, PosePutsWheelCentresWhereTheInputsSay) {
  const Json before = answer({{"ask", "pose"}, {"file", testing::example_file("guided")}});
  const Json pose = answer({{"ask", "pose"},
                            {"file", testing::example_file("guided")},
                            {"height_mm", 100},
                            {"travel_mm", 20},
                            {"travel_left_mm", 15},
                            {"lean_deg", 3}});
  const auto z = [](const Json& answer, const std::string& name) {
    for (const Json& point : answer["points"]) {
      if (point["name"] == name) return point["place_mm"][2].get<double>();
    }
    ADD_FAILURE() << name;
    return 0.0;
  };
  constexpr double kSolved = 1e-6;  // [mm] the pose closes to 1e-10 m
  const double side = 0.5 * 1750 * std::sin(from_deg(3));
  EXPECT_NEAR(z(pose, "wheel_centre_left"), z(before, "wheel_centre_left") - 100 + 20 + 15 - side,
              kSolved);
  EXPECT_NEAR(z(pose, "wheel_centre_right"), z(before, "wheel_centre_right") - 100 + 20 + side,
              kSolved);
}

TEST(Ask, PoseTellsBodiesPointsAndResidualsThatAgree) {
  const Json before = answer({{"ask", "pose"}, {"file", testing::example_file("guided")}});
  const Json pose = answer({{"ask", "pose"},
                            {"file", testing::example_file("guided")},
                            {"height_mm", 150},
                            {"steering_wheel_deg", 200}});
  for (const Json& residual : pose["residuals"])
    EXPECT_LT(std::abs(residual["residual_m"].get<double>()), 1e-10) << residual;
  // Each point is where its body's pose takes its as-measured place.
  for (std::size_t p = 0; p < pose["points"].size(); ++p) {
    const Json& point = pose["points"][p];
    for (const Json& body : pose["bodies"]) {
      if (body["name"] != point["on"]) continue;
      for (int r = 0; r < 3; ++r) {
        double moved = body["place_mm"][r].get<double>();
        for (int c = 0; c < 3; ++c)
          moved +=
              body["matrix"][r][c].get<double>() * before["points"][p]["place_mm"][c].get<double>();
        EXPECT_NEAR(moved, point["place_mm"][r].get<double>(), 1e-6) << point;
      }
    }
  }
}

TEST(Ask, APoseOutOfReachHasAReasonAndNoNumbers) {
  const Json pose = answer(
      {{"ask", "pose"}, {"file", testing::example_file("plain-parallel")}, {"height_mm", 900}});
  EXPECT_EQ(pose["report"]["outcome"], "out of reach");
  EXPECT_FALSE(pose["report"]["what_ran_out"].get<std::string>().empty());
  EXPECT_LT(pose["report"]["path_reached"].get<double>(), 1);
  EXPECT_FALSE(pose.contains("values"));
  EXPECT_FALSE(pose.contains("points"));
}

// The drag link pulls the right knuckle round until it lines up with the kingpin: then the arm moves and the wheels do not.
TEST(Ask, WheelsThatNoLongerAnswerAreAtADeadCentre) {
  const Json pose = answer({{"ask", "pose"},
                            {"file", testing::example_file("plain-mismatched")},
                            {"road_wheels_deg", -60}});
  EXPECT_EQ(pose["report"]["outcome"], "dead centre");
  EXPECT_FALSE(pose.contains("values"));
  const Json check =
      answer({{"ask", "check"}, {"file", testing::example_file("plain-mismatched")}});
  for (const Json& margin : check["margins"]) {
    if (margin["input"] == "steering wheel, to the right") {
      EXPECT_EQ(margin["by"], "dead centre");
    }
  }
}

TEST(Ask, ASettingIsOneMoreLayer) {
  const Json plain =
      answer({{"ask", "pose"}, {"file", testing::example_file("guided")}, {"height_mm", 200}});
  const Json moved = answer({{"ask", "pose"},
                             {"file", testing::example_file("guided")},
                             {"height_mm", 200},
                             {"set", Json::array({"points.steer_pivot.z=+3mm"})}});
  EXPECT_NE(plain["values"]["steering_wheel_off_centre_deg"],
            moved["values"]["steering_wheel_off_centre_deg"]);
}

TEST(Ask, LimitsOfTheExamplesStandAsTheirCommentsSay) {
  const auto broken = [](const char* truck) {
    int count = 0;
    const Json sweep = answer({{"ask", "sweep"}, {"file", testing::example_file(truck)}});
    for (const Json& limit : sweep["limits"]) count += limit["verdict"] == "broken" ? 1 : 0;
    return count;
  };
  EXPECT_EQ(broken("guided"), 0);
  EXPECT_EQ(broken("guided-loose"), 1);
  EXPECT_GT(broken("plain-mismatched"), broken("plain-parallel"));
}

// With the guide's pivot 3 mm off its line the path tilts (kinematics references 1.3): that point leads what matters.
TEST(Ask, PointsThatMatterAreTheStrongestFirst) {
  const Json sweep =
      answer({{"ask", "sweep"}, {"file", testing::example_file("guided")}, {"heights", 3}});
  const Json& points = sweep["points_that_matter"];
  for (const char* list : {"design_moves", "build_errors"}) {
    ASSERT_GT(points[list].size(), 3u);
    for (std::size_t k = 1; k < points[list].size(); ++k) {
      EXPECT_GE(std::abs(points[list][k - 1]["per_mm"].get<double>()),
                std::abs(points[list][k]["per_mm"].get<double>()));
    }
  }
}

// Sensitivity against the difference of two poses: points_that_matter of the steering wheel at one place.
TEST(Ask, AnInfluenceIsTheSlopeOfTheAnswer) {
  const Json sweep = answer(
      {{"ask", "sweep"}, {"file", testing::example_file("plain-mismatched")}, {"heights", 3}});
  const Json& points = sweep["points_that_matter"];
  const Json& first = points["design_moves"][0];
  const auto off_centre = [&](const std::string& change) {
    Json question{{"ask", "pose"},
                  {"file", testing::example_file("plain-mismatched")},
                  {"set", Json::array({"points." + first["name"].get<std::string>() + "." +
                                       first["coordinate"].get<std::string>() + "=" + change})}};
    for (const char* key : {"height_mm", "travel_mm", "lean_deg"})
      question[key] = points["where"][key];
    return answer(question)["values"]["steering_wheel_off_centre_deg"].get<double>();
  };
  const double slope = (off_centre("+0.1mm") - off_centre("-0.1mm")) / 0.2;
  EXPECT_NEAR(slope, first["per_mm"].get<double>(), 1e-4 * std::abs(slope));
}

TEST(Ask, CompareNamesAllThatShareTheBest) {
  const Json compared = answer({{"ask", "compare"},
                                {"heights", 3},
                                {"files", Json::array({testing::example_file("plain-mismatched"),
                                                       testing::example_file("guided-loose"),
                                                       testing::example_file("guided")})}});
  ASSERT_EQ(compared["trucks"].size(), 3u);
  const Json& off_centre = compared["comparison"][0];
  EXPECT_EQ(off_centre["name"], "steering_wheel_off_centre_deg");
  EXPECT_EQ(off_centre["best"], Json::array({1, 2}));
}

TEST(Ask, SetupCentresWheelAndAxleAtItsHeight) {
  const Json setup = answer({{"ask", "setup"},
                             {"file", testing::example_file("plain-mismatched")},
                             {"height_mm", 94},
                             {"heights", 6}});
  ASSERT_TRUE(setup["found"]);
  ASSERT_EQ(setup["adjustments"].size(), 2u);
  const Json& row = setup["rows"][2];
  EXPECT_DOUBLE_EQ(row["height_mm"].get<double>(), 94);
  EXPECT_NEAR(row["wheel_after_deg"].get<double>(), 0, 1e-5);
  EXPECT_NEAR(row["walk_after_mm"].get<double>(), 0, 1e-4);
}

TEST(Ask, CheckTellsTheLooseBracket) {
  const auto spins = [](const char* truck) {
    std::vector<std::string> list;
    const Json check = answer({{"ask", "check"}, {"file", testing::example_file(truck)}});
    for (const Json& loose : check["loose"]) {
      EXPECT_TRUE(loose["spin"]);
      list.push_back(loose["name"]);
    }
    return list;
  };
  EXPECT_EQ(spins("plain-mismatched").size(), 0u);
  EXPECT_EQ(spins("guided").size(), 2u);  // the two through-links, which nothing needs to hold
  const std::vector<std::string> loose = spins("guided-loose");
  ASSERT_EQ(loose.size(), 3u);
  EXPECT_EQ(loose.back(), "tie rod: turns about its own line");
}

TEST(Ask, CheckTellsWhichRuleAGuidedBarKeepsAndHowStraightItGoes) {
  const auto told = [](const std::string& layout) {
    const Json check = answer(
        {{"ask", "check"}, {"file", testing::source_path("tests/layouts/" + layout + ".toml")}});
    EXPECT_FALSE(check["guided_bars"].empty()) << layout;
    return check["guided_bars"][0];
  };
  const Json equal = told("guided_axle_guide_on_axle");
  EXPECT_EQ(equal["rule"], "equal halves");
  // Exact but for the file's digits.
  EXPECT_LT(equal["leaves_line_mm"].get<double>(), 1e-5);
  const Json right = told("guided_unequal_arms"), wrong = told("guided_unequal_arms_wrong");
  EXPECT_EQ(right["rule"], "a^2/b");
  EXPECT_LT(right["leaves_line_mm"].get<double>(), 0.6);
  EXPECT_EQ(wrong["rule"], "sqrt(a b)");
  EXPECT_GT(wrong["leaves_line_mm"].get<double>(), 6);
  EXPECT_NEAR(wrong["half_link_by_rule_mm"].get<double>(), 320, 1e-6);
  const std::string text = wrong["text"];
  EXPECT_NE(text.find("which is not the rule"), std::string::npos) << text;
  EXPECT_EQ(told("guided_middle_off_the_middle")["rule"], "none");
  EXPECT_EQ(told("guided_rocker_pinned")["on_rocker"], true);
}

TEST(Ask, StoppedIsAFault) {
  AskContext context;
  context.text_of = testing::text_of_file;
  int calls = 0;
  context.progress = [&](double) { return ++calls < 3; };
  const Result<Json> result =
      ask({{"ask", "sweep"}, {"file", testing::example_file("guided")}}, context);
  ASSERT_FALSE(result.has_value());
  EXPECT_EQ(calls, 3);
  EXPECT_NE(result.error().front().what.find("stopped"), std::string::npos);
}

TEST(Ask, WrongQuestionsAreToldSo) {
  const std::string file = testing::example_file("guided");
  EXPECT_NE(fault_of(Json::array()).find("what it asks"), std::string::npos);
  EXPECT_NE(fault_of({{"ask", "swep"}}).find("did you mean \"sweep\""), std::string::npos);
  EXPECT_NE(fault_of({{"ask", "pose"}, {"file", file}, {"heigth_mm", 3}})
                .find("did you mean `height_mm`"),
            std::string::npos);
  EXPECT_NE(fault_of({{"ask", "pose"}, {"file", file}, {"height_mm", "three"}})
                .find("`height_mm` is not a number"),
            std::string::npos);
  EXPECT_NE(fault_of({{"ask", "pose"}, {"file", file}, {"lean_deg", 95}}).find("lean"),
            std::string::npos);
  EXPECT_NE(fault_of({{"ask", "pose"}, {"file", file}, {"held", true}, {"pitman_deg", 3}})
                .find("both steer"),
            std::string::npos);
  EXPECT_NE(fault_of({{"ask", "sweep"}, {"file", file}, {"heights", 1}}).find("whole number"),
            std::string::npos);
  EXPECT_NE(
      fault_of({{"ask", "sweep"}, {"file", file}, {"quantity", "casterleft"}}).find("caster_left"),
      std::string::npos);
  EXPECT_NE(fault_of({{"ask", "sweep"}, {"file", file}, {"units", "cm"}}).find("inch"),
            std::string::npos);
  EXPECT_NE(fault_of({{"ask", "sweep"}, {"file", file}, {"set", "x"}}).find("list of texts"),
            std::string::npos);
  EXPECT_NE(fault_of({{"ask", "compare"}, {"files", Json::array({file})}}).find("two truck files"),
            std::string::npos);
  EXPECT_FALSE(fault_of({{"ask", "check"}, {"file", "no-such.toml"}}).empty());
}

}  // namespace
}  // namespace axlewright
