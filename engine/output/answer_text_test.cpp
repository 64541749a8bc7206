#include "engine/output/answer_text.h"

#include <gtest/gtest.h>

#include "engine/output/answers_test.h"
#include "engine/output/text.h"

namespace axlewright {
namespace {

using testing::answer_to;
using testing::example_file;
using testing::line_with;
using testing::lines_in;

/// Answers of every verb about every example truck, in mm and inch.
std::vector<Json> real_answers() {
  std::vector<Json> answers;
  for (const char* units : {"mm", "inch"}) {
    Json files = Json::array();
    for (const std::string& truck : testing::example_trucks()) {
      const std::string file = example_file(truck);
      files.push_back(file);
      answers.push_back(
          answer_to({{"ask", "check"}, {"file", file}, {"expand", true}, {"units", units}}));
      answers.push_back(answer_to({{"ask", "pose"},
                                   {"file", file},
                                   {"units", units},
                                   {"height_mm", 200},
                                   {"lean_deg", 3},
                                   {"travel_left_mm", -40},
                                   {"steering_wheel_deg", 200}}));
      answers.push_back(
          answer_to({{"ask", "sweep"}, {"file", file}, {"units", units}, {"heights", 4}}));
      answers.push_back(
          answer_to({{"ask", "setup"}, {"file", file}, {"units", units}, {"height_mm", 60}}));
    }
    answers.push_back(
        answer_to({{"ask", "compare"}, {"files", files}, {"units", units}, {"heights", 3}}));
  }
  return answers;
}

void expect_fits(const std::string& text, const std::string& what) {
  ASSERT_FALSE(text.empty());
  EXPECT_EQ(text.back(), '\n');
  for (const std::string& line : lines_in(text)) {
    EXPECT_LE(text_width(line), 80) << what << ": " << line;
    EXPECT_TRUE(line.empty() || line.back() != ' ') << what << ": " << line << "|";
    EXPECT_EQ(line.find('\x1b'), std::string::npos) << what << ": " << line;
    EXPECT_EQ(line.find("nan"), std::string::npos) << what << ": " << line;
  }
}

/// The text as it is without colour: escapes taken out, and the blanks that stood inside them at the ends of lines.
std::string without_colour(const std::string& text) {
  std::string plain;
  for (std::size_t k = 0; k < text.size(); ++k) {
    if (text[k] == '\x1b') {
      k = text.find('m', k);
      continue;
    }
    if (text[k] == '\n') plain.erase(plain.find_last_not_of(' ') + 1);
    plain += text[k];
  }
  return plain;
}

std::string plain_text(const Json& answer) {
  return answer_text(answer, PrintStyle{});
}

TEST(PrintedAnswer, EveryLineOfEveryAnswerKeepsTo80Columns) {
  for (const Json& answer : real_answers()) {
    const std::string what = answer["ask"].get<std::string>() + " " + answer.value("file", "");
    for (const bool all : {false, true}) {
      PrintStyle style;
      style.all = all;
      const std::string text = answer_text(answer, style);
      expect_fits(text, what);
      style.colour = true;
      EXPECT_EQ(without_colour(answer_text(answer, style)), text)
          << what << ": colour may add nothing but colour";
    }
  }
}

TEST(PrintedAnswer, TheStoryComesBeforeTheEvidence) {
  const Json sweep = testing::sweep_of("plain-mismatched");
  const std::string text = plain_text(sweep);
  const std::string first = sweep["story"][0].get<std::string>().substr(0, 30);
  ASSERT_NE(text.find(first), std::string::npos);
  EXPECT_LT(text.find(first), text.find("Limits:"));
  EXPECT_LT(text.find("Limits:"), text.find("over height, going straight"));
  EXPECT_LT(text.find("over height, going straight"), text.find("Cautions"));
}

TEST(PrintedAnswer, LimitsAreToldInWords) {
  const Json sweep = testing::sweep_of("plain-mismatched");
  const std::string text = plain_text(sweep);
  for (const Json& limit : sweep["limits"]) {
    std::string name = with_blanks(limit["name"]);
    const std::string line = line_with(text, ' ' + name + ": ");
    EXPECT_NE(line.find(limit["verdict"].get<std::string>()), std::string::npos) << name << line;
  }
  EXPECT_NE(text.find("Not set: "), std::string::npos);
  EXPECT_NE(text.find("Not checked: clearance, strength"), std::string::npos);
  EXPECT_NE(text.find("allowed 5 deg either way"), std::string::npos);
}

// All limits of this truck are met: the words must still not read as approval.
TEST(PrintedAnswer, NothingIsCalledSafe) {
  const std::string file = example_file("guided");
  for (const char* verb : {"check", "pose", "sweep", "setup"}) {
    const std::string text = plain_text(answer_to({{"ask", verb}, {"file", file}}));
    for (const char* word : {"safe", "OK", "pass", "approved", "good"})
      EXPECT_EQ(line_with(text, word), "") << verb;
  }
}

// The mismatched bars turn the wheel left at the top; the axle walks left.
TEST(PrintedAnswer, SignsAreInWords) {
  const std::string text = plain_text(testing::sweep_of("plain-mismatched", 11));
  const std::string top = line_with(text, "   235.0  53.7 left");
  EXPECT_NE(top, "") << text;
  EXPECT_EQ(line_with(text, " -53"), "");
  EXPECT_NE(line_with(text, "mm left"), "");
}

TEST(PrintedAnswer, WhatStaysIsToldInOneSentence) {
  const std::string text = plain_text(testing::sweep_of("guided"));
  EXPECT_NE(text.find("The same at every height: steering wheel off centre 0.00 deg;"),
            std::string::npos)
      << text;
}

TEST(PrintedAnswer, BarsAndJointsAreShownWhenAskedFor) {
  const Json sweep = testing::sweep_of("guided");
  PrintStyle all;
  all.all = true;
  EXPECT_EQ(line_with(plain_text(sweep), "Joint tilt"), "");
  EXPECT_NE(line_with(answer_text(sweep, all), "Joint tilt"), "");
}

TEST(PrintedAnswer, ComparedTrucksStandInColumnsAndTheBestIsMarked) {
  const std::string text =
      plain_text(answer_to({{"ask", "compare"},
                            {"files", {example_file("plain-mismatched"), example_file("guided")}},
                            {"heights", 5}}));
  const std::string row = line_with(text, "steering wheel off centre, deg");
  EXPECT_NE(row.find("53.7 left"), std::string::npos) << row;
  EXPECT_NE(row.find("0.0*"), std::string::npos) << row;
  EXPECT_NE(line_with(text, "caster  ").find("! broken"), std::string::npos);
}

// A front end that four trucks share the page with, and one more: the fifth goes into a table of its own.
TEST(PrintedAnswer, ManyTrucksGoIntoTablesUnderEachOther) {
  Json files = Json::array();
  for (int copy = 0; copy < 7; ++copy) files.push_back(example_file("plain-parallel"));
  expect_fits(plain_text(answer_to({{"ask", "compare"}, {"files", files}, {"heights", 3}})),
              "seven trucks");
}

// Two platforms, two height ranges: their heights cannot share a column.
TEST(PrintedAnswer, TrucksOfOtherHeightsHaveTheirOwnTable) {
  Json answer =
      answer_to({{"ask", "compare"},
                 {"files", {example_file("plain-mismatched"), example_file("plain-parallel")}},
                 {"heights", 3}});
  for (Json& row : answer["trucks"][1]["rows"])
    row["height_mm"] = row["height_mm"].get<double>() + 7;
  const std::string text = plain_text(answer);
  expect_fits(text, "two height ranges");
  EXPECT_NE(line_with(text, "     7.0  0.0"), "") << text;
  EXPECT_NE(line_with(text, "     0.0   0.0"), "") << text;
}

TEST(PrintedAnswer, NamesOutOfAFileCannotBreakThePage) {
  Json sweep = testing::sweep_of("plain-mismatched", 3);
  sweep["truck"] = "\x1b[2J" + std::string(200, 'x') + "\nname";
  sweep["limits"][0]["name"] = std::string(120, 'y');
  sweep["file"] = std::string(120, '/') + "\xC3\xA4.toml";
  expect_fits(plain_text(sweep), "long names");
  Json compared{{"ask", "compare"},
                {"version", 1},
                {"units", "mm"},
                {"story", Json::array()},
                {"comparison", Json::array()},
                {"trucks", {sweep, sweep}},
                {"cautions", Json::array()}};
  expect_fits(plain_text(compared), "long names side by side");
}

TEST(PrintedAnswer, APoseThatCannotBeHadSaysWhyAndHasNoNumbers) {
  const Json pose =
      answer_to({{"ask", "pose"}, {"file", example_file("plain-mismatched")}, {"height_mm", 700}});
  ASSERT_FALSE(pose.contains("values"));
  const std::string text = plain_text(pose);
  expect_fits(text, "no pose");
  EXPECT_NE(text.find("Not solved (" + pose["report"]["outcome"].get<std::string>() + ")"),
            std::string::npos)
      << text;
  EXPECT_EQ(line_with(text, "caster  "), "");
}

TEST(PrintedAnswer, HeightsWithoutAPoseAreShownAsDashes) {
  Json sweep = testing::sweep_of("plain-mismatched", 4);
  sweep["rows"][3].erase("values");
  sweep["refused"] = 1;
  sweep["refusals"] = {{{"place_text", "at height 235 mm, going straight"},
                        {"report", {{"message", "the upper link is too short"}}}}};
  const std::string text = plain_text(sweep);
  expect_fits(text, "a row without a pose");
  EXPECT_NE(line_with(text, "   235.0  -"), "") << text;
  EXPECT_NE(line_with(text, "the upper link is too short"), "");
  EXPECT_NE(line_with(text, "Poses that cannot be had: 1 of"), "");
}

TEST(PrintedAnswer, WarningsAreToldWithTheirPlace) {
  Json check = answer_to({{"ask", "check"}, {"file", example_file("guided")}});
  check["warnings"] = {{{"severity", "warning"},
                        {"file", "a.toml"},
                        {"line", 7},
                        {"column", 3},
                        {"what", "nobody uses this point"},
                        {"fix", "take it out"}}};
  EXPECT_NE(line_with(plain_text(check), "a.toml:7:3: nobody uses this point (fix: take it out)"),
            "");
}

TEST(PrintedAnswer, MarginsTellWhatRunsOut) {
  const std::string text =
      plain_text(answer_to({{"ask", "check"}, {"file", example_file("plain-mismatched")}}));
  EXPECT_NE(line_with(text, "height, up  ").find("upper link runs out"), std::string::npos) << text;
}

TEST(PrintedAnswer, SetupTellsWhatToTurnOnEachBar) {
  const Json setup =
      answer_to({{"ask", "setup"}, {"file", example_file("plain-mismatched")}, {"height_mm", 120}});
  const std::string text = plain_text(setup);
  for (const Json& one : setup["adjustments"]) {
    const std::string words = one["words"].get<std::string>();
    EXPECT_NE(line_with(text, words + ": lengthen by "), "") << text;
  }
  EXPECT_NE(line_with(text, "turns of the sleeve"), "") << text;
}

TEST(PrintedAnswer, StartSaysWhatToDoNext) {
  const Json answer{{"ask", "start"},
                    {"layout", "half-converted"},
                    {"story", {"A front end with a plain track bar."}},
                    {"steps",
                     {{{"step", 1},
                       {"point", "wheel_centre_left"},
                       {"what", "centre of the hub"},
                       {"from", "the ground"},
                       {"accuracy", "2 mm"}}}},
                    {"cautions", {"Steering can kill."}}};
  PrintStyle style;
  style.all = true;
  const std::string text = start_text(answer, "my.toml", "my-measure.txt", style);
  expect_fits(text, "start");
  EXPECT_NE(line_with(text, "axlewright check my.toml"), "");
  EXPECT_NE(line_with(text, "wheel centre left").find("2 mm"), std::string::npos) << text;
}

}  // namespace
}  // namespace axlewright
