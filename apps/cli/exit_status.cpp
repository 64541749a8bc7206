#include "apps/cli/exit_status.h"

#include <algorithm>
#include <string>

namespace axlewright {
namespace {

bool converged(const Json& holder, const char* report) {
  const auto found = holder.find(report);
  return found != holder.end() && found->value("outcome", "") == "converged";
}

int status_of_check(const Json& answer) {
  return answer.value("soundness", "") == "sound" && converged(answer, "aligned") ? kDone
                                                                                  : kNoSolution;
}

/// Where the aligned pose cannot be had, no other can: paths begin there.
bool has_a_pose(const Json& sweep) {
  const Json& rows = sweep["rows"];
  return std::any_of(rows.begin(), rows.end(),
                     [](const Json& row) { return row.contains("values"); });
}

bool breaks_a_limit(const Json& sweep) {
  const Json& limits = sweep["limits"];
  return std::any_of(limits.begin(), limits.end(), [](const Json& limit) {
    const std::string verdict = limit.value("verdict", "");
    return verdict == "broken" || verdict == "not reached";
  });
}

int status_of_sweep(const Json& sweep) {
  if (!has_a_pose(sweep)) return kNoSolution;
  return breaks_a_limit(sweep) ? kLimitBroken : kDone;
}

int status_of_compare(const Json& answer) {
  int worst = kDone;
  for (const Json& truck : answer["trucks"]) worst = std::max(worst, status_of_sweep(truck));
  return worst;
}

}  // namespace

int exit_status(const Json& answer) {
  const std::string asked = answer.value("ask", "");
  if (asked == "check") return status_of_check(answer);
  if (asked == "pose" || asked == "sheet") return converged(answer, "report") ? kDone : kNoSolution;
  if (asked == "sweep") return status_of_sweep(answer);
  if (asked == "compare") return status_of_compare(answer);
  if (asked == "setup") return answer.value("found", false) ? kDone : kNoSolution;
  return kDone;
}

}  // namespace axlewright
