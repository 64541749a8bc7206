#include "engine/mechanism/kinematics.h"

namespace axlewright {

template void update_kinematics<double>(const System&, const Design&, const State&, Kinematics&,
                                        bool);
template void move<double>(const System&, const double*, State&);

bool is_rotary(const System& system, int coordinate) {
  for (const TreeJoint& tree : system.tree) {
    const int k = coordinate - tree.first;
    if (k < 0 || k >= tree.count) continue;
    switch (tree.kind) {
      case TreeKind::weld:
      case TreeKind::slide:
        return false;
      case TreeKind::pin:
      case TreeKind::ball:
        return true;
      case TreeKind::free:
        return k < 3;
    }
  }
  return false;
}

}  // namespace axlewright
