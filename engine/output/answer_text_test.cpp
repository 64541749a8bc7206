#include "engine/output/answer_text.h"

#include <regex>
#include <set>
#include <sstream>

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

std::string whole_text(const Json& answer) {
  PrintStyle all;
  all.all = true;
  return answer_text(answer, all);
}

/// The words with one blank between them, wherever the lines were broken.
std::string on_one_line(const std::string& text) {
  std::istringstream words(text);
  std::string all, word;
  while (words >> word) all += (all.empty() ? "" : " ") + word;
  return all;
}

void expect_told(const std::string& text, const std::string& words) {
  EXPECT_NE(on_one_line(text).find(words), std::string::npos) << words << " in:\n" << text;
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

/// All keys of an answer but those that are names of quantities.
void collect_keys(const Json& json, std::set<std::string>& keys) {
  for (const auto& [key, inside] : json.items()) {
    if (json.is_object()) keys.insert(key);
    if (inside.is_structured() && key != "values") collect_keys(inside, keys);
  }
}

// Other programs lean on the contract: what it does not tell might as well not be there.
TEST(Answer, EveryKeyStandsInTheContract) {
  const auto contract = testing::text_on_disk(std::string(AXLEWRIGHT_ROOT) + "/api/README.md");
  ASSERT_TRUE(contract);
  std::set<std::string> keys;
  for (const Json& answer : real_answers()) collect_keys(answer, keys);
  collect_keys(answer_to({{"ask", "start"}, {"layout", "guided"}}), keys);
  collect_keys(answer_to({{"ask", "pose"}, {"file", example_file("guided")}, {"height_mm", 5000}}),
               keys);
  EXPECT_GT(keys.size(), 100u);
  for (const std::string& key : keys)
    EXPECT_TRUE(std::regex_search(*contract, std::regex("\\b" + key + "\\b"))) << key;
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

// Guided bars do not turn the wheel at any height: there is no height at which it is worst.
TEST(PrintedAnswer, NothingHasNoPlace) {
  const std::string text = plain_text(testing::sweep_of("guided", 3));
  expect_told(text, "wheel off centre: 0.00 deg in every pose looked at; allowed 5 deg either way");
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
  EXPECT_EQ(line_with(plain_text(sweep), "Joint tilt"), "");
  EXPECT_NE(line_with(whole_text(sweep), "Joint tilt"), "");
}

// Height alone is the best case: the ends of a ball's tilt lie anywhere in the grid.
TEST(PrintedAnswer, LeastAndMostOverTheGridAreShownWithTheirPlaceWhenAskedFor) {
  const Json sweep = testing::sweep_of("plain-mismatched", 3);
  EXPECT_EQ(line_with(plain_text(sweep), "Least and most"), "");
  const std::string text = whole_text(sweep);
  ASSERT_NE(line_with(text, "Least and most"), "");
  // The wheels hang 110 mm down and the left side is 4 degrees up: there it goes straight at 220.9 degrees of wheel.
  expect_told(text, "220.9 left 235 110 down 4 left straight");
  expect_told(text, "The same in every pose: ");
}

// A link that lies along the truck has no slope seen from the front: its end stands on its own foot.
TEST(PrintedAnswer, AQuantityThatIsNotToldAtAHeightIsExplained) {
  const std::string text = whole_text(testing::sweep_of("half-converted", 3));
  EXPECT_NE(line_with(text, "     0.0   -  "), "") << text;
  expect_told(text, "the quantity is not told there");
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
  const Json check = answer_to({{"ask", "check"}, {"file", example_file("plain-mismatched")}});
  const std::string text = plain_text(check);
  const Json& up = check["margins"][0];
  ASSERT_EQ(up["by"], "bind");
  expect_told(text, "then " + up["what_ran_out"].get<std::string>() + ' ' +
                        up["how_it_ran_out"].get<std::string>());
}

// The frame is asked to lean farther than is looked.
TEST(PrintedAnswer, AMarginThatIsNotThereIsCalledMissing) {
  const std::string file = example_file("guided");
  const std::string text =
      plain_text(answer_to({{"ask", "check"}, {"file", file}, {"set", {"truck.lean=25"}}}));
  EXPECT_NE(line_with(text, "lean, left side up").find("5.0 deg  missing: the search ends"),
            std::string::npos)
      << text;
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

// Nothing in it can be set, and nothing needs to be: the wheel does not leave its centre.
TEST(PrintedAnswer, SetupSaysSoWhereNothingMoves) {
  const std::string text =
      plain_text(answer_to({{"ask", "setup"}, {"file", example_file("guided")}}));
  expect_told(text,
              "At the other heights the steering wheel stays centred and the axle stays in the "
              "middle.");
  EXPECT_EQ(line_with(text, "set up so"), "") << text;
  EXPECT_EQ(line_with(text, "up to"), "") << text;
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
                    {"checks", {"Diagonals on the floor: equal."}},
                    {"cautions", {"Steering can kill."}}};
  PrintStyle style;
  style.all = true;
  const std::string text = start_text(answer, "my.toml", "my-measure.txt", style);
  expect_fits(text, "start");
  EXPECT_NE(line_with(text, "axlewright check my.toml"), "");
  EXPECT_NE(line_with(text, "wheel_centre_left").find("2 mm"), std::string::npos) << text;
  EXPECT_NE(line_with(text, "Diagonals on the floor"), "");
}

}  // namespace
}  // namespace axlewright
