#include "engine/ask/json.h"

#include <cmath>

#include "engine/base/units.h"

namespace axlewright {

std::string unit_suffix(QuantityUnit unit) {
  switch (unit) {
    case QuantityUnit::length:
      return "_mm";
    case QuantityUnit::angle:
      return "_deg";
    case QuantityUnit::turns:
      return "_turns";
    case QuantityUnit::none:
    case QuantityUnit::ratio:
      return "";
    case QuantityUnit::angle_per_angle:
      return "_deg_per_deg";
    case QuantityUnit::angle_per_bump:
      return "_deg_per_25mm";
  }
  return "";
}

double to_json_unit(QuantityUnit unit, double si) {
  switch (unit) {
    case QuantityUnit::length:
      return to_mm(si);
    case QuantityUnit::angle:
    case QuantityUnit::angle_per_bump:
      return to_deg(si);
    case QuantityUnit::none:
    case QuantityUnit::turns:
    case QuantityUnit::ratio:
    case QuantityUnit::angle_per_angle:
      return si;
  }
  return si;
}

Json number_or_null(double value) {
  return std::isfinite(value) ? Json(value) : Json(nullptr);
}

Json json_of(const SolveReport& report) {
  Json j;
  j["outcome"] = word_for(report.outcome);
  j["certificate"] = word_for(report.certificate);
  j["residual_m"] = report.residual;
  j["last_step_m"] = report.last_step;
  j["iterations"] = report.iterations;
  j["path_steps"] = report.path_steps;
  j["set_aside_miss_m"] = report.set_aside_miss;
  if (report.usable()) return j;
  j["path_reached"] = report.path_reached;
  j["what_ran_out"] = report.what_ran_out;
  j["message"] = report.message;
  return j;
}

Json json_of(const PoseRequest& request) {
  static constexpr const char* kSteerBy[] = {"straight_ahead", "held", "steering_wheel", "pitman",
                                             "road_wheels"};
  Json j;
  j["height_mm"] = to_mm(request.height);
  j["rear_height_mm"] = to_mm(request.rear_height);
  j["travel_mm"] = to_mm(request.travel);
  j["travel_left_mm"] = to_mm(request.travel_left);
  j["travel_right_mm"] = to_mm(request.travel_right);
  j["lean_deg"] = to_deg(request.lean);
  j["steer_by"] = kSteerBy[static_cast<std::size_t>(request.steer_by)];
  if (request.steer_by != SteerBy::straight_ahead && request.steer_by != SteerBy::held)
    j["steer_deg"] = to_deg(request.steer);
  return j;
}

}  // namespace axlewright
