#include "engine/ask/loose_answer.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include <fmt/format.h>

#include "engine/base/index.h"
#include "engine/base/units.h"

namespace axlewright {
namespace {

// Of a quantity per radian of spin: below it nothing moves. The pose is solved to 1e-10 m over arms of a tenth of a metre.
constexpr double kIdle = 1e-7;

constexpr double kSteered =
    20 * kRadiansPerDegree;  // of the road wheels, where the steered poses are taken
constexpr double kAlongItsLine =
    0.2;  // of a stud's cosine to the spin's line: such a stud turns in its ball and stops nothing

/// The turn about its line, the tilt of the balls that it turns in: they are the spin itself, not what it moves.
bool is_the_spin_itself(const QuantityInfo& info) {
  return info.key.rfind("spin.", 0) == 0 || info.key.rfind("tilt.", 0) == 0;
}

struct Effect {
  int quantity = -1;
  double per_radian = 0;  ///< farthest from zero over the poses looked at [SI per rad]
  PoseRequest where;
};

std::vector<PoseRequest> poses_looked_at(const Rig& rig) {
  const Truck& truck = rig.truck();
  const double low = truck.height_range[0], high = truck.height_range[1];
  std::vector<PoseRequest> poses;
  for (const double height : {low, 0.5 * (low + high), high}) {
    for (const double steer : {0.0, kSteered, -kSteered}) {
      PoseRequest request;
      request.height = height;
      request.steer_by = steer == 0 ? SteerBy::straight_ahead : SteerBy::road_wheels;
      request.steer = steer;
      poses.push_back(request);
    }
  }
  return poses;
}

/// How far the studs let a body turn about its line, either way: the least of what is given; nothing if nothing is.
std::optional<double> free_angle(const Rig& rig, const LooseMotion& motion) {
  const Expansion& x = rig.expansion();
  std::optional<double> least;
  for (const BallPlace& ball : x.balls) {
    const Axis& stud = x.mechanism.axis(ball.stud_axis);
    const bool touches =
        stud.body == motion.body ||
        (ball.housing_axis.value >= 0 && x.mechanism.axis(ball.housing_axis).body == motion.body);
    if (!touches || ball.largest_tilt <= 0) continue;
    if (std::abs(stud.direction.dot(motion.line)) > 1 - kAlongItsLine) continue;
    if (!least || ball.largest_tilt < *least) least = ball.largest_tilt;
  }
  return least;
}

std::vector<Effect> effects_of(Rig& rig, std::size_t motion) {
  std::vector<Effect> effects(rig.quantities().size());
  for (std::size_t k = 0; k < effects.size(); ++k) effects[k].quantity = static_cast<int>(k);
  for (const PoseRequest& request : poses_looked_at(rig)) {
    const PoseResult pose = rig.solve(request);
    if (!pose.report.usable()) continue;
    const LooseMotion& loose = rig.follower().assembly().loose[motion];
    if (!loose.spin) continue;
    const std::vector<double> slopes = rig.motion_effect(loose);
    for (std::size_t k = 0; k < slopes.size(); ++k) {
      if (!(std::abs(slopes[k]) > std::abs(effects[k].per_radian))) continue;
      effects[k].per_radian = slopes[k];
      effects[k].where = request;
    }
  }
  const auto nothing = [&](const Effect& e) {
    return std::abs(e.per_radian) < kIdle ||
           is_the_spin_itself(rig.quantities()[index(e.quantity)]);
  };
  effects.erase(std::remove_if(effects.begin(), effects.end(), nothing), effects.end());
  return effects;
}

Json json_of(const Effect& effect, const Rig& rig, std::optional<double> free, const Words& words) {
  const QuantityInfo& info = rig.quantities()[index(effect.quantity)];
  const double per_degree = effect.per_radian * kRadiansPerDegree;
  Json j;
  j["name"] = json_name(info);
  j["words"] = info.words;
  j["per_deg"] = to_json_unit(info.unit, per_degree);
  j["range"] =
      free ? Json(to_json_unit(info.unit, 2 * *free * std::abs(effect.per_radian))) : Json();
  j["where"] = json_of(effect.where);
  j["place_text"] = words.place(effect.where);
  std::string text =
      fmt::format("{} by {} per degree {}", info.words,
                  words.small_with_sign(info, std::abs(per_degree)), words.place(effect.where));
  if (free)
    text += fmt::format(", about {} within what the studs leave free",
                        words.small_with_sign(info, 2 * *free * std::abs(effect.per_radian)));
  j["text"] = text;
  return j;
}

/// The quantities that a shop asks about first lead the sentence.
std::string text_of(const LooseMotion& motion, const std::vector<Effect>& effects, const Rig& rig,
                    std::optional<double> free, const Words& words) {
  std::string text = motion.name;
  if (effects.empty()) return text + "; nothing else moves (idle)";
  static constexpr int kFirst[] = {kSteeringWheel, kMeanSteer, kAxleWalkSide};
  for (const int quantity : kFirst) {
    for (const Effect& effect : effects) {
      if (effect.quantity != quantity) continue;
      const QuantityInfo& info = rig.quantities()[index(quantity)];
      QuantityInfo plain = info;
      plain.positive = plain.negative = "";
      text += fmt::format(
          "; the {} moves with it, {} per degree", info.words,
          words.small_with_sign(plain, std::abs(effect.per_radian) * kRadiansPerDegree));
      if (free)
        text += fmt::format(", about {} within what the studs leave free",
                            words.with_sign(plain, 2 * *free * std::abs(effect.per_radian)));
      return text + ": play";
    }
  }
  text += "; neither steering nor axle moves with it, only ";
  for (std::size_t k = 0; k < effects.size(); ++k)
    text += (k == 0 ? "" : " and ") + rig.quantities()[index(effects[k].quantity)].words;
  return text;
}

}  // namespace

Json loose_motions(Rig& rig, const Words& words) {
  Json list = Json::array();
  const std::size_t count = rig.rolling().assembly().loose.size();
  for (std::size_t k = 0; k < count; ++k) {
    const LooseMotion motion = rig.rolling().assembly().loose[k];
    Json j;
    j["name"] = motion.name;
    j["spin"] = motion.spin;
    if (motion.spin) {
      const std::vector<Effect> effects = effects_of(rig, k);
      const std::optional<double> free = free_angle(rig, motion);
      j["idle"] = effects.empty();
      j["free_deg"] = free ? Json(to_deg(*free)) : Json();
      j["effects"] = Json::array();
      for (const Effect& effect : effects)
        j["effects"].push_back(json_of(effect, rig, free, words));
      j["text"] = text_of(motion, effects, rig, free, words);
    } else {
      j["idle"] = false;
      j["free_deg"] = Json();
      j["effects"] = Json::array();
      j["text"] = motion.name + ": nothing holds it";
    }
    list.push_back(std::move(j));
  }
  return list;
}

}  // namespace axlewright
