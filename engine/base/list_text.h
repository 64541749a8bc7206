#pragma once

#include <string>
#include <vector>

namespace axlewright {

/// "a, b and c".
inline std::string list_of(const std::vector<std::string>& names, const char* last = " and ") {
  std::string text;
  for (std::size_t k = 0; k < names.size(); ++k)
    text += (k == 0 ? "" : k + 1 == names.size() ? last : ", ") + names[k];
  return text;
}

}  // namespace axlewright
