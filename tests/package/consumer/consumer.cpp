// Ends with 0 if the library that it is linked to is of the version named, and answers.

#include <cstring>

#include <engine/base/version.h>
#include <engine/disk/read_file.h>
#include <engine/truck/read.h>

int main(int argc, char** argv) {
  if (argc != 2 || std::strcmp(argv[1], axlewright::version()) != 0) return 1;
  const auto truck = axlewright::read_truck("not-there.toml", axlewright::texts_on_disk());
  return !truck && truck.error().front().file == "not-there.toml" ? 0 : 1;
}
