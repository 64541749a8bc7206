#pragma once

#include "engine/ask/ask.h"

namespace axlewright {

/// `view`: what a screen shows at once: a pose, its drawings, quantities over the heights.
Result<Json> answer_view(const Json& question, const AskContext& context);

}  // namespace axlewright
