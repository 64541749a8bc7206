#include "engine/ask/view_answer.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "engine/ask/drawing_json.h"
#include "engine/ask/drawn_pose.h"
#include "engine/ask/height_quantities.h"
#include "engine/ask/open.h"
#include "engine/ask/posed_question.h"
#include "engine/ask/question.h"
#include "engine/ask/view_question.h"
#include "engine/base/did_you_mean.h"
#include "engine/base/index.h"
#include "engine/base/units.h"
#include "engine/study/sweep.h"

namespace axlewright {
namespace {

constexpr int kMostHeights = 401;

/// What strips show unasked.
constexpr FixedQuantity kUsual[] = {
    kSteeringWheelOffCentre, kAxleWalkSide, kBumpSteer, kLeanSteer, kCasterLeft, kToe,
    kRollCentreHeight};

/// A strip: a quantity going straight over the heights, or the steer with the steering wheel held (-1).
struct Column {
  int quantity = -1;
  const QuantityInfo* info = nullptr;
  Json values = Json::array();
};

struct AskedStrips {
  int heights = 0;
  std::vector<std::string> names;
};

Result<AskedStrips> strips_in(const Json& question) {
  AskedStrips asked;
  const Result<int> heights = count_in(question, "heights", 0, 0, kMostHeights);
  if (!heights) return tl::unexpected(heights.error());
  if (*heights == 1) return fail("`heights` is 1", "ask for 2 or more, or leave it out");
  Result<std::vector<std::string>> names = texts_in(question, "names");
  if (!names) return tl::unexpected(names.error());
  asked.heights = *heights;
  asked.names = std::move(*names);
  return asked;
}

Result<std::vector<Column>> columns_of(const Rig& rig, const AskedStrips& asked) {
  const std::vector<QuantityInfo>& infos = rig.quantities();
  std::vector<Column> columns;
  if (asked.names.empty()) {
    for (const int quantity : kUsual) columns.push_back({quantity, &infos[index(quantity)]});
    return columns;
  }
  std::vector<std::string> known = {json_name(held_steer_info())};
  for (const QuantityInfo& info : infos) known.push_back(json_name(info));
  for (const std::string& name : asked.names) {
    const auto found = std::find(known.begin(), known.end(), name);
    if (found == known.end()) {
      const std::string near = did_you_mean(name, known);
      return fail(fmt::format("`names`: there is no quantity \"{}\" in this truck", name),
                  near.empty() ? "`quantities` of an answer lists all"
                               : fmt::format("did you mean \"{}\"?", near));
    }
    const int place = static_cast<int>(found - known.begin()) - 1;
    columns.push_back({place, place < 0 ? &held_steer_info() : &infos[index(place)]});
  }
  return columns;
}

Json strips_json(Rig& rig, std::vector<Column> columns, int heights, const Words& words) {
  const bool steers = rig.expansion().pitman_turn.value >= 0;
  const bool held_asked =
      steers && std::any_of(columns.begin(), columns.end(),
                            [](const Column& column) { return column.quantity < 0; });
  Json strips;
  strips["heights_mm"] = Json::array();
  strips["columns"] = Json::array();
  Json refused = Json::array();
  for (int k = 0; k < heights; ++k) {
    PoseRequest request;
    request.height = height_of_range(rig.truck(), k, heights);
    strips["heights_mm"].push_back(to_mm(request.height));
    const PoseResult straight = rig.solve(request);
    if (!straight.report.usable()) {
      refused.push_back(Json{
          {"height_mm", to_mm(request.height)},
          {"text", fmt::format("no pose {}: {}", words.place(request), straight.report.message)}});
    }
    Json held_steer;
    if (held_asked) {
      request.steer_by = SteerBy::held;
      const PoseResult held = rig.solve(request);
      if (held.report.usable()) held_steer = json_value(held_steer_info(), held.values[kMeanSteer]);
    }
    for (Column& column : columns) {
      if (column.quantity < 0) {
        column.values.push_back(held_steer);
      } else {
        column.values.push_back(
            straight.report.usable()
                ? json_value(*column.info, straight.values[index(column.quantity)])
                : Json());
      }
    }
  }
  for (Column& column : columns)
    strips["columns"].push_back(
        Json{{"name", json_name(*column.info)}, {"values", std::move(column.values)}});
  strips["refused"] = std::move(refused);
  return strips;
}

/// Limits that hold on quantities of a pose, for shading: with the wheel held there is a strip of the mean steer alone.
Json bands_json(const Rig& rig) {
  Json bands = Json::array();
  const auto add = [&](const Limit& limit, const QuantityInfo& info) {
    bands.push_back(Json{{"name", limit.name},
                         {"quantity", json_name(info)},
                         {"min", limit.min ? json_value(info, *limit.min) : Json()},
                         {"max", limit.max ? json_value(info, *limit.max) : Json()}});
  };
  for (const Limit& limit : rig.truck().limits) {
    for (const int quantity : quantities_of(rig.quantities(), limit.quantity)) {
      if (!limit.held) add(limit, rig.quantities()[index(quantity)]);
      if (limit.held && quantity == kMeanSteer) add(limit, held_steer_info());
    }
  }
  return bands;
}

void tell_ranges(const Truck& truck, double height, Json& answer) {
  const TravelRange travel = travel_range(truck, height);
  answer["height_range_mm"] =
      Json::array({to_mm(truck.height_range[0]), to_mm(truck.height_range[1])});
  answer["aligned_mm"] = to_mm(truck.aligned_height);
  answer["travel_mm"] = Json::array({-to_mm(travel.droop), to_mm(travel.bump)});
  answer["lean_limit_deg"] = to_deg(truck.lean);
  answer["steering_wheel_limit_deg"] =
      truck.gear.stop_left > 0 && truck.gear.stop_right > 0
          ? Json::array({-to_deg(truck.gear.stop_right), to_deg(truck.gear.stop_left)})
          : Json();
}

}  // namespace

Result<Json> answer_view(const Json& question, const AskContext& context) {
  const Result<AskedStrips> strips = strips_in(question);
  const Result<std::vector<AskedView>> views = views_in(question);
  const Result<std::optional<AskedMotion>> motion = motion_in(question);
  if (!strips) return tl::unexpected(strips.error());
  if (!views) return tl::unexpected(views.error());
  if (!motion) return tl::unexpected(motion.error());
  Result<PosedQuestion> posed =
      posed_question(question, {"heights", "names", "views", "loose"}, context);
  if (!posed) return tl::unexpected(std::move(posed.error()));
  Rig& rig = posed->rig;
  const Words& words = posed->words;
  Result<std::vector<Column>> columns = columns_of(rig, *strips);
  if (!columns) return tl::unexpected(std::move(columns.error()));
  Json answer = answer_head(question, rig.truck(), words);
  tell_ranges(rig.truck(), posed->request.height, answer);
  answer["quantities"] = json_of(rig.quantities());
  answer["quantities"].push_back(json_of(held_steer_info()));
  answer["bands"] = bands_json(rig);
  DrawnPose there(rig, words);
  if (auto faults = there.go_to(posed->request, *motion, answer); !faults.empty())
    return tl::unexpected(std::move(faults));
  answer["points"] = there.points();
  answer["views"] = Json::array();
  for (const AskedView& view : *views) {
    const Result<DrawnTruck> drawn = there.drawn(view.swept, view.beside);
    if (!drawn) return tl::unexpected(drawn.error());
    answer["views"].push_back(json_of(compose_view(*drawn, view.plan)));
    if (view.beside && !drawn->beside)
      answer["story"].push_back(no_pose_beside(*view.beside, words));
  }
  if (strips->heights > 0)
    answer["strips"] = strips_json(rig, std::move(*columns), strips->heights, words);
  answer["cautions"] = cautions();
  return answer;
}

}  // namespace axlewright
