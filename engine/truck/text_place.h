#pragma once

#include <string>

namespace axlewright {

/// Where an entry stands in the text it was read from, for complaints made later.
struct TextPlace {
  std::string file;
  int line = 0;
  int column = 0;
  int length = 1;
};

}  // namespace axlewright
