#include "engine/ask/start_readings.h"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "engine/ask/start_sheet.h"

namespace axlewright {
namespace {

constexpr Accuracy kBench{BlankKind::length, 0.5};
constexpr const char* kBlank = "____________";

std::string box(const std::string& text) {
  return wrapped(text, "[ ] ", "    ");
}

std::string blanks(const std::string& of, const std::vector<std::string>& names) {
  std::string line = fmt::format("    {:<18}", of);
  for (std::size_t k = 0; k < names.size(); ++k)
    line += fmt::format("{}{} {}", k == 0 ? "" : "  ", names[k], kBlank);
  return line + "\n";
}

/// Whether the layout's file has a part of that name.
bool has_part(const StartLayout& layout, const std::string& name) {
  const std::string heading = fmt::format("[parts.{}]", name);
  return std::any_of(layout.lines.begin(), layout.lines.end(),
                     [&](const FileLine& line) { return line.text == heading; });
}

/// A section of the file, commented out.
std::string commented(const std::vector<std::string>& lines) {
  std::string text = "#\n";
  for (const std::string& line : lines) text += "# " + line + "\n";
  return text;
}

}  // namespace

std::string readings_to_take(const StartLayout& layout, bool inches) {
  std::string text =
      "\nREAD BESIDE THE POINTS ([readings] in the file: the points are fitted to it)\n";
  text +=
      box(fmt::format("Every bar on the bench, or by the tape above: within {} it is worth ten "
                      "points.",
                      accuracy_text(kBench, inches)));
  std::string bars;
  for (const char* bar : {"track_bar", "drag_link"}) {
    if (!has_part(layout, bar)) continue;
    std::string words = bar;
    std::replace(words.begin(), words.end(), '_', ' ');
    bars += blanks(words, {"slope"});
  }
  if (bars.empty()) return text;
  return text +
         box("Slopes by the gauge laid along the bar, from its right end up to its left one, "
             "within "
             "0.1 deg.") +
         bars;
}

std::string sweep_to_take() {
  return box("Cambers on turn plates, each wheel steered 20 deg to the left, straight ahead, 20 "
             "deg "
             "to the right, within 0.1 deg; top outboard is positive. They tell caster better than "
             "the kingpins' points.") +
         blanks("left wheel", {"left", "ahead", "right"}) +
         blanks("right wheel", {"left", "ahead", "right"});
}

std::string reading_sections(bool inches) {
  std::string text =
      "\n" + wrapped(
                 "What was read beside the points goes in as it was read, and the points are "
                 "fitted to it (docs/measuring.md). Take the # away, put numbers in place of "
                 "the dots, and write a section more for each reading.",
                 "# ", "# ");
  text +=
      commented({"[readings.tie_rod_length]", "kind = \"length\"", "of = \"tie_rod\"",
                 "value = ...", fmt::format("plus_minus = \"{}\"", accuracy_text(kBench, inches))});
  return text + commented({"[readings.caster_sweep_left]", "kind = \"camber sweep\"",
                           "kingpin = \"kingpin_left\"", "steers = [20, 0, -20]",
                           "cambers = [..., ..., ...]", "plus_minus = \"0.1 deg\""});
}

}  // namespace axlewright
