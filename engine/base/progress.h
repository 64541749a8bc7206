#pragma once

#include <functional>

namespace axlewright {

/// Called now and then with the share done, 0 to 1; returns false to cancel.
using Progress = std::function<bool(double)>;

}  // namespace axlewright
