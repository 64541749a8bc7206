#pragma once

#include "engine/ask/ask.h"

namespace axlewright {

/// `pose`: everything about one pose.
Result<Json> answer_pose(const Json& question, const AskContext& context);

}  // namespace axlewright
