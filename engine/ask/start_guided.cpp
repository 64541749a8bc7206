// Guided bars of truck files to fill in: their points and parts, on guides and on rockers.

#include <string>
#include <utility>

#include <fmt/format.h>

#include "engine/ask/start_entries.h"

namespace axlewright {
namespace {

/// A guided bar's five points besides its near end, which stands above the pivot.
struct GuidedForm {
  std::string part, prefix;  ///< "guided_steering", "steer"
  std::string carrier;       ///< body with guide and pivot
  std::string carried_by;    ///< the same in words: "the tie rod's bracket"
  std::string near_end, near_end_words;
  double x = 0;  ///< of the whole linkage in the example
};

/// Two points of the guide's line.
Lines guide_points(const GuidedForm& form) {
  const auto name = [&](const char* point) { return form.prefix + "_" + point; };
  const std::string along = "the pivot, by straightedge";
  Lines lines;
  lines.push_back(point(
      {name("guide_inner"),
       form.carrier,
       {form.x, -100, 480},
       kMatched,
       fmt::format(
           "Guide on {}: a point of the line on which the carriage's ball runs, at "
           "the guide's end near the pivot. Measure from the pivot and add the pivot's place: it "
           "is the differences that count.",
           form.carried_by),
       along,
       "a guide's line off the pivot tilts the path: 0.5 mm is 0.8 deg of steering wheel "
       "over 235 mm of height"}));
  lines.push_back(point({name("guide_outer"),
                         form.carrier,
                         {form.x, -650, 480},
                         kMatched,
                         "The same line at the guide's far end.",
                         along}));
  return lines;
}

/// What carries the guide end.
enum class Carried { on_guide, on_rocker };

/// The example: through-link 904, half-link 452, near end 120 above the pivot, so that the guide end stands 896 out.
Lines guided_points(const GuidedForm& form, Carried carried) {
  const std::string through = form.part + "_through";
  const auto name = [&](const char* point) { return form.prefix + "_" + point; };
  Lines lines;
  lines.push_back(point({name("pivot"),
                         form.carrier,
                         {form.x, 430, 480},
                         kCareful,
                         fmt::format("Centre of the half-link's pivot on {}. As built it stands "
                                     "straight under {}.",
                                     form.carried_by, form.near_end_words)}));
  const std::string along = "the pivot, by straightedge";
  if (carried == Carried::on_guide) add(lines, guide_points(form));
  lines.push_back(
      point({name("guide_end"),
             through,
             {form.x, -466, 480},
             kMatched,
             carried == Carried::on_guide
                 ? "Guide end of the through-link: centre of the ball in the carriage. It "
                   "lies on the guide's line."
                 : "Guide end of the through-link: centre of the ball in the rocker.",
             along}));
  lines.push_back(
      point({name("middle"),
             through,
             {form.x, -18, 540},
             kMatched,
             "Middle pin of the through-link, where the half-link joins it: halfway between near "
             "end and guide end, on their line.",
             "the through-link's two ends",
             "a pin off the line of the ends tilts the path twice as much: 0.5 mm is 1.5 deg"}));
  if (carried == Carried::on_rocker)
    lines.push_back(
        point({name("rocker_pivot"),
               form.carrier,
               {form.x, -433.7, 302.9},
               kCareful,
               fmt::format("Centre of the rocker's pin on {}. As built it stands below or "
                           "above the middle of the guide end's way.",
                           form.carried_by)}));
  return lines;
}

Lines guided_part(const GuidedForm& form, const std::string& near_end_on, Carried carried) {
  Lines lines = as_they_are({""});
  const auto line = [&](std::string text) { lines.push_back(FileLine{std::move(text)}); };
  line(fmt::format("[parts.{}]", form.part));
  line("kind = \"guided bar\"");
  line(fmt::format("near_end = \"{}\"", form.near_end));
  line(fmt::format("near_end_on = \"{}\"", near_end_on));
  line(fmt::format("guide_end = \"{}_guide_end\"", form.prefix));
  line(fmt::format("middle = \"{}_middle\"", form.prefix));
  line(fmt::format("pivot = \"{}_pivot\"", form.prefix));
  if (carried == Carried::on_guide) {
    line(fmt::format("guide = [\"{0}_guide_inner\", \"{0}_guide_outer\"]", form.prefix));
  } else {
    line("carriage = \"rocker\"");
    line(fmt::format("rocker_pivot = \"{}_rocker_pivot\"", form.prefix));
    line("rocker_axis = [1, 0, 0] # its pin lies fore-aft; a tilted one: two points of it");
    line("guide = [0, 1, 0] # the way a guide would run: straight across the truck");
  }
  line(
      "half_link = \"distance\" # a link with a ball at either end; docs/truck-file.md has others");
  line(fmt::format("carries = \"{}\"", form.carrier));
  return lines;
}

const GuidedForm& guided_steering() {
  static const GuidedForm form{
      "guided_steering", "steer",           "tie_rod", "the tie rod's bracket",
      "pitman_ball",     "the pitman ball", 175};
  return form;
}

const GuidedForm& locator() {
  static const GuidedForm form{
      "locator",  "locator",          "axle",
      "the axle", "locator_near_end", "the locator's near end on the frame",
      -90};
  return form;
}

FileLine locator_near_end() {
  return point({"locator_near_end",
                "frame",
                {-90, 430, 600},
                kCareful,
                "Near end of the locator's through-link: centre of its ball on the "
                "frame.",
                kDatums,
                "as high as the pitman ball: a difference in height steers in a lean"});
}

}  // namespace

Lines guided_steering_part() {
  return guided_part(guided_steering(), "pitman", Carried::on_guide);
}

Lines locator_part() {
  return guided_part(locator(), "frame", Carried::on_guide);
}

Lines guided_steering_on_rocker_part() {
  return guided_part(guided_steering(), "pitman", Carried::on_rocker);
}

Lines locator_on_rocker_part() {
  return guided_part(locator(), "frame", Carried::on_rocker);
}

Lines steering_guide_points() {
  Lines lines =
      as_they_are({"", "# Guided steering, its guide and pivot on a bracket of the tie rod.", ""});
  add(lines, guided_points(guided_steering(), Carried::on_guide));
  return lines;
}

Lines steering_rocker_points() {
  Lines lines = as_they_are(
      {"", "# Guided steering, its pivot and its rocker on a bracket of the tie rod.", ""});
  add(lines, guided_points(guided_steering(), Carried::on_rocker));
  return lines;
}

Lines locator_points() {
  Lines lines = as_they_are(
      {"", "# Guided locator, its near end on the frame, guide and pivot on the axle.", ""});
  lines.push_back(locator_near_end());
  add(lines, guided_points(locator(), Carried::on_guide));
  return lines;
}

Lines locator_rocker_points() {
  Lines lines = as_they_are(
      {"", "# Guided locator, its near end on the frame, pivot and rocker on the axle.", ""});
  lines.push_back(locator_near_end());
  add(lines, guided_points(locator(), Carried::on_rocker));
  return lines;
}

}  // namespace axlewright
