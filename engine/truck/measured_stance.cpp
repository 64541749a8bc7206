#include "engine/truck/measured_stance.h"

#include <algorithm>
#include <cmath>

#include "engine/base/invariant.h"

namespace axlewright {

namespace {

Vec3 mean_of(const std::vector<Vec3>& places) {
  Vec3 sum = Vec3::Zero();
  for (const Vec3& place : places) sum += place;
  return sum / static_cast<double>(places.size());
}

}  // namespace

MeasuredStance start_stance(const Measured& measured, const std::vector<Vec3>& holes_measured,
                            double lean, double rake) {
  MeasuredStance stance;
  stance.lean = lean;
  stance.rake = rake;
  if (measured.axes == MeasuringAxes::road) stance.pivot.z() = measured.plumbed_at;
  if (measured.axes != MeasuringAxes::gauge_holes) return stance;
  AXLEWRIGHT_INVARIANT(holes_measured.size() == measured.holes.size() &&
                       holes_measured.size() >= 2);
  std::vector<Vec3> known;
  for (const GaugeHole& hole : measured.holes) known.push_back(hole.known);
  const Vec3 there = mean_of(holes_measured), here = mean_of(known);
  // Each hole turns the mean heading as far as it is off the middle.
  double along = 0, across = 0;
  for (std::size_t k = 0; k < known.size(); ++k) {
    const Vec3 from = stance.on_road(known[k] - here), to = holes_measured[k] - there;
    along += from.x() * to.x() + from.y() * to.y();
    across += from.x() * to.y() - from.y() * to.x();
  }
  stance.yaw = std::atan2(across, along);
  stance.shift = Vec3::Zero();
  stance.shift = there - stance.measured_place(here);
  return stance;
}

ToldByHoles told_by(const std::vector<GaugeHole>& holes) {
  ToldByHoles told;
  if (holes.size() < 2) return told;
  // The two farthest apart, and how far the others stand off their line.
  Vec3 line = Vec3::Zero(), from = Vec3::Zero();
  for (const GaugeHole& a : holes) {
    for (const GaugeHole& b : holes) {
      if ((b.known - a.known).norm() <= line.norm()) continue;
      line = b.known - a.known;
      from = a.known;
    }
  }
  constexpr double kOffLine = 0.1;  // [m] below this a third hole tells no tilt that a tape could
  double off = 0;
  for (const GaugeHole& hole : holes)
    off = std::max(off, cross(line, Vec3(hole.known - from)).norm() / line.norm());
  const bool across = std::abs(line.y()) >= std::abs(line.x());
  told.lean = across || off > kOffLine;
  told.rake = !across || off > kOffLine;
  return told;
}

}  // namespace axlewright
