#include "apps/serve/text_version.h"

#include <cstdint>

#include <fmt/format.h>

namespace axlewright {

std::string version_of(std::string_view bytes) {
  std::uint64_t hash = 0xcbf29ce484222325u;
  for (const char c : bytes) {
    hash ^= static_cast<unsigned char>(c);
    hash *= 0x100000001b3u;
  }
  return fmt::format("{:016x}", hash);
}

}  // namespace axlewright
