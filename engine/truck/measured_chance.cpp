#include "engine/truck/measured_chance.h"

#include "engine/base/chi_square.h"

namespace axlewright {

namespace {

struct Largest {
  double normal = 0;
  int count = 0;

  void consider(const Vector& normals, const Vector& checked) {
    for (int k = 0; k < normals.size(); ++k) {
      if (checked[k] == 0) continue;
      ++count;
      normal = std::max(normal, std::abs(normals[k]));
    }
  }
};

}  // namespace

Chances chances_of(const Fit& fit) {
  Chances chances;
  if (fit.redundancy < 1) return chances;
  chances.of_sum = chi_square_above(fit.redundancy, fit.chi_square);
  Largest largest;
  largest.consider(fit.measured_normal, fit.measured_checked);
  largest.consider(fit.reading_normal, fit.reading_checked);
  if (largest.count > 0) {
    chances.of_largest =
        chance_of_largest(chi_square_above(1, largest.normal * largest.normal), largest.count);
  }
  return chances;
}

}  // namespace axlewright
