#include "engine/truck/document.h"

#include <algorithm>

#include "engine/base/utf8.h"

namespace axlewright {

namespace {

bool continues_code_point(char c) {
  return (static_cast<unsigned char>(c) & 0xC0) == 0x80;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::size_t begin = text.rfind("\xEF\xBB\xBF", 0) == 0 ? 3 : 0;
  while (begin <= text.size()) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    std::string line = text.substr(begin, end - begin);
    if (!line.empty() && line.back() == '\r') line.pop_back();
    lines.push_back(valid_utf8(line));
    begin = end + 1;
  }
  return lines;
}

}  // namespace

const Node* find(const Node& table, const std::string& key) {
  for (const Entry& entry : table.entries) {
    if (entry.key == key) return &entry.value;
  }
  return nullptr;
}

Node* find(Node& table, const std::string& key) {
  return const_cast<Node*>(find(static_cast<const Node&>(table), key));
}

std::vector<std::string> keys(const Node& table) {
  std::vector<std::string> names;
  for (const Entry& entry : table.entries) names.push_back(entry.key);
  return names;
}

void Sources::add(const std::string& file, const std::string& text) {
  if (order(file) == sources_.size()) sources_.push_back({file, lines_of(text)});
}

std::string Sources::line(const std::string& file, int line) const {
  const std::size_t i = order(file);
  if (i == sources_.size() || line < 1) return {};
  const std::vector<std::string>& lines = sources_[i].lines;
  const std::size_t row = static_cast<std::size_t>(line) - 1;
  return row < lines.size() ? lines[row] : std::string();
}

std::size_t Sources::order(const std::string& file) const {
  std::size_t i = 0;
  while (i < sources_.size() && sources_[i].file != file) ++i;
  return i;
}

std::size_t byte_offset(const std::string& text, int line, int column) {
  // A byte order mark belongs to no line.
  std::size_t at = text.rfind("\xEF\xBB\xBF", 0) == 0 ? 3 : 0;
  for (int l = 1; l < line; ++l) {
    at = text.find('\n', at);
    if (at == std::string::npos) return text.size();
    ++at;
  }
  for (int c = 1; c < column && at < text.size() && text[at] != '\n'; ++c) {
    ++at;
    while (at < text.size() && continues_code_point(text[at])) ++at;
  }
  return at;
}

}  // namespace axlewright
