#pragma once

#include "engine/ask/ask.h"

namespace axlewright {

/// `edit`: settings written into the text of the files where their values stand.
Result<Json> answer_edit(const Json& question, const AskContext& context);

}  // namespace axlewright
