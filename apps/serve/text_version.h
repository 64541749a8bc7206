#pragma once

#include <string>
#include <string_view>

namespace axlewright {

/// The version of a file that is not there.
inline constexpr const char* kNoFile = "";

/// Tells one text from another: 64 bits of its bytes (FNV-1a), in hexadecimal. It guards against accidents, not against
/// whoever may write into the folder anyway.
std::string version_of(std::string_view bytes);

}  // namespace axlewright
