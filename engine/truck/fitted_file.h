#pragma once

#include <string>

#include "engine/truck/truck.h"

namespace axlewright {

/// A truck file that stands on a measured one and gives its points where the fit has them: set straight, in frame axes, with what is left
/// open of each as its plus_minus (the largest of its three). What was measured stays as it was read, in the file below.
///
///   truck     with its fit
///   based_on  how the new file names the measured one
/// Reads back as the same truck, to 0.001 mm (0.0001 in).
std::string fitted_file(const Truck& truck, const std::string& based_on);

}  // namespace axlewright
