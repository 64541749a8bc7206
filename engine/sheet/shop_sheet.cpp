#include "engine/sheet/shop_sheet.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "engine/base/units.h"
#include "engine/sheet/part_marks.h"
#include "engine/sheet/pen.h"

namespace axlewright {
namespace {

// [m of paper]
constexpr double kMargin = 10e-3;
constexpr double kDimensions = 17e-3;  // room for a row of dimensions beside a view
constexpr double kMarks = 13e-3;       // and of part marks over it
constexpr double kTitleWidth = 170e-3;
constexpr double kTitleHeight =
    150e-3;  // of parts list and title block, which stand over the side view
constexpr double kPadding = 3e-3;

/// 1 : so many. ISO 5455 has 5, 10, 20 and 50; 12 is an inch to the foot, 15 and 25 keep A3 and 11 x 17 in of use.
constexpr double kScales[] = {2, 2.5, 4, 5, 8, 10, 12, 15, 20, 25, 50, 100};

class SheetComposer {
 public:
  SheetComposer(const DrawnTruck& drawn, const SheetPlan& plan)
      : drawn_(drawn), plan_(plan), pen_(out_) {
    out_.view = "sheet";
    out_.words = "Shop sheet";
    out_.paper = plan.paper.size;
  }

  Drawing compose() {
    choose_scale();
    const Drawing front = draw(ViewKind::front, front_);
    const Drawing side = draw(ViewKind::side, side_);
    const Drawing top = draw(ViewKind::top_below, top_);
    add_dimensions();
    const std::vector<PartMark> marks =
        mark_parts({marked(front, front_box_, front_), marked(side, side_box_, side_),
                    marked(top, top_box_, top_)},
                   drawn_.truck, pen_);
    add_border();
    add_parts_list(marks);
    add_title_block();
    std::stable_sort(out_.items.begin(), out_.items.end(),
                     [](const Item& a, const Item& b) { return a.layer < b.layer; });
    return std::move(out_);
  }

 private:
  /// Top view over front view, side view to the right of it: one across for the first two, one up for front and side.
  void choose_scale() {
    const Room& room = drawn_.room;
    front_box_ = box_in_view(room, view_axes(ViewKind::front, 0, 0));
    side_box_ = box_in_view(room, view_axes(ViewKind::side, 0, 0));
    top_box_ = box_in_view(room, view_axes(ViewKind::top_below, 0, 0));
    const Vec2 front = front_box_.high - front_box_.low, side = side_box_.high - side_box_.low;
    const Vec2 top = top_box_.high - top_box_.low;
    const Vec2 free = plan_.paper.size - Vec2(2 * kMargin + 3 * kDimensions,
                                              2 * kMargin + 2 * kDimensions + 2 * kMarks);
    one_to_ = kScales[std::size(kScales) - 1];
    for (const double one_to : kScales) {
      const bool fits =
          (front.x() + side.x()) / one_to <= free.x() && (front.y() + top.y()) / one_to <= free.y();
      if (!fits) continue;
      one_to_ = one_to;
      break;
    }
    out_.scale = 1 / one_to_;
    const Vec2 low(kMargin + kDimensions, kMargin + kDimensions);
    front_ = {out_.scale, low - out_.scale * front_box_.low};
    side_ = {out_.scale,
             {low.x() + out_.scale * front.x() + kDimensions - out_.scale * side_box_.low.x(),
              front_.origin.y()}};
    top_ = {out_.scale,
            {front_.origin.x(), low.y() + out_.scale * front.y() + kMarks + kDimensions -
                                    out_.scale * top_box_.low.y()}};
  }

  Drawing draw(ViewKind kind, const Placement& placement) {
    ViewPlan plan;
    plan.kind = kind;
    plan.paper = out_.paper;
    plan.areas = false;
    Drawing view = compose_view(drawn_, plan, placement);
    out_.items.insert(out_.items.end(), view.items.begin(), view.items.end());
    return view;
  }

