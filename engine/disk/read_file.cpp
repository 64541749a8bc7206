#include "engine/disk/read_file.h"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <memory>

namespace axlewright {
namespace {

constexpr std::size_t kMostBytes = std::size_t{16} << 20;  // far beyond any truck, far below a disk

struct Close {
  void operator()(std::FILE* file) const { std::fclose(file); }
};

std::string words_for_errno(int error) {
  switch (error) {
    case ENOENT:
      return "there is no such file";
    case ENOTDIR:
      return "there is no such folder";
    case EACCES:
    case EPERM:
      return "you are not allowed to read it";
    case EISDIR:
      return "it is a folder, not a file";
    case ELOOP:
      return "its links go in a circle";
    case ENAMETOOLONG:
      return "its name is too long";
    default:
      return std::strerror(error);
  }
}

}  // namespace

tl::expected<std::string, std::string> read_file(const std::string& path) {
  std::error_code error;
  if (std::filesystem::is_directory(path, error))
    return tl::unexpected<std::string>(words_for_errno(EISDIR));
  const std::unique_ptr<std::FILE, Close> file(std::fopen(path.c_str(), "rb"));
  if (!file) return tl::unexpected<std::string>(words_for_errno(errno));
  std::string text;
  char buffer[1 << 16];
  while (const std::size_t count = std::fread(buffer, 1, sizeof buffer, file.get())) {
    text.append(buffer, count);
    if (text.size() > kMostBytes)
      return tl::unexpected<std::string>("it is larger than 16 MB: that is no truck file");
  }
  if (std::ferror(file.get()) != 0) return tl::unexpected<std::string>(words_for_errno(errno));
  return text;
}

TextOf texts_on_disk() {
  return read_file;
}

}  // namespace axlewright
