#include "engine/sheet/view.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "engine/base/index.h"
#include "engine/base/invariant.h"
#include "engine/base/units.h"
#include "engine/sheet/visibility.h"

namespace axlewright {
namespace {

constexpr double kShareOfPaper = 0.96;  // that a view fills
constexpr double kRoadThickness = 0.012;
constexpr double kShortest = from_mm(1);  // of paper: a line seen end-on is none

/// Draws one truck on one paper.
class Composer {
 public:
  Composer(const DrawnTruck& drawn, const ViewPlan& plan, const ViewAxes& axes,
           const Placement& placement)
      : drawn_(drawn), plan_(plan), axes_(axes), box_(box_in_view(drawn.room, axes)) {
    out_.view = name_of(plan.kind);
    out_.words = words_for(plan.kind);
    out_.paper = plan.paper;
    out_.scale = placement.scale;
    out_.origin = placement.origin;
  }

  Drawing compose() {
    add_road();
    if (drawn_.beside) add_truck(*drawn_.beside, true);
    add_truck(drawn_.now, false);
    for (const SweptWay& way : drawn_.swept) add_swept(way);
    add_handles();
    std::stable_sort(out_.items.begin(), out_.items.end(),
                     [](const Item& a, const Item& b) { return a.layer < b.layer; });
    return std::move(out_);
  }

 private:
  Vec2 on_paper(const Vec2& flat) const { return out_.origin + out_.scale * flat; }
  Vec2 on_paper(const Vec3& place) const { return on_paper(axes_.flat(place)); }

  void add_line(DrawingLayer layer, const std::string& part, std::vector<Vec2> points) {
    out_.items.push_back({layer, part, Polyline{std::move(points)}});
  }

  void add_curve(DrawingLayer layer, const std::string& part, const Curve& curve, double from,
                 double to) {
    if (!curve.is_arc) {
      add_line(layer, part, {on_paper(curve.at(from)), on_paper(curve.at(to))});
      return;
    }
    const double way = curve.to - curve.from;
    out_.items.push_back({layer, part,
                          Arc{on_paper(curve.centre), out_.scale * curve.radius,
                              curve.from + from * way, curve.from + to * way}});
  }

  /// The road is drawn where it is seen edge-on; pads are drawn under wheels that stand on some.
  void add_road() {
    if (axes_.toward.z() != 0) return;
    const Vec2 left = on_paper(Vec2(box_.low.x(), 0)), right = on_paper(Vec2(box_.high.x(), 0));
    add_line(DrawingLayer::road, "road", {left, right});
    const double thick = out_.scale * kRoadThickness;
    out_.items.push_back({DrawingLayer::area, "road",
                          Area{{left, right, right - Vec2(0, thick), left - Vec2(0, thick)}}});
  }

  void add_truck(const Stance& stance, bool beside) {
    const TruckSolids parts = truck_solids(drawn_.truck, drawn_.expansion, stance);
    std::vector<Silhouette> silhouettes;
    for (const Solid& solid : parts.solids) silhouettes.push_back(silhouette_of(solid, axes_));
    if (!beside && plan_.areas) add_areas(silhouettes);
    for (std::size_t k = 0; k < silhouettes.size(); ++k) add_edges(silhouettes, k, beside);
    if (beside || !plan_.centre_lines) return;
    for (const CentreLine& line : parts.centre_lines) {
      const Vec2 a = on_paper(line.a), b = on_paper(line.b);
      if ((b - a).norm() > kShortest) add_line(DrawingLayer::centre, line.part, {a, b});
    }
  }

  void add_areas(const std::vector<Silhouette>& silhouettes) {
    std::vector<std::size_t> order(silhouettes.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      // Adjacent things are see-through: under everything.
      if (silhouettes[a].adjacent != silhouettes[b].adjacent) return silhouettes[a].adjacent;
      // To a micrometre: what lies equally deep stays in the order of the parts.
      return std::round(1e6 * silhouettes[a].depth) < std::round(1e6 * silhouettes[b].depth);
    });
    for (const std::size_t k : order) {
      if (!silhouettes[k].covers_something) continue;
      Area area;
      for (const Vec2& p : silhouettes[k].region.outline()) area.points.push_back(on_paper(p));
      out_.items.push_back({DrawingLayer::area, silhouettes[k].part, std::move(area)});
    }
  }

  void add_edges(const std::vector<Silhouette>& silhouettes, std::size_t k, bool beside) {
    const Silhouette& s = silhouettes[k];
    if (s.adjacent) {
      add_adjacent(s, beside);
      return;
    }
    for (const Curve& edge : s.edges) {
      for (const Stretch& stretch : stretches_of(edge, k, silhouettes)) {
        if (stretch.seen == Seen::merged) continue;
        const bool hidden = stretch.seen == Seen::hidden;
        if (hidden && (beside || !plan_.hidden)) continue;
        add_curve(beside   ? DrawingLayer::beside
                  : hidden ? DrawingLayer::hidden
                           : DrawingLayer::outline,
                  s.part, edge, stretch.from, stretch.to);
      }
    }
    if (beside) return;
    for (const Curve& detail : s.details) {
      for (const Stretch& stretch : stretches_of(detail, k, silhouettes)) {
        if (stretch.seen == Seen::visible)
          add_curve(DrawingLayer::detail, s.part, detail, stretch.from, stretch.to);
      }
    }
  }

