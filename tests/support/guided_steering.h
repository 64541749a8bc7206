#pragma once

#include <optional>

#include "engine/base/vec.h"
#include "engine/mechanism/mechanism.h"
#include "engine/truck/truck.h"

// Guided steering on an axle that stands still, which is the frame here: base geometry of the first-hour checks (see
// straight_axle.h), near end straight above the half-link's pivot, that pivot on the middle of the tie-rod balls' line.

namespace axlewright::testing {

/// How the guide end meets its guide: as in a truck file, or as a body that slides and turns.
enum class GuideEnd { point, slide, slide_that_turns };

struct GuidedSteeringShape {
  double drop = 0.270;  ///< near end above the half-link's pivot [m]
  double kpi_deg = 9;
  double caster_deg = 5;
  double balls_outboard = 0;  ///< tie-rod balls outboard of the kingpin lines [m]
  double guide_toed_deg = 0;  ///< guide turned in plan
  HalfLink half_link = HalfLink::ball_body;
  GuideEnd guide_end = GuideEnd::slide;
  std::optional<double> rod_kept_at_deg =
      {};  ///< the tie rod's turn about its own line, kept against the axle
};

struct GuidedSteering {
  Mechanism mechanism;
  InputId pitman{};  ///< positive to the right: about up, and the arm points rear
  PerSide<AxisId> stub;
};

GuidedSteering guided_steering(const GuidedSteeringShape& shape);

}  // namespace axlewright::testing
