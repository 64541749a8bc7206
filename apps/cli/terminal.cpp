#include "apps/cli/terminal.h"

#include <algorithm>
#include <atomic>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <string_view>
#include <utility>

#include <unistd.h>

namespace axlewright {
namespace {

constexpr std::chrono::milliseconds kPatience{1000};
constexpr std::chrono::milliseconds kBetween{100};

// The one thing that a signal handler may write, on whichever thread it runs.
// NOLINTNEXTLINE(cppcoreguidelines-avoid-non-const-global-variables): a handler has no other way.
std::atomic<bool> g_interrupted = false;
static_assert(std::atomic<bool>::is_always_lock_free);

extern "C" void note_interrupt(int) {
  g_interrupted = true;
}

bool is_dumb() {
  const char* term = std::getenv("TERM");
  return term == nullptr || std::string_view(term) == "dumb";
}

}  // namespace

bool colour_wanted() {
  return ::isatty(STDOUT_FILENO) == 1 && std::getenv("NO_COLOR") == nullptr && !is_dumb();
}

void watch_for_interrupt() {
  struct sigaction before {};
  ::sigaction(SIGINT, nullptr, &before);
  // Whoever started us in the background wants it ignored.
  if (before.sa_handler == SIG_IGN) return;
  struct sigaction action {};
  action.sa_handler = note_interrupt;
  action.sa_flags = static_cast<int>(SA_RESETHAND | SA_RESTART);
  sigemptyset(&action.sa_mask);
  ::sigaction(SIGINT, &action, nullptr);
}

bool interrupted() {
  return g_interrupted;
}

ProgressLine::ProgressLine(std::string work)
    : work_(std::move(work)),
      at_terminal_(::isatty(STDERR_FILENO) == 1 && !is_dumb()),
      next_(Clock::now() + kPatience) {}

ProgressLine::~ProgressLine() {
  if (shown_) std::fputs("\r\x1b[K", stderr);
}

void ProgressLine::show(double done) {
  if (!at_terminal_ || Clock::now() < next_) return;
  next_ = Clock::now() + kBetween;
  shown_ = true;
  std::fprintf(stderr, "\r%s: %d %%\x1b[K", work_.c_str(),
               static_cast<int>(100 * std::clamp(done, 0.0, 1.0)));
  std::fflush(stderr);
}

}  // namespace axlewright
