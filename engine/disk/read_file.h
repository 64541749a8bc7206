#pragma once

#include <string>

#include <tl/expected.hpp>

#include "engine/truck/read.h"

// The only place of the engine that opens files; the core gets the text of its files by a function.

namespace axlewright {

/// The text of a file, as its bytes are, or in words why it cannot be had: not there, a folder, not allowed, larger than
/// 16 MB. A path counts from the folder at hand.
tl::expected<std::string, std::string> read_file(const std::string& path);

/// Truck files and their layers as they stand on the disk, read anew whenever they are asked for.
TextOf texts_on_disk();

}  // namespace axlewright
