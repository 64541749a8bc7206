#include "engine/ask/open.h"

#include <utility>

#include <fmt/format.h>

#include "engine/ask/question.h"
#include "engine/base/did_you_mean.h"

namespace axlewright {

Result<Truck> open_truck(const Json& question, const std::string& file, const AskContext& context) {
  const Result<std::vector<std::string>> texts = texts_in(question, "set");
  if (!texts) return tl::unexpected(texts.error());
  std::vector<Setting> settings;
  for (const std::string& text : *texts) settings.push_back(Setting{text});
  const Result<std::vector<std::string>> kits = texts_in(question, "with");
  if (!kits) return tl::unexpected(kits.error());
  return read_truck(file, context.text_of, settings, *kits);
}

Result<Words> words_for(const Json& question, const Truck& truck) {
  const Result<std::string> units = text_in(question, "units", truck.inches ? "inch" : "mm");
  if (!units) return tl::unexpected(units.error());
  if (*units != "inch" && *units != "mm")
    return fail(fmt::format("`units` is \"{}\"", *units), "give \"mm\" or \"inch\"");
  return Words{*units == "inch"};
}

Json answer_head(const Json& question, const Truck& truck, const Words& words) {
  Json answer;
  answer["ask"] = question["ask"];
  answer["version"] = kAnswerVersion;
  answer["truck"] = truck.name;
  answer["file"] = truck.file;
  if (!truck.kits.empty()) answer["kits"] = truck.kits;
  answer["units"] = words.inches ? "inch" : "mm";
  answer["warnings"] = Json::array();
  for (const Fault& fault : truck.warnings) answer["warnings"].push_back(json_of(fault));
  answer["story"] = Json::array();
  return answer;
}

Json cautions() {
  return Json::array({
      "Computed from the numbers in the file, without play or load, for parts that are rigid but "
      "for "
      "the bushes and leaf springs in it: no approval of a design.",
      "Steering and suspension can kill. Have a qualified engineer review the design, and "
      "qualified "
      "people weld, fasten and inspect it.",
      "Local law on lift, lights, tyres and steering decides what may drive on the road. A "
      "mechanism may be "
      "under patent.",
      "After fitting: recheck torques and alignment, turn lock to lock at every height, road test "
      "in steps.",
  });
}

Result<int> quantity_in(const std::vector<QuantityInfo>& infos, const std::string& key) {
  std::vector<std::string> keys;
  for (std::size_t k = 0; k < infos.size(); ++k) {
    if (infos[k].key == key) return static_cast<int>(k);
    keys.push_back(infos[k].key);
  }
  const std::string near = did_you_mean(key, keys);
  return fail(fmt::format("there is no quantity \"{}\" in this truck", key),
              near.empty() ? "`pose` lists every quantity of this truck"
                           : fmt::format("did you mean \"{}\"?", near));
}

}  // namespace axlewright
