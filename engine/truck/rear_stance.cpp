#include "engine/truck/rear_stance.h"

#include <cmath>

namespace axlewright {

std::optional<double> rake_of_wheels(const Vec3& front, const Vec3& rear, double higher) {
  const Vec3 span = front - rear;
  const double length = std::hypot(span.x(), span.z());
  if (std::abs(higher) >= length) return std::nullopt;
  return std::asin(higher / length) - std::atan2(span.z(), span.x());
}

double heading_square_to(const Vec3& across) {
  return std::atan2(-across.x(), across.y());
}

}  // namespace axlewright
