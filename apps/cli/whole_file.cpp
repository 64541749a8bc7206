#include "apps/cli/whole_file.h"

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <utility>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace axlewright {
namespace {

namespace fs = std::filesystem;

using Failure = tl::unexpected<std::string>;

constexpr mode_t kNewFile = 0666;  // less what the umask takes

std::string words_for_errno(int error) {
  switch (error) {
    case ENOENT:
    case ENOTDIR:
      return "there is no such folder";
    case EACCES:
    case EPERM:
    case EROFS:
      return "you are not allowed to write there";
    case ENOSPC:
    case EDQUOT:
      return "the disk is full";
    case EEXIST:
      return kNameTaken;
    default:
      return std::strerror(error);
  }
}

Failure failure(int error) {
  return Failure(words_for_errno(error));
}

mode_t umask_now() {
  const mode_t mask = umask(0);
  umask(mask);
  return mask;
}

class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;

  int number() const { return number_; }
  /// Some disks tell only here that they are full.
  bool close() { return ::close(std::exchange(number_, -1)) == 0; }

 private:
  int number_;
};

/// The file that a path means, links followed.
tl::expected<std::string, std::string> target_of(const std::string& path) {
  std::error_code error;
  if (!fs::is_symlink(fs::symlink_status(path, error))) return path;
  const fs::path target = fs::canonical(path, error);
  if (error) return Failure("it is a link that leads to no file");
  return target.string();
}

std::string folder_of(const std::string& path) {
  const fs::path folder = fs::path(path).parent_path();
  return folder.empty() ? "." : folder.string();
}

bool write_all(int file, const std::string& text) {
  std::size_t done = 0;
  while (done < text.size()) {
    const ssize_t count = ::write(file, text.data() + done, text.size() - done);
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return false;
    done += static_cast<std::size_t>(count);
  }
  return true;
}

/// So that the new name survives a power cut; not every file system can.
void flush_folder(const std::string& path) {
  const Descriptor folder(::open(folder_of(path).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (folder.number() >= 0) ::fsync(folder.number());
}

/// The new file takes over owner and permissions; without the right to give it away it stays ours.
bool take_permissions(int file, const struct stat& before) {
  if (::fchown(file, before.st_uid, before.st_gid) != 0 && errno != EPERM) return false;
  return ::fchmod(file, before.st_mode & 07777) == 0;
}

int rename_without_replacing(const std::string& from, const std::string& to) {
  if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return 0;
  if (errno != EINVAL && errno != ENOSYS) return errno;
  // A file system that does not know how: the next best.
  if (::access(to.c_str(), F_OK) == 0) return EEXIST;
  return std::rename(from.c_str(), to.c_str()) == 0 ? 0 : errno;
}

}  // namespace

WholeFile::WholeFile(std::string temporary, std::string target, Existing existing, bool was_there)
    : temporary_(std::move(temporary)),
      target_(std::move(target)),
      existing_(existing),
      was_there_(was_there) {}

WholeFile::WholeFile(WholeFile&& other) noexcept
    : temporary_(std::exchange(other.temporary_, "")),
      target_(std::move(other.target_)),
      existing_(other.existing_),
      was_there_(other.was_there_) {}

WholeFile::~WholeFile() {
  if (!temporary_.empty()) ::unlink(temporary_.c_str());
}

tl::expected<WholeFile, std::string> WholeFile::prepare(const std::string& path,
                                                        const std::string& text,
                                                        Existing existing) {
  const tl::expected<std::string, std::string> target = target_of(path);
  if (!target) return Failure(target.error());
  struct stat before {};
  const bool was_there = ::stat(target->c_str(), &before) == 0;
  if (was_there && existing == Existing::keep) return Failure(kNameTaken);
  if (was_there && S_ISDIR(before.st_mode)) return Failure("it is a folder, not a file");
  if (was_there && !S_ISREG(before.st_mode)) return Failure("it is not a plain file");
  // Renaming needs the folder's permission alone; a file that is closed to writing stays as it is.
  if (was_there && ::access(target->c_str(), W_OK) != 0) return failure(errno);

  std::string name = (fs::path(folder_of(*target)) / ".axlewright-XXXXXX").string();
  Descriptor file(::mkostemp(name.data(), O_CLOEXEC));
  if (file.number() < 0) return failure(errno);
  WholeFile whole(name, *target, existing, was_there);
  const bool permitted = was_there ? take_permissions(file.number(), before)
                                   : ::fchmod(file.number(), kNewFile & ~umask_now()) == 0;
  if (!permitted || !write_all(file.number(), text) || ::fsync(file.number()) != 0 || !file.close())
    return failure(errno);
  return whole;
}

std::optional<std::string> WholeFile::commit() {
  const int error = existing_ == Existing::keep
                        ? rename_without_replacing(temporary_, target_)
                        : (std::rename(temporary_.c_str(), target_.c_str()) == 0 ? 0 : errno);
  if (error != 0) return words_for_errno(error);
  temporary_.clear();
  flush_folder(target_);
  return std::nullopt;
}

void WholeFile::take_back() {
  if (!was_there_) ::unlink(target_.c_str());
}

std::optional<std::string> write_whole(const std::string& path, const std::string& text,
                                       Existing existing) {
  tl::expected<WholeFile, std::string> file = WholeFile::prepare(path, text, existing);
  if (!file) return file.error();
  return file->commit();
}

}  // namespace axlewright
