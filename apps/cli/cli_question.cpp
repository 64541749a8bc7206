#include "apps/cli/cli_question.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <utility>

#include <fmt/format.h>

#include "engine/base/number.h"
#include "engine/base/quantity_text.h"
#include "engine/base/units.h"
#include "engine/base/utf8.h"

namespace axlewright {
namespace {

Fault fault_in_flag(const std::string& flag, const std::string& value, const QuantityFault& bad) {
  Fault fault;
  fault.file = flag;
  fault.line = 1;
  fault.column = count_code_points(std::string_view(value).substr(0, bad.begin)) + 1;
  fault.length = std::max(count_code_points(std::string_view(value).substr(
                              std::min(bad.begin, value.size()), bad.length)),
                          1);
  fault.what = bad.what;
  fault.fix = bad.fix;
  fault.source_line = value;
  return fault;
}

bool is_angle_flag(const std::string& flag) {
  static constexpr std::array<const char*, 4> kAngles{"--lean", "--steering-wheel", "--pitman",
                                                      "--road-wheels"};
  return std::find(kAngles.begin(), kAngles.end(), flag) != kAngles.end();
}

/// "--travel-left" is "travel_left_mm" in the question.
std::string key_of(const std::string& flag) {
  std::string key = flag.substr(2);
  std::replace(key.begin(), key.end(), '-', '_');
  if (flag == "--held" || flag == "--straight-ahead") return key;
  return key + (is_angle_flag(flag) ? "_deg" : "_mm");
}

/// The value of a flag in mm or deg. A bare number takes the unit of the flags.
tl::expected<double, Fault> value_of_flag(const PoseInput& input, const std::string& units) {
  const bool angle = is_angle_flag(input.flag);
  const std::string& text = input.value;
  const bool bare = !text.empty() && text.back() >= '0' && text.back() <= '9';
  const char* unit = angle ? " deg" : units == "inch" ? " in" : " mm";
  auto read = read_quantity(bare ? text + unit : text);
  if (!read) return tl::unexpected(fault_in_flag(input.flag, text, read.error()));
  if ((read->kind == UnitKind::angle) != angle) {
    QuantityFault wrong;
    wrong.what = angle ? "this is a length where an angle belongs"
                       : "this is an angle where a length belongs";
    wrong.fix = angle ? "give it in deg, min, rad or turns" : "give it in mm, cm, m, in or ft";
    wrong.length = text.size();
    return tl::unexpected(fault_in_flag(input.flag, text, wrong));
  }
  return angle ? to_deg(read->value) : to_mm(read->value);
}

void add_inputs(const Command& command, Json& question, std::vector<Fault>& faults) {
  for (const PoseInput& input : command.inputs) {
    if (input.flag == "--held" || input.flag == "--straight-ahead") {
      question[key_of(input.flag)] = true;
      continue;
    }
    const tl::expected<double, Fault> value = value_of_flag(input, command.units);
    if (value) {
      question[key_of(input.flag)] = *value;
    } else {
      faults.push_back(value.error());
    }
  }
}

void add_heights(const Command& command, Json& question, std::vector<Fault>& faults) {
  if (command.heights.empty()) return;
  const std::optional<double> number = read_number(command.heights);
  if (number) {
    question["heights"] = *number;
    return;
  }
  QuantityFault bad;
  bad.what = "this is no number of heights";
  bad.fix = "give a whole number, such as 21";
  bad.length = command.heights.size();
  faults.push_back(fault_in_flag("--heights", command.heights, bad));
}

/// How a file names another one: its path from the first one's folder.
std::string path_seen_from(const std::string& file, const std::string& other) {
  namespace fs = std::filesystem;
  const fs::path folder = fs::absolute(file).lexically_normal().parent_path();
  return fs::absolute(other).lexically_normal().lexically_proximate(folder).generic_string();
}

/// Answers name a quantity with its unit, questions without: either may be typed.
std::string without_unit(std::string name) {
  for (const QuantityUnit unit : {QuantityUnit::angle_per_bump, QuantityUnit::angle_per_angle,
                                  QuantityUnit::angle, QuantityUnit::length, QuantityUnit::turns}) {
    const std::string suffix = unit_suffix(unit);
    if (name.size() > suffix.size() &&
        name.compare(name.size() - suffix.size(), suffix.size(), suffix) == 0)
      return name.substr(0, name.size() - suffix.size());
  }
  return name;
}

}  // namespace

Result<Json> question_of(const Command& command) {
  Json question;
  std::vector<Fault> faults;
  question["ask"] = command.verb == "draw" ? "sheet" : command.verb;
  if (command.verb == "compare") {
    question["files"] = command.files;
  } else if (command.verb == "start") {
    question["layout"] = command.layout;
    if (command.example_numbers) question["example_numbers"] = true;
  } else {
    question["file"] = command.files.front();
  }
  if (command.rear_with_front) question["rear_with_front"] = true;
  if (command.expand) question["expand"] = true;
  if (!command.fitted.empty())
    question["fitted_on"] = path_seen_from(command.fitted, command.files.front());
  if (!command.quantity.empty()) question["quantity"] = without_unit(command.quantity);
  if (!command.paper.empty()) question["paper"] = command.paper;
  if (!command.units.empty()) question["units"] = command.units;
  add_inputs(command, question, faults);
  add_heights(command, question, faults);
  if (!command.kits.empty()) question["with"] = command.kits;
  if (!command.settings.empty() && !command.write) question["set"] = command.settings;
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return question;
}

}  // namespace axlewright
