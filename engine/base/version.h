#pragma once

namespace axlewright {

/// The version of the library that is linked, "0.1.0": what it promises is in docs/stability.md.
const char* version();

}  // namespace axlewright
