#include "engine/base/version.h"

namespace axlewright {

const char* version() {
  return AXLEWRIGHT_VERSION;  // of project() in CMakeLists.txt
}

}  // namespace axlewright
