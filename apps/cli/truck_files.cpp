#include "apps/cli/truck_files.h"

#include <algorithm>
#include <filesystem>
#include <utility>

#include "engine/disk/read_file.h"

namespace axlewright {

tl::expected<std::string, std::string> TruckFiles::text_of(const std::string& path) {
  const auto known = texts_.find(path);
  if (known != texts_.end()) return known->second;
  return texts_.emplace(path, read_file(path)).first->second;
}

void TruckFiles::lay_over(const std::string& path, std::string text) {
  texts_.insert_or_assign(path, tl::expected<std::string, std::string>(std::move(text)));
}

std::vector<std::string> TruckFiles::paths() const {
  std::vector<std::string> paths;
  paths.reserve(texts_.size());
  for (const auto& [path, text] : texts_) paths.push_back(path);
  return paths;
}

bool TruckFiles::has_read(const std::string& path) const {
  return std::any_of(texts_.begin(), texts_.end(), [&](const auto& entry) {
    std::error_code error;
    return std::filesystem::equivalent(entry.first, path, error) && !error;
  });
}

TextOf TruckFiles::reader() {
  return [this](const std::string& path) { return text_of(path); };
}

}  // namespace axlewright
