#include "apps/cli/threads_flag.h"

#include <charconv>

#include <fmt/format.h>

#include "apps/threads/in_threads.h"

namespace axlewright {

Result<std::size_t> threads_of(const std::string& typed) {
  if (typed.empty()) return all_threads();
  std::size_t threads = 0;
  const char* end = typed.data() + typed.size();
  const auto [behind, error] = std::from_chars(typed.data(), end, threads);
  if (error != std::errc{} || behind != end || threads < 1 || threads > kMostThreads) {
    return fail(fmt::format("--threads does not take `{}`", typed),
                fmt::format("give a whole number from 1 to {}, or leave it out: then it is {} here",
                            kMostThreads, all_threads()));
  }
  return threads;
}

}  // namespace axlewright
