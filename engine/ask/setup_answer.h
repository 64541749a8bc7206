#pragma once

#include "engine/ask/ask.h"

namespace axlewright {

/// `setup`: the lengths that centre steering wheel and axle at a height, and what they do at the others.
Result<Json> answer_setup(const Json& question, const AskContext& context);

}  // namespace axlewright
