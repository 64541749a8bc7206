#include "engine/output/text.h"

#include <algorithm>
#include <array>
#include <utility>

#include "engine/base/utf8.h"
#include "engine/output/text_table.h"

namespace axlewright {
namespace {

const char* code_of(Ink ink) {
  switch (ink) {
    case Ink::plain:
      return "";
    case Ink::strong:
      return "\x1b[1m";
    case Ink::alarm:
      return "\x1b[1;31m";
    case Ink::faint:
      return "\x1b[2m";
  }
  return "";
}

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  std::string word;
  for (const char c : text) {
    if (c != ' ' && c != '\n' && c != '\t') {
      word += c;
    } else if (!word.empty()) {
      words.push_back(std::exchange(word, ""));
    }
  }
  if (!word.empty()) words.push_back(std::move(word));
  return words;
}

bool begins_with_unit(const std::string& word) {
  static constexpr std::array<std::string_view, 6> kUnits{"mm", "in", "deg", "turns", "m", "ft"};
  const std::string bare = word.substr(0, word.find_first_of(",.;:)"));
  return std::find(kUnits.begin(), kUnits.end(), bare) != kUnits.end();
}

bool ends_with_digit(const std::string& word) {
  return !word.empty() && word.back() >= '0' && word.back() <= '9';
}

/// A number and its unit are one word.
std::vector<std::string> with_units_joined(std::vector<std::string> words) {
  std::vector<std::string> joined;
  for (std::string& word : words) {
    if (!joined.empty() && ends_with_digit(joined.back()) && begins_with_unit(word)) {
      joined.back() += ' ' + word;
    } else {
      joined.push_back(std::move(word));
    }
  }
  return joined;
}

/// Bytes of the first `count` code points.
std::size_t bytes_of(std::string_view text, int count) {
  std::size_t bytes = 0;
  while (count-- > 0 && bytes < text.size())
    bytes += std::max<std::size_t>(utf8_sequence_length(text.substr(bytes)), 1);
  return bytes;
}

bool is_control(std::string_view sequence) {
  const auto first = static_cast<unsigned char>(sequence.front());
  if (sequence.size() == 1) return first < 0x20 || first == 0x7F;
  // The second set of control characters, U+0080 to U+009F.
  return sequence.size() == 2 && first == 0xC2 && static_cast<unsigned char>(sequence[1]) < 0xA0;
}

}  // namespace

std::string inked(const std::string& text, Ink ink, bool colour) {
  if (!colour || ink == Ink::plain || text.empty()) return text;
  return code_of(ink) + text + "\x1b[0m";
}

int text_width(std::string_view text) {
  return count_code_points(text);
}

std::string padded_right(const std::string& text, int width) {
  return text + std::string(static_cast<std::size_t>(std::max(width - text_width(text), 0)), ' ');
}

std::string padded_left(const std::string& text, int width) {
  return std::string(static_cast<std::size_t>(std::max(width - text_width(text), 0)), ' ') + text;
}

std::vector<std::string> wrapped(std::string_view text, int width) {
  width = std::max(width, 1);
  std::vector<std::string> lines(1);
  for (std::string word : with_units_joined(words_of(text))) {
    const int wanted = text_width(lines.back()) + (lines.back().empty() ? 0 : 1) + text_width(word);
    if (wanted > width && !lines.back().empty()) lines.emplace_back();
    while (text_width(word) > width) {
      const std::size_t fits = bytes_of(word, width);
      lines.back() = word.substr(0, fits);
      word.erase(0, fits);
      lines.emplace_back();
    }
    lines.back() += (lines.back().empty() ? "" : " ") + word;
  }
  return lines;
}

std::string with_blanks(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

std::string printable(std::string_view text) {
  std::string shown;
  while (!text.empty()) {
    const std::size_t length = utf8_sequence_length(text);
    const std::string_view sequence = text.substr(0, std::max<std::size_t>(length, 1));
    if (length == 0) {
      shown += "\xEF\xBF\xBD";
    } else {
      shown += is_control(sequence) ? std::string_view(" ") : sequence;
    }
    text.remove_prefix(sequence.size());
  }
  return shown;
}

void Page::line(int indent, const std::string& text, Ink ink) {
  text_ += std::string(static_cast<std::size_t>(text.empty() ? 0 : indent), ' ') +
           inked(text, ink, style_.colour) + '\n';
}

void Page::heading(const std::string& text, const std::string& about) {
  if (!text_.empty()) blank();
  const bool one_line = about.empty() || text_width(text) + 2 + text_width(about) <= style_.width;
  for (const std::string& part : wrapped(text, style_.width)) line(0, part, Ink::strong);
  if (about.empty()) return;
  if (one_line) {
    text_.pop_back();
    text_ += "  " + inked(about, Ink::faint, style_.colour) + '\n';
  } else {
    note(about, Ink::faint);
  }
}

void Page::paragraph(const std::string& text) {
  if (!text_.empty()) blank();
  for (const std::string& part : wrapped(text, style_.width)) line(0, part, Ink::plain);
}

void Page::note(const std::string& text, Ink ink) {
  for (const std::string& part : wrapped(text, room())) line(kIndent, part, ink);
}

void Page::item(const std::string& head, const std::string& text, int hang, Ink ink) {
  bool first = true;
  for (const std::string& part : wrapped(text, room() - hang)) {
    const std::string front = padded_right(first ? head : "", hang);
    line(kIndent, first ? inked(front, ink, style_.colour) + part : front + part, Ink::plain);
    first = false;
  }
}

void Page::table(const TextTable& table) {
  for (const std::string& row : table.lines(style_.colour)) line(kIndent, row, Ink::plain);
}

}  // namespace axlewright
