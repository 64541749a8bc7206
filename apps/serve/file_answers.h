#pragma once

#include <string>
#include <string_view>

#include "apps/serve/truck_folder.h"

namespace axlewright {

/// What goes back: a status of HTTP and JSON.
struct FileAnswer {
  int status;
  std::string json;
};

/// {"error": words}
FileAnswer error_answer(int status, const std::string& words);

/// GET /files: {"folder", "files": [{"path", "size", "version"}]}; a file that cannot be read has "error" in place of a version.
FileAnswer list_files(const TruckFolder& folder);

/// GET /files/PATH: {"path", "text", "version"}. The path is encoded as in an address.
FileAnswer read_truck_file(const TruckFolder& folder, std::string_view encoded_path);

/// PUT /files/PATH, {"text", "version"}: {"version"}, or, with status 409, {"error", "text", "version"} of what is there.
FileAnswer save_truck_file(TruckFolder& folder, std::string_view encoded_path,
                           const std::string& body);

}  // namespace axlewright
