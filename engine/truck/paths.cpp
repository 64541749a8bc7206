#include "engine/truck/paths.h"

#include <vector>

namespace axlewright {

namespace {

/// Takes "." and "folder/.." out, so that one file has one spelling.
std::string shortened(const std::string& path) {
  std::vector<std::string> parts;
  std::size_t begin = 0;
  while (begin <= path.size()) {
    const std::size_t stroke = path.find('/', begin);
    const std::size_t end = stroke == std::string::npos ? path.size() : stroke;
    const std::string part = path.substr(begin, end - begin);
    begin = end + 1;
    if (part.empty() || part == ".") continue;
    if (part == ".." && !parts.empty() && parts.back() != "..") {
      parts.pop_back();
    } else {
      parts.push_back(part);
    }
  }
  std::string text = !path.empty() && path[0] == '/' ? "/" : "";
  for (std::size_t i = 0; i < parts.size(); ++i) text += (i > 0 ? "/" : "") + parts[i];
  return text;
}

}  // namespace

std::string path_from(const std::string& file, const std::string& relative) {
  const std::size_t stroke = file.rfind('/');
  const bool absolute = !relative.empty() && relative[0] == '/';
  if (absolute || stroke == std::string::npos) return shortened(relative);
  return shortened(file.substr(0, stroke + 1) + relative);
}

std::string stem_of(const std::string& path) {
  const std::size_t stroke = path.rfind('/');
  std::string name = stroke == std::string::npos ? path : path.substr(stroke + 1);
  const std::size_t dot = name.rfind(".toml");
  if (dot != std::string::npos && dot > 0 && dot + 5 == name.size()) name.erase(dot);
  return name;
}

}  // namespace axlewright
