#pragma once

#include <string>

#include "engine/ask/ask.h"

namespace axlewright {

/// The answer to a question, text to text: JSON as api/README.md describes it, or {"faults": [...]} where the question cannot
/// be answered. Never throws: text that is no JSON, memory that runs out and a mistake of ours (whose invariant handler
/// throws) are faults too, and the next question is answered as if nothing had been.
std::string reply(const std::string& question, const AskContext& context);

}  // namespace axlewright
