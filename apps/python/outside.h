#pragma once

#include <exception>
#include <string>
#include <vector>

#include <pybind11/pybind11.h>

#include "engine/ask/ask.h"

namespace axlewright {

/// What a question needs from Python while the engine works without its lock (the GIL): the text of a file, and whether to go
/// on. Whatever Python raises there, Ctrl-C included, cancels the work and is kept until finish(). To be made and left with the
/// lock held.
class Outside {
 public:
  /// `texts`: called with a path, gives its text or raises LookupError or OSError; None: files on the disk. `progress`: called
  /// with the share done; None: nobody.
  Outside(pybind11::object texts, pybind11::object progress);

  /// For the engine; not beyond the life of this.
  AskContext context();

  /// Raises what was raised meanwhile.
  void finish();

 private:
  tl::expected<std::string, std::string> text_of(const std::string& path);
  bool goes_on(double share);

  pybind11::object texts_, progress_;
  std::exception_ptr raised_;
};

/// Raises axlewright.Faults with every one of them.
[[noreturn]] void raise_faults(const std::vector<Fault>& faults);

}  // namespace axlewright
