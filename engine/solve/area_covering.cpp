#include "engine/solve/area_covering.h"

#include <algorithm>
#include <utility>

namespace axlewright {
namespace {

constexpr double kWidth = 0.45;  // share of a ball's room that the half-width of a strip takes where it starts
constexpr double kSlimmest = 1.0 / 64;  // of the width tried first: what needs slimmer strips is about to end
constexpr int kMostSteps = 200000;

class AreaProof {
 public:
  AreaProof(BranchProof spine, const InputArea& area) : area_(area), spine_(std::move(spine)) {
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
      const double widest = widest_half_width();
      double half = std::min(widest, 0.5 * (1 - edge));
      while (!strip_about(edge, half)) {
        half /= 2;
        if (half < kSlimmest * widest) return false;
      }
      // The last strip ends at the area's edge itself.
      edge = half >= 0.5 * (1 - edge) ? 1 : edge + 2 * half;
      if (!go_to(edge)) return false;
      ++done_.strips;
      done_.stopped_by.clear();
      if (done_.steps > kMostSteps)
        return stop("it would take too many steps", area_.spine, edge);
    }
    return true;
  }

  double widest_half_width() {
    return kWidth * spine_.share_covered_here(area_.across);
  }

  bool strip_about(double edge, double half) {
    BranchProof middle = spine_;
    middle.recount();
    const double b = edge + half;
    const Covering& reached = middle.extend_to(at(area_.spine, b));
    count(reached);
    if (!reached.complete)
      return stop(reached.stopped_by, area_.spine, edge + reached.reached * half);
    return strip_to(0, middle, b, half) && strip_to(1, middle, b, half);
  }

  bool strip_to(double end, const BranchProof& middle, double b, double half) {
    if (end == area_.spine) return true;
    BranchProof proof = middle;
    proof.recount();
    std::vector<double> half_width(area_.across);
    for (double& way : half_width) way *= half;
    const Covering& strip = proof.extend_strip_to(at(end, b), half_width);
    count(strip);
    if (strip.complete) return true;
    return stop(strip.stopped_by, area_.spine + strip.reached * (end - area_.spine), b);
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
    if (!covering.complete) return;
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
  BranchProof spine_;
  AreaCovering done_;
};

}  // namespace

AreaCovering cover_area(BranchProof from, const InputArea& area) {
  return AreaProof(std::move(from), area).run();
}

}  // namespace axlewright
