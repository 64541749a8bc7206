#include "engine/ask/start.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "engine/ask/open.h"
#include "engine/ask/question.h"
#include "engine/ask/start_layouts.h"
#include "engine/ask/start_readings.h"
#include "engine/ask/start_sheet.h"
#include "engine/base/did_you_mean.h"
#include "engine/base/number.h"
#include "engine/base/units.h"

namespace axlewright {
namespace {

constexpr const char* kTruckName = "My truck";

/// How the values of a file are written.
struct Writing {
  bool inches = false;
  bool example = false;
};

std::string blank_text(const Blank& blank, const Writing& writing) {
  if (!writing.example) return "\"?\"";
  switch (blank.kind) {
    case BlankKind::length:
      return writing.inches ? decimal_text(to_inch(from_mm(blank.example)), 0, 3)
                            : decimal_text(blank.example, 0, 1);
    case BlankKind::angle:
    case BlankKind::plain:
      return decimal_text(blank.example, 0, 2);
    case BlankKind::turns:
      return fmt::format("\"{} turns\"", decimal_text(blank.example, 0, 2));
    case BlankKind::word:
      return fmt::format("\"{}\"", blank.word);
  }
  return "";
}

/// The line with its values in their places.
std::string line_text(const FileLine& line, const Writing& writing) {
  std::string text;
  std::size_t next = 0;
  for (const char c : line.text) {
    if (c == '@') {
      text += blank_text(line.blanks[next++], writing);
    } else if (c == '%') {
      text += accuracy_text(line.step->accuracy, writing.inches);
    } else {
      text += c;
    }
  }
  return text + "\n";
}

std::string comment_of(int number, const MeasuringStep& step) {
  std::string text = fmt::format("Step {}. {}", number, step.what);
  if (step.both_sides) text += " Left here, the mirror makes the right.";
  return wrapped(text, "# ", "# ");
}

std::string file_head(const StartLayout& layout, const Writing& writing) {
  return wrapped(fmt::format("A truck file to fill in: {}.", layout.words), "# ", "# ") + "#\n" +
         wrapped(
             "Where a question mark in quotes stands, a number of your truck goes, without the "
             "quotes. The measuring sheet says what to measure, in which order, from where and how "
             "well; its step numbers stand in the comments. `axlewright check` on this file tells "
             "what is still missing. A file made with example numbers has those of an invented "
             "truck instead: put your own in their place.",
             "# ", "# ") +
         "#\n" +
         wrapped(
             "x counts forward from the front axle's centre line, y to the left from the truck's "
             "middle plane, z up from the floor. Angles are in degrees. A value may carry its own "
             "unit: \"902 mm\", \"35 1/2 in\".",
             "# ", "# ") +
         fmt::format("\nformat = 1\nunits = \"{}\"\nname = \"{}\"\n",
                     writing.inches ? "inch" : "mm", kTruckName);
}

std::string file_text(const StartLayout& layout, const Writing& writing) {
  std::string text = file_head(layout, writing);
  int number = 0;
  for (const FileLine& line : layout.lines) {
    if (line.step) text += comment_of(++number, *line.step);
    text += line_text(line, writing);
  }
  return text + reading_sections(writing.inches);
}

Json json_of(int number, const MeasuringStep& step, bool inches) {
  Json j{{"step", number},
         {"point", step.entry},
         {"what", step.what},
         {"from", step.from},
         {"accuracy", accuracy_text(step.accuracy, inches)}};
  if (!step.why.empty()) j["why"] = step.why;
  return j;
}

std::vector<std::string> layout_names() {
  std::vector<std::string> names;
  for (const StartLayout& layout : start_layouts()) names.push_back(layout.name);
  return names;
}

std::string list_of_layouts() {
  std::string text = "the layouts are ";
  const std::vector<std::string> names = layout_names();
  for (std::size_t k = 0; k < names.size(); ++k) text += (k == 0 ? "" : ", ") + names[k];
  return text;
}

Result<const StartLayout*> layout_in(const Json& question) {
  const Result<std::string> asked = text_in(question, "layout", "");
  if (!asked) return tl::unexpected(asked.error());
  if (asked->empty()) return fail("the question names no layout", list_of_layouts());
  for (const StartLayout& layout : start_layouts()) {
    if (layout.name == *asked) return &layout;
  }
  const std::string near = did_you_mean(*asked, layout_names());
  return fail(fmt::format("no layout is called \"{}\"", *asked),
              near.empty() ? list_of_layouts()
                           : fmt::format("did you mean \"{}\"? {}", near, list_of_layouts()));
}

std::vector<std::string> story_of(const StartLayout& layout, bool example) {
  std::size_t numbers = 0;
  for (const FileLine& line : layout.lines) numbers += line.blanks.size();
  const std::size_t steps = steps_of(layout).size();
  std::vector<std::string> story{fmt::format("{}: {}.", layout.name, layout.words), layout.suits};
  if (example) {
    story.push_back(fmt::format(
        "The {} numbers in the file are those of an invented truck, to try it out: replace every "
        "one.",
        numbers));
  } else {
    story.push_back(
        fmt::format("{} values are to be filled in; the sheet gets them in {} steps, with checks "
                    "to do before the truck moves.",
                    numbers, steps));
  }
  return story;
}

/// No file is opened, so there is nothing to set.
std::vector<Fault> wrong_keys(const Json& question) {
  std::vector<Fault> faults = unknown_keys(question, {"layout", "example_numbers"});
  if (!question.contains("set")) return faults;
  Fault fault;
  fault.what = "`start` has no file yet on which `set` could set anything";
  fault.fix = "leave it out, and change the file that comes out";
  faults.push_back(std::move(fault));
  return faults;
}

}  // namespace

Result<Json> answer_start(const Json& question, const AskContext& /*context*/) {
  if (auto faults = wrong_keys(question); !faults.empty()) return tl::unexpected(std::move(faults));
  const Result<const StartLayout*> found = layout_in(question);
  if (!found) return tl::unexpected(found.error());
  const Result<bool> example = flag_in(question, "example_numbers");
  if (!example) return tl::unexpected(example.error());
  Truck truck;
  truck.name = kTruckName;
  const Result<Words> words = words_for(question, truck);
  if (!words) return tl::unexpected(words.error());

  const StartLayout& layout = **found;
  const bool inches = words->inches;
  Json answer = answer_head(question, truck, *words);
  for (const std::string& sentence : story_of(layout, *example))
    answer["story"].push_back(sentence);
  answer["layout"] = layout.name;
  answer["file_text"] = file_text(layout, Writing{inches, *example});
  answer["sheet_text"] = sheet_text(layout, inches, cautions());
  answer["steps"] = Json::array();
  int number = 0;
  for (const MeasuringStep* step : steps_of(layout))
    answer["steps"].push_back(json_of(++number, *step, inches));
  answer["checks"] = Json::array();
  for (const SpotCheck& check : checks_of(layout, inches)) answer["checks"].push_back(check.text);
  answer["cautions"] = cautions();
  return answer;
}

}  // namespace axlewright
