#include "engine/ask/sweep_answer.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "engine/ask/height_quantities.h"
#include "engine/ask/influence.h"
#include "engine/ask/margin_answer.h"
#include "engine/ask/open.h"
#include "engine/ask/question.h"
#include "engine/ask/story.h"
#include "engine/base/index.h"
#include "engine/base/units.h"

namespace axlewright {
namespace {

// Left and right are shown both where they differ by more than this: in a symmetric truck they do not.
constexpr double kDiffers = 1e-4;  // rad, m

Json row_json(const Sweep& sweep, const HeightRow& row) {
  Json j;
  j["height_mm"] = to_mm(row.height);
  j["report"] = json_of(row.rolling.report);
  if (!row.rolling.report.usable()) return j;
  j["smallest_singular_value"] = row.smallest_singular_value;
  j["values"] = json_values(sweep.infos, row.rolling.values);
  j["values"][json_name(held_steer_info())] =
      row.held_steer ? json_value(held_steer_info(), *row.held_steer) : Json();
  j["values"][json_name(bump_sweep_info())] =
      row.bump_sweep ? json_value(bump_sweep_info(), *row.bump_sweep) : Json();
  return j;
}

Json extreme_json(const QuantityInfo& info, const Extreme& extreme, const Words& words) {
  return Json{{"value", json_value(info, extreme.value)},
              {"where", json_of(extreme.where)},
              {"place_text", words.place(extreme.where)}};
}

Json extremes_json(const Sweep& sweep, const Words& words) {
  Json list = Json::array();
  for (std::size_t k = 0; k < sweep.infos.size(); ++k) {
    if (!sweep.lowest[k].found) continue;
    list.push_back(Json{{"name", json_name(sweep.infos[k])},
                        {"lowest", extreme_json(sweep.infos[k], sweep.lowest[k], words)},
                        {"highest", extreme_json(sweep.infos[k], sweep.highest[k], words)}});
  }
  return list;
}

const char* word_for(Verdict verdict) {
  switch (verdict) {
    case Verdict::not_told:
      return "not told";
    case Verdict::met:
      return "met";
    case Verdict::broken:
      return "broken";
    case Verdict::not_reached:
      return "not reached";
  }
  return "";
}

/// What a limit is on: a quantity of a pose, or one of those told of a lock, whose key says what it is.
QuantityInfo info_for(const Sweep& sweep, const LimitResult& result) {
  if (result.quantity >= 0) return sweep.infos[index(result.quantity)];
  std::string subject;
  const QuantityKey* known = find_quantity(result.limit.quantity, subject);
  std::string words = result.limit.quantity;
  std::replace(words.begin(), words.end(), '_', ' ');
  return {result.limit.quantity, words, known->unit, "", ""};
}

std::string band_text(const Limit& limit, const QuantityInfo& info, const Words& words) {
  if (limit.min && limit.max)
    return fmt::format("{} to {}", words.with_sign(info, *limit.min),
                       words.with_sign(info, *limit.max));
  if (limit.max) return "at most " + words.with_sign(info, *limit.max);
  return "at least " + words.with_sign(info, *limit.min);
}

std::string limit_text(const LimitResult& result, const QuantityInfo& info, const Words& words) {
  const std::string where = words.place(result.where);
  switch (result.verdict) {
    case Verdict::not_told:
      return "no pose looked at has it";
    case Verdict::not_reached:
      return "not known: there is no pose " + where;
    case Verdict::met:
    case Verdict::broken:
      break;
  }
  if (info.unit == QuantityUnit::none)
    return result.verdict == Verdict::met ? "every pose looked at can be had"
                                          : "there is no pose " + where;
  return fmt::format("{} {}; allowed {}; {} {}", words.with_sign(info, result.worst), where,
                     band_text(result.limit, info, words), words.magnitude(info, result.margin),
                     result.verdict == Verdict::met ? "to spare"
                     : result.limit.min && *result.limit.min > 0 && result.worst < *result.limit.min
                         ? "too little"
                         : "too far");
}

Json limit_json(const Sweep& sweep, const LimitResult& result, const Words& words) {
  const QuantityInfo info = info_for(sweep, result);
  Json j;
  j["name"] = result.limit.name;
  j["quantity"] = result.limit.quantity;
  j["words"] = info.words;
  j["verdict"] = word_for(result.verdict);
  j["unit"] = unit_words(info.unit);
  j["min"] = result.limit.min ? json_value(info, *result.limit.min) : Json();
  j["max"] = result.limit.max ? json_value(info, *result.limit.max) : Json();
  j["over"] = result.limit.over_grid ? "grid" : "heights";
  j["wheel"] = result.limit.held ? "held" : "rolling";
  const bool told = result.verdict == Verdict::met || result.verdict == Verdict::broken;
  if (told && info.unit != QuantityUnit::none) {
    j["worst"] = json_value(info, result.worst);
    j["margin"] = json_value(info, result.margin);
  }
  if (result.verdict != Verdict::not_told) {
    j["where"] = json_of(result.where);
    j["place_text"] = words.place(result.where);
  }
  j["text"] = limit_text(result, info, words);
  return j;
}

/// The quantities that shops set limits on, each with the keys that would do it.
Json not_set(const Truck& truck) {
  struct Usual {
    const char* words;
    std::vector<std::string> keys;
  };
  static const std::vector<Usual> usual = {
      {"steering wheel off centre", {"steering_wheel_off_centre"}},
      {"bump steer", {"bump_steer", "bump_steer_left", "bump_steer_right"}},
      {"lean steer", {"lean_steer"}},
      {"axle walk", {"axle_walk_side"}},
      {"caster", {"caster_left", "caster_right"}},
      {"toe", {"toe"}},
      {"pinion angle", {"pinion_angle"}},
      {"joint tilt", {"tilt."}},
      {"slide travel", {"slide."}},
      {"turning circle", {"turning_circle_left", "turning_circle_right"}},
      {"reach (every pose of the grid can be had)", {"reach"}},
  };
  Json list = Json::array();
  for (const Usual& one : usual) {
    const bool set = std::any_of(truck.limits.begin(), truck.limits.end(), [&](const Limit& limit) {
      return std::any_of(one.keys.begin(), one.keys.end(), [&](const std::string& key) {
        return key.back() == '.' ? limit.quantity.rfind(key, 0) == 0 : limit.quantity == key;
      });
    });
    if (!set) list.push_back(one.words);
  }
  return list;
}

Json lock_side_json(const LockSide& side) {
  Json j;
  j["reached"] = side.reached;
  j["stop"] = side.stop;
  const auto angle = [&](const char* key, double si) {
    j[key] = side.solved ? number_or_null(to_deg(si)) : Json();
  };
  angle("steering_wheel_deg", side.steering_wheel);
  angle("pitman_deg", side.pitman);
  angle("mean_steer_deg", side.mean_steer);
  angle("outer_deg", side.outer);
  angle("inner_deg", side.inner);
  j["turning_circle_mm"] = side.solved ? number_or_null(to_mm(side.turning_circle)) : Json();
  j["kerb_circle_mm"] = side.solved ? number_or_null(to_mm(side.kerb_circle)) : Json();
  angle("ackermann_error_deg", side.ackermann_error);
  angle("ackermann_error_20_deg", side.ackermann_error_20);
  j["steering_ratio"] = side.solved ? number_or_null(side.steering_ratio) : Json();
  return j;
}

Json lock_json(double height, const Lock& lock) {
  Json j;
  j["height_mm"] = to_mm(height);
  j["turns"] = lock.left.reached && lock.right.reached ? Json(lock.turns()) : Json();
  j["left"] = lock_side_json(lock.left);
  j["right"] = lock_side_json(lock.right);
  return j;
}

/// One side stands for both where they agree at every height.
void add_sides(const Sweep& sweep, int left, int right, Json& names) {
  names.push_back(json_name(sweep.infos[index(left)]));
  const std::vector<double> l = over_heights(sweep, left), r = over_heights(sweep, right);
  for (std::size_t k = 0; k < std::min(l.size(), r.size()); ++k) {
    if (std::abs(l[k] - r[k]) <= kDiffers) continue;
    names.push_back(json_name(sweep.infos[index(right)]));
    return;
  }
}

Json group(const char* title, bool main, Json names) {
  return Json{{"title", title}, {"main", main}, {"names", std::move(names)}};
}

Json names_from(const Sweep& sweep, const std::vector<std::string>& heads) {
  Json names = Json::array();
  for (const QuantityInfo& info : sweep.infos) {
    for (const std::string& head : heads) {
      if (info.key.rfind(head, 0) == 0) names.push_back(json_name(info));
    }
  }
  return names;
}

Json groups_json(const Sweep& sweep) {
  const auto name = [&](int quantity) { return json_name(sweep.infos[index(quantity)]); };
  Json groups = Json::array();
  groups.push_back(
      group("Steering wheel and axle", true,
            Json::array({name(kSteeringWheelOffCentre), json_name(held_steer_info()),
                         name(kAxleWalkSide), name(kAxleWalkForward), name(kAxleYaw)})));
  groups.push_back(group(
      "Bumps and leans", true,
      Json::array({name(kBumpSteer), json_name(bump_sweep_info()), name(kOneWheelBumpSteerLeft),
                   name(kOneWheelBumpSteerRight), name(kLeanSteer), name(kRollCentreHeight)})));
  Json alignment = Json::array({name(kToe)});
  add_sides(sweep, kCasterLeft, kCasterRight, alignment);
  add_sides(sweep, kCamberLeft, kCamberRight, alignment);
  add_sides(sweep, kKpiLeft, kKpiRight, alignment);
  add_sides(sweep, kScrubLeft, kScrubRight, alignment);
  add_sides(sweep, kTrailLeft, kTrailRight, alignment);
  groups.push_back(group("Alignment", true, std::move(alignment)));
  groups.push_back(group("Axle and steering gear", true,
                         Json::array({name(kPinionAngle), name(kSteeringRatio),
                                      name(kSteeringWheel), name(kPitmanAngle)})));
  groups.push_back(group("Rear axle", true,
                         names_from(sweep, {"rear_walk_", "thrust_angle", "rear_lean_steer"})));
  groups.push_back(group("Track bar against drag link", false,
                         names_from(sweep, {"parallel_miss", "length_miss"})));
  groups.push_back(
      group("Bars", false, names_from(sweep, {"length.", "front_angle.", "side_angle."})));
  groups.push_back(group("Joint tilt", false, names_from(sweep, {"tilt."})));
  groups.push_back(
      group("Guided bars", false,
            names_from(sweep, {"slide.", "half_link_angle.", "near_end_offset.", "spin."})));
  groups.push_back(group("Cranks, rockers and relays", false, names_from(sweep, {"turn."})));
  groups.erase(std::remove_if(groups.begin(), groups.end(),
                              [](const Json& one) { return one["names"].empty(); }),
               groups.end());
  return groups;
}

/// Where a quantity is farthest from zero over the grid; the aligned height where the grid does not have it.
PoseRequest farthest_place(const Sweep& sweep, const Rig& rig, int quantity) {
  const Extreme& low = sweep.lowest[index(quantity)];
  const Extreme& high = sweep.highest[index(quantity)];
  if (!low.found) return rig.aligned_request();
  return std::abs(low.value) > std::abs(high.value) ? low.where : high.where;
}

}  // namespace

const std::vector<std::string>& raise_keys() {
  static const std::vector<std::string> keys = {"heights", "rear_height_mm", "rear_with_front"};
  return keys;
}

Result<AskedRaise> raise_in(const Json& question) {
  AskedRaise raise;
  const Result<int> heights = count_in(question, "heights", raise.heights, 2, 10001);
  if (!heights) return tl::unexpected(heights.error());
  const Result<double> rear = number_in(question, "rear_height_mm", 0);
  if (!rear) return tl::unexpected(rear.error());
  const Result<bool> with_front = flag_in(question, "rear_with_front");
  if (!with_front) return tl::unexpected(with_front.error());
  if (*with_front && question.contains("rear_height_mm"))
    return fail("`rear_height_mm` and `rear_with_front` both say how high the rear stands",
                "give one of them");
  raise.heights = *heights;
  raise.rear_height = from_mm(*rear);
  raise.rear_with_front = *with_front;
  return raise;
}

Result<AskedSweep> open_sweep(const Json& question, const std::string& file,
                              const AskContext& context) {
  Result<Truck> truck = open_truck(question, file, context);
  if (!truck) return tl::unexpected(std::move(truck.error()));
  const Result<Words> words = words_for(question, *truck);
  if (!words) return tl::unexpected(words.error());
  return AskedSweep{Rig(std::move(*truck)), *words, {}};
}

bool run_asked_sweep(AskedSweep& asked, const AskedRaise& raise, const Progress& progress,
                     const ForEach& for_each) {
  SweepPlan plan = sweep_plan(asked.rig.truck(), raise.heights);
  plan.rear_height = raise.rear_height;
  plan.rear_with_front = raise.rear_with_front;
  asked.sweep = run_sweep(asked.rig, std::move(plan), progress, for_each);
  return !asked.sweep.cancelled;
}

std::vector<Fault> stopped() {
  return fail("stopped before it was done", "ask again").value();
}

Json json_of(const Json& question, const AskedSweep& asked) {
  const Sweep& sweep = asked.sweep;
  const Truck& truck = asked.rig.truck();
  const Words& words = asked.words;
  Json answer = answer_head(question, truck, words);
  for (const std::string& sentence : story_of(sweep, truck, words))
    answer["story"].push_back(sentence);
  answer["heights"] = Json{{"from_mm", to_mm(sweep.plan.heights.front())},
                           {"to_mm", to_mm(sweep.plan.heights.back())},
                           {"aligned_mm", to_mm(truck.aligned_height)},
                           {"rear_mm", to_mm(sweep.plan.rear_height)},
                           {"rear_with_front", sweep.plan.rear_with_front}};
  answer["quantities"] = json_of(sweep.infos);
  answer["quantities"].push_back(json_of(held_steer_info()));
  answer["quantities"].push_back(json_of(bump_sweep_info()));
  answer["groups"] = groups_json(sweep);
  answer["rows"] = Json::array();
  for (const HeightRow& row : sweep.rows) answer["rows"].push_back(row_json(sweep, row));
  answer["extremes"] = extremes_json(sweep, words);
  answer["limits"] = Json::array();
  for (const LimitResult& result : sweep.limits)
    answer["limits"].push_back(limit_json(sweep, result, words));
  answer["not_set"] = not_set(truck);
  answer["not_checked"] =
      Json::array({"clearance", "strength", "play and stiffness", "loads and ride height"});
  answer["poses"] = sweep.poses;
  answer["refused"] = sweep.refused;
  answer["refusals"] = Json::array();
  for (const Refusal& refusal : sweep.refusals) {
    answer["refusals"].push_back(Json{{"where", json_of(refusal.request)},
                                      {"place_text", words.place(refusal.request)},
                                      {"report", json_of(refusal.report)}});
  }
  answer["locks"] = Json::array();
  if (asked.rig.expansion().pitman_turn.value >= 0) {
    answer["locks"].push_back(lock_json(sweep.plan.heights.front(), sweep.lock_low));
    answer["locks"].push_back(lock_json(sweep.plan.heights.back(), sweep.lock_high));
  }
  answer["margins"] = Json::array();
  for (const Margin& margin : sweep.margins) answer["margins"].push_back(json_of(margin, words));
  return answer;
}

Result<Json> answer_sweep(const Json& question, const AskContext& context) {
  std::vector<std::string> keys = {"file", "quantity"};
  keys.insert(keys.end(), raise_keys().begin(), raise_keys().end());
  if (auto faults = unknown_keys(question, keys); !faults.empty())
    return tl::unexpected(std::move(faults));
  const Result<std::string> file = text_in(question, "file", "");
  const Result<AskedRaise> raise = raise_in(question);
  const Result<std::string> key = text_in(question, "quantity", "steering_wheel_off_centre");
  if (!file) return tl::unexpected(file.error());
  if (!raise) return tl::unexpected(raise.error());
  if (!key) return tl::unexpected(key.error());
  Result<AskedSweep> asked = open_sweep(question, *file, context);
  if (!asked) return tl::unexpected(std::move(asked.error()));
  const Result<int> quantity = quantity_in(asked->rig.quantities(), *key);
  if (!quantity) return tl::unexpected(quantity.error());
  if (!run_asked_sweep(*asked, *raise, context.progress, context.for_each))
    return tl::unexpected(stopped());
  Json answer = json_of(question, *asked);
  PoseRequest where = farthest_place(asked->sweep, asked->rig, *quantity);
  answer["points_that_matter"] = points_that_matter(asked->rig, where, *quantity, asked->words);
  answer["cautions"] = cautions();
  return answer;
}

}  // namespace axlewright
