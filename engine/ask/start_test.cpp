// The truck files and measuring sheets that `start` makes, for every layout.

#include "engine/ask/start.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/ask/start_layouts.h"
#include "engine/base/units.h"
#include "engine/study/rig.h"
#include "engine/truck/read.h"

namespace axlewright {
namespace {

Result<Json> asked(Json question) {
  question["ask"] = "start";
  return answer_start(question, AskContext{});
}

Json started(const std::string& layout, bool example, const std::string& units) {
  const Result<Json> answer =
      asked({{"layout", layout}, {"example_numbers", example}, {"units", units}});
  EXPECT_TRUE(answer) << layout;
  return answer ? *answer : Json();
}

std::string file_of(const std::string& layout, bool example, const std::string& units = "mm") {
  return started(layout, example, units).value("file_text", "");
}

Result<Truck> read_text(const std::string& text) {
  return read_truck(
      "my-truck.toml",
      [&](const std::string&) -> tl::expected<std::string, std::string> { return text; });
}

/// The truck of a layout's example numbers. Every fault is a failure of the running test; then it is empty.
Truck example_truck(const std::string& layout, const std::string& units = "mm") {
  const Result<Truck> truck = read_text(file_of(layout, true, units));
  if (truck) return *truck;
  for (const Fault& fault : truck.error())
    ADD_FAILURE() << layout << ":" << fault.line << ": " << fault.what << "; " << fault.fix;
  return {};
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

std::vector<std::string> layouts() {
  std::vector<std::string> names;
  for (const StartLayout& layout : start_layouts()) names.push_back(layout.name);
  return names;
}

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

class EveryStart : public ::testing::TestWithParam<std::string> {};

TEST_P(EveryStart, WithExampleNumbersIsReadWithoutARemark) {
  for (const char* units : {"mm", "inch"}) {
    const Truck truck = example_truck(GetParam(), units);
    EXPECT_EQ(truck.inches, units == std::string("inch"));
    for (const Fault& fault : truck.warnings) ADD_FAILURE() << fault.line << ": " << fault.what;
  }
}

TEST_P(EveryStart, WithExampleNumbersIsSoundAndRisesOverItsWholeRange) {
  for (const char* units : {"mm", "inch"}) {
    Rig rig(example_truck(GetParam(), units));
    ASSERT_EQ(rig.held().assembly().soundness, Soundness::sound) << rig.held().assembly().message;
    ASSERT_TRUE(rig.aligned_report().usable()) << rig.aligned_report().message;
    const auto& [low, high] = rig.truck().height_range;
    ASSERT_NEAR(high - low, 0.235, 1e-5);
    constexpr int kSteps = 10;
    for (int step = 0; step <= kSteps; ++step) {
      PoseRequest request;
      request.height = low + step * (high - low) / kSteps;
      const PoseResult pose = rig.solve(request);
      ASSERT_TRUE(pose.report.usable()) << step << ": " << pose.report.message;
      EXPECT_EQ(pose.report.certificate, Certificate::followed);
      // The wheel turned to the left steers the road wheels to the left.
      EXPECT_GT(pose.values[kSteeringRatio], 0) << step;
    }
  }
}

// A number, a text with a number in it, or one of the two words that tell how the arm turns.
bool is_value(const std::string& text) {
  static const std::set<std::string> words{"\"clockwise\"", "\"anticlockwise\""};
  return words.count(text) > 0 ||
         text.find_first_not_of("0123456789.-\" turns") == std::string::npos;
}

/// The line with every "?" replaced by what `filled` has in its place; empty if the lines differ in anything but those.
std::string filled_in(const std::string& blank, const std::string& filled) {
  const std::string mark = "\"?\"";
  std::string line;
  std::size_t at = 0, from = 0;
  for (std::size_t next = blank.find(mark); next != std::string::npos;
       next = blank.find(mark, from)) {
    const std::string between = blank.substr(from, next - from);
    if (filled.compare(at, between.size(), between) != 0) return "";
    at += between.size();
    from = next + mark.size();
    const std::size_t end = from < blank.size() ? filled.find(blank[from], at) : filled.size();
    if (end == std::string::npos || !is_value(filled.substr(at, end - at))) return "";
    line += between + filled.substr(at, end - at);
    at = end;
  }
  return line + blank.substr(from);
}

TEST_P(EveryStart, BlankAndExampleDifferInTheValuesAlone) {
  for (const char* units : {"mm", "inch"}) {
    const std::vector<std::string> blank = lines_of(file_of(GetParam(), false, units));
    const std::vector<std::string> filled = lines_of(file_of(GetParam(), true, units));
    ASSERT_EQ(blank.size(), filled.size());
    for (std::size_t k = 0; k < blank.size(); ++k)
      EXPECT_EQ(filled_in(blank[k], filled[k]), filled[k]) << blank[k];
    EXPECT_FALSE(contains(file_of(GetParam(), true, units), "\"?\""));
  }
}

/// Where a line's faults stand if it is blank: a point has one, at its list or at the first of its coordinates; any other value its own.
std::vector<int> columns_of_blanks(const std::string& line) {
  std::vector<int> columns;
  for (std::size_t at = line.find("\"?\""); at != std::string::npos;
       at = line.find("\"?\"", at + 1))
    columns.push_back(static_cast<int>(at) + 1);
  const std::size_t place = line.find("at = [");
  if (columns.empty() || place == std::string::npos) return columns;
  if (columns.size() == 3) return {static_cast<int>(place + std::string("at = ").size()) + 1};
  return {columns.front()};
}

TEST_P(EveryStart, BlankHasOneFaultForEachPointOrValueStillMissingInTheFilesOrder) {
  const std::string text = file_of(GetParam(), false);
  std::vector<std::pair<int, int>> missing;
  const std::vector<std::string> lines = lines_of(text);
  for (std::size_t k = 0; k < lines.size(); ++k) {
    for (const int column : columns_of_blanks(lines[k]))
      missing.emplace_back(static_cast<int>(k) + 1, column);
  }
  ASSERT_GT(missing.size(), 20u);
  const Result<Truck> truck = read_text(text);
  ASSERT_FALSE(truck);
  ASSERT_EQ(truck.error().size(), missing.size());
  for (std::size_t k = 0; k < missing.size(); ++k) {
    const Fault& fault = truck.error()[k];
    EXPECT_EQ(std::pair(fault.line, fault.column), missing[k]);
    EXPECT_EQ(fault.source_line, lines[static_cast<std::size_t>(fault.line) - 1]);
    EXPECT_TRUE(contains(fault.what, "is not filled in yet") ||
                contains(fault.what, "is not measured yet"))
        << fault.what;
  }
}

TEST_P(EveryStart, EveryPointIsMeasuredInOneStepAndEveryStepFillsALine) {
  const Json answer = started(GetParam(), true, "mm");
  std::map<std::string, int> steps;
  std::set<std::string> others;
  for (const Json& step : answer["steps"]) {
    const std::string entry = step["point"].get<std::string>();
    ++steps[entry];
    if (contains(entry, ".")) others.insert(entry);
  }
  const Truck truck = example_truck(GetParam());
  std::size_t points = 0;
  for (const Point& point : truck.points) {
    if (!point.mirror_of.empty()) continue;
    ++points;
    EXPECT_EQ(steps[point.name], 1) << point.name;
  }
  EXPECT_EQ(steps.size(), points + others.size());
  EXPECT_EQ(answer["steps"].size(), steps.size());
}

/// The line that a step's number comments on: the next one that is no comment.
std::string line_after(const std::vector<std::string>& lines, const std::string& comment) {
  auto at = std::find_if(lines.begin(), lines.end(),
                         [&](const std::string& line) { return line.rfind(comment, 0) == 0; });
  while (at != lines.end() && at->rfind('#', 0) == 0) ++at;
  return at == lines.end() ? "" : *at;
}

TEST_P(EveryStart, CommentsOfTheFileCarryTheStepsOfTheSheet) {
  const Json answer = started(GetParam(), false, "mm");
  const std::vector<std::string> file = lines_of(answer["file_text"].get<std::string>());
  const std::string sheet = answer["sheet_text"].get<std::string>();
  int number = 0;
  for (const Json& step : answer["steps"]) {
    EXPECT_EQ(step["step"], ++number);
    const std::string entry = step["point"].get<std::string>();
    const std::string key = entry.substr(entry.rfind('.') + 1);
    const std::string line = line_after(file, fmt::format("# Step {}. ", number));
    EXPECT_EQ(line.rfind(key + " = ", 0), 0u) << line;
    EXPECT_TRUE(contains(line, "\"?\"")) << line;
    EXPECT_TRUE(contains(sheet, fmt::format("\n{:>2}. {} ", number, entry))) << entry;
  }
}

// The file's `plus_minus` is the accuracy that the sheet asks for.
TEST_P(EveryStart, PointsAreKnownAsWellAsTheSheetAsks) {
  for (const char* units : {"mm", "inch"}) {
    const Json answer = started(GetParam(), false, units);
    const std::string file = answer["file_text"].get<std::string>();
    for (const Json& step : answer["steps"]) {
      const std::string entry = step["point"].get<std::string>();
      if (contains(entry, ".")) continue;
      const std::size_t at = file.find("\n" + entry + " = {");
      ASSERT_NE(at, std::string::npos) << entry;
      const std::string line = file.substr(at + 1, file.find('\n', at + 1) - at);
      EXPECT_TRUE(contains(line, "plus_minus = \"" + step["accuracy"].get<std::string>() + "\""))
          << line;
    }
  }
}

TEST_P(EveryStart, SheetFitsAPage80ColumnsWideAndHasBlanksForEachStep) {
  for (const char* units : {"mm", "inch"}) {
    const Json answer = started(GetParam(), false, units);
    const std::string sheet = answer["sheet_text"].get<std::string>();
    std::size_t blanks = 0;
    for (const std::string& line : lines_of(sheet)) {
      EXPECT_LE(line.size(), 80u) << line;
      EXPECT_TRUE(std::all_of(line.begin(), line.end(), [](char c) {
        return c >= ' ' && c <= '~';
      })) << line;
      if (contains(line, "____________")) ++blanks;
    }
    EXPECT_GT(blanks, answer["steps"].size());
    for (const Json& check : answer["checks"])
      EXPECT_TRUE(contains(sheet, "[ ] " + check.get<std::string>().substr(0, 25))) << check;
    // Checked before anything is measured for which the truck is moved.
    EXPECT_LT(sheet.find("CHECKS ON THE SPOT"), sheet.find("parts.pitman_arm.turns"));
    EXPECT_LT(sheet.find("wheels.camber"), sheet.find("CHECKS ON THE SPOT"));
    EXPECT_TRUE(contains(sheet, "plumb bob"));
    EXPECT_TRUE(contains(sheet, "Steering and suspension can kill"));
    for (const std::string& line : lines_of(answer["file_text"].get<std::string>()))
      EXPECT_TRUE(line.rfind('#', 0) != 0 || line.size() <= 80u) << line;
  }
}

// The lengths that the example gives beside the points agree with them as a tape would.
TEST_P(EveryStart, ExampleLengthsAreThoseOfTheirPoints) {
  const Truck truck = example_truck(GetParam());
  for (const Part& part : truck.parts) {
    const Bar* bar = std::get_if<Bar>(&part.what);
    if (bar == nullptr || !bar->length) continue;
    const Point *a = find_point(truck, bar->ends[0]), *b = find_point(truck, bar->ends[1]);
    ASSERT_TRUE(a != nullptr && b != nullptr);
    // Written to 0.1 mm.
    EXPECT_NEAR(*bar->length, (a->at - b->at).norm(), 0.051e-3) << part.name;
  }
}

// What is read beside the points is optional: the file has it as comments, which read as sections once the # is away and numbers are in.
TEST_P(EveryStart, ReadingsAreReadOnceTheyAreFilledIn) {
  for (const char* units : {"mm", "inch"}) {
    std::string text = started(GetParam(), true, units)["file_text"].get<std::string>();
    const std::size_t sections = text.find("#\n# [readings.");
    ASSERT_NE(sections, std::string::npos);
    std::string readings;
    for (std::string line : lines_of(text.substr(sections)))
      readings += (line.rfind("# ", 0) == 0 ? line.substr(2) : "") + "\n";
    const auto fill = [&](const std::string& blank, const std::string& value) {
      const std::size_t at = readings.find(blank);
      ASSERT_NE(at, std::string::npos) << blank;
      readings.replace(at, blank.size(), value);
    };
    fill("value = ...", "value = \"1200 mm\"");
    fill("[..., ..., ...]", "[2, 0, -1]");
    // The numbers are anybody's: what counts is that each is taken for what it is.
    const Result<Truck> truck =
        read_truck("t.toml", [&](const std::string&) -> tl::expected<std::string, std::string> {
          return text.substr(0, sections) + readings;
        });
    if (truck) continue;
    EXPECT_EQ(truck.error().size(), 1u);
    EXPECT_NE(truck.error().front().what.find("does not fit together"), std::string::npos)
        << truck.error().front().what;
  }
}

TEST_P(EveryStart, SheetAsksForWhatToReadBesideThePoints) {
  const std::string sheet = started(GetParam(), false, "mm")["sheet_text"].get<std::string>();
  const std::size_t beside = sheet.find("READ BESIDE THE POINTS");
  EXPECT_LT(sheet.find("CHECKS ON THE SPOT"), beside);
  EXPECT_LT(beside, sheet.find("THEN, WITH THE STEERING WHEEL TURNED"));
  EXPECT_LT(sheet.find("THEN, WITH THE STEERING WHEEL TURNED"),
            sheet.find("Cambers on turn plates"));
  const std::string file = started(GetParam(), false, "mm")["file_text"].get<std::string>();
  for (const char* bar : {"track_bar", "drag_link"}) {
    std::string words = std::string("    ") + bar;
    std::replace(words.begin(), words.end(), '_', ' ');
    EXPECT_EQ(contains(sheet.substr(beside), words),
              contains(file, std::string("[parts.") + bar + "]"))
        << bar;
  }
}

INSTANTIATE_TEST_SUITE_P(Layouts, EveryStart, ::testing::ValuesIn(layouts()),
                         [](const ::testing::TestParamInfo<std::string>& info) {
                           std::string name = info.param;
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

Truck with_points_moved(Truck truck, const std::vector<std::string>& names, double up) {
  for (Point& point : truck.points) {
    if (std::find(names.begin(), names.end(), point.name) != names.end()) point.at.z() += up;
  }
  return truck;
}

double off_centre_at_top_deg(const Truck& truck) {
  Rig rig(truck);
  PoseRequest top;
  top.height = truck.height_range[1];
  const PoseResult pose = rig.solve(top);
  EXPECT_TRUE(pose.report.usable()) << pose.report.message;
  return pose.report.usable() ? to_deg(pose.values[kSteeringWheelOffCentre]) : NAN;
}

std::string why_of(const Json& answer, const std::string& point) {
  for (const Json& step : answer["steps"]) {
    if (step["point"] == point) return step.value("why", "");
  }
  return "";
}

// Kinematics references 1.3, derived there: a guide's line s off the pivot tilts the path by s/2L, a pin c off the line of the ends
// by c/L; through pitman arm and gear that is what the sheet says of 0.5 mm.
TEST(MeasuringSheet, TellsWhatHalfAMillimetreAtTheGuideDoes) {
  const Json answer = started("guided", false, "mm");
  const Truck guided = example_truck("guided");
  constexpr double kError = 0.5e-3, kThroughLink = 0.904, kRise = 0.235, kArm = 0.165, kRatio = 16;

  // The through-link stays straight, its pin in the middle: that goes up by half.
  Truck guide_up = with_points_moved(
      guided, {"steer_guide_inner", "steer_guide_outer", "steer_guide_end"}, kError);
  guide_up = with_points_moved(std::move(guide_up), {"steer_middle"}, kError / 2);
  const double guide_off = std::abs(off_centre_at_top_deg(guide_up));
  EXPECT_TRUE(contains(why_of(answer, "steer_guide_inner"), fmt::format("{:.1f} deg", guide_off)))
      << guide_off;
  // To a tenth: the next term grows as 1/cos^3 of an angle up to 23 deg.
  EXPECT_NEAR(guide_off, to_deg(kRatio * kError / kThroughLink * kRise / kArm), 0.1);

  // The locator's guide is as bad: what the axle walks, the guided steering gets.
  Truck locator_up = with_points_moved(
      guided, {"locator_guide_inner", "locator_guide_outer", "locator_guide_end"}, kError);
  locator_up = with_points_moved(std::move(locator_up), {"locator_middle"}, kError / 2);
  EXPECT_NEAR(std::abs(off_centre_at_top_deg(locator_up)), guide_off, 0.1);

  const double pin_off =
      std::abs(off_centre_at_top_deg(with_points_moved(guided, {"steer_middle"}, kError)));
  EXPECT_TRUE(contains(why_of(answer, "steer_middle"), fmt::format("{:.1f} deg", pin_off)))
      << pin_off;
}

// docs/measuring.md tells in prose what the sheets tell.
TEST(MeasuringSheet, IsToldAlikeInTheGuideToMeasuring) {
  std::ifstream file(std::string(AXLEWRIGHT_ROOT) + "/docs/measuring.md");
  ASSERT_TRUE(file);
  std::string guide, word;
  while (file >> word) guide += (guide.empty() ? "" : " ") + word;
  for (const std::string& layout : layouts()) EXPECT_TRUE(contains(guide, "`" + layout + "`"));
  EXPECT_TRUE(contains(guide, "0.8 deg of steering wheel over 235 mm"));
  EXPECT_TRUE(contains(why_of(started("guided", false, "mm"), "steer_guide_inner"),
                       "0.8 deg of steering wheel over 235 mm"));
  EXPECT_TRUE(contains(guide, "1.5 deg for the pin"));
  for (const char* accuracy : {"| 2 mm |", "| 0.5 mm |", "| 0.1 deg |"})
    EXPECT_TRUE(contains(guide, accuracy)) << accuracy;
}

TEST(MeasuringSheet, WithoutItsKeeperTheExampleOfGuidedBarsIsLoose) {
  Truck truck = example_truck("guided");
  const auto count = [](const Truck& one) { return Rig(one).held().assembly().loose.size(); };
  const std::size_t kept = count(truck);
  const auto is_keeper = [](const Part& part) { return std::holds_alternative<Keeper>(part.what); };
  ASSERT_EQ(std::count_if(truck.parts.begin(), truck.parts.end(), is_keeper), 1);
  truck.parts.erase(std::find_if(truck.parts.begin(), truck.parts.end(), is_keeper));
  EXPECT_EQ(count(truck), kept + 1);
}

TEST(Start, NamesTheLayoutsWhereNoneFits) {
  const std::vector<std::string> names = layouts();
  EXPECT_EQ(names,
            (std::vector<std::string>{"plain", "plain-tie-rod", "push-pull", "inverted-y", "relay",
                                      "four-bar", "half-converted", "guided", "rocker-guided"}));
  struct Row {
    Json question;
    std::string what, fix;
  };
  const std::vector<Row> rows{
      {{{"layout", "giuded"}}, "no layout is called \"giuded\"", "did you mean \"guided\"?"},
      {{{"layout", "leaf springs"}},
       "no layout is called \"leaf springs\"",
       "the layouts are plain,"},
      {Json::object(), "the question names no layout", "the layouts are plain,"},
      {{{"layout", 3}}, "`layout` is not a text", "a text"},
      {{{"layout", "plain"}, {"example_numbers", "yes"}}, "`example_numbers`", "true or false"},
      {{{"layout", "plain"}, {"units", "cm"}}, "`units` is \"cm\"", "\"mm\" or \"inch\""},
      {{{"layout", "plain"}, {"layuot", "plain"}}, "no key `layuot`", "did you mean `layout`?"},
      {{{"layout", "plain"}, {"set", {"a.z=1"}}}, "`start` has no file yet", "leave it out"},
  };
  for (const Row& row : rows) {
    const Result<Json> answer = asked(row.question);
    ASSERT_FALSE(answer) << row.question;
    ASSERT_EQ(answer.error().size(), 1u);
    EXPECT_TRUE(contains(answer.error()[0].what, row.what)) << answer.error()[0].what;
    EXPECT_TRUE(contains(answer.error()[0].fix, row.fix)) << answer.error()[0].fix;
  }
  for (const std::string& name : names) {
    const std::string fix = asked({{"layout", "no such thing"}}).error()[0].fix;
    EXPECT_TRUE(contains(fix, name)) << fix;
  }
}

TEST(Start, AnswerHasWhatAnswersShare) {
  const Json answer = started("plain", false, "inch");
  EXPECT_EQ(answer["ask"], "start");
  EXPECT_EQ(answer["layout"], "plain");
  EXPECT_EQ(answer["units"], "inch");
  EXPECT_TRUE(answer["warnings"].empty());
  EXPECT_FALSE(answer["story"].empty());
  EXPECT_FALSE(answer["cautions"].empty());
  for (const Json& step : answer["steps"]) {
    for (const char* key : {"what", "from", "accuracy"})
      EXPECT_FALSE(step[key].get<std::string>().empty()) << step;
  }
}

}  // namespace
}  // namespace axlewright
