#pragma once

#include "engine/ask/ask.h"
#include "engine/ask/words.h"
#include "engine/study/sweep.h"

namespace axlewright {

/// `sweep`: raise it from bottom to top, over the whole grid.
Result<Json> answer_sweep(const Json& question, const AskContext& context);

/// A sweep made for a question, and what it was made with.
struct AskedSweep {
  Rig rig;
  Words words;
  Sweep sweep;
};

/// Opens a file and sweeps it over `heights` heights. Cancelled is a fault.
Result<AskedSweep> run_asked_sweep(const Json& question, const std::string& file, int heights,
                                   double rear_height, const AskContext& context);

/// Everything about a sweep but the points that matter.
Json json_of(const Json& question, const AskedSweep& asked);

/// How many heights a question asks for; 11 if it does not say.
Result<int> heights_in(const Json& question);

}  // namespace axlewright
