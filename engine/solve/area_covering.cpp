#include "engine/solve/area_covering.h"

#include <algorithm>
#include <utility>

namespace axlewright {
namespace {

constexpr double kWidth =
    0.45;  // share of a ball's room that the half-width of a strip takes where it starts
constexpr int kMostHalvings = 8;     // of a strip's width: what needs slimmer ones is about to end
constexpr double kLeastHalf = 1e-5;  // share of the area
constexpr int kMostSteps =
    100000;  // of all strips: twice what a guided front end takes, about a second

class AreaProof {
 public:
  AreaProof(BranchProof spine, const InputArea& area, const Progress& progress)
      : area_(area), progress_(progress), spine_(std::move(spine)) {
    spine_.recount();
  }

  AreaCovering run() {
    done_.complete = go_to(0) && cover();
    return std::move(done_);
  }

 private:
  std::vector<double> at(double a, double b) const {
    std::vector<double> inputs = area_.origin;
    for (std::size_t k = 0; k < inputs.size(); ++k)
      inputs[k] += a * area_.along[k] + b * area_.across[k];
    return inputs;
  }

  bool cover() {
    double edge = 0;
    while (edge < 1) {
      if (progress_ && !progress_(edge)) {
        done_.cancelled = true;
        return stop("it was stopped", area_.spine, edge);
      }
      const double half =
          std::min(kWidth * spine_.share_covered_here(area_.across), 0.5 * (1 - edge));
      if (half < kLeastHalf)
        return stop("the steps of the proof become too short", area_.spine, edge);
      if (!go_to(edge + half) || !strip_to(0, area_.spine, edge + half, half, spine_) ||
          !strip_to(1, area_.spine, edge + half, half, spine_))
        return false;
      // The last strip ends at the area's edge itself.
      edge = half >= 0.5 * (1 - edge) ? 1 : edge + 2 * half;
      if (!go_to(edge)) return false;
    }
    return true;
  }

  /// From a proof that stands in the middle of the strip's width, at `start`, to `end`. Where it is too wide, on in two halves.
  bool strip_to(double end, double start, double b, double half, BranchProof proof,
                int halvings = 0) {
    if (end == start) return true;
    if (done_.steps > kMostSteps) return stop("the proof would take too many steps", start, b);
    std::vector<double> half_width(area_.across);
    for (double& way : half_width) way *= half;
    proof.recount();
    const Covering strip = proof.extend_strip_to(at(end, b), half_width);
    count(strip);
    if (strip.complete) {
      ++done_.strips;
      return true;
    }
    const double here = start + strip.reached * (end - start);
    if (!strip.stopped_by.empty()) return stop(strip.stopped_by, here, b);
    if (halvings == kMostHalvings) return too_slim(end, here, b, proof);
    for (const double side : {-0.5, 0.5}) {
      BranchProof of_half = proof;
      of_half.recount();
      const double b_half = b + side * half;
      const Covering& leg = of_half.extend_to(at(here, b_half));
      count(leg);
      if (!leg.complete) return stop(leg.stopped_by, here, b_half);
      if (!strip_to(end, here, b_half, half / 2, std::move(of_half), halvings + 1)) return false;
    }
    return true;
  }

  /// Something is about to end near there: lines on and to both sides find out what, if it lies on them.
  bool too_slim(double end, double here, double b, const BranchProof& proof) {
    struct Place {
      double a, b;
    };
    for (const Place& to : {Place{end, b}, Place{here, 0}, Place{here, 1}}) {
      BranchProof line = proof;
      line.recount();
      const Covering& way = line.extend_to(at(to.a, to.b));
      count(way);
      if (!way.complete)
        return stop(way.stopped_by, here + way.reached * (to.a - here),
                    b + way.reached * (to.b - b));
    }
    return stop("the steps of the proof become too short", here, b);
  }

  /// Takes the spine on.
  bool go_to(double b) {
    spine_.recount();
    const Covering& leg = spine_.extend_to(at(area_.spine, b));
    count(leg);
    return leg.complete || stop(leg.stopped_by, area_.spine, b);
  }

  void count(const Covering& covering) {
    done_.steps += covering.steps;
    done_.largest_h = std::max(done_.largest_h, covering.largest_h);
    if (covering.smallest_radius == 0) return;  // no ball
    if (done_.smallest_radius == 0 || covering.smallest_radius < done_.smallest_radius)
      done_.smallest_radius = covering.smallest_radius;
  }

  bool stop(std::string why, double a, double b) {
    done_.stopped_by = std::move(why);
    done_.stopped_along = a;
    done_.stopped_across = b;
    return false;
  }

  const InputArea& area_;
  const Progress& progress_;
  BranchProof spine_;
  AreaCovering done_;
};

}  // namespace

AreaCovering cover_area(BranchProof from, const InputArea& area, const Progress& progress) {
  return AreaProof(std::move(from), area, progress).run();
}

}  // namespace axlewright
