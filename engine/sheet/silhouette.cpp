#include "engine/sheet/silhouette.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace axlewright {
namespace {

constexpr double kHair = 2e-5;  // [m] nearer to an outline than this is on it
constexpr double kTurn = 2 * std::numbers::pi;
constexpr double kSquareOn = 0.1;  // sine of the angle below which a face or a ring is seen edge-on
constexpr double kBulge = 0.7;     // of a rod's radius, that its face stands before its line
constexpr int kRingPlaces = 48;
constexpr int kCapPlaces = 9;

double cross2(const Vec2& a, const Vec2& b) {
  return a.x() * b.y() - a.y() * b.x();
}

Curve line(const Vec2& a, const Vec2& b, double depth_a, double depth_b) {
  Curve curve;
  curve.a = a;
  curve.b = b;
  curve.depth_a = depth_a;
  curve.depth_b = depth_b;
  return curve;
}

Curve arc(const Vec2& centre, double radius, double from, double to, double depth) {
  Curve curve;
  curve.is_arc = true;
  curve.centre = centre;
  curve.radius = radius;
  curve.from = from;
  curve.to = to;
  curve.depth_a = curve.depth_b = depth;
  return curve;
}

void set_box(Region& region) {
  if (region.is_polygon) {
    region.low = region.high = region.polygon.front();
    for (const Vec2& p : region.polygon) {
      region.low = region.low.cwiseMin(p);
      region.high = region.high.cwiseMax(p);
    }
    return;
  }
  const Vec2 r(region.radius, region.radius);
  region.low = region.a.cwiseMin(region.b) - r;
  region.high = region.a.cwiseMax(region.b) + r;
}

/// The convex hull, anticlockwise (Andrew's monotone chain), to a micrometre: rounding does not choose its first corner.
std::vector<Vec2> hull_of(std::vector<Vec2> places) {
  for (Vec2& place : places) place = (1e6 * place).array().round() * 1e-6;
  std::sort(places.begin(), places.end(), [](const Vec2& a, const Vec2& b) {
    return a.x() < b.x() || (a.x() == b.x() && a.y() < b.y());
  });
  std::vector<Vec2> hull;
  const auto add_chain = [&](auto begin, auto end) {
    const std::size_t start = hull.size();
    for (auto p = begin; p != end; ++p) {
      while (hull.size() >= start + 2 &&
             cross2(hull.back() - hull[hull.size() - 2], *p - hull.back()) <= 0)
        hull.pop_back();
      hull.push_back(*p);
    }
    hull.pop_back();
  };
  add_chain(places.begin(), places.end());
  add_chain(places.rbegin(), places.rend());
  return hull;
}

/// Two unit vectors square to a direction.
std::pair<Vec3, Vec3> square_to(const Vec3& axis) {
  const Vec3 lean = std::abs(axis.z()) < 0.9 ? Vec3::UnitZ() : Vec3::UnitX();
  const Vec3 first = cross(axis, lean).normalized();
  return {first, cross(axis, first)};
}

std::vector<Vec3> ring(const Vec3& centre, const Vec3& axis, double radius) {
  const auto [u, v] = square_to(axis);
  std::vector<Vec3> places;
  for (int k = 0; k < kRingPlaces; ++k) {
    const double angle = kTurn * k / kRingPlaces;
    places.push_back(centre + radius * (std::cos(angle) * u + std::sin(angle) * v));
  }
  return places;
}

void add_closed(std::vector<Curve>& curves, const std::vector<Vec2>& places, double depth) {
  for (std::size_t k = 0; k < places.size(); ++k)
    curves.push_back(line(places[k], places[(k + 1) % places.size()], depth, depth));
}

void add_flat(std::vector<Vec2>& flat, const std::vector<Vec3>& places, const ViewAxes& view) {
  for (const Vec3& p : places) flat.push_back(view.flat(p));
}

/// Outline and region from the corners of a convex body.
void set_hull(Silhouette& s, std::vector<Vec2> corners, double depth) {
  s.region.is_polygon = true;
  s.region.polygon = hull_of(std::move(corners));
  s.region.depth_a = s.region.depth_b = s.depth = depth;
  set_box(s.region);
  add_closed(s.edges, s.region.polygon, depth);
}

/// Towards the viewer, or square to the view: then rounding has no say.
bool faces(const Vec3& way, const ViewAxes& view) {
  return view.depth(way) > -kHair;
}

void draw(const Rod& rod, const ViewAxes& view, Silhouette& s) {
  const Vec2 a = view.flat(rod.a);
  Vec2 b = view.flat(rod.b);
  const bool end_on = (b - a).norm() < kHair;
  if (end_on) b = a;  // the way from one to the other would be rounding
  const double depth_a = view.depth(rod.a), depth_b = view.depth(rod.b);
  s.depth = 0.5 * (depth_a + depth_b);
  s.region.a = a;
  s.region.b = b;
  s.region.radius = rod.radius;
  s.region.depth_a = depth_a;
  s.region.depth_b = depth_b;
  set_box(s.region);
  if (end_on) {
    s.edges.push_back(arc(a, rod.radius, 0, kTurn, std::max(depth_a, depth_b)));
    return;
  }
  const Vec2 span = b - a;
  const double heading = std::atan2(span.y(), span.x());
  const Vec2 side = rod.radius * Vec2(-std::sin(heading), std::cos(heading));
  const double quarter = kTurn / 4;
  s.edges.push_back(line(a + side, b + side, depth_a, depth_b));
  s.edges.push_back(line(a - side, b - side, depth_a, depth_b));
  s.edges.push_back(arc(a, rod.radius, heading + quarter, heading + 3 * quarter, depth_a));
  s.edges.push_back(arc(b, rod.radius, heading - quarter, heading + quarter, depth_b));
}

void draw(const Drum& drum, const ViewAxes& view, Silhouette& s) {
  const Vec3 axis = (drum.b - drum.a).normalized();
  std::vector<Vec2> places, face;
  add_flat(places, ring(drum.a, axis, drum.radius), view);
  add_flat(places, ring(drum.b, axis, drum.radius), view);
  const Vec3& near = faces(drum.b - drum.a, view) ? drum.b : drum.a;
  set_hull(s, std::move(places), 0.5 * (view.depth(drum.a) + view.depth(drum.b)));
  add_flat(face, ring(near, axis, drum.radius), view);
  add_closed(s.details, face, view.depth(near));
}

void draw(const Box& box, const ViewAxes& view, Silhouette& s) {
  std::vector<Vec2> corners;
  for (const double x : {-1.0, 1.0}) {
    for (const double y : {-1.0, 1.0}) {
      for (const double z : {-1.0, 1.0})
        corners.push_back(view.flat(box.centre + x * box.x + y * box.y + z * box.z));
    }
  }
  set_hull(s, std::move(corners), view.depth(box.centre));
  // Seen nearly square on, the edges inside the outline would run along it.
  const auto faces_viewer = [&](const Vec3& half) {
    return std::abs(view.depth(half)) > kSquareOn * half.norm();
  };
  if (faces_viewer(box.x) + faces_viewer(box.y) + faces_viewer(box.z) < 2) return;
  // The three edges that meet at the corner nearest to the viewer are those inside the outline.
  const auto facing = [&](const Vec3& half) { return faces(half, view) ? half : Vec3(-half); };
  const Vec3 halves[] = {facing(box.x), facing(box.y), facing(box.z)};
  const Vec3 corner = box.centre + halves[0] + halves[1] + halves[2];
  for (const Vec3& half : halves) {
    const Vec3 end = corner - 2 * half;
    s.details.push_back(
        line(view.flat(corner), view.flat(end), view.depth(corner), view.depth(end)));
  }
}

void draw(const Tyre& tyre, const ViewAxes& view, Silhouette& s) {
  // Crown, shoulder, side wall: shares of half width and radius.
  constexpr double kProfile[][2] = {{0.55, 1.0}, {0.85, 0.975}, {1.0, 0.9}, {1.0, 0.72}};
  std::vector<Vec2> places;
  for (const auto& [width, radius] : kProfile) {
    for (const double side : {-1.0, 1.0})
      add_flat(places,
               ring(tyre.centre + side * width * tyre.half_width * tyre.axis, tyre.axis,
                    radius * tyre.radius),
               view);
  }
  set_hull(s, std::move(places), view.depth(tyre.centre));
  if (std::abs(view.depth(tyre.axis)) < kSquareOn) return;  // the rim would be a line
  const double side = faces(tyre.axis, view) ? 1.0 : -1.0;
  std::vector<Vec2> rim;
  add_flat(rim, ring(tyre.centre + side * 0.8 * tyre.half_width * tyre.axis, tyre.axis, tyre.rim),
           view);
  add_closed(s.details, rim, s.depth);
}

void draw(const Coil& coil, const ViewAxes& view, Silhouette& s) {
  const Vec2 a = view.flat(coil.a), b = view.flat(coil.b);
  s.depth = 0.5 * (view.depth(coil.a) + view.depth(coil.b));
  s.covers_something = false;
  const Vec2 span = b - a;
  if (span.norm() < kSquareOn * (coil.b - coil.a).norm()) {  // seen along its axis
    s.edges.push_back(arc(a, coil.radius, 0, kTurn, s.depth));
    return;
  }
  const Vec2 side = coil.radius * Vec2(-span.y(), span.x()).normalized();
  Vec2 last = a - side;
  for (int k = 0; k < 2 * coil.turns; ++k) {
    const Vec2 next = a + span * (k + 1.0) / (2.0 * coil.turns) + (k % 2 == 0 ? side : Vec2(-side));
    s.edges.push_back(line(last, next, s.depth, s.depth));
    last = next;
  }
}

}  // namespace