  static MarkedView marked(const Drawing& view, const Box2& box, const Placement& placement) {
    return {&view, placement.origin.y() + placement.scale * box.high.y() + 0.5 * kMarks,
            placement.origin.x() + placement.scale * box.low.x(),
            placement.origin.x() + placement.scale * box.high.x(), view.view != "side"};
  }

  std::string length(double metres) const {
    return plan_.inches ? fmt::format("{:.2f}", to_inch(metres))
                        : fmt::format("{:.0f}", to_mm(metres));
  }

  Vec3 place(AnchorId id) const { return drawn_.now.place(drawn_.expansion.mechanism.anchor(id)); }

  static Vec2 on_paper(const Vec3& place, ViewKind kind, const Placement& placement) {
    return placement.origin + placement.scale * view_axes(kind, 0, 0).flat(place);
  }

  void add_dimensions() {
    const Expansion& x = drawn_.expansion;
    const Vec3 left = place(x.wheel_on_axle.left), right = place(x.wheel_on_axle.right);
    const double below = front_.origin.y() + out_.scale * front_box_.low.y() - 0.4 * kDimensions;
    pen_.dimension_across(on_paper(right, ViewKind::front, front_),
                          on_paper(left, ViewKind::front, front_), below,
                          length(left.y() - right.y()));
    // From the road up to the wheel's centre, at the outside.
    const double outside = front_.origin.x() + out_.scale * front_box_.low.x() - 0.3 * kDimensions;
    pen_.dimension_up(on_paper({right.x(), right.y(), 0}, ViewKind::front, front_),
                      on_paper(right, ViewKind::front, front_), outside, length(right.z()));
    add_bar_dimensions();
    // Fore-aft, from the wheel's centre to the tie rod's ball or what else steers.
    for (const BarPlace& bar : x.bars) {
      if (bar.kind != BarKind::tie_rod) continue;
      const Vec3 a = place(bar.a), b = place(bar.b);
      const Vec3 ball = a.y() > b.y() ? a : b;  // on the side of the wheel
      const double aside = side_.origin.y() + out_.scale * side_box_.low.y() - 0.4 * kDimensions;
      pen_.dimension_across(on_paper(left, ViewKind::side, side_),
                            on_paper(ball, ViewKind::side, side_), aside,
                            length(std::abs(ball.x() - left.x())));
    }
  }

  /// An arm of a four-bar: it ends on a crank.
  bool is_arm(const BarPlace& bar) const {
    const Expansion& x = drawn_.expansion;
    const BodyId end = x.mechanism.anchor(bar.b).body;
    return std::any_of(x.four_bars.begin(), x.four_bars.end(),
                       [&](const FourBarPlace& four_bar) { return four_bar.crank == end; });
  }

  /// How far the ends of what locates and steers are apart in height: what its arc hangs on.
  void add_bar_dimensions() {
    double line = front_.origin.x() + out_.scale * front_box_.high.x();
    const auto drop = [&](const std::string& words, const Vec3& a, const Vec3& b) {
      pen_.dimension_up(on_paper(a, ViewKind::front, front_), on_paper(b, ViewKind::front, front_),
                        line, words + " " + length(std::abs(a.z() - b.z())), kSmallLetters);
      line += 0.45 * kDimensions;
    };
    for (const BarPlace& bar : drawn_.expansion.bars) {
      const bool locates = bar.kind == BarKind::track_bar || is_arm(bar);
      if (!bar.rear && (locates || bar.kind == BarKind::drag_link))
        drop(bar.words, place(bar.a), place(bar.b));
    }
    for (const GuidedPlace& guided : drawn_.expansion.guided)
      drop(guided.words, place(guided.pivot), place(guided.near_end));
  }

  void add_border() {
    const Vec2 margin(kMargin, kMargin);
    pen_.rectangle(DrawingLayer::border, margin, out_.paper - margin);
    view_title(front_, front_box_, "Front view");
    view_title(side_, side_box_, "Side view, from the truck's left");
    view_title(top_, top_box_, "Top view, front below");
  }

  void view_title(const Placement& placement, const Box2& box, const std::string& words) {
    const Vec2 middle(0.5 * (box.low.x() + box.high.x()), box.low.y());
    pen_.write(placement.origin + placement.scale * middle - Vec2(0, 0.85 * kDimensions), words,
               kLetters, Anchorage::middle);
  }

