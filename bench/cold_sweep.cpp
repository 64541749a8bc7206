// Milliseconds of a whole question: the truck file's text in, the answer to `sweep` out, nothing kept from before. And how that grows
// with the number of poses. Checks the answers; ends with 1 if one is wrong.

#include <sys/resource.h>

#include <algorithm>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "bench/times.h"
#include "engine/ask/ask.h"
#include "engine/disk/read_file.h"

namespace axlewright {
namespace {

constexpr int kRepeats = 15;

double largest_memory_mb() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024;
}

struct Timed {
  Times milliseconds;
  int poses = 0;
  bool right = true;
};

/// Every pose of the examples is in reach but the two that half-converted is known for, and every height has its numbers.
bool is_right(const Result<Json>& answer, int heights) {
  if (!answer || (*answer)["rows"].size() != static_cast<std::size_t>(heights)) return false;
  return std::all_of((*answer)["rows"].begin(), (*answer)["rows"].end(),
                     [](const Json& row) { return row.contains("values"); });
}

Timed time_sweep(const std::string& truck, int heights, int repeats) {
  const Json question{{"ask", "sweep"},
                      {"file", std::string(AXLEWRIGHT_ROOT) + "/trucks/" + truck + ".toml"},
                      {"heights", heights}};
  std::vector<double> times;
  int poses = 0;
  bool right = true;
  for (int k = 0; k < repeats; ++k) {
    const double start = thread_seconds();
    const Result<Json> answer = ask(question, {texts_on_disk(), {}});
    times.push_back(1e3 * (thread_seconds() - start));
    right = right && is_right(answer, heights);
    if (answer) poses = (*answer)["poses"].get<int>();
  }
  return {Times(times), poses, right};
}

}  // namespace
}  // namespace axlewright

int main() {
  using namespace axlewright;
  std::string rows;
  bool right = true;
  const auto run = [&](const std::string& name, const std::string& truck, int heights,
                       int repeats) {
    const Timed timed = time_sweep(truck, heights, repeats);
    right = right && timed.right;
    const double median = timed.milliseconds.median();
    fmt::print("{:28} {:6} poses {:9.2f} ms, {:6.2f} us a pose, {:6.1f} MB so far{}\n", name,
               timed.poses, median, 1e3 * median / timed.poses, largest_memory_mb(),
               timed.right ? "" : "  WRONG");
    rows += fmt::format("cold_sweep_{},{:.3f},{:.3f},\n", name, 1e3 * median,
                        1e3 * timed.milliseconds.share(0.95));
  };
  run("plain_mismatched", "plain-mismatched", 11, kRepeats);
  run("guided", "guided", 11, kRepeats);
  run("guided_101_heights", "guided", 101, 5);
  run("guided_1001_heights", "guided", 1001, 1);
  fmt::print("\n{}", rows);
  return right ? 0 : 1;
}