Vec2 Curve::at(double share) const {
  if (!is_arc) return a + share * (b - a);
  const double angle = from + share * (to - from);
  return centre + radius * Vec2(std::cos(angle), std::sin(angle));
}

bool Region::covers(const Vec2& p) const {
  if (p.x() < low.x() || p.y() < low.y() || p.x() > high.x() || p.y() > high.y()) return false;
  if (!is_polygon) {
    const Vec2 span = b - a;
    const double square = span.squaredNorm();
    const double share = square > 0 ? std::clamp((p - a).dot(span) / square, 0.0, 1.0) : 0.0;
    return (p - a - share * span).norm() < radius - kHair;
  }
  for (std::size_t k = 0; k < polygon.size(); ++k) {
    const Vec2 edge = polygon[(k + 1) % polygon.size()] - polygon[k];
    if (cross2(edge, p - polygon[k]) < kHair * edge.norm()) return false;
  }
  return true;
}

double Region::depth_at(const Vec2& p) const {
  if (is_polygon) return depth_a;
  // The nearest of the balls along the line that cover p: of a rod seen nearly end-on these are many.
  const Vec2 span = b - a;
  const double square = span.squaredNorm();
  const double middle = square > 0 ? (p - a).dot(span) / square : 0.5;
  const double aside = (p - a - middle * span).squaredNorm();
  const double reach =
      square > 0 ? std::sqrt(std::max(0.0, radius * radius - aside) / square) : 1.0;
  const double nearest = depth_b > depth_a ? middle + reach : middle - reach;
  const double share = std::clamp(nearest, 0.0, 1.0);
  return depth_a + share * (depth_b - depth_a) + kBulge * radius;
}

std::vector<Vec2> Region::outline() const {
  if (is_polygon) return polygon;
  const Vec2 span = b - a;
  const double heading = std::atan2(span.y(), span.x());
  std::vector<Vec2> places;
  for (const bool far_end : {true, false}) {
    for (int k = 0; k < kCapPlaces; ++k) {
      const double angle =
          heading + (far_end ? -kTurn / 4 : kTurn / 4) + 0.5 * kTurn * k / (kCapPlaces - 1);
      places.emplace_back((far_end ? b : a) + radius * Vec2(std::cos(angle), std::sin(angle)));
    }
  }
  return places;
}

Silhouette silhouette_of(const Solid& solid, const ViewAxes& view) {
  Silhouette s;
  s.part = solid.part;
  s.adjacent = solid.adjacent;
  std::visit([&](const auto& shape) { draw(shape, view, s); }, solid.shape);
  return s;
}

}  // namespace axlewright
