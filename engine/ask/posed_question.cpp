#include "engine/ask/posed_question.h"

#include <utility>

#include "engine/ask/open.h"
#include "engine/ask/question.h"

namespace axlewright {
namespace {

/// A fault where the request steers by what the truck does not have.
std::vector<Fault> steering_faults(const Rig& rig, const PoseRequest& request) {
  const bool asks_for_wheel =
      request.steer_by == SteerBy::steering_wheel || request.steer_by == SteerBy::pitman;
  if (!asks_for_wheel || rig.expansion().pitman_turn.value >= 0) return {};
  return fail("this truck has no pitman arm, so neither steering wheel nor pitman angle can be set",
              "use `road_wheels_deg`, or add a part of kind \"pitman arm\"")
      .value();
}

}  // namespace

Result<PosedQuestion> posed_question(const Json& question, const std::vector<std::string>& more,
                                     const AskContext& context) {
  std::vector<std::string> keys = pose_keys();
  keys.emplace_back("file");
  keys.insert(keys.end(), more.begin(), more.end());
  if (auto faults = unknown_keys(question, keys); !faults.empty())
    return tl::unexpected(std::move(faults));
  const Result<std::string> file = text_in(question, "file", "");
  if (!file) return tl::unexpected(file.error());
  const Result<PoseRequest> request = pose_in(question);
  if (!request) return tl::unexpected(request.error());
  Result<Truck> truck = open_truck(question, *file, context);
  if (!truck) return tl::unexpected(std::move(truck.error()));
  const Result<Words> words = words_for(question, *truck);
  if (!words) return tl::unexpected(words.error());
  PosedQuestion posed{Rig(std::move(*truck)), *words, *request};
  if (auto faults = steering_faults(posed.rig, posed.request); !faults.empty())
    return tl::unexpected(std::move(faults));
  return posed;
}

Result<PoseRequest> pose_for(const Rig& rig, const Json& question) {
  Result<PoseRequest> request = pose_in(question);
  if (!request) return request;
  if (auto faults = steering_faults(rig, *request); !faults.empty())
    return tl::unexpected(std::move(faults));
  return request;
}

}  // namespace axlewright
