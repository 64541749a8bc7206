#include "engine/truck/complaints.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include "engine/base/did_you_mean.h"

namespace axlewright {

Fault fault_at(const Sources& sources, const TextPlace& place, std::string what, std::string fix) {
  Fault fault;
  fault.file = place.file;
  fault.line = place.line;
  fault.column = place.column;
  fault.length = place.length;
  fault.what = std::move(what);
  fault.fix = std::move(fix);
  fault.source_line = sources.line(place.file, place.line);
  return fault;
}

std::string fix_for_name(const std::string& name, const std::vector<std::string>& candidates,
                         const std::string& otherwise) {
  const std::string meant = did_you_mean(name, candidates);
  return meant.empty() ? otherwise : "did you mean '" + meant + "'?";
}

void Complaints::add(Severity severity, const TextPlace& place, std::string what, std::string fix) {
  const auto same = [&](const Fault& fault) {
    const bool same_place =
        fault.file == place.file && fault.line == place.line && fault.column == place.column;
    return same_place && (mirrored_ || fault.what == what);
  };
  // A file with that many is no truck file; nobody reads further, and comparing them all takes time.
  constexpr std::size_t kMostFaults = 500;
  if (faults_.size() >= kMostFaults || std::any_of(faults_.begin(), faults_.end(), same)) return;
  Fault fault = fault_at(sources_, place, std::move(what), std::move(fix));
  fault.severity = severity;
  faults_.push_back(std::move(fault));
}

void Complaints::error(const TextPlace& place, std::string what, std::string fix) {
  add(Severity::error, place, std::move(what), std::move(fix));
}

void Complaints::warning(const TextPlace& place, std::string what, std::string fix) {
  add(Severity::warning, place, std::move(what), std::move(fix));
}

std::size_t Complaints::error_count() const {
  const auto is_error = [](const Fault& fault) { return fault.severity == Severity::error; };
  return static_cast<std::size_t>(std::count_if(faults_.begin(), faults_.end(), is_error));
}

std::vector<Fault> Complaints::sorted() const {
  std::vector<Fault> sorted = faults_;
  const auto key = [&](const Fault& fault) {
    return std::tuple(fault.severity == Severity::warning, sources_.order(fault.file), fault.line,
                      fault.column);
  };
  std::stable_sort(sorted.begin(), sorted.end(),
                   [&](const Fault& a, const Fault& b) { return key(a) < key(b); });
  return sorted;
}

}  // namespace axlewright
