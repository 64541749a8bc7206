#include "engine/study/proof.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/base/index.h"
#include "engine/solve/area_covering.h"
#include "engine/study/lock.h"
#include "engine/study/sweep.h"
#include "engine/truck/gear.h"

namespace axlewright {
namespace {

constexpr double kNoTravel = 1e-12;  // [m]

class RangeProver {
 public:
  RangeProver(Rig& rig, const Progress& progress)
      : rig_(rig),
        progress_(progress),
        low_(rig.truck().height_range[0]),
        high_(rig.truck().height_range[1]) {
    lowest_ = low_ - travel_range(rig.truck(), low_).bump;
    highest_ = high_ + travel_range(rig.truck(), high_).droop;
  }

  RangeProof run() {
    if (!rig_.aligned_report().usable()) return {};
    if (!rig_.held().assembly().bushes.empty()) {
      proof_.certificate = Certificate::followed;
      proof_.rests_on_bushes = true;
      return std::move(proof_);
    }
    proof_.holds_loose_parts = !rig_.rolling().assembly().loose.empty();
    prove_area(ProofPart::Of::straight_ahead, SteerBy::straight_ahead, rig_.rolling());
    if (rig_.expansion().pitman_turn.value >= 0 && !proof_.cancelled) {
      prove_area(ProofPart::Of::held, SteerBy::held, rig_.held());
      prove_steering(low_);
      if (high_ > low_) {
        prove_steering(0.5 * (low_ + high_));
        prove_steering(high_);
      }
    }
    const bool all = std::all_of(proof_.parts.begin(), proof_.parts.end(),
                                 [](const ProofPart& part) { return part.complete; });
    proof_.certificate = all ? Certificate::proved : Certificate::followed;
    rig_.restart();
    return std::move(proof_);
  }

 private:
  /// A pose with that height - travel: with as little travel as can be.
  PoseRequest at(double rise, double lean, SteerBy steer_by) const {
    PoseRequest request;
    request.height = std::clamp(rise, low_, high_);
    // What is left of rounding is no travel.
    const double travel = request.height - rise;
    request.travel = std::abs(travel) > kNoTravel ? travel : 0;
    request.lean = lean;
    request.steer_by = steer_by;
    return request;
  }

  void prove_area(ProofPart::Of of, SteerBy steer_by, const PathFollower& follower) {
    ProofPart part;
    part.of = of;
    BranchProof start(follower.assembly());
    // First the line without lean: where that ends, everything does, and it tells so best.
    const double nearest = std::clamp(0.0, lowest_, highest_);
    part.complete = prove_line(start, at(nearest, 0, steer_by), part);
    for (const double end : {lowest_, highest_}) {
      BranchProof line = start;
      line.recount();
      part.complete = part.complete && prove_line(line, at(end, 0, steer_by), part);
    }
    if (part.complete) prove_area_from(start, steer_by, part);
    proof_.parts.push_back(std::move(part));
  }

  void prove_area_from(const BranchProof& start, SteerBy steer_by, ProofPart& part) {
    const double lean = rig_.truck().lean;
    const double rises = highest_ - lowest_;
    InputArea area;
    area.origin = rig_.inputs_for(at(lowest_, -lean, steer_by));
    area.along = difference(rig_.inputs_for(at(highest_, -lean, steer_by)), area.origin);
    area.across = difference(rig_.inputs_for(at(lowest_, lean, steer_by)), area.origin);
    area.spine = rises > 0 ? std::clamp(-lowest_ / rises, 0.0, 1.0) : 0;
    // The two areas take nearly all of the time.
    const double before = part.of == ProofPart::Of::held ? 0.5 : 0;
    const AreaCovering covering = cover_area(
        start, area, [&](double share) { return !progress_ || progress_(before + 0.5 * share); });
    proof_.cancelled = covering.cancelled;
    count(covering.steps, covering.smallest_radius, covering.largest_h);
    part.complete = covering.complete;
    if (part.complete) return;
    // The area is straight in sin(lean).
    const double leant = std::asin((2 * covering.stopped_across - 1) * std::sin(lean));
    part.stopped_at = at(lowest_ + covering.stopped_along * rises, leant, steer_by);
    part.stopped_by = covering.stopped_by;
  }

  void prove_steering(double height) {
    PoseRequest request = at(height, 0, SteerBy::held);
    const Lock lock = find_lock(rig_, request);
    ProofPart part;
    part.of = ProofPart::Of::steering;
    part.height = height;
    BranchProof start(rig_.held().assembly());
    part.complete = prove_line(start, request, part);
    for (const double stop : {lock.left.asked, lock.right.asked}) {
      request.steer_by = SteerBy::steering_wheel;
      request.steer = stop;
      BranchProof line = start;
      line.recount();
      part.complete = part.complete && prove_line(line, request, part);
    }
    proof_.parts.push_back(std::move(part));
  }

  /// Takes a proof on to a pose. Where it stops, the part tells.
  bool prove_line(BranchProof& proof, const PoseRequest& to, ProofPart& part) {
    const std::vector<double> from = proof.place().inputs();
    const Covering& line = proof.extend_to(rig_.inputs_for(to));
    count(line.steps, line.smallest_radius, line.largest_h);
    if (line.complete) return true;
    part.stopped_at = reached_on_the_way(from, to, line.reached);
    part.stopped_by = line.stopped_by;
    return false;
  }

  /// A line to a pose in the terms of that pose: its height and travel, or its steering if that is what changes.
  PoseRequest reached_on_the_way(const std::vector<double>& from, const PoseRequest& to,
                                 double share) const {
    const Expansion& x = rig_.expansion();
    const std::vector<double> end = rig_.inputs_for(to);
    const auto reached = [&](int input) {
      return from[index(input)] + share * (end[index(input)] - from[index(input)]);
    };
    const std::vector<double>& measured = rig_.held().as_measured_inputs();
    const double rise =
        -0.5 * (reached(x.height.left.value) - measured[index(x.height.left.value)] +
                reached(x.height.right.value) - measured[index(x.height.right.value)]);
    PoseRequest request = at(rise, 0, to.steer_by);
    if (to.steer_by == SteerBy::steering_wheel)
      request.steer = wheel_for_pitman(rig_.truck().gear, reached(x.pitman_turn.value));
    return request;
  }

  static std::vector<double> difference(std::vector<double> to, const std::vector<double>& from) {
    for (std::size_t k = 0; k < to.size(); ++k) to[k] -= from[k];
    return to;
  }

  void count(int steps, double smallest_radius, double largest_h) {
    proof_.steps += steps;
    proof_.largest_h = std::max(proof_.largest_h, largest_h);
    if (smallest_radius > 0 &&
        (proof_.smallest_radius == 0 || smallest_radius < proof_.smallest_radius))
      proof_.smallest_radius = smallest_radius;
  }

  Rig& rig_;
  const Progress& progress_;
  double low_, high_;        ///< heights of the file
  double lowest_, highest_;  ///< height - travel
  RangeProof proof_;
};

}  // namespace

RangeProof prove_range(Rig& rig, const Progress& progress) {
  return RangeProver(rig, progress).run();
}

}  // namespace axlewright
