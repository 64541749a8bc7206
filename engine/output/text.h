#pragma once

#include <string>
#include <string_view>
#include <vector>

// Text for a terminal: lines of a fixed width, counted in code points.

namespace axlewright {

/// How an answer is printed. Colour never carries anything that the words do not.
struct PrintStyle {
  int width = 80;       ///< columns that every line keeps to, at least 40
  bool colour = false;  ///< ANSI colours
  bool all = false;     ///< everything the answer has, not its main part alone
};

enum class Ink { plain, strong, alarm, faint };

/// The text in that ink, as a terminal understands it; as it is if `colour` is off.
std::string inked(const std::string& text, Ink ink, bool colour);

/// Columns that a text takes: one for each code point.
int text_width(std::string_view text);

std::string padded_right(const std::string& text, int width);  ///< blanks behind
std::string padded_left(const std::string& text, int width);   ///< blanks in front

/// Words in lines of at most `width` columns. A number stays with its unit; a word longer than a line is cut. Blanks in
/// a row count as one. At least one line.
std::vector<std::string> wrapped(std::string_view text, int width);

/// Underscores of a name turned into blanks.
std::string with_blanks(std::string name);

/// The text without control characters: a name out of a file must not steer the terminal.
std::string printable(std::string_view text);

class TextTable;

/// A page being written from the top down. Headings stand at the margin, what they head is indented.
class Page {
 public:
  explicit Page(const PrintStyle& style) : style_(style) {}

  const PrintStyle& style() const { return style_; }
  static constexpr int kIndent = 2;
  /// Columns for what stands under a heading.
  int room() const { return style_.width - kIndent; }

  /// A blank line, then the heading, with what it is about behind it.
  void heading(const std::string& text, const std::string& about = "");
  /// A paragraph at the margin, with a blank line before it unless it is the first thing on the page.
  void paragraph(const std::string& text);
  /// Wrapped under a heading.
  void note(const std::string& text, Ink ink = Ink::plain);
  /// Wrapped under a heading, with a head in front of the first line; the rest hangs at `hang` columns.
  void item(const std::string& head, const std::string& text, int hang, Ink ink = Ink::plain);
  void table(const TextTable& table);
  void blank() { text_ += '\n'; }

  std::string take() { return std::move(text_); }

 private:
  void line(int indent, const std::string& text, Ink ink);

  PrintStyle style_;
  std::string text_;
};

}  // namespace axlewright
