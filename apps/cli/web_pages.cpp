#include "apps/cli/web_pages.h"

#include <filesystem>

namespace axlewright {

namespace fs = std::filesystem;

tl::expected<std::string, std::string> web_page_path(const std::string& name) {
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  if (error) return tl::unexpected<std::string>("the program does not know where it is");
  const fs::path folder = program.parent_path();
  const fs::path installed = folder / AXLEWRIGHT_PAGES_INSTALLED / name;
  const fs::path path =
      fs::exists(installed, error) ? installed : folder / AXLEWRIGHT_PAGES_BUILT / name;
  return path.lexically_normal().string();
}

}  // namespace axlewright
