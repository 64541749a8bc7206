#pragma once

#include <string>
#include <vector>

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

/// How a question wants a truck raised.
struct AskedRaise {
  int heights = 11;
  double rear_height = 0;  ///< [m]
  bool rear_with_front = false;
};

/// The keys that tell it, and what they say.
const std::vector<std::string>& raise_keys();
Result<AskedRaise> raise_in(const Json& question);

/// Opens a file for a sweep, which is then still to be made.
Result<AskedSweep> open_sweep(const Json& question, const std::string& file,
                              const AskContext& context);

/// Makes it. False if it was cancelled.
bool run_asked_sweep(AskedSweep& asked, const AskedRaise& raise, const Progress& progress,
                     const ForEach& for_each);

/// What is told of a question that was cancelled.
std::vector<Fault> stopped();

/// Everything about a sweep but the points that matter.
Json json_of(const Json& question, const AskedSweep& asked);

}  // namespace axlewright
