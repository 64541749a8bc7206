#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/quantity/quantities.h"
#include "engine/solve/follower.h"
#include "engine/study/slope.h"
#include "engine/truck/truck.h"

// A truck set up to be asked: its mechanism assembled with the steering held and rolling, and its aligned height as the
// reference that off-centre and axle walk are told from.

namespace axlewright {

/// What the person sets to steer a pose (definition 5).
enum class SteerBy {
  straight_ahead,  ///< rolling: mean road-wheel steer as the truck travels: zero, the thrust angle, or as the rear axle heads
  held,            ///< the steering wheel stays at its aligned rolling angle
  steering_wheel,  ///< steering-wheel angle from the gear's centre [rad]
  pitman,          ///< sector-shaft angle [rad]
  road_wheels      ///< mean road-wheel steer [rad]
};

/// Inputs of a pose (definition 1), signs as there; [m, rad].
struct PoseRequest {
  double height = 0;
  double rear_height = 0;
  double travel = 0, travel_left = 0, travel_right = 0;
  double lean = 0;
  SteerBy steer_by = SteerBy::straight_ahead;
  double steer = 0;  ///< not looked at for straight_ahead and held
};

/// A solved pose with its quantities, or a report that says why there is none (then `values` is empty).
struct PoseResult {
  PoseRequest request;
  SolveReport report;
  std::vector<double> values;  ///< as list_quantities(); SI
  State state;
  std::vector<double> inputs;
  Vec3 road_place =
      Vec3::Zero();  ///< a point of the road (definition 2), frame axes [m]; solve() fills it
};

/// One direction in which a truck can be changed, and what it does to every quantity.
struct Influence {
  std::string name;        ///< point ("track_bar_axle") or bar
  std::string coordinate;  ///< "x", "y", "z" or "length"
  std::string on;          ///< build error: the body whose end is off; empty for a design move
  std::vector<double> per_metre;  ///< by quantity (SI); NaN where the pose does not have it
};

/// A truck set up to be asked. Keeps its place on the path, so poses that are near each other come quickest; one per
/// thread.
class Rig {
 public:
  explicit Rig(Truck truck);

  const Truck& truck() const { return truck_; }
  const Expansion& expansion() const { return x_; }
  const std::vector<QuantityInfo>& quantities() const { return infos_; }
  const PathFollower& held() const { return held_; }
  const PathFollower& rolling() const { return rolling_; }
  /// Steering-wheel angle, rolling, at the aligned height [rad].
  double aligned_wheel() const { return context_.aligned_wheel; }
  /// Whether the truck can be posed at all; else the report of the aligned pose says why not.
  const SolveReport& aligned_report() const { return aligned_report_; }

  /// Follows the path from as measured to the request's height, and from there to the rest; where that fails, with the steering
  /// first or last. So a pose does not hang on what was asked before, not by a digit: of a linkage that can be led round to another
  /// branch (a crossed tie rod may) each pose is always the same one.
  PoseResult solve(const PoseRequest& request);

  /// The last pose on the way to one that cannot be had: from as measured to its height, then on to the rest. `request` is where
  /// that is, a hair before the path ends. Not usable if the truck cannot be posed at all.
  PoseResult last_on_the_way_to(const PoseRequest& request);

  /// All quantities where the rig is now, for a pose that was solved and then moved on by a loose motion.
  std::vector<double> values_here(const PoseResult& pose);

  /// The same pose without its quantities (`values` empty).
  PoseResult solve_place(const PoseRequest& request);

  /// The follower that solved the last pose: its place, kinematics and multipliers.
  PathFollower& follower() { return follower_for(present_); }

  /// What each point and each length does at a pose. Design moves: the point moves as measured and the lengths follow, both
  /// sides of a mirrored point and what counts from either with it. Build errors: each end and each length alone. In the order of the truck; empty if there is no pose.
  /// What is told from the aligned height is told from that of the changed truck, and a wheel held is held as that one is aligned.
  std::vector<Influence> design_moves(const PoseRequest& request);
  std::vector<Influence> build_errors(const PoseRequest& request);

  /// d(quantity) for a spin or another loose motion of the mechanism, all inputs held: per radian of the spin.
  std::vector<double> motion_effect(const LooseMotion& motion);

  /// Absolute values of the mechanism's inputs for a request; heading and pitman both filled where known.
  std::vector<double> inputs_for(const PoseRequest& request) const;

  /// What the input `straight` of the expansion is going straight [rad].
  double straight_ahead() const { return x_.rear ? 0 : truck_.thrust_angle; }

  /// The aligned pose: at the heights at which the shop centres the steering wheel, going straight.
  PoseRequest aligned_request() const;

  /// Restarts all followers at the as-measured pose.
  void restart();

 private:
  struct Seed;
  /// A pose at a height with nothing else asked, and the inputs it was asked by; none yet where those are empty.
  struct HeightPlace {
    std::vector<double> wanted;
    State state;
  };
  PathFollower& follower_for(SteerBy by);
  HeightPlace& height_place_for(SteerBy by);
  bool place(const PoseRequest& request, SolveReport& report);
  /// The legs on which a pose is reached from as measured: its height, then the rest by a share of their way.
  SolveReport go_by_height(std::span<const PoseRequest> legs);
  PoseRequest height_alone(const PoseRequest& request) const;
  PoseRequest steering_alone(const PoseRequest& request) const;
  PoseRequest part_of(const PoseRequest& request, double share) const;
  void tell_dead_centre(SolveReport& report);
  QuantityContext context_at(const PoseRequest& request);
  SolvedPose solved_here(const QuantityContext& context);
  std::vector<Influence> influences(const PoseRequest& request, std::vector<Seed> seeds);
  Vec3 way_with(const Anchor& anchor, const Point& moved, int coordinate) const;
  std::vector<Seed> design_seeds() const;
  std::vector<Seed> build_seeds() const;

  Truck truck_;
  Expansion x_;
  std::vector<QuantityInfo> infos_;
  PathFollower held_, rolling_;
  HeightPlace held_height_, rolling_height_, road_wheels_height_;
  /// By the road wheels in the frame, where straight ahead is told against a rear axle; else `rolling_` does both.
  std::optional<PathFollower> road_wheels_;
  SteerBy present_ = SteerBy::straight_ahead;  ///< of the last pose asked for
  QuantityContext context_;
  SolveReport aligned_report_;
};

}  // namespace axlewright
