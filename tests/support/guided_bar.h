#pragma once

#include "engine/mechanism/mechanism.h"
#include "engine/solve/follower.h"

// One guided bar alone, with the errors of the kinematics references, section 1.3, in its own view: `across` along the guide
// (frame y, towards the guide end positive), `above` square to it (frame z), the half-link's pivot at the origin.

namespace axlewright::testing {

struct GuidedBarShape {
  double half_link = 0.450;     ///< r
  double guide_to_pin = 0.450;  ///< a
  double pin_to_end = 0.450;    ///< b
  double guide_above = 0;       ///< s, of the guide's line above the pivot
  double pin_off = 0;           ///< c, of the middle pin square to the through-link
  double guide_tilt_deg = 0;    ///< of the guide about the pivot, its end upwards
};

/// The mechanism of one guided bar, drawn with its through-link at 4 deg.
struct GuidedBarParts {
  Mechanism mechanism;
  AnchorId near_end{}, guide_end{};
  InputId above{}, ahead{};
};
GuidedBarParts guided_bar_parts(const GuidedBarShape& shape);

class GuidedBarAlone {
 public:
  explicit GuidedBarAlone(const GuidedBarShape& shape);

  /// Place of the near end with it `above` the pivot and `ahead` of its plane; (ahead, across, above) [m].
  Vec3 near_end(double above, double ahead = 0);
  /// Place of the guide end along the guide after near_end() [m].
  double guide_end_across() const;
  const PathFollower& follower() const { return follower_; }

 private:
  Vec3 place(AnchorId id) const;

  GuidedBarParts parts_;
  PathFollower follower_;
};

}  // namespace axlewright::testing
