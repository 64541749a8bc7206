#pragma once

#include "engine/ask/ask.h"

namespace axlewright {

/// `compare`: the same sweep of two or more trucks, side by side, and which is better at what.
Result<Json> answer_compare(const Json& question, const AskContext& context);

}  // namespace axlewright
