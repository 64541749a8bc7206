#pragma once

#include "engine/ask/ask.h"

namespace axlewright {

/// `check`: what is held, what is loose, how near it is to binding.
Result<Json> answer_check(const Json& question, const AskContext& context);

}  // namespace axlewright
