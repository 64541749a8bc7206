#include "apps/files/whole_file.h"

#include <cerrno>
#include <cstdint>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <utility>

#include <fcntl.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <unistd.h>

namespace axlewright {
namespace {

namespace fs = std::filesystem;

using Failure = tl::unexpected<std::string>;

constexpr mode_t kNewFile = 0666;    // less what the umask takes
constexpr mode_t kOursAlone = 0600;  // until it has the permissions of the file that it replaces

std::string words_for_errno(int error) {
  switch (error) {
    case ENOENT:
    case ENOTDIR:
      return "there is no such folder";
    case EACCES:
    case EPERM:
    case EROFS:
      return kMayNotWrite;
    case ENOSPC:
    case EDQUOT:
      return kDiskFull;
    case EEXIST:
      return kNameTaken;
    default:
      return std::strerror(error);
  }
}

Failure failure(int error) {
  return Failure(words_for_errno(error));
}

/// The file that a path means, links followed.
tl::expected<fs::path, std::string> target_of(const std::string& path) {
  std::error_code error;
  if (!fs::is_symlink(fs::symlink_status(path, error))) return path;
  fs::path target = fs::canonical(path, error);
  if (error) return Failure("it is a link that leads to no file");
  return target;
}

/// Good for finding names in it; that needs no right to list them.
Descriptor open_folder(const fs::path& folder) {
  return Descriptor(
      ::open(folder.empty() ? "." : folder.c_str(), O_PATH | O_DIRECTORY | O_CLOEXEC));
}

/// A name that nobody has: 64 random bits.
std::string temporary_name() {
  std::uint64_t bits = 0;
  if (::getrandom(&bits, sizeof bits, 0) != sizeof bits) return "";
  return ".axlewright-" + std::to_string(bits);
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
void flush_folder(const Descriptor& folder) {
  const Descriptor listed(::openat(folder.number(), ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (listed.is_open()) ::fsync(listed.number());
}

/// The new file takes over owner and permissions; without the right to give it away it stays ours.
bool take_permissions(int file, const struct stat& before) {
  if (::fchown(file, before.st_uid, before.st_gid) != 0 && errno != EPERM) return false;
  return ::fchmod(file, before.st_mode & 07777) == 0;
}

int rename_in(int folder, const std::string& from, const std::string& to) {
  return ::renameat(folder, from.c_str(), folder, to.c_str()) == 0 ? 0 : errno;
}

int rename_without_replacing(int folder, const std::string& from, const std::string& to) {
  if (::renameat2(folder, from.c_str(), folder, to.c_str(), RENAME_NOREPLACE) == 0) return 0;
  if (errno != EINVAL && errno != ENOSYS) return errno;
  // A file system that does not know how: the next best.
  if (::faccessat(folder, to.c_str(), F_OK, AT_SYMLINK_NOFOLLOW) == 0) return EEXIST;
  return rename_in(folder, from, to);
}

}  // namespace

WholeFile::WholeFile(Descriptor folder, std::string temporary, std::string target,
                     Existing existing, bool was_there)
    : folder_(std::move(folder)),
      temporary_(std::move(temporary)),
      target_(std::move(target)),
      existing_(existing),
      was_there_(was_there) {}

WholeFile::WholeFile(WholeFile&& other) noexcept
    : folder_(std::move(other.folder_)),
      temporary_(std::exchange(other.temporary_, "")),
      target_(std::move(other.target_)),
      existing_(other.existing_),
      was_there_(other.was_there_) {}

WholeFile::~WholeFile() {
  if (!temporary_.empty()) ::unlinkat(folder_.number(), temporary_.c_str(), 0);
}

tl::expected<WholeFile, std::string> WholeFile::prepare(const std::string& path,
                                                        const std::string& text,
                                                        Existing existing) {
  const tl::expected<fs::path, std::string> target = target_of(path);
  if (!target) return Failure(target.error());
  const Descriptor folder = open_folder(target->parent_path());
  if (!folder.is_open()) return failure(errno);
  return prepare_in(folder, target->filename().string(), text, existing);
}

tl::expected<WholeFile, std::string> WholeFile::prepare_in(const Descriptor& folder,
                                                           const std::string& name,
                                                           const std::string& text,
                                                           Existing existing) {
  struct stat before {};
  const bool was_there =
      name.empty() ? ::fstat(folder.number(), &before) == 0
                   : ::fstatat(folder.number(), name.c_str(), &before, AT_SYMLINK_NOFOLLOW) == 0;
  if (was_there && existing == Existing::keep) return Failure(kNameTaken);
  if (was_there && S_ISDIR(before.st_mode)) return Failure("it is a folder, not a file");
  if (was_there && !S_ISREG(before.st_mode)) return Failure("it is not a plain file");
  // Renaming needs the folder's permission alone; a file that is closed to writing stays as it is.
  if (was_there && ::faccessat(folder.number(), name.c_str(), W_OK, AT_EACCESS) != 0)
    return failure(errno);

  Descriptor kept(::fcntl(folder.number(), F_DUPFD_CLOEXEC, 0));
  const std::string temporary = temporary_name();
  if (!kept.is_open() || temporary.empty()) return failure(errno);
  Descriptor file(::openat(kept.number(), temporary.c_str(),
                           O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC,
                           was_there ? kOursAlone : kNewFile));
  if (!file.is_open()) return failure(errno);
  WholeFile whole(std::move(kept), temporary, name, existing, was_there);
  const bool permitted = !was_there || take_permissions(file.number(), before);
  if (!permitted || !write_all(file.number(), text) || ::fsync(file.number()) != 0 || !file.close())
    return failure(errno);
  return whole;
}

std::optional<std::string> WholeFile::commit() {
  const int error = existing_ == Existing::keep
                        ? rename_without_replacing(folder_.number(), temporary_, target_)
                        : rename_in(folder_.number(), temporary_, target_);
  if (error != 0) return words_for_errno(error);
  temporary_.clear();
  flush_folder(folder_);
  return std::nullopt;
}

void WholeFile::take_back() {
  if (!was_there_) ::unlinkat(folder_.number(), target_.c_str(), 0);
}

std::optional<std::string> write_whole(const std::string& path, const std::string& text,
                                       Existing existing) {
  tl::expected<WholeFile, std::string> file = WholeFile::prepare(path, text, existing);
  if (!file) return file.error();
  return file->commit();
}

}  // namespace axlewright
