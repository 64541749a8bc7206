#include "apps/serve/truck_folder.h"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <utility>

#include <dirent.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <fmt/format.h>

#include "apps/files/whole_file.h"
#include "apps/serve/text_version.h"
#include "engine/base/utf8.h"

namespace axlewright {
namespace {

// Far beyond any shop, and soon reached by whoever serves a whole disk.
constexpr std::size_t kMostFiles = 1000;
constexpr std::size_t kMostNames = 20000;

using Bytes = tl::expected<std::optional<std::string>, Refusal>;  // none: there is no file

tl::unexpected<Refusal> refuse(Obstacle obstacle, std::string words) {
  return tl::unexpected(Refusal{obstacle, std::move(words)});
}

tl::unexpected<Refusal> refuse_for_errno(int error) {
  switch (error) {
    case ENOENT:
      return refuse(Obstacle::missing, "there is no such file");
    case ENOTDIR:
      return refuse(Obstacle::missing, "there is no such folder");
    case EACCES:
    case EPERM:
      return refuse(Obstacle::forbidden, "you are not allowed to read it");
    case ELOOP:
      return refuse(Obstacle::not_plain, "it is a symbolic link, and links are not followed");
    default:
      return refuse(Obstacle::system, std::strerror(error));
  }
}

bool is_link(const Descriptor& folder, const std::string& name) {
  struct stat found {};
  return ::fstatat(folder.number(), name.c_str(), &found, AT_SYMLINK_NOFOLLOW) == 0 &&
         S_ISLNK(found.st_mode);
}

std::optional<Refusal> wrong_with(const struct stat& file) {
  if (S_ISLNK(file.st_mode)) return refuse_for_errno(ELOOP).value();
  if (S_ISDIR(file.st_mode)) return Refusal{Obstacle::not_plain, "it is a folder, not a file"};
  if (!S_ISREG(file.st_mode)) return Refusal{Obstacle::not_plain, "it is not a plain file"};
  if (static_cast<std::uintmax_t>(file.st_size) > kMostBytesOfAFile)
    return Refusal{Obstacle::too_large, "it is larger than 1 MiB: that is no truck file"};
  return std::nullopt;
}

/// One byte more than a truck file may have tells that it grew while it was read.
tl::expected<std::string, Refusal> read_all(const Descriptor& file) {
  std::string bytes(kMostBytesOfAFile + 1, '\0');
  std::size_t done = 0;
  while (done < bytes.size()) {
    const ssize_t count = ::read(file.number(), bytes.data() + done, bytes.size() - done);
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return refuse_for_errno(errno);
    if (count == 0) break;
    done += static_cast<std::size_t>(count);
  }
  if (done > kMostBytesOfAFile) return refuse(Obstacle::too_large, "it grows while it is read");
  bytes.resize(done);
  return bytes;
}

Bytes read_bytes(const Descriptor& folder, const std::string& name) {
  struct stat found {};
  if (::fstatat(folder.number(), name.c_str(), &found, AT_SYMLINK_NOFOLLOW) != 0) {
    if (errno == ENOENT) return std::nullopt;
    return refuse_for_errno(errno);
  }
  // Looked at before it is opened, since opening a device or a pipe may do something ...
  if (const auto wrong = wrong_with(found)) return tl::unexpected(*wrong);
  const Descriptor file(::openat(folder.number(), name.c_str(),
                                 O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY | O_CLOEXEC));
  if (!file.is_open()) return refuse_for_errno(errno);
  // ... and again, since it may be another one by now.
  if (::fstat(file.number(), &found) != 0) return refuse_for_errno(errno);
  if (const auto wrong = wrong_with(found)) return tl::unexpected(*wrong);
  return read_all(file);
}

std::string version_there(const std::optional<std::string>& bytes) {
  return bytes ? version_of(*bytes) : kNoFile;
}

SaveFailure save_failure(const std::string& words) {
  if (words == kDiskFull) return Refusal{Obstacle::disk_full, words};
  if (words == kMayNotWrite) return Refusal{Obstacle::forbidden, words};
  return Refusal{Obstacle::system, words};
}

struct CloseFolder {
  void operator()(DIR* folder) const { ::closedir(folder); }
};

/// Walks through folders and lists what it finds.
class Listing {
 public:
  tl::expected<std::vector<ListedFile>, Refusal> take(const Descriptor& folder) {
    if (const auto wrong = walk(folder, ".", "", 0)) return tl::unexpected(*wrong);
    if (too_many_) {
      return refuse(Obstacle::too_many,
                    fmt::format("the folder holds more than {} truck files or {} names: serve a "
                                "folder with less in it",
                                kMostFiles, kMostNames));
    }
    std::sort(files_.begin(), files_.end(),
              [](const ListedFile& a, const ListedFile& b) { return a.path < b.path; });
    return std::move(files_);
  }

 private:
  /// What is wrong with the folder itself.
  std::optional<Refusal> walk(const Descriptor& parent, const std::string& name,
                              const std::string& path, std::size_t depth) {
    Descriptor here(
        ::openat(parent.number(), name.c_str(), O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC));
    if (!here.is_open()) return refuse_for_errno(errno).value();
    const std::unique_ptr<DIR, CloseFolder> entries(::fdopendir(here.number()));
    if (!entries) return refuse_for_errno(errno).value();
    const Descriptor folder(::fcntl(here.release(), F_DUPFD_CLOEXEC, 0));
    while (const dirent* entry = ::readdir(entries.get())) {
      if (entry->d_name[0] == '.') continue;
      if (++names_ > kMostNames || files_.size() > kMostFiles) {
        too_many_ = true;
        break;
      }
      visit(folder, entry->d_name, path, depth);
    }
    return std::nullopt;
  }

