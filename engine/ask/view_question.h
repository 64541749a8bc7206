#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/ask/json.h"
#include "engine/base/result.h"
#include "engine/sheet/view.h"

// What a screen asks for, taken apart.

namespace axlewright {

/// One view of the question.
///   swept   points whose way over the heights is drawn
///   beside  height at which the same truck is drawn faintly [m]
struct AskedView {
  ViewPlan plan;
  std::vector<std::string> swept;
  std::optional<double> beside;
};

/// The list under `views`; empty where the key is absent. Faults name the entry and its key.
Result<std::vector<AskedView>> views_in(const Json& question);

/// A loose motion to be carried out: its name as `check` tells it and the angle [rad].
struct AskedMotion {
  std::string name;
  double angle = 0;
};
Result<std::optional<AskedMotion>> motion_in(const Json& question);

}  // namespace axlewright
