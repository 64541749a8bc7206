#pragma once

#include <string>
#include <variant>
#include <vector>

#include <Eigen/Core>

#include "engine/base/vec.h"

// A drawing as data: what a screen, an SVG or a sheet of paper shows, in lines, arcs, areas and text. It knows nothing of
// trucks; whoever draws it needs nothing but this.
//
// Paper: x to the right, y up, origin at the lower left corner [m of paper].

namespace axlewright {

using Vec2 = Eigen::Vector2d;

/// What a line means (ISO 128-2: thick continuous for visible outlines, thin for the rest, dashed for hidden edges, long-dashed
/// dotted for centre lines, long-dashed double-dotted for adjacent parts). In the order in which they are drawn.
enum class DrawingLayer {
  area,       ///< silhouettes to be filled, the farthest first
  road,       ///< road, pads
  beside,     ///< the same truck in another state, faint
  adjacent,   ///< tyres, rails, springs: what the linkage stands between
  hidden,     ///< edges behind other parts
  centre,     ///< centre lines
  detail,     ///< visible edges inside an outline
  outline,    ///< visible outlines
  swept,      ///< the way of a point over the heights
  dimension,  ///< dimension lines with their arrows
  text,
  border  ///< frame and title block
};

enum class LineKind { continuous, dashed, chain, double_dot_chain };

/// How what is on a layer is drawn.
struct LayerStyle {
  DrawingLayer layer;
  const char* name;  ///< as JSON and SVG spell it
  LineKind line;
  double weight;  ///< [m of paper]
};

/// All layers, in drawing order. Thick lines are twice as wide as thin ones.
const std::vector<LayerStyle>& layer_styles();
const LayerStyle& style_of(DrawingLayer layer);
const char* word_for(LineKind kind);

/// Straight from point to point [m of paper].
struct Polyline {
  std::vector<Vec2> points;
};

/// Anticlockwise from one angle to another, from the x direction [rad]; a whole turn is a circle.
struct Arc {
  Vec2 centre = Vec2::Zero();
  double radius = 0;
  double from = 0, to = 0;
};

/// A closed area, to be filled.
struct Area {
  std::vector<Vec2> points;
};

enum class Anchorage { start, middle, end };

/// One line of text.
struct Text {
  Vec2 at = Vec2::Zero();  ///< on the base line
  std::string text;
  double height = 0;  ///< of capital letters [m of paper]
  Anchorage anchor = Anchorage::start;
  double turn = 0;  ///< anticlockwise [rad]
};

/// One thing that is drawn.
struct Item {
  DrawingLayer layer = DrawingLayer::outline;
  std::string part;  ///< key of the part that it belongs to; may be empty
  std::variant<Polyline, Arc, Area, Text> what;
};

/// A point of the truck file where it is drawn, and what moving it on the paper does to the file.
struct Handle {
  std::string name, on;  ///< the point, the body that it rides on
  Vec2 at = Vec2::Zero();
  std::string
      sets;  ///< the entry that a drag changes: the point itself, or the one that it mirrors
  std::string from;  ///< the point that the entry's place counts from; empty: the origin
  Vec3 measured = Vec3::Zero();  ///< its place in the file, frame axes as measured [m]
  Vec3 across = Vec3::Zero();    ///< change of `measured` per metre of paper to the right
  Vec3 up = Vec3::Zero();        ///< and up
};

/// A drawing as data: what screen, SVG and paper draw alike. All places on the paper [m], from its lower left corner,
/// x right, y up.
struct Drawing {
  std::string view;   ///< "front", "side", "top", "pictorial", "sheet"
  std::string words;  ///< "Front view"
  Vec2 paper = Vec2::Zero();
  double scale = 0;  ///< metres of paper per metre of truck
  /// Where the origin of the road's axes is: lays one drawing over another.
  Vec2 origin = Vec2::Zero();
  std::vector<Item> items;
  std::vector<Handle> points;
};

}  // namespace axlewright
