#pragma once

#include <Simbody.h>

#include "tests/oracle/simbody_oracle.h"

// The oracle's plain numbers as Simbody's types, and back. For sources that show Simbody alone.

namespace axlewright::oracle {

inline SimTK::Vec3 vec(const Triple& v) {
  return SimTK::Vec3(v[0], v[1], v[2]);
}

inline Triple triple(const SimTK::Vec3& v) {
  return {v[0], v[1], v[2]};
}

inline SimTK::UnitVec3 unit(const Triple& v) {
  return SimTK::UnitVec3(vec(v));
}

inline SimTK::Transform transform(const Placement& placement) {
  const auto& r = placement.R;
  const SimTK::Mat33 matrix(r[0], r[1], r[2], r[3], r[4], r[5], r[6], r[7], r[8]);
  return SimTK::Transform(SimTK::Rotation(matrix), vec(placement.t));
}

inline Placement placement_of(const SimTK::Transform& X) {
  Placement placement;
  for (int row = 0; row < 3; ++row) {
    for (int column = 0; column < 3; ++column) {
      placement.R[static_cast<std::size_t>(3 * row + column)] = X.R().row(row)[column];
    }
    placement.t[static_cast<std::size_t>(row)] = X.p()[row];
  }
  return placement;
}

}  // namespace axlewright::oracle
