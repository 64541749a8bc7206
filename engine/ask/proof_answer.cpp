#include "engine/ask/proof_answer.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "engine/base/list_text.h"
#include "engine/base/units.h"

namespace axlewright {
namespace {

const char* word_for(ProofPart::Of of) {
  switch (of) {
    case ProofPart::Of::straight_ahead:
      return "straight ahead";
    case ProofPart::Of::held:
      return "steering wheel held";
    case ProofPart::Of::steering:
      return "steering";
  }
  return "";
}

Json json_of(const ProofPart& part, const Words& words) {
  Json j{{"of", word_for(part.of)}, {"complete", part.complete}};
  if (part.of == ProofPart::Of::steering) j["height_mm"] = to_mm(part.height);
  if (part.complete) return j;
  j["stopped_at"] = json_of(part.stopped_at);
  j["place_text"] = words.place(part.stopped_at);
  j["stopped_by"] = part.stopped_by;
  return j;
}

/// What is proved, in words.
std::string proved_text(const RangeProof& proof, const Truck& truck, const Words& words) {
  std::vector<std::string> areas, heights;
  for (const ProofPart& part : proof.parts) {
    if (!part.complete) continue;
    if (part.of == ProofPart::Of::steering) {
      heights.push_back(words.height(part.height));
    } else {
      areas.push_back(part.of == ProofPart::Of::held ? "with the steering wheel held"
                                                     : "going straight");
    }
  }
  std::string text;
  if (!areas.empty()) {
    text = fmt::format("at every height from {} to {}{}{}, {}", words.height(truck.height_range[0]),
                       words.height(truck.height_range[1]),
                       truck.travel.bump + truck.travel.droop > 0 ? ", over all its travel" : "",
                       truck.lean > 0 ? " and lean up to " + words.angle(truck.lean) : "",
                       list_of(areas));
  }
  if (!heights.empty()) {
    text += fmt::format("{}over all its steering at height {} without travel or lean",
                        text.empty() ? "" : ", and ", list_of(heights));
  }
  return text;
}

/// Where the parts of a proof stop, each place once: several parts come past the same one.
std::vector<std::string> stops(const RangeProof& proof, const Words& words) {
  std::vector<std::string> texts;
  for (const ProofPart& part : proof.parts) {
    if (part.complete) continue;
    std::string text = part.stopped_by + " " + words.place(part.stopped_at);
    if (std::find(texts.begin(), texts.end(), text) == texts.end())
      texts.push_back(std::move(text));
  }
  return texts;
}

std::string text_of(const RangeProof& proof, const Truck& truck, const Words& words) {
  static constexpr const char* kMeans =
      "the linkage can be followed there without binding, and cannot change over to another way in "
      "which its parts would fit";
  const std::string rest = fmt::format(
      "That is for rigid parts without play{}{}. All other poses are followed step by step, not "
      "proved.",
      proof.holds_loose_parts ? ", and with what can turn about its own line held as measured" : "",
      truck.rear_wheels ? ", with the rear at the height as measured" : "");
  if (proof.certificate == Certificate::none)
    return "Nothing is proved of a linkage that cannot be computed.";
  if (proof.rests_on_bushes)
    return "Nothing is proved of a truck that bushes hold: each pose is a place of rest, a minimum "
           "of the "
           "energy in the bushes, and followed step by step from as measured.";
  const std::string proved = proved_text(proof, truck, words);
  if (proof.certificate == Certificate::proved)
    return fmt::format("Proved {}: {}. {}", proved, kMeans, rest);
  std::string text = "Not proved for the whole range: " +
                     fmt::format("{}. ", fmt::join(stops(proof, words), "; "));
  if (proved.empty()) return text + "Poses are followed step by step.";
  return text + fmt::format("Proved {}: {}. {}", proved, kMeans, rest);
}

}  // namespace

Json json_of(const RangeProof& proof, const Truck& truck, const Words& words) {
  Json j{{"certificate", word_for(proof.certificate)},
         {"steps", proof.steps},
         {"smallest_radius_mm", to_mm(proof.smallest_radius)},
         {"largest_h", proof.largest_h}};
  j["parts"] = Json::array();
  for (const ProofPart& part : proof.parts) j["parts"].push_back(json_of(part, words));
  j["text"] = text_of(proof, truck, words);
  return j;
}

}  // namespace axlewright
