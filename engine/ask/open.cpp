#include "engine/ask/open.h"

#include <cmath>

#include "engine/base/did_you_mean.h"

namespace axlewright {

Result<Truck> open_truck(const Json& question, const std::string& file, const AskContext& context) {
  std::vector<Setting> settings;
  if (question.contains("set")) {
    for (const Json& item : question["set"]) {
      if (!item.is_string())
        return fail("`set` holds something that is not text",
                    "give a list of texts such as \"points.pitman_ball.z=+10mm\"");
      settings.push_back(Setting{item.get<std::string>()});
    }
  }
  return read_truck(file, context.text_of, settings);
}

Result<double> number_in(const Json& question, const char* key, double otherwise) {
  if (!question.contains(key)) return otherwise;
  const Json& value = question[key];
  if (!value.is_number() || !std::isfinite(value.get<double>())) {
    return fail(std::string("`") + key + "` is not a number",
                "give a plain number in the unit that the key names");
  }
  return value.get<double>();
}

Words words_for(const Json& question, const Truck& truck) {
  Words words;
  words.inches = question.contains("units") ? question["units"] == "inch" : truck.inches;
  return words;
}

Json json_of(const Fault& fault) {
  Json j;
  j["severity"] = fault.severity == Severity::error ? "error" : "warning";
  j["file"] = fault.file;
  j["line"] = fault.line;
  j["column"] = fault.column;
  j["length"] = fault.length;
  j["what"] = fault.what;
  j["fix"] = fault.fix;
  j["source_line"] = fault.source_line;
  return j;
}

Json answer_head(const Json& question, const Truck& truck, const Words& words) {
  Json answer;
  answer["ask"] = question["ask"];
  answer["truck"] = truck.name;
  answer["file"] = truck.file;
  answer["units"] = words.inches ? "inch" : "mm";
  answer["warnings"] = Json::array();
  for (const Fault& fault : truck.warnings) answer["warnings"].push_back(json_of(fault));
  return answer;
}

Result<int> quantity_in(const std::vector<QuantityInfo>& infos, const std::string& key) {
  std::vector<std::string> keys;
  for (std::size_t k = 0; k < infos.size(); ++k) {
    if (infos[k].key == key) return static_cast<int>(k);
    keys.push_back(infos[k].key);
  }
  const std::string near = did_you_mean(key, keys);
  return fail("there is no quantity \"" + key + "\" in this truck",
              near.empty() ? "`pose --json` lists every quantity of this truck"
                           : "did you mean \"" + near + "\"?");
}

}  // namespace axlewright
