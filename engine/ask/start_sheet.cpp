#include "engine/ask/start_sheet.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/ask/start_readings.h"
#include "engine/base/number.h"
#include "engine/base/units.h"

namespace axlewright {
namespace {

constexpr const char* kBlank = "____________";
constexpr double kAgree = 3;  ///< what two tapes may differ by: the reader's own tolerance [mm]
constexpr double kMatchedLengths = 0.5;  ///< of a guided bar [mm]

std::string length_text(double mm, bool inches) {
  return inches ? decimal_text(to_inch(from_mm(mm)), 0, 2) + " in" : decimal_text(mm, 0, 2) + " mm";
}

std::string box(const std::string& text) {
  return wrapped(text, "[ ] ", "    ");
}

std::string title(const StartLayout& layout, bool inches) {
  return wrapped(fmt::format("MEASURING SHEET: {} (layout \"{}\")", layout.words, layout.name), "",
                 "  ") +
         "\nTruck __________________________  Date ______________  Measured by ____________\n\n" +
         wrapped(
             fmt::format("Lengths in {}, angles in degrees. The number of a step also stands in "
                         "the truck file, beside the line that it fills in.",
                         inches ? "inches" : "mm"),
             "", "");
}

std::string before_you_begin(bool inches) {
  const std::string agree = length_text(kAgree, inches);
  return "\nFOR YOUR LIFE\n" +
         box("Hard floor, rear wheels chocked, engine off. The truck stands on its tyres; stands "
             "under "
             "frame and axle, close below them, catch it before anybody reaches under. Never under "
             "a jack, air bags or rams alone.") +
         box("Air suspension can drop or rise by itself: shut it off and block the frame.") +
         box("Hands out of the linkage while anyone turns the steering wheel.") +
         "\nBEFORE YOU BEGIN\n" +
         box(fmt::format("Standing places of the four wheels level within {}; frame rails as high "
                         "on the left as on the right within {}.",
                         agree, agree)) +
         box("Tyres at the pressure they drive with, the truck loaded as it drives, rolled back "
             "and forth so that nothing is wound up.") +
         box("One height for all points: the lowest setting, or ride height. This is \"as "
             "measured\": all heights count from it.") +
         box("Steering gear at its centre: count the turns from lock to lock and halve them. Road "
             "wheels straight ahead, strings along the tyres. Where the two do not agree, set the "
             "drag link first. Then tie the steering wheel.");
}

std::string datums(bool inches) {
  return "\nDATUMS (chalk them on the floor; they stay until the last check is done)\n" +
         wrapped(
             "Hang a plumb bob from a place and mark the floor: so every place is brought down "
             "to where a tape can be held. The length of the string is its height.",
             "  ", "  ") +
         wrapped(
             "Middle line (y): plumb both frame rails at two stations at least a wheel apart, "
             "halve each pair, chalk the line through the halves. Left is positive.",
             "  ", "    ") +
         wrapped(
             "Axle line (x): plumb both front wheel centres; through the middle between the "
             "two marks a line square to the middle line (3:4:5). Forward is positive.",
             "  ", "    ") +
         wrapped(
             "Floor (z): up is positive. The floor being level, `rake` stays 0 in the file "
             "whatever the rails' slope.",
             "  ", "    ") +
         wrapped(
             "A ball's or bolt's centre: measure to both its edges and halve. Where another hand "
             "and the same tape give another number, it is not measured yet.",
             "  ", "  ") +
         wrapped(
             fmt::format("A tape on a truck is good to {}, a measuring arm to {}, an angle gauge "
                         "to 0.1 deg. The matched points of guided bars ask for the arm, or for "
                         "straightedge and calliper.",
                         length_text(2, inches), length_text(0.5, inches)),
             "  ", "  ");
}

std::string blanks_line(const std::string& before, const std::vector<std::string>& names) {
  std::string line = before;
  for (const std::string& name : names)
    line += fmt::format("{}{} {}", line == before ? "" : "  ", name, kBlank);
  return line + "\n";
}

std::string step_text(int number, const MeasuringStep& step, bool inches) {
  const std::string within = step.accuracy.kind == BlankKind::word
                                 ? accuracy_text(step.accuracy, inches)
                                 : "within " + accuracy_text(step.accuracy, inches);
  const std::string heading = fmt::format("{:>2}. {}", number, step.entry);
  const std::string indent = "    ";
  std::string text = "\n" + heading +
                     std::string(kSheetWidth - heading.size() - within.size(), ' ') + within + "\n";
  text += wrapped(step.what, indent, indent);
  text += wrapped("From: " + step.from + ".", indent, indent);
  if (!step.why.empty()) text += wrapped("Why so well: " + step.why + ".", indent, indent);
  if (!step.both_sides) return text + blanks_line(indent, step.to_write);
  return text + blanks_line(indent + "left   ", step.to_write) +
         blanks_line(indent + "right  ", step.to_write);
}

std::string check_text(const SpotCheck& check) {
  std::string text = box(check.text);
  for (const std::string& of : check.of)
    text += blanks_line(fmt::format("    {:<18}", of), check.to_write);
  return text;
}

std::string all_checks(const StartLayout& layout, bool inches) {
  std::string text = "\nCHECKS ON THE SPOT (while the truck still stands as measured)\n";
  for (const SpotCheck& check : checks_of(layout, inches)) text += check_text(check);
  return text + readings_to_take(layout, inches) +
         "\nTHEN, WITH THE STEERING WHEEL TURNED AND THE FRAME LIFTED\n" + sweep_to_take();
}

/// Checks stand before the first step that moves the truck.
std::string all_steps(const StartLayout& layout, bool inches) {
  std::string text = "\nTO MEASURE, IN THIS ORDER\n";
  text += wrapped(
      "A point named _left is measured on both sides: the file takes the mean, with y positive. "
      "Where the sides truly differ, take its mirror = true away and write a second line for the "
      "right.",
      "", "");
  int number = 0;
  for (const MeasuringStep* step : steps_of(layout)) {
    if (step->disturbs) text += all_checks(layout, inches);
    text += step_text(++number, *step, inches);
  }
  return text;
}

}  // namespace

std::string wrapped(const std::string& text, const std::string& first, const std::string& rest) {
  std::string all, line = first;
  bool empty = true;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string word = text.substr(at, end - at);
    at = end + 1;
    if (!empty && line.size() + 1 + word.size() > kSheetWidth) {
      all += line + "\n";
      line = rest;
      empty = true;
    }
    line += (empty ? "" : " ") + word;
    empty = false;
  }
  return all + line + "\n";
}

