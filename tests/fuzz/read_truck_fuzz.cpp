#include <cstddef>
#include <cstdint>
#include <string>

#include "engine/base/invariant.h"
#include "engine/truck/read.h"

namespace axlewright {
namespace {

// Whatever the bytes, the reader gives a truck or says what is wrong; a place it names is one in the text.
void read_bytes(const std::string& text) {
  const TextOf text_of = [&](const std::string& path) -> tl::expected<std::string, std::string> {
    if (path == "fuzz.toml") return text;
    return tl::unexpected<std::string>("there is no such file");
  };
  const Result<Truck> truck = read_truck("fuzz.toml", text_of);
  if (truck) return;
  AXLEWRIGHT_INVARIANT(!truck.error().empty());
  for (const Fault& fault : truck.error()) {
    AXLEWRIGHT_INVARIANT(!fault.what.empty());
    AXLEWRIGHT_INVARIANT(fault.line >= 0 && fault.column >= 0);
  }
}

}  // namespace
}  // namespace axlewright

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  axlewright::read_bytes(std::string(reinterpret_cast<const char*>(data), size));
  return 0;
}
