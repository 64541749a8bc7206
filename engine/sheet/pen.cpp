#include "engine/sheet/pen.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace axlewright {
namespace {

constexpr double kArrow = 3e-3;
constexpr double kArrowHalfWidth = 0.5e-3;
constexpr double kBeyond = 2e-3;  // of an extension line, beyond its dimension
constexpr double kGap = 1e-3;     // between what is measured and its extension line
constexpr double kLineSpacing = 1.6;

}  // namespace

void Pen::line(DrawingLayer layer, std::vector<Vec2> points, const std::string& part) {
  drawing_.items.push_back({layer, part, Polyline{std::move(points)}});
}

void Pen::rectangle(DrawingLayer layer, const Vec2& low, const Vec2& high) {
  line(layer, {low, {high.x(), low.y()}, high, {low.x(), high.y()}, low});
}

void Pen::circle(DrawingLayer layer, const Vec2& centre, double radius) {
  drawing_.items.push_back({layer, {}, Arc{centre, radius, 0, 2 * std::numbers::pi}});
}

void Pen::write(const Vec2& at, const std::string& text, double height, Anchorage anchor,
                double turn) {
  drawing_.items.push_back({DrawingLayer::text, {}, Text{at, text, height, anchor, turn}});
}

double Pen::write_paragraph(const Vec2& at, const std::string& text, double height, double width) {
  Vec2 place = at;
  for (const std::string& one :
       broken_text(text, static_cast<std::size_t>(width / (height * kLetterWidth)))) {
    write(place, one, height);
    place.y() -= kLineSpacing * height;
  }
  return place.y() + kLineSpacing * height;
}

void Pen::arrow(const Vec2& tip, const Vec2& way) {
  const Vec2 side(-way.y(), way.x());
  line(DrawingLayer::dimension, {tip - kArrow * way + kArrowHalfWidth * side, tip,
                                 tip - kArrow * way - kArrowHalfWidth * side});
}

void Pen::dimension_across(const Vec2& a, const Vec2& b, double y, const std::string& text) {
  for (const Vec2& end : {a, b}) {
    const double away = y > end.y() ? 1 : -1;
    line(DrawingLayer::dimension, {end + Vec2(0, away * kGap), {end.x(), y + away * kBeyond}});
  }
  const double left = std::min(a.x(), b.x()), right = std::max(a.x(), b.x());
  line(DrawingLayer::dimension, {{left, y}, {right, y}});
  arrow({left, y}, {-1, 0});
  arrow({right, y}, {1, 0});
  write({0.5 * (left + right), y + kGap}, text, kLetters, Anchorage::middle);
}

void Pen::dimension_up(const Vec2& a, const Vec2& b, double x, const std::string& text,
                       double letters) {
  for (const Vec2& end : {a, b}) {
    const double away = x > end.x() ? 1 : -1;
    line(DrawingLayer::dimension, {end + Vec2(away * kGap, 0), {x + away * kBeyond, end.y()}});
  }
  const double low = std::min(a.y(), b.y()), high = std::max(a.y(), b.y());
  line(DrawingLayer::dimension, {{x, low}, {x, high}});
  arrow({x, low}, {0, -1});
  arrow({x, high}, {0, 1});
  write({x - kGap, 0.5 * (low + high)}, text, letters, Anchorage::middle, std::numbers::pi / 2);
}

void Pen::leader(const Vec2& from, const Vec2& tip) {
  line(DrawingLayer::dimension, {from, tip});
  arrow(tip, (tip - from).normalized());
}

std::vector<std::string> broken_text(const std::string& text, std::size_t letters) {
  std::vector<std::string> lines;
  std::size_t at = 0;
  while (at < text.size()) {
    std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string word = text.substr(at, end - at);
    if (!lines.empty() && lines.back().size() + 1 + word.size() <= letters) {
      lines.back() += " " + word;
    } else {
      lines.push_back(word);
    }
    at = end + 1;
  }
  return lines;
}

}  // namespace axlewright
