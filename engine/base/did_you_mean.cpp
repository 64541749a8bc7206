#include "engine/base/did_you_mean.h"

#include <algorithm>
#include <cstdlib>

namespace axlewright {

int edit_distance(std::string_view a, std::string_view b) {
  // Optimal string alignment, three rows at a time.
  std::vector<int> before(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = static_cast<int>(i);
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const int change = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({change, last[j] + 1, row[j - 1] + 1});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before[j - 2] + 1);
    }
    before.swap(last);
    last.swap(row);
  }
  return last[b.size()];
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& candidates) {
  // No name of ours is longer; a long text has nothing near it and would only cost time.
  constexpr std::size_t kLongestWord = 64;
  if (word.size() > kLongestWord) return {};
  const int most = std::max(1, static_cast<int>(word.size()) / 3);
  int nearest = most + 1;
  std::string best;
  for (const std::string& candidate : candidates) {
    const int size_gap =
        std::abs(static_cast<int>(candidate.size()) - static_cast<int>(word.size()));
    if (candidate.size() > kLongestWord || size_gap >= nearest) continue;
    const int distance = edit_distance(word, candidate);
    if (distance >= nearest) continue;
    nearest = distance;
    best = candidate;
  }
  return best;
}

}  // namespace axlewright
