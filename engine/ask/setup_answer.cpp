#include "engine/ask/setup_answer.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "engine/ask/open.h"
#include "engine/ask/question.h"
#include "engine/base/units.h"
#include "engine/study/setup.h"
#include "engine/study/sweep.h"

namespace axlewright {
namespace {

constexpr double kNothingToSee = 0.05 * kRadiansPerDegree;  // of a steering wheel
constexpr double kRounding = 1e-9;                          // [m]
constexpr double kNothingToTurn = 0.05e-3;  // [m] a twentieth of a millimetre: no tape shows it

std::string text_of(const Adjustment& adjustment, const Words& words) {
  const double change = adjustment.length_then - adjustment.length_now;
  if (std::abs(change) < kNothingToTurn)
    return fmt::format("{}: leave it at {}", adjustment.words, words.length(adjustment.length_now));
  std::string text =
      fmt::format("{}: {} by {}, from {} to {} between centres", adjustment.words,
                  change > 0 ? "lengthen" : "shorten", words.length(change),
                  words.length(adjustment.length_now), words.length(adjustment.length_then));
  if (adjustment.turns())
    text += fmt::format(", {:.2f} turns of the sleeve", std::abs(*adjustment.turns()));
  return text;
}

Json json_of(const Adjustment& adjustment, const Words& words) {
  return Json{{"bar", adjustment.bar},
              {"words", adjustment.words},
              {"length_now_mm", to_mm(adjustment.length_now)},
              {"length_then_mm", to_mm(adjustment.length_then)},
              {"change_mm", to_mm(adjustment.length_then - adjustment.length_now)},
              {"turns", adjustment.turns() ? Json(*adjustment.turns()) : Json()},
              {"text", text_of(adjustment, words)}};
}

Json json_of(const SetupRow& row) {
  Json j{{"height_mm", to_mm(row.height)}, {"report", json_of(row.report)}};
  if (!row.report.usable()) return j;
  j["wheel_before_deg"] = number_or_null(to_deg(row.wheel_before));
  j["wheel_after_deg"] = number_or_null(to_deg(row.wheel_after));
  j["walk_before_mm"] = to_mm(row.walk_before);
  j["walk_after_mm"] = to_mm(row.walk_after);
  return j;
}

const QuantityInfo kWheel{"", "", QuantityUnit::angle, "to the left", "to the right"};
const QuantityInfo kWalk{"", "", QuantityUnit::length, "to the left", "to the right"};

/// What the lengths that there are could not centre; empty if nothing is left.
std::string left_over(const Setup& setup, const Words& words) {
  std::string text;
  if (std::abs(setup.walk_left) > kNothingToTurn)
    text = fmt::format("the axle is {} of the middle, and there is no track bar to set it with",
                       words.with_sign(kWalk, setup.walk_left));
  if (std::abs(setup.wheel_left) > kNothingToSee) {
    if (!text.empty()) text += "; ";
    text += fmt::format("the steering wheel is {}, and there is no drag link to set it with",
                        words.with_sign(kWheel, setup.wheel_left));
  }
  return text;
}

/// Whether it reads as nothing in the words that it is told in.
bool is_nothing(const QuantityInfo& info, double si, const Words& words) {
  return words.magnitude(info, si).find_first_of("123456789") == std::string::npos;
}

/// What the lengths do at the other heights; empty if none of them can be had.
std::string elsewhere(const Setup& setup, const Words& words) {
  double wheel = 0, walk = 0;
  bool any = false;
  for (const SetupRow& row : setup.rows) {
    if (!row.report.usable()) continue;
    any = true;
    if (std::abs(row.wheel_after) > std::abs(wheel)) wheel = row.wheel_after;
    if (std::abs(row.walk_after) > std::abs(walk)) walk = row.walk_after;
  }
  if (!any) return "";
  const std::string wheel_text =
      is_nothing(kWheel, wheel, words)
          ? "stays centred"
          : fmt::format("is {}up to {} off centre", setup.adjustments.empty() ? "" : "then ",
                        words.with_sign(kWheel, wheel));
  const std::string walk_text =
      is_nothing(kWalk, walk, words)
          ? "stays in the middle"
          : fmt::format("is up to {} off the middle", words.with_sign(kWalk, walk));
  // A truck without a pitman arm has no steering wheel to tell of.
  return std::isnan(setup.wheel_left)
             ? fmt::format("At the other heights the axle {}.", walk_text)
             : fmt::format("At the other heights the steering wheel {} and the axle {}.",
                           wheel_text, walk_text);
}

std::vector<std::string> story_of(const Setup& setup, const Words& words) {
  const std::string at = "at height " + words.height(setup.height);
  if (!setup.found)
    return {fmt::format("No lengths were found that centre this truck {}: {}.", at, setup.message)};
  const std::string left = left_over(setup, words);
  std::vector<std::string> story;
  if (setup.adjustments.empty()) {
    story.push_back(left.empty()
                        ? fmt::format("{} centred {}, and no bar is there to be set.",
                                      std::isnan(setup.wheel_left) ? "The axle is"
                                                                   : "Steering wheel and axle are",
                                      at)
                        : fmt::format("This truck has no bar that could be set {}.", at));
  } else {
    story.push_back(fmt::format("To centre the truck {}, going straight:", at));
    for (const Adjustment& adjustment : setup.adjustments)
      story.push_back(text_of(adjustment, words) + ".");
  }
  if (!left.empty()) story.push_back("Not centred so: " + left + ".");
  if (std::string there = elsewhere(setup, words); !there.empty())
    story.push_back(std::move(there));
  return story;
}

}  // namespace

Result<Json> answer_setup(const Json& question, const AskContext& context) {
  if (auto faults = unknown_keys(question, {"file", "height_mm", "heights"}); !faults.empty())
    return tl::unexpected(std::move(faults));
  const Result<std::string> file = text_in(question, "file", "");
  if (!file) return tl::unexpected(file.error());
  const Result<int> count = count_in(question, "heights", 11, 2, 1001);
  if (!count) return tl::unexpected(count.error());
  Result<Truck> truck = open_truck(question, *file, context);
  if (!truck) return tl::unexpected(std::move(truck.error()));
  const Result<Words> words = words_for(question, *truck);
  if (!words) return tl::unexpected(words.error());
  const Result<double> height = number_in(question, "height_mm", to_mm(truck->aligned_height));
  if (!height) return tl::unexpected(height.error());

  const double low = truck->height_range[0], high = truck->height_range[1];
  if (from_mm(*height) < low - kRounding || from_mm(*height) > high + kRounding) {
    return fail(
        fmt::format("height {} is outside the truck's range, {} to {}",
                    words->height(from_mm(*height)), words->height(low), words->height(high)),
        "give a height within the range, or widen `height_range` in the file");
  }
  const Setup setup = find_setup(*truck, from_mm(*height), sweep_plan(*truck, *count).heights);
  Json answer = answer_head(question, *truck, *words);
  for (const std::string& sentence : story_of(setup, *words)) answer["story"].push_back(sentence);
  answer["height_mm"] = *height;
  answer["found"] = setup.found;
  answer["message"] = setup.found ? left_over(setup, *words) : setup.message;
  answer["adjustments"] = Json::array();
  for (const Adjustment& adjustment : setup.adjustments)
    answer["adjustments"].push_back(json_of(adjustment, *words));
  answer["rows"] = Json::array();
  for (const SetupRow& row : setup.rows) answer["rows"].push_back(json_of(row));
  answer["cautions"] = cautions();
  return answer;
}

}  // namespace axlewright
