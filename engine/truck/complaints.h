#pragma once

#include <string>
#include <vector>

#include "engine/base/result.h"
#include "engine/truck/document.h"

namespace axlewright {

/// Gathers every fault of one reading.
class Complaints {
 public:
  explicit Complaints(const Sources& sources) : sources_(sources) {}

  void error(const TextPlace& place, std::string what, std::string fix);
  void warning(const TextPlace& place, std::string what, std::string fix);

  /// While an entry is read that a mirror made: what was said of the original at the same place is not said again.
  void set_mirrored(bool mirrored) { mirrored_ = mirrored; }

  bool has_errors() const { return error_count() > 0; }
  std::size_t error_count() const;

  /// Everything said so far: errors before warnings, then in the order of files and lines.
  std::vector<Fault> sorted() const;

 private:
  void add(Severity severity, const TextPlace& place, std::string what, std::string fix);

  const Sources& sources_;
  std::vector<Fault> faults_;
  bool mirrored_ = false;
};

/// The place as a fault spells it, with the line of the file.
Fault fault_at(const Sources& sources, const TextPlace& place, std::string what, std::string fix);

/// "did you mean ...?" if a candidate is near, else `otherwise`.
std::string fix_for_name(const std::string& name, const std::vector<std::string>& candidates,
                         const std::string& otherwise);

}  // namespace axlewright
