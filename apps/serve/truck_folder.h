#pragma once

#include <cstdint>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include <tl/expected.hpp>

#include "apps/files/descriptor.h"
#include "apps/serve/truck_path.h"

namespace axlewright {

/// A truck file is no larger than this.
inline constexpr std::size_t kMostBytesOfAFile = std::size_t{1} << 20;

/// Why a file cannot be had or kept.
enum class Obstacle {
  missing,    ///< the file, or a folder on the way
  forbidden,  ///< by the system's permissions
  not_plain,  ///< a link, a folder, a device
  too_large,
  not_text,  ///< not UTF-8
  too_many,  ///< files or folders to look through
  disk_full,
  system  ///< whatever else the system says
};

struct Refusal {
  Obstacle obstacle;
  std::string words;
};

/// A file that is not what the writer took it for. Its bytes; none where there is no file.
struct Conflict {
  std::optional<std::string> present;
};

using SaveFailure = std::variant<Refusal, Conflict>;

/// One file of the list. One that cannot be read has words for why in place of a version.
struct ListedFile {
  std::string path;
  std::uintmax_t size = 0;
  std::string version;
  std::string wrong;
};

/// The truck files of one folder and the folders in it, and nothing else: every name on the way is opened by itself and must
/// not be a link, so no path leads out, not even one that changes under our hands. Several threads may ask at once.
class TruckFolder {
 public:
  /// The folder may itself be reached through links. In words what is wrong with it.
  static tl::expected<TruckFolder, std::string> open(const std::string& folder);

  /// The folder's own name: "trucks".
  const std::string& name() const { return name_; }

  /// Every file whose name ends in ".toml", by path. What begins with a dot is passed over.
  tl::expected<std::vector<ListedFile>, Refusal> list() const;

  /// Its text, which is UTF-8.
  tl::expected<std::string, Refusal> read(const TruckPath& path) const;

  /// Writes a text in place of the one of that version, whole or not at all, or a new file in place of kNoFile. Gives the new
  /// version. It is a conflict if the folder holds another version, unless that is the very text.
  tl::expected<std::string, SaveFailure> save(const TruckPath& path, const std::string& text,
                                              const std::string& version);

 private:
  TruckFolder(Descriptor folder, std::string name)
      : folder_(std::move(folder)), name_(std::move(name)) {}

  tl::expected<Descriptor, Refusal> open_parent(const TruckPath& path) const;

  Descriptor folder_;
  std::string name_;
  std::unique_ptr<std::mutex> saving_ = std::make_unique<std::mutex>();
};

}  // namespace axlewright