  Vec2 title_corner() const { return {out_.paper.x() - kMargin - kTitleWidth, 0}; }

  void add_parts_list(const std::vector<PartMark>& marks) {
    const double step = 1.75 * kSmallLetters;
    const double column = 0.5 * kTitleWidth;
    const std::size_t half = (marks.size() + 1) / 2;
    const double top = out_.paper.y() - kMargin - 2 * kPadding;
    for (std::size_t k = 0; k < marks.size(); ++k) {
      const Vec2 at(title_corner().x() + (k < half ? 0 : column),
                    top - step * static_cast<double>(k < half ? k : k - half));
      pen_.write(at + Vec2(6e-3, 0), std::to_string(marks[k].number), kSmallLetters,
                 Anchorage::end);
      pen_.write(at + Vec2(8e-3, 0), marks[k].words, kSmallLetters);
    }
    title_top_ = top - step * static_cast<double>(half) - kPadding;
  }

  void add_title_block() {
    const double left = title_corner().x(), right = out_.paper.x() - kMargin;
    const double width = kTitleWidth - 2 * kPadding;
    Vec2 at(left + kPadding, title_top_ - kLargeLetters - kPadding);
    const Vec2 top_left(left, title_top_);
    pen_.write(at, drawn_.truck.name, kLargeLetters);
    const auto next = [&](double height) { at.y() -= 1.7 * height; };
    next(kLetters);
    const auto paragraph = [&](const std::string& text, double height) {
      at.y() = pen_.write_paragraph(at, text, height, width);
      next(height);
    };
    paragraph("Drawn " + plan_.place, kLetters);
    for (const std::string& note : plan_.notes) paragraph(note, kLetters);
    paragraph(fmt::format("Scale 1:{:g}; dimensions in {}; third-angle projection", one_to_,
                          plan_.inches ? "inches" : "mm"),
              kLetters);
    add_projection_symbol({right - 16e-3, title_top_ - 7e-3});
    paragraph(
        "Height is the rise of the frame over the axle, from as measured. Dimensions are level or "
        "upright. Lines between points are "
        "those of the truck file; tubes, housings, brackets, rails and springs are nominal. Long "
        "dashes with two dots: tyres and rails; with one dot: centre lines; dashed: behind other "
        "parts.",
        kSmallLetters);
    for (const std::string& caution : plan_.cautions) paragraph(caution, kSmallLetters);
    pen_.rectangle(DrawingLayer::border, {left, at.y() + 0.5 * kPadding}, {right, title_top_});
  }

  /// A cone's frustum, from the side and from its small end, which third-angle projection puts on the side of the small end.
  void add_projection_symbol(const Vec2& at) {
    constexpr double kSmall = 1.5e-3, kLarge = 3e-3, kLong = 6e-3;
    const Vec2 cone = at + Vec2(5e-3, 0);
    pen_.line(DrawingLayer::detail,
              {cone + Vec2(0, kSmall), cone + Vec2(kLong, kLarge), cone + Vec2(kLong, -kLarge),
               cone + Vec2(0, -kSmall), cone + Vec2(0, kSmall)});
    pen_.circle(DrawingLayer::detail, at, kSmall);
    pen_.circle(DrawingLayer::detail, at, kLarge);
  }

  const DrawnTruck& drawn_;
  const SheetPlan& plan_;
  Drawing out_;
  Pen pen_;
  double one_to_ = 0;
  double title_top_ = 0;
  Box2 front_box_, side_box_, top_box_;
  Placement front_, side_, top_;
};

}  // namespace

const std::vector<PaperSize>& paper_sizes() {
  static const std::vector<PaperSize> sizes{
      {"A2", Vec2(0.594, 0.42)}, {"A3", Vec2(0.42, 0.297)}, {"11x17", Vec2(0.4318, 0.2794)}};
  return sizes;
}

Drawing compose_sheet(const DrawnTruck& drawn, const SheetPlan& plan) {
  return SheetComposer(drawn, plan).compose();
}

}  // namespace axlewright
