#pragma once

#include <string>
#include <vector>

#include "engine/ask/ask.h"
#include "engine/ask/words.h"

namespace axlewright {

/// A question about one pose of one truck, taken apart as far as all such questions are alike.
struct PosedQuestion {
  Rig rig;
  Words words;
  PoseRequest request;
};

/// Opens the truck of a question that has `file`, the inputs of a pose and `more` keys of its own. Faults of the question first, then those of
/// the file, then a way to steer that the truck does not have.
Result<PosedQuestion> posed_question(const Json& question, const std::vector<std::string>& more,
                                     const AskContext& context);

/// The inputs of a pose, asked of a rig that is there already. Keys that are no inputs are not looked at.
Result<PoseRequest> pose_for(const Rig& rig, const Json& question);

}  // namespace axlewright
