#pragma once

#include <string>
#include <vector>

#include "engine/sheet/drawing.h"

// What is drawn on paper around a truck: lines, lettering, dimensions [m of paper].

namespace axlewright {

/// Lettering heights of ISO 3098.
inline constexpr double kSmallLetters = 2.5e-3;
inline constexpr double kLetters = 3.5e-3;
inline constexpr double kLargeLetters = 5e-3;

/// About what a letter of a plain typeface takes of its height; lines are broken by it.
inline constexpr double kLetterWidth = 0.82;

/// Adds to a drawing. Holds it by reference.
class Pen {
 public:
  explicit Pen(Drawing& drawing) : drawing_(drawing) {}

  void line(DrawingLayer layer, std::vector<Vec2> points, const std::string& part = {});
  void rectangle(DrawingLayer layer, const Vec2& low, const Vec2& high);
  void circle(DrawingLayer layer, const Vec2& centre, double radius);
  void write(const Vec2& at, const std::string& text, double height,
             Anchorage anchor = Anchorage::start, double turn = 0);

  /// Text broken into lines that fit a width, downward from the first base line. Gives the last base line.
  double write_paragraph(const Vec2& at, const std::string& text, double height, double width);

  /// A dimension (ISO 129-1) between two places, measured along x or along y: extension lines, a line with arrows at `line` (the y or x
  /// where it runs), its text over the middle.
  void dimension_across(const Vec2& a, const Vec2& b, double line, const std::string& text);
  void dimension_up(const Vec2& a, const Vec2& b, double line, const std::string& text,
                    double letters = kLetters);

  /// A line that ends with an arrow on an outline (ISO 128-2).
  void leader(const Vec2& from, const Vec2& tip);

 private:
  void arrow(const Vec2& tip, const Vec2& way);

  Drawing& drawing_;
};

/// Text broken at spaces into lines of at most so many letters; a longer word has a line of its own.
std::vector<std::string> broken_text(const std::string& text, std::size_t letters);

}  // namespace axlewright
