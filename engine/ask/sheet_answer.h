#pragma once

#include "engine/ask/ask.h"

namespace axlewright {

/// `sheet`: the shop sheet of a pose, as a drawing.
Result<Json> answer_sheet(const Json& question, const AskContext& context);

}  // namespace axlewright
