#pragma once

#include <map>
#include <string>
#include <vector>

#include <tl/expected.hpp>

#include "engine/truck/read.h"

namespace axlewright {

/// Truck files as a question reads them: each once, so that a whole answer comes of one state of them.
class TruckFiles {
 public:
  tl::expected<std::string, std::string> text_of(const std::string& path);

  /// From now on this path reads so, whatever the disk holds.
  void lay_over(const std::string& path, std::string text);

  /// Every path that was asked for.
  std::vector<std::string> paths() const;

  /// Whether a path leads to one of the files that were asked for.
  bool has_read(const std::string& path) const;

  /// For the engine; not beyond the life of this.
  TextOf reader();

 private:
  std::map<std::string, tl::expected<std::string, std::string>> texts_;
};

}  // namespace axlewright