  void visit(const Descriptor& folder, const std::string& name, const std::string& path,
             std::size_t depth) {
    struct stat found {};
    if (::fstatat(folder.number(), name.c_str(), &found, AT_SYMLINK_NOFOLLOW) != 0) return;
    const std::string here = path + name;
    if (S_ISDIR(found.st_mode)) {
      if (depth == kMostFolders) {
        add_refused(here + '/', {Obstacle::too_many, "it lies in too many folders"});
      } else if (const auto wrong = walk(folder, name, here + '/', depth + 1)) {
        add_refused(here + '/', *wrong);
      }
    } else if (const auto truck = read_truck_path(here)) {
      add(folder, *truck, here);
    } else if (ends_in_toml(name)) {
      add_refused(here, {Obstacle::not_plain, truck.error()});
    }
  }

  void add(const Descriptor& folder, const TruckPath& truck, const std::string& path) {
    const Bytes bytes = read_bytes(folder, truck.name);
    if (!bytes) {
      add_refused(path, bytes.error());
    } else if (*bytes) {
      files_.push_back({path, (*bytes)->size(), version_of(**bytes), ""});
    }
  }

  void add_refused(const std::string& path, const Refusal& why) {
    files_.push_back({valid_utf8(path), 0, "", why.words});
  }

  std::vector<ListedFile> files_;
  std::size_t names_ = 0;
  bool too_many_ = false;
};

}  // namespace

tl::expected<TruckFolder, std::string> TruckFolder::open(const std::string& folder) {
  std::error_code error;
  const std::filesystem::path path = std::filesystem::canonical(folder, error);
  if (error) return tl::unexpected<std::string>("there is no such folder");
  if (!std::filesystem::is_directory(path, error))
    return tl::unexpected<std::string>("it is a file: give the folder that holds it");
  Descriptor opened(::open(path.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (!opened.is_open()) return tl::unexpected<std::string>(refuse_for_errno(errno).value().words);
  return TruckFolder(std::move(opened), valid_utf8(path.filename().string()));
}

tl::expected<std::vector<ListedFile>, Refusal> TruckFolder::list() const {
  return Listing().take(folder_);
}

tl::expected<Descriptor, Refusal> TruckFolder::open_parent(const TruckPath& path) const {
  Descriptor here(::fcntl(folder_.number(), F_DUPFD_CLOEXEC, 0));
  if (!here.is_open()) return refuse_for_errno(errno);
  for (const std::string& name : path.folders) {
    Descriptor next(
        ::openat(here.number(), name.c_str(), O_PATH | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC));
    if (!next.is_open()) {
      const int error = errno == ENOENT ? ENOTDIR : errno;
      return refuse_for_errno(is_link(here, name) ? ELOOP : error);
    }
    here = std::move(next);
  }
  return here;
}

tl::expected<std::string, Refusal> TruckFolder::read(const TruckPath& path) const {
  const auto folder = open_parent(path);
  if (!folder) return tl::unexpected(folder.error());
  Bytes bytes = read_bytes(*folder, path.name);
  if (!bytes) return tl::unexpected(bytes.error());
  if (!*bytes) return refuse_for_errno(ENOENT);
  if (!is_utf8(**bytes)) return refuse(Obstacle::not_text, "it is not UTF-8 text");
  return std::move(**bytes);
}

tl::expected<std::string, SaveFailure> TruckFolder::save(const TruckPath& path,
                                                         const std::string& text,
                                                         const std::string& version) {
  const auto refused = [](SaveFailure why) { return tl::unexpected(std::move(why)); };
  if (text.size() > kMostBytesOfAFile)
    return refused(Refusal{Obstacle::too_large, "the text is larger than 1 MiB"});
  if (!is_utf8(text)) return refused(Refusal{Obstacle::not_text, "the text is not UTF-8"});
  const std::lock_guard<std::mutex> one_at_a_time(*saving_);
  const auto folder = open_parent(path);
  if (!folder) return refused(folder.error());
  const Bytes before = read_bytes(*folder, path.name);
  if (!before) return refused(before.error());
  if (*before == text) return version_of(text);
  if (version_there(*before) != version) return refused(Conflict{*before});
  auto file =
      WholeFile::prepare_in(*folder, path.name, text, *before ? Existing::replace : Existing::keep);
  if (!file && file.error() != kNameTaken) return refused(save_failure(file.error()));
  // Writing takes time. Once more, so that only the blink between here and the renaming is left to other programs.
  const Bytes now = read_bytes(*folder, path.name);
  if (!now) return refused(now.error());
  if (!file || *now != *before) return refused(Conflict{*now});
  if (const auto wrong = file->commit()) {
    if (*wrong != kNameTaken) return refused(save_failure(*wrong));
    const Bytes taken = read_bytes(*folder, path.name);
    return refused(taken ? SaveFailure(Conflict{*taken}) : SaveFailure(taken.error()));
  }
  return version_of(text);
}

}  // namespace axlewright
