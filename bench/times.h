#pragma once

#include <vector>

namespace axlewright {

/// Processor time of this thread alone [s], so that what else the machine does is not counted.
double thread_seconds();

/// Times of the same work done several times over, in any one unit; at least one.
class Times {
 public:
  explicit Times(std::vector<double> times);

  /// The least time that a share of them does not exceed, 0 to 1.
  double share(double part) const;
  double median() const { return share(0.5); }

 private:
  std::vector<double> sorted_;
};

}  // namespace axlewright
