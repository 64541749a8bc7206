#pragma once

#include <string>
#include <vector>

#include <tl/expected.hpp>

namespace axlewright {

/// How much a fault matters: an error stops the work, a warning travels with the result.
enum class Severity { error, warning };

/// One complaint about what we were given, told so that the reader can mend it.
///
///   file, line, column  where it stands; line and column are 1-based and count code points, 0 if the
///                       complaint has no place in a text (a command-line flag, a request)
///   length              code points to underline with the caret, at least 1 where a line is given
///   what                what is wrong, in one sentence
///   fix                 what to write instead, in one sentence
struct Fault {
  Severity severity = Severity::error;
  std::string file;
  int line = 0;
  int column = 0;
  int length = 1;
  std::string what;
  std::string fix;
  std::string source_line;  ///< the line as it stands in the file; empty if there is none
};

/// A value, or every fault found on the way to it (never an empty list).
template <class T>
using Result = tl::expected<T, std::vector<Fault>>;

/// Shorthand for a failure without a place in a file (a flag, a request).
inline tl::unexpected<std::vector<Fault>> fail(std::string what, std::string fix) {
  Fault fault;
  fault.what = std::move(what);
  fault.fix = std::move(fix);
  return tl::unexpected<std::vector<Fault>>(std::vector<Fault>{std::move(fault)});
}

}  // namespace axlewright
