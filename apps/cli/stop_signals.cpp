#include "apps/cli/stop_signals.h"

#include <ctime>

namespace axlewright {

StopSignals::StopSignals() {
  sigemptyset(&signals_);
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
    struct sigaction action {};
    ::sigaction(signal, nullptr, &action);
    // Whoever started us in the background wants it ignored.
    if (action.sa_handler != SIG_IGN) sigaddset(&signals_, signal);
  }
  ::pthread_sigmask(SIG_BLOCK, &signals_, &before_);
}

StopSignals::~StopSignals() {
  ::pthread_sigmask(SIG_SETMASK, &before_, nullptr);
}

bool StopSignals::came_within(std::chrono::milliseconds time) {
  const auto seconds = std::chrono::duration_cast<std::chrono::seconds>(time);
  const std::chrono::nanoseconds rest = time - seconds;
  const std::timespec wait{seconds.count(), rest.count()};
  return ::sigtimedwait(&signals_, nullptr, &wait) > 0;
}

}  // namespace axlewright
