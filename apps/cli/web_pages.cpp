#include "apps/cli/web_pages.h"

#include <filesystem>

namespace axlewright {

tl::expected<std::string, std::string> web_page_path(const std::string& name) {
  std::error_code error;
  const std::filesystem::path program = std::filesystem::read_symlink("/proc/self/exe", error);
  if (error) return tl::unexpected<std::string>("the program does not know where it is");
  return (program.parent_path() / AXLEWRIGHT_WEB / name).lexically_normal().string();
}

}  // namespace axlewright
