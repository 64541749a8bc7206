#pragma once

namespace axlewright {

/// What a broken invariant calls, after printing; the default aborts. A server installs one that throws.
using InvariantHandler = void (*)(const char* expression, const char* file, int line);

/// Installs a handler and returns the one before it. Never null.
InvariantHandler set_invariant_handler(InvariantHandler handler);

/// Reports a broken invariant through the installed handler; does not return normally by default.
void invariant_broken(const char* expression, const char* file, int line);

}  // namespace axlewright

/// Our own mistakes, checked in every build. Never for what a user gave us: that is a Fault.
#define AXLEWRIGHT_INVARIANT(cond) \
  ((cond) ? static_cast<void>(0) : ::axlewright::invariant_broken(#cond, __FILE__, __LINE__))
