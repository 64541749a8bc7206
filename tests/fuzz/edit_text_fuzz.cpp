#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "engine/base/invariant.h"
#include "engine/truck/edit.h"
#include "engine/truck/fault_text.h"
#include "engine/truck/read.h"

namespace axlewright {
namespace {

// The input's first line is settings with strokes between them, the rest is the file. Whatever they are, the editor
// gives a text that still parses (it proves so itself, by invariants) or says what is wrong; the reader takes the
// same settings; every fault can be shown.
std::vector<Setting> settings_in(const std::string& line) {
  std::vector<Setting> settings;
  std::size_t begin = 0;
  while (begin <= line.size() && settings.size() < 8) {
    const std::size_t stroke = line.find('|', begin);
    const std::size_t end = stroke == std::string::npos ? line.size() : stroke;
    settings.push_back({line.substr(begin, end - begin)});
    begin = end + 1;
  }
  return settings;
}

void show(const std::vector<Fault>& faults) {
  AXLEWRIGHT_INVARIANT(!faults.empty());
  for (const Fault& fault : faults) AXLEWRIGHT_INVARIANT(!text_of(fault).empty());
}

void edit_bytes(const std::string& input) {
  const std::size_t line_end = input.find('\n');
  const std::vector<Setting> settings = settings_in(input.substr(0, line_end));
  const std::string text = line_end == std::string::npos ? input : input.substr(line_end + 1);
  const TextOf serve = [&](const std::string& path) -> tl::expected<std::string, std::string> {
    if (path == "fuzz.toml") return text;
    return tl::unexpected<std::string>("there is no such file");
  };
  const Result<Truck> truck = read_truck("fuzz.toml", serve, settings);
  if (!truck) show(truck.error());
  const Result<std::string> edited = edit_text(text, "fuzz.toml", settings, serve);
  if (!edited) show(edited.error());
}

}  // namespace
}  // namespace axlewright

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  axlewright::edit_bytes(std::string(reinterpret_cast<const char*>(data), size));
  return 0;
}
