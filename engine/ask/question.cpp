#include "engine/ask/question.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "engine/base/did_you_mean.h"
#include "engine/base/units.h"

namespace axlewright {
namespace {

struct SteeringKey {
  const char* key;
  SteerBy by;
  bool is_angle;
};
constexpr std::array<SteeringKey, 5> kSteeringKeys{{
    {"steering_wheel_deg", SteerBy::steering_wheel, true},
    {"pitman_deg", SteerBy::pitman, true},
    {"road_wheels_deg", SteerBy::road_wheels, true},
    {"straight_ahead", SteerBy::straight_ahead, false},
    {"held", SteerBy::held, false},
}};

struct LengthKey {
  const char* key;
  double PoseRequest::*field;
};
constexpr std::array<LengthKey, 5> kLengthKeys{{
    {"height_mm", &PoseRequest::height},
    {"rear_height_mm", &PoseRequest::rear_height},
    {"travel_mm", &PoseRequest::travel},
    {"travel_left_mm", &PoseRequest::travel_left},
    {"travel_right_mm", &PoseRequest::travel_right},
}};

constexpr const char* kLean = "lean_deg";

/// A quarter turn: beyond it a lean is no lean.
constexpr double kLargestLean = 90;

tl::unexpected<std::vector<Fault>> wrong_kind(const std::string& key, const std::string& kind) {
  return fail(fmt::format("`{}` is not {}", key, kind),
              fmt::format("give {} or leave it out", kind));
}

/// How the pose is steered; two ways at once are a fault.
Result<PoseRequest> steered(const Json& question, PoseRequest request) {
  std::string chosen;
  for (const SteeringKey& steering : kSteeringKeys) {
    const std::string key = steering.key;
    if (!question.contains(key)) continue;
    double angle = 0;
    if (steering.is_angle) {
      const Result<double> number = number_in(question, key, 0);
      if (!number) return tl::unexpected(number.error());
      angle = from_deg(*number);
    } else {
      const Result<bool> flag = flag_in(question, key);
      if (!flag) return tl::unexpected(flag.error());
      if (!*flag) continue;
    }
    if (!chosen.empty()) {
      return fail(fmt::format("`{}` and `{}` both steer the pose", chosen, key),
                  "give one of them");
    }
    chosen = key;
    request.steer_by = steering.by;
    request.steer = angle;
  }
  return request;
}

}  // namespace

std::vector<Fault> unknown_keys(const Json& question, const std::vector<std::string>& known) {
  std::vector<std::string> all = {"ask", "set", "units", "with"};
  all.insert(all.end(), known.begin(), known.end());
  std::vector<Fault> faults;
  for (const auto& [key, value] : question.items()) {
    if (std::find(all.begin(), all.end(), key) != all.end()) continue;
    const std::string near = did_you_mean(key, all);
    Fault fault;
    fault.what = fmt::format("the question has no key `{}`", key);
    fault.fix = near.empty() ? "leave it out" : fmt::format("did you mean `{}`?", near);
    faults.push_back(std::move(fault));
  }
  return faults;
}

Result<double> number_in(const Json& question, const std::string& key, double otherwise) {
  if (!question.contains(key)) return otherwise;
  const Json& value = question[key];
  if (!value.is_number() || !std::isfinite(value.get<double>())) return wrong_kind(key, "a number");
  return value.get<double>();
}

Result<bool> flag_in(const Json& question, const std::string& key) {
  if (!question.contains(key)) return false;
  if (!question[key].is_boolean()) return wrong_kind(key, "true or false");
  return question[key].get<bool>();
}

Result<std::string> text_in(const Json& question, const std::string& key,
                            const std::string& otherwise) {
  if (!question.contains(key)) return otherwise;
  if (!question[key].is_string()) return wrong_kind(key, "a text");
  return question[key].get<std::string>();
}

Result<int> count_in(const Json& question, const std::string& key, int otherwise, int least,
                     int most) {
  const Result<double> number = number_in(question, key, otherwise);
  if (!number) return tl::unexpected(number.error());
  if (*number < least || *number > most || *number != std::floor(*number))
    return wrong_kind(key, fmt::format("a whole number from {} to {}", least, most));
  return static_cast<int>(*number);
}

Result<std::vector<std::string>> texts_in(const Json& question, const std::string& key) {
  std::vector<std::string> texts;
  if (!question.contains(key)) return texts;
  if (!question[key].is_array()) return wrong_kind(key, "a list of texts");
  for (const Json& item : question[key]) {
    if (!item.is_string()) return wrong_kind(key, "a list of texts");
    texts.push_back(item.get<std::string>());
  }
  return texts;
}

const std::vector<std::string>& pose_keys() {
  static const std::vector<std::string> keys = [] {
    std::vector<std::string> all = {kLean};
    for (const LengthKey& length : kLengthKeys) all.emplace_back(length.key);
    for (const SteeringKey& steering : kSteeringKeys) all.emplace_back(steering.key);
    return all;
  }();
  return keys;
}

Result<PoseRequest> pose_in(const Json& question) {
  PoseRequest request;
  for (const LengthKey& length : kLengthKeys) {
    const Result<double> number = number_in(question, length.key, 0);
    if (!number) return tl::unexpected(number.error());
    request.*length.field = from_mm(*number);
  }
  const Result<double> lean = number_in(question, kLean, 0);
  if (!lean) return tl::unexpected(lean.error());
  if (std::abs(*lean) >= kLargestLean) return wrong_kind(kLean, "a lean of less than 90 deg");
  request.lean = from_deg(*lean);
  return steered(question, request);
}

}  // namespace axlewright
