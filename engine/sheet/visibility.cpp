#include "engine/sheet/visibility.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace axlewright {
namespace {

constexpr double kInFront = 2e-3;  // [m] nearer by less is at the same depth
constexpr double kSample = 0.02;   // [m] along an edge
constexpr int kFewestSamples = 6;
constexpr int kMostSamples = 160;
constexpr int kHalvings = 7;

double length_of(const Curve& curve) {
  return curve.is_arc ? curve.radius * std::abs(curve.to - curve.from) : (curve.b - curve.a).norm();
}

/// The silhouettes whose boxes the curve may enter.
std::vector<std::size_t> near_to(const Curve& curve, std::size_t own,
                                 const std::vector<Silhouette>& silhouettes) {
  Vec2 low = curve.a.cwiseMin(curve.b), high = curve.a.cwiseMax(curve.b);
  if (curve.is_arc) {
    const Vec2 r(curve.radius, curve.radius);
    low = curve.centre - r;
    high = curve.centre + r;
  }
  std::vector<std::size_t> near;
  for (std::size_t k = 0; k < silhouettes.size(); ++k) {
    const Silhouette& s = silhouettes[k];
    if (k == own || s.adjacent || !s.covers_something) continue;
    const bool apart = s.region.low.x() > high.x() || s.region.low.y() > high.y() ||
                       s.region.high.x() < low.x() || s.region.high.y() < low.y();
    if (!apart) near.push_back(k);
  }
  return near;
}

}  // namespace

std::vector<Stretch> stretches_of(const Curve& curve, std::size_t own,
                                  const std::vector<Silhouette>& silhouettes) {
  const std::vector<std::size_t> near = near_to(curve, own, silhouettes);
  if (near.empty()) return {{0, 1, Seen::visible}};
  const auto seen_at = [&](double share) {
    const Vec2 p = curve.at(share);
    const double depth = curve.depth(share);
    Seen seen = Seen::visible;
    for (const std::size_t k : near) {
      const Silhouette& s = silhouettes[k];
      if (!s.region.covers(p)) continue;
      if (s.part == silhouettes[own].part) return Seen::merged;
      if (s.region.depth_at(p) > depth + kInFront) seen = Seen::hidden;
    }
    return seen;
  };
  // A hair more: lengths are often whole multiples of the sample, give or take rounding.
  const int samples =
      std::clamp(static_cast<int>(length_of(curve) / kSample + 1e-6), kFewestSamples, kMostSamples);
  std::vector<Stretch> stretches;
  Seen present = seen_at(0.5 / samples);
  double from = 0;
  for (int k = 1; k < samples; ++k) {
    const double here = (k + 0.5) / samples;
    const Seen seen = seen_at(here);
    if (seen == present) continue;
    double before = (k - 0.5) / samples, after = here;
    for (int halving = 0; halving < kHalvings; ++halving) {
      const double middle = 0.5 * (before + after);
      (seen_at(middle) == present ? before : after) = middle;
    }
    stretches.push_back({from, after, present});
    from = after;
    present = seen;
  }
  stretches.push_back({from, 1, present});
  return stretches;
}

}  // namespace axlewright
