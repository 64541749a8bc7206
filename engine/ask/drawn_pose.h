#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/ask/ask.h"
#include "engine/ask/view_question.h"
#include "engine/ask/words.h"
#include "engine/sheet/view.h"

namespace axlewright {

/// A truck at the pose that a question asks for, or where the way to it ends, ready to be drawn.
class DrawnPose {
 public:
  /// Both must outlive this.
  DrawnPose(Rig& rig, const Words& words) : rig_(rig), words_(words) {}

  /// Goes to the pose, and carries out a loose motion there. Tells the answer `request`, `report`, `values`, `drawn`, `drawn_text`,
  /// `complete`, and in its story why the pose cannot be had. Faults if the motion cannot be carried out.
  std::vector<Fault> go_to(const PoseRequest& request, const std::optional<AskedMotion>& motion,
                           Json& answer);

  /// Where every point is.
  Json points() const;

  /// What a drawing of it shows: ways of points over the heights, and the truck at another height, going straight (left out where
  /// there is no such pose). Faults name a point that the truck does not have. Leaves the rig elsewhere.
  Result<DrawnTruck> drawn(const std::vector<std::string>& swept, std::optional<double> beside);

 private:
  std::vector<Fault> carry_out_motion(const AskedMotion& asked);
  std::optional<Stance> stance_beside(double height);
  const std::vector<std::vector<Pose>>& poses_over_heights();

  Rig& rig_;
  const Words& words_;
  PoseResult drawn_;
  Stance now_;
  std::vector<std::vector<Pose>> over_heights_;
};

/// Why the truck is not drawn beside, in a sentence.
std::string no_pose_beside(double height, const Words& words);

/// The height number k of so many, evenly over the truck's range, bottom to top [m].
double height_of_range(const Truck& truck, int k, int count);

}  // namespace axlewright
