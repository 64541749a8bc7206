#include "engine/output/csv.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "engine/base/invariant.h"
#include "engine/output/shown.h"

namespace axlewright {
namespace {

using Fields = std::vector<std::string>;

std::string quoted(const std::string& field) {
  if (field.find_first_of(",\"\r\n") == std::string::npos) return field;
  std::string text = "\"";
  for (const char c : field) text += c == '"' ? std::string("\"\"") : std::string(1, c);
  return text + '"';
}

std::string line(const Fields& fields) {
  std::string text;
  for (std::size_t k = 0; k < fields.size(); ++k) text += (k == 0 ? "" : ",") + quoted(fields[k]);
  return text + "\r\n";
}

/// A field out of any value of an answer.
std::string field_of(const Json& value) {
  if (value.is_string()) return value.get<std::string>();
  if (value.is_number_float()) return fmt::format("{}", value.get<double>());
  return value.is_null() ? "" : value.dump();
}

std::string field_at(const Json& object, const std::string& key) {
  const auto found = object.find(key);
  return found == object.end() ? "" : field_of(*found);
}

/// One line for each object of a list, of some of its keys.
std::string list_csv(const Json& list, const Fields& keys) {
  std::string text = line(keys);
  for (const Json& object : list) {
    Fields fields;
    for (const std::string& key : keys) fields.push_back(field_at(object, key));
    text += line(fields);
  }
  return text;
}

std::string outcome_of(const Json& row) {
  return text_at(row.value("report", Json::object()), "outcome");
}

std::string pose_csv(const Json& answer) {
  std::string text = line({"name", "value", "unit", "words"});
  for (const Json& quantity : answer.value("quantities", Json::array())) {
    const std::string name = text_at(quantity, "name");
    text += line({name, field_at(answer.value("values", Json::object()), name),
                  text_at(quantity, "unit"), text_at(quantity, "words")});
  }
  return text;
}

void add_names(const Json& sweep, Fields& names) {
  for (const Json& quantity : sweep.value("quantities", Json::array())) {
    const std::string name = text_at(quantity, "name");
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
}

/// The rows of a sweep with `front` before each.
std::string rows_csv(const Json& sweep, const Fields& front, const Fields& names) {
  std::string text;
  for (const Json& row : sweep.value("rows", Json::array())) {
    Fields fields = front;
    fields.push_back(field_at(row, "height_mm"));
    fields.push_back(outcome_of(row));
    const Json values = row.value("values", Json::object());
    for (const std::string& name : names) fields.push_back(field_at(values, name));
    text += line(fields);
  }
  return text;
}

std::string sweep_csv(const Json& answer) {
  Fields names, heading{"height_mm", "outcome"};
  add_names(answer, names);
  heading.insert(heading.end(), names.begin(), names.end());
  return line(heading) + rows_csv(answer, {}, names);
}

std::string compare_csv(const Json& answer) {
  Fields names, heading{"truck", "file", "height_mm", "outcome"};
  for (const Json& truck : answer["trucks"]) add_names(truck, names);
  heading.insert(heading.end(), names.begin(), names.end());
  std::string text = line(heading);
  for (const Json& truck : answer["trucks"])
    text += rows_csv(truck, {text_at(truck, "truck"), text_at(truck, "file")}, names);
  return text;
}

std::string setup_csv(const Json& answer) {
  const Fields keys{"wheel_before_deg", "wheel_after_deg", "walk_before_mm", "walk_after_mm"};
  Fields heading{"height_mm", "outcome"}, lengths;
  heading.insert(heading.end(), keys.begin(), keys.end());
  for (const Json& one : answer.value("adjustments", Json::array())) {
    std::string bar = text_at(one, "bar");
    std::replace(bar.begin(), bar.end(), ' ', '_');
    heading.insert(heading.end(), {"length_now." + bar + "_mm", "length_then." + bar + "_mm",
                                   "sleeve." + bar + "_turns"});
    lengths.insert(lengths.end(), {field_at(one, "length_now_mm"), field_at(one, "length_then_mm"),
                                   field_at(one, "turns")});
  }
  std::string text = line(heading);
  for (const Json& row : answer.value("rows", Json::array())) {
    Fields fields{field_at(row, "height_mm"), outcome_of(row)};
    for (const std::string& key : keys) fields.push_back(field_at(row, key));
    fields.insert(fields.end(), lengths.begin(), lengths.end());
    text += line(fields);
  }
  return text;
}

std::string check_csv(const Json& answer) {
  return list_csv(
      answer.value("margins", Json::array()),
      {"input", "unit", "asked", "end", "margin", "by", "what_ran_out", "how_it_ran_out"});
}

std::string start_csv(const Json& answer) {
  return list_csv(answer.value("steps", Json::array()),
                  {"step", "point", "what", "from", "accuracy", "why"});
}

struct Writer {
  std::string_view verb;
  std::string (*write)(const Json& answer);
};

constexpr std::array<Writer, 6> kWriters{{
    {"check", check_csv},
    {"pose", pose_csv},
    {"sweep", sweep_csv},
    {"compare", compare_csv},
    {"setup", setup_csv},
    {"start", start_csv},
}};

}  // namespace

std::string answer_csv(const Json& answer) {
  const std::string verb = text_at(answer, "ask");
  for (const Writer& writer : kWriters) {
    if (writer.verb == verb) return writer.write(answer);
  }
  AXLEWRIGHT_INVARIANT(!"an answer to a question that there is");
  return "";
}

}  // namespace axlewright
