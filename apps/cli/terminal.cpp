#include "apps/cli/terminal.h"

#include <algorithm>
#include <atomic>
#include <csignal>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string_view>
#include <utility>

#include <unistd.h>

namespace axlewright {
namespace {

constexpr std::chrono::milliseconds kPatience{1000};
constexpr std::chrono::milliseconds kBetween{100};

// One press of Ctrl-C may come as more than one signal: from the terminal, and from whatever started us.
constexpr std::int64_t kOnePress = 300'000'000;  // [ns]

// What a signal handler may write, on whichever thread it runs: when it was first called [ns], 0 before.
// NOLINTNEXTLINE(cppcoreguidelines-avoid-non-const-global-variables): a handler has no other way.
std::atomic<std::int64_t> g_interrupted_at = 0;
static_assert(std::atomic<std::int64_t>::is_always_lock_free);

/// Asks the work to stop; pressed again, ends it at once.
extern "C" void note_interrupt(int signal) {
  timespec now{};
  ::clock_gettime(CLOCK_MONOTONIC, &now);
  const std::int64_t at = std::int64_t{now.tv_sec} * 1'000'000'000 + now.tv_nsec + 1;
  std::int64_t first = 0;
  if (g_interrupted_at.compare_exchange_strong(first, at) || at - first < kOnePress) return;
  ::signal(signal, SIG_DFL);
  ::raise(signal);
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
  action.sa_flags = static_cast<int>(SA_RESTART);
  sigemptyset(&action.sa_mask);
  ::sigaction(SIGINT, &action, nullptr);
}

bool interrupted() {
  return g_interrupted_at != 0;
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
