// Asks the core for one pose and prints its numbers, one a line, name first; compiled natively and to WebAssembly
// (same_digits compares).
//
//   one_pose TRUCK_FILE
#include <cstdio>
#include <fstream>
#include <iterator>
#include <string>

#include <fmt/format.h>

#include "engine/ask/ask.h"

namespace {

using axlewright::Json;

tl::expected<std::string, std::string> text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) return tl::unexpected<std::string>("cannot be opened");
  return std::string(std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>());
}

/// Every number below `value`, named by the way to it.
void print_numbers(const std::string& name, const Json& value) {
  if (value.is_number()) {
    std::fputs(fmt::format("{} {:.17g}\n", name, value.get<double>()).c_str(), stdout);
    return;
  }
  if (value.is_primitive()) return;
  for (const auto& [key, inner] : value.items()) print_numbers(name + "/" + key, inner);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::fputs("usage: one_pose TRUCK_FILE\n", stderr);
    return 2;
  }
  const axlewright::Result<Json> answer = axlewright::ask(Json{{"ask", "pose"},
                                                               {"file", argv[1]},
                                                               {"height_mm", 140},
                                                               {"travel_left_mm", 30},
                                                               {"lean_deg", 2},
                                                               {"steering_wheel_deg", 150}},
                                                          {text_of, {}});
  if (!answer || !answer->contains("values")) {
    std::fputs("one_pose: no pose\n", stderr);
    return 1;
  }
  // Of the report only what the pose is, not how many steps led there.
  for (const char* part : {"values", "bodies", "points"}) print_numbers(part, (*answer)[part]);
  return 0;
}
