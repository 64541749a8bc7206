// Milliseconds of a whole question: the truck file's text in, the answer to `sweep` out, nothing kept from before. And how that grows
// with the number of poses. Checks the answers; ends with 1 if one is wrong.

#include <sys/resource.h>

#include <algorithm>
#include <ctime>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "engine/ask/ask.h"

namespace axlewright {
namespace {

constexpr int kRepeats = 15;

/// Of this thread alone, so that what else the machine does is not counted.
double milliseconds() {
  timespec now{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return 1e3 * static_cast<double>(now.tv_sec) + 1e-6 * static_cast<double>(now.tv_nsec);
}

tl::expected<std::string, std::string> text_of(const std::string& path) {
  std::ifstream file(path);
  if (!file) return tl::unexpected<std::string>("cannot be opened");
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

double largest_memory_mb() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024;
}

struct Timed {
  double median = 0, p95 = 0;
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
  Timed timed;
  for (int k = 0; k < repeats; ++k) {
    const double start = milliseconds();
    const Result<Json> answer = ask(question, {text_of, {}});
    times.push_back(milliseconds() - start);
    timed.right = timed.right && is_right(answer, heights);
    if (answer) timed.poses = (*answer)["poses"].get<int>();
  }
  std::sort(times.begin(), times.end());
  timed.median = times[times.size() / 2];
  timed.p95 = times[static_cast<std::size_t>(0.95 * static_cast<double>(times.size() - 1))];
  return timed;
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
    fmt::print("{:28} {:6} poses {:9.2f} ms, {:6.2f} us a pose, {:6.1f} MB so far{}\n", name,
               timed.poses, timed.median, 1e3 * timed.median / timed.poses, largest_memory_mb(),
               timed.right ? "" : "  WRONG");
    rows +=
        fmt::format("cold_sweep_{},{:.3f},{:.3f},\n", name, 1e3 * timed.median, 1e3 * timed.p95);
  };
  run("plain_mismatched", "plain-mismatched", 11, kRepeats);
  run("guided", "guided", 11, kRepeats);
  run("guided_101_heights", "guided", 101, 5);
  run("guided_1001_heights", "guided", 1001, 1);
  fmt::print("\n{}", rows);
  return right ? 0 : 1;
}
