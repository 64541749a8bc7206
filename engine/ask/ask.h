#pragma once

#include "engine/ask/json.h"
#include "engine/base/pieces.h"
#include "engine/base/progress.h"
#include "engine/base/result.h"
#include "engine/truck/read.h"

namespace axlewright {

/// What a question may do while it is being answered.
///   text_of    hands out files
///   progress   share done, 0 to 1; false cancels: the answer is then a fault
///   for_each   runs what can be done in pieces, several at once if it likes: the answer is the same
struct AskContext {
  TextOf text_of;
  Progress progress;
  ForEach for_each = one_by_one;
};

/// Answers one question. `question["ask"]` is one of
///   check    {file}                     what is held, loose, near bind; `expand: true` adds bodies and joints
///   pose     {file, inputs}             everything about one pose
///   sweep    {file, heights, quantity}  raise it: rows, worst places, limits, points that matter
///   compare  {files, heights}           the same sweep side by side
///   setup    {file, height_mm}          lengths that centre steering wheel and axle
/// with `set` (list of settings) and `units` ("mm" or "inch": for the sentences only; numbers are mm, deg, N).
/// Answers carry their unit in each key; api/README.md describes them. What was wrong with the question or the files comes back
/// as faults; a pose that cannot be had is a finding inside the answer.
Result<Json> ask(const Json& question, const AskContext& context);

}  // namespace axlewright
