#include "apps/threads/in_threads.h"

#include <algorithm>
#include <condition_variable>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <vector>

namespace axlewright {
namespace {

/// Threads that take pieces one by one, in their order, and what became of those.
class Crew {
 public:
  Crew(std::size_t count, const Piece& piece) : piece_(piece), count_(count), end_(count) {}
  ~Crew() { stop(); }  // then the threads are waited for
  Crew(const Crew&) = delete;
  Crew& operator=(const Crew&) = delete;

  void start(std::size_t threads) {
    try {
      while (threads_.size() < threads) threads_.emplace_back([this] { work(); });
    } catch (const std::system_error&) {
      // The system gives no more: those that there are do it all.
      if (threads_.empty()) work();
    }
  }

  /// Until no piece is at work and none is left. False if progress said no.
  bool see_through(const Progress& progress) {
    bool goes_on = true;
    std::size_t told = 0;
    std::unique_lock lock(mutex_);
    while (at_work_ > 0 || next_ < end_ || told < done_) {
      changed_.wait(lock, [&] { return done_ > told; });
      told = done_;
      if (!goes_on || !progress) continue;
      lock.unlock();
      goes_on = progress(static_cast<double>(told) / static_cast<double>(count_));
      lock.lock();
      if (!goes_on) end_ = next_;
    }
    if (thrown_) std::rethrow_exception(thrown_);
    return goes_on;
  }

 private:
  void work() {
    std::unique_lock lock(mutex_);
    while (next_ < end_) {
      const std::size_t k = next_++;
      ++at_work_;
      lock.unlock();
      std::exception_ptr thrown;
      try {
        piece_(k);
      } catch (...) {
        thrown = std::current_exception();
      }
      lock.lock();
      --at_work_;
      ++done_;
      if (thrown) keep(thrown, k);
      changed_.notify_one();
    }
  }

  /// All pieces below were begun and are waited for: the lowest that throws is the one that would have thrown alone.
  void keep(const std::exception_ptr& thrown, std::size_t by) {
    end_ = next_;
    if (thrown_ && thrown_by_ < by) return;
    thrown_ = thrown;
    thrown_by_ = by;
  }

  void stop() {
    const std::lock_guard lock(mutex_);
    end_ = next_;
  }

  const Piece& piece_;
  const std::size_t count_;

  std::mutex mutex_;  ///< of all below but the threads
  std::condition_variable changed_;
  std::size_t next_ = 0;  ///< to be begun
  std::size_t end_;       ///< behind the last to be begun
  std::size_t at_work_ = 0;
  std::size_t done_ = 0;
  std::exception_ptr thrown_;
  std::size_t thrown_by_ = 0;

  std::vector<std::jthread> threads_;  // last, so that they end before what they use
};

bool run_in_threads(std::size_t threads, std::size_t count, const Piece& piece,
                    const Progress& progress) {
  if (count == 0) return true;
  if (progress && !progress(0)) return false;
  Crew crew(count, piece);
  crew.start(std::min(threads, count));
  return crew.see_through(progress);
}

}  // namespace

std::size_t all_threads() {
  return std::clamp<std::size_t>(std::thread::hardware_concurrency(), 1, kMostThreads);
}

ForEach in_threads(std::size_t threads) {
  if (threads <= 1) return one_by_one;
  return [threads](std::size_t count, const Piece& piece, const Progress& progress) {
    return run_in_threads(threads, count, piece, progress);
  };
}

}  // namespace axlewright
