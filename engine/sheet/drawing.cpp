#include "engine/sheet/drawing.h"

#include "engine/base/index.h"
#include "engine/base/units.h"

namespace axlewright {
namespace {

// ISO 128-2 asks for 2 : 1.
constexpr double kThick = from_mm(0.5);
constexpr double kThin = from_mm(0.25);

}  // namespace

const std::vector<LayerStyle>& layer_styles() {
  static const std::vector<LayerStyle> styles{
      {DrawingLayer::area, "area", LineKind::continuous, 0},
      {DrawingLayer::road, "road", LineKind::continuous, kThick},
      {DrawingLayer::beside, "beside", LineKind::continuous, kThin},
      {DrawingLayer::adjacent, "adjacent", LineKind::double_dot_chain, kThin},
      {DrawingLayer::hidden, "hidden", LineKind::dashed, kThin},
      {DrawingLayer::centre, "centre", LineKind::chain, kThin},
      {DrawingLayer::detail, "detail", LineKind::continuous, kThin},
      {DrawingLayer::outline, "outline", LineKind::continuous, kThick},
      {DrawingLayer::swept, "swept", LineKind::continuous, kThin},
      {DrawingLayer::dimension, "dimension", LineKind::continuous, kThin},
      {DrawingLayer::text, "text", LineKind::continuous, kThin},
      {DrawingLayer::border, "border", LineKind::continuous, kThick},
  };
  return styles;
}

const LayerStyle& style_of(DrawingLayer layer) {
  return layer_styles()[index(static_cast<int>(layer))];
}

const char* word_for(LineKind kind) {
  switch (kind) {
    case LineKind::continuous:
      return "continuous";
    case LineKind::dashed:
      return "dashed";
    case LineKind::chain:
      return "chain";
    case LineKind::double_dot_chain:
      return "double dot";
  }
  return "";
}

}  // namespace axlewright