  /// As one polyline for each closed run, so that its dashes run through.
  void add_adjacent(const Silhouette& s, bool beside) {
    // A coil's turns are too close for dots and dashes.
    const DrawingLayer layer = beside               ? DrawingLayer::beside
                               : s.covers_something ? DrawingLayer::adjacent
                                                    : DrawingLayer::detail;
    for (const std::vector<Curve>* curves : {&s.edges, &s.details}) {
      std::vector<Vec2> run;
      for (const Curve& curve : *curves) {
        if (curve.is_arc) {
          add_curve(layer, s.part, curve, 0, 1);
          continue;
        }
        const Vec2 a = on_paper(curve.a), b = on_paper(curve.b);
        if (!run.empty() && (run.back() - a).norm() > 1e-9) {
          add_line(layer, s.part, std::move(run));
          run.clear();
        }
        if (run.empty()) run.push_back(a);
        run.push_back(b);
      }
      if (!run.empty()) add_line(layer, s.part, std::move(run));
      if (beside) return;  // no rims and coils twice
    }
  }

  void add_swept(const SweptWay& way) {
    std::vector<Vec2> points;
    for (const Vec3& place : way.places) points.push_back(on_paper(drawn_.now.on_road(place)));
    if (points.size() > 1) add_line(DrawingLayer::swept, way.point, std::move(points));
  }

  void add_handles() {
    const Expansion& x = drawn_.expansion;
    for (std::size_t p = 0; p < drawn_.truck.points.size(); ++p) {
      const Point& point = drawn_.truck.points[p];
      const Anchor& anchor = x.mechanism.anchor(x.point_anchors[p]);
      Handle handle;
      handle.name = point.name;
      handle.on = point.on;
      handle.at = on_paper(drawn_.now.place(anchor));
      const bool mirrored = !point.mirror_of.empty();
      handle.sets = mirrored ? point.mirror_of : point.name;
      const Point* entry = find_point(drawn_.truck, handle.sets);
      AXLEWRIGHT_INVARIANT(entry != nullptr);
      handle.from = entry->from;
      handle.measured = entry->at;
      if (const Point* from = find_point(drawn_.truck, entry->from)) handle.measured -= from->at;
      // Where a fit has put it no drag of one point can move it: what moves it is what was measured.
      if (!drawn_.truck.fit) {
        handle.across = measured_way(anchor, axes_.across, mirrored);
        handle.up = measured_way(anchor, axes_.up, mirrored);
      }
      out_.points.push_back(std::move(handle));
    }
  }

  /// What a way on the paper is on the point's body as measured, per unit of paper.
  Vec3 measured_way(const Anchor& anchor, const Vec3& on_road, bool mirrored) const {
    const RoadAxes& road = drawn_.now.road;
    const Vec3 in_frame =
        on_road.x() * road.forward + on_road.y() * road.left + on_road.z() * road.normal;
    const Mat3& R = drawn_.now.bodies[index(anchor.body.value)].R;
    Vec3 way = R.transpose() * in_frame / out_.scale;
    if (mirrored) way.y() = -way.y();
    return way;
  }

  const DrawnTruck& drawn_;
  const ViewPlan& plan_;
  ViewAxes axes_;
  Box2 box_;
  Drawing out_;
};

}  // namespace

Box2 box_in_view(const Room& room, const ViewAxes& axes) {
  Box2 box{Vec2(1e9, 1e9), Vec2(-1e9, -1e9)};
  for (int corner = 0; corner < 8; ++corner) {
    const Vec2 p = axes.flat({(corner & 1) != 0 ? room.high.x() : room.low.x(),
                              (corner & 2) != 0 ? room.high.y() : room.low.y(),
                              (corner & 4) != 0 ? room.high.z() : room.low.z()});
    box.low = box.low.cwiseMin(p);
    box.high = box.high.cwiseMax(p);
  }
  return box;
}

Drawing compose_view(const DrawnTruck& drawn, const ViewPlan& plan) {
  const ViewAxes axes = view_axes(plan.kind, plan.turn, plan.tilt);
  const Box2 box = box_in_view(drawn.room, axes);
  Placement placement;
  placement.scale = kShareOfPaper * plan.paper.cwiseQuotient(box.high - box.low).minCoeff();
  placement.origin = 0.5 * plan.paper - 0.5 * placement.scale * (box.low + box.high);
  return Composer(drawn, plan, axes, placement).compose();
}

Drawing compose_view(const DrawnTruck& drawn, const ViewPlan& plan, const Placement& placement) {
  return Composer(drawn, plan, view_axes(plan.kind, plan.turn, plan.tilt), placement).compose();
}

SweptWay swept_way(const Expansion& x, const std::string& point, const Stance& now,
                   const std::vector<std::vector<Pose>>& poses) {
  SweptWay way{point, {}};
  const auto found = std::find(x.point_names.begin(), x.point_names.end(), point);
  AXLEWRIGHT_INVARIANT(found != x.point_names.end());
  const Anchor& anchor =
      x.mechanism.anchor(x.point_anchors[static_cast<std::size_t>(found - x.point_names.begin())]);
  const std::size_t body = index(anchor.body.value), axle = index(x.axle.value);
  for (const std::vector<Pose>& bodies : poses) {
    const Vec3 place = bodies[body].place(anchor.at);
    if (anchor.body != kFrame) {
      way.places.push_back(place);
      continue;
    }
    const Vec3 on_axle = bodies[axle].R.transpose() * (place - bodies[axle].t);
    way.places.push_back(now.bodies[axle].place(on_axle));
  }
  return way;
}

}  // namespace axlewright
