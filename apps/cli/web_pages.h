#pragma once

#include <string>

#include <tl/expected.hpp>

namespace axlewright {

/// Where a built page of the web side is, "why.html": from the program's folder, so the folder at hand does not matter. In words why it is
/// not known.
tl::expected<std::string, std::string> web_page_path(const std::string& name);

}  // namespace axlewright
