#pragma once

#include <optional>
#include <string>

#include <tl/expected.hpp>

#include "apps/files/descriptor.h"

// Files written whole or not at all: into a file of another name in the same folder, flushed to the disk, then renamed.

namespace axlewright {

/// What is wrong where a file of that name is to be kept.
inline constexpr const char* kNameTaken = "there is a file of that name already";

/// What is wrong where there is no room.
inline constexpr const char* kDiskFull = "the disk is full";

/// What is wrong where the system forbids it.
inline constexpr const char* kMayNotWrite = "you are not allowed to write there";

/// What to do where there is a file of that name already.
enum class Existing { replace, keep };

/// A file that is written but does not have its name yet. Unless it is given its name, it goes away.
class WholeFile {
 public:
  /// Writes the text beside the target. A link is followed to what it points to; permissions and owner of a file that is there
  /// are kept. In words what is wrong: no such folder, not a plain file, not allowed, disk full.
  static tl::expected<WholeFile, std::string> prepare(const std::string& path,
                                                      const std::string& text, Existing existing);

  /// The same for a name in a folder that is open, wherever its path leads by now. A link of that name is refused.
  static tl::expected<WholeFile, std::string> prepare_in(const Descriptor& folder,
                                                         const std::string& name,
                                                         const std::string& text,
                                                         Existing existing);

  WholeFile(WholeFile&& other) noexcept;
  WholeFile& operator=(WholeFile&&) = delete;
  WholeFile(const WholeFile&) = delete;
  WholeFile& operator=(const WholeFile&) = delete;
  ~WholeFile();

  /// Gives the file its name. In words what is wrong; then nothing has changed.
  std::optional<std::string> commit();

  /// Takes back what commit() did, if the file was not there before.
  void take_back();

 private:
  WholeFile(Descriptor folder, std::string temporary, std::string target, Existing existing,
            bool was_there);

  Descriptor folder_;
  std::string temporary_, target_;  ///< names in that folder
  Existing existing_;
  bool was_there_;
};

/// Both steps at once. In words what is wrong.
std::optional<std::string> write_whole(const std::string& path, const std::string& text,
                                       Existing existing);

}  // namespace axlewright
