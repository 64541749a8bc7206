#pragma once

#include <chrono>
#include <string>

namespace axlewright {

/// Colour on standard output: a terminal, and nobody asked for none (NO_COLOR, TERM=dumb).
bool colour_wanted();

/// From now on Ctrl-C asks the work to stop instead of ending the program; a second one ends it.
void watch_for_interrupt();
bool interrupted();

/// A line on standard error that tells how far the work is, rewritten in place: only at a terminal, only if it lasts, and
/// gone when the work is done.
class ProgressLine {
 public:
  explicit ProgressLine(std::string work);
  ~ProgressLine();
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;

  void show(double done);  ///< share, 0 to 1

 private:
  using Clock = std::chrono::steady_clock;

  std::string work_;
  bool at_terminal_;
  bool shown_ = false;
  Clock::time_point next_;
};

}  // namespace axlewright
