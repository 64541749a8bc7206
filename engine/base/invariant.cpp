#include "engine/base/invariant.h"

#include <cstdio>
#include <cstdlib>

namespace axlewright {
namespace {

void abort_on(const char* expression, const char* file, int line) {
  std::fprintf(stderr, "axlewright: broken invariant: %s (%s:%d)\n", expression, file, line);
  std::abort();
}

// The one process-wide setting: who is told when we are wrong.
// NOLINTNEXTLINE(cppcoreguidelines-avoid-non-const-global-variables)
InvariantHandler installed_handler = abort_on;

}  // namespace

InvariantHandler set_invariant_handler(InvariantHandler handler) {
  InvariantHandler before = installed_handler;
  installed_handler = handler;
  return before;
}

void invariant_broken(const char* expression, const char* file, int line) {
  installed_handler(expression, file, line);
}

}  // namespace axlewright
