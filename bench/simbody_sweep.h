#pragma once

#include <memory>
#include <vector>

#include "tests/oracle/simbody_oracle.h"

// The height sweep as Simbody does it best: a tree of weld, pin, slider and ball mobilizers, the axle's height and lean as
// coordinates of the tree, constraints for the rest only; built once, each pose started from the one before.

namespace axlewright::oracle {

enum class Mobilizer { weld, pin, slider, ball, axle };

/// How a body hangs on another in the tree. Parents before children.
///   pin, slider, ball  at `place`; the pin about, the slider along `axis`
///   axle               on the frame at `place`: height given, sideways, fore-aft and yaw loose, lean zero, pitch loose
struct Hung {
  Mobilizer kind = Mobilizer::weld;
  int parent = 0;
  Triple place{};
  Triple axis{};
};

/// How a pose is asked of Simbody.
///   extrapolate  start from the last two poses instead of from the last
///   accuracy     of constraints
struct SweepCall {
  bool extrapolate = false;
  double accuracy = 1e-10;
};

class SimbodySweep {
 public:
  /// `constraints.bodies` bodies, one Hung each.
  SimbodySweep(const Problem& constraints, const std::vector<Hung>& tree);
  ~SimbodySweep();

  /// Back to as measured.
  void restart();

  /// The pose with the axle this much lower in the frame [m], started from the one before. False if none was found.
  bool go_to(double lower, const SweepCall& call);
  Placement placement(int body) const;

 private:
  struct Model;
  std::unique_ptr<Model> model_;
};

}  // namespace axlewright::oracle
