#pragma once

#include <vector>

#include "engine/mechanism/equations.h"
#include "engine/solve/dense.h"

namespace axlewright {

/// All residuals of a system, in the order of its equations.
Vector residuals(const System& system, const Design& design, const State& state,
                 const Kinematics& kin, const std::vector<double>& inputs);

/// The same as ways: angles of equations count at kAngleLength.
Vector scaled_residuals(const System& system, const Design& design, const State& state,
                        const Kinematics& kin, const std::vector<double>& inputs);

/// The Jacobian of all equations, scaled to compare: angles of equations and coordinates count as ways at
/// kAngleLength. Rows as equations, columns as tree coordinates.
Matrix scaled_jacobian(const System& system, const Design& design, const State& state,
                       const Kinematics& kin, const std::vector<double>& inputs);

/// What a coordinate is multiplied by to become a way [m].
Vector coordinate_scales(const System& system);

/// The values that the mechanism's inputs have in a pose, whether they are held or not.
std::vector<double> input_values(const System& system, const Design& design, const State& state,
                                 const Kinematics& kin);

}  // namespace axlewright
