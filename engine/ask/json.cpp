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

std::string unit_words(QuantityUnit unit) {
  switch (unit) {
    case QuantityUnit::length:
      return "mm";
    case QuantityUnit::angle:
      return "deg";
    case QuantityUnit::turns:
      return "turns";
    case QuantityUnit::none:
      return "";
    case QuantityUnit::ratio:
      return "to 1";
    case QuantityUnit::angle_per_angle:
      return "deg per deg";
    case QuantityUnit::angle_per_bump:
      return "deg per 25 mm";
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

std::string json_name(const QuantityInfo& info) {
  return info.key + unit_suffix(info.unit);
}

Json json_value(const QuantityInfo& info, double si) {
  return number_or_null(to_json_unit(info.unit, si));
}

Json json_of(const QuantityInfo& info) {
  return Json{{"name", json_name(info)},
              {"words", info.words},
              {"unit", unit_words(info.unit)},
              {"positive", info.positive},
              {"negative", info.negative}};
}

Json json_of(const std::vector<QuantityInfo>& infos) {
  Json list = Json::array();
  for (const QuantityInfo& info : infos) list.push_back(json_of(info));
  return list;
}

Json json_values(const std::vector<QuantityInfo>& infos, const std::vector<double>& values) {
  Json j = Json::object();
  for (std::size_t k = 0; k < values.size(); ++k)
    j[json_name(infos[k])] = json_value(infos[k], values[k]);
  return j;
}

Json json_of(const Fault& fault) {
  return Json{{"severity", fault.severity == Severity::error ? "error" : "warning"},
              {"file", fault.file},
              {"line", fault.line},
              {"column", fault.column},
              {"length", fault.length},
              {"what", fault.what},
              {"fix", fault.fix},
              {"source_line", fault.source_line}};
}

Json place_mm(const Vec3& place) {
  return Json::array({to_mm(place.x()), to_mm(place.y()), to_mm(place.z())});
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
  j["how_it_ran_out"] = report.how_it_ran_out;
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