std::string accuracy_text(const Accuracy& accuracy, bool inches) {
  switch (accuracy.kind) {
    case BlankKind::length:
      return length_text(accuracy.within, inches);
    case BlankKind::angle:
      return decimal_text(accuracy.within, 0, 2) + " deg";
    case BlankKind::turns:
      return decimal_text(accuracy.within, 0, 2) + " turns";
    case BlankKind::plain:
      return decimal_text(accuracy.within, 0, 2);
    case BlankKind::word:
      return "by sight";
  }
  return "";
}

std::vector<const MeasuringStep*> steps_of(const StartLayout& layout) {
  std::vector<const MeasuringStep*> steps;
  for (const FileLine& line : layout.lines) {
    if (line.step) steps.push_back(&*line.step);
  }
  return steps;
}

std::vector<SpotCheck> checks_of(const StartLayout& layout, bool inches) {
  const std::string agree = length_text(kAgree, inches);
  std::vector<SpotCheck> checks;
  checks.push_back(
      {fmt::format("Diagonals on the floor, left wheel centre's mark to the right rail's "
                   "rear mark and crosswise: equal within {}. If not, a mark is off or "
                   "the axle stands crooked: find out which.",
                   agree),
       {"diagonals"},
       {"from left", "from right"}});
  checks.push_back(
      {fmt::format("Left and right of every _left point: the same within {}, y with its "
                   "sign changed. If not, measure both again.",
                   agree)});
  checks.push_back(
      {fmt::format("Bars by the tape, ball centre to ball centre, against their points, "
                   "the root of dx^2 + dy^2 + dz^2: the same within {}.",
                   agree),
       {"tie rod", "lower link, left", "lower link, right", "upper link"},
       {"tape", "points"}});
  for (const std::string& part : layout.guided_bars)
    checks.push_back(
        {fmt::format("The {}: near end to middle pin, middle pin to guide end, and the "
                     "half-link between its pins, all three the same within {}. The "
                     "through-link's three centres lie on one string.",
                     part, length_text(kMatchedLengths, inches)),
         {"near half", "guide half", "half-link"},
         {"length"}});
  checks.push_back(
      {"Caster by the angle gauge on the knuckle against what `pose` makes of the kingpin "
       "points: the same within 0.5 deg.",
       {"left", "right"},
       {"gauge", "points"}});
  return checks;
}

std::string sheet_text(const StartLayout& layout, bool inches, const Json& cautions) {
  std::string text = title(layout, inches) + before_you_begin(inches) + datums(inches) +
                     all_steps(layout, inches) + "\nCAUTIONS\n";
  for (const Json& caution : cautions) text += wrapped(caution.get<std::string>(), "  ", "  ");
  return text;
}

}  // namespace axlewright
