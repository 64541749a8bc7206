#pragma once

#include <chrono>
#include <csignal>

namespace axlewright {

/// The signals that ask a program to end (Ctrl-C, a terminal that is closed, `kill`), held back until they are taken. To be
/// made before threads are, since they inherit it. When it goes away, the next one ends the program at once.
class StopSignals {
 public:
  StopSignals();
  ~StopSignals();
  StopSignals(const StopSignals&) = delete;
  StopSignals& operator=(const StopSignals&) = delete;

  /// Whether one came, within that time at most.
  bool came_within(std::chrono::milliseconds time);

 private:
  sigset_t signals_{};
  sigset_t before_{};
};

}  // namespace axlewright
