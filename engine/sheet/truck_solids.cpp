#include "engine/sheet/truck_solids.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <utility>

#include "engine/base/index.h"

namespace axlewright {
namespace {

// Nominal sections [m], for parts whose sections no truck file tells: common practice, no source.
constexpr double kBarRadius = 0.019;    // tube of 38 mm
constexpr double kJointRadius = 0.027;  // ball joint housing
constexpr double kHalfLinkRadius = 0.016;
constexpr double kGuideRadius = 0.011;
constexpr double kArmRadius = 0.015;  // bracket, steering arm
constexpr double kCrankRadius = 0.018;
constexpr double kPinRadius = 0.026;  // housing of a crank's, rocker's or relay's pin
constexpr double kPinHalfLength = 0.035;
constexpr double kAxleRadius = 0.045;  // axle tube of 90 mm
constexpr double kYokeRadius = 0.026;
constexpr double kKnuckleRadius = 0.03;
constexpr double kStubRadius = 0.028;
constexpr double kPitmanRadius = 0.02;
constexpr double kGearRadius = 0.055;
constexpr double kShaftRadius = 0.018;
constexpr double kSpringRadius = 0.06;
constexpr double kRimShare = 0.56;      // of the loaded radius
constexpr double kYokeInboard = 0.075;  // where the axle tube ends, from the kingpin
constexpr double kLeafRadius = 0.014;
constexpr double kRailMiddle = 0.43;  // half the distance between the rails' middles
constexpr double kRailHalfWidth = 0.035;
constexpr double kRailDepth = 0.19;
constexpr double kRailAhead = 0.62;    // of the axle
constexpr double kRailOverTop = 0.03;  // above the highest point on the frame
constexpr double kLeastPad =
    8e-3;  // under a wheel that travel has lifted; steering and lean alone lift it by a few mm
constexpr double kOverhang = 0.02;  // of a centre line beyond its part

constexpr const char* kPitmanArm = "pitman_arm";

struct Line {
  Vec3 a = Vec3::Zero(), b = Vec3::Zero();
};

Vec3 middle_as_measured(const Expansion& x) {
  return 0.5 * (x.mechanism.anchor(x.wheel_on_axle.left).at +
                x.mechanism.anchor(x.wheel_on_axle.right).at);
}

/// Whether a place of the file, as measured, lies nearer to a rear axle than to the front one.
bool is_at_rear(const Truck& truck, const Expansion& x, const Vec3& at) {
  return truck.rear_wheels && at.x() < middle_as_measured(x).x() - 0.5 * truck.wheelbase;
}

Vec3 nearest_on(const Line& line, const Vec3& p) {
  const Vec3 span = line.b - line.a;
  const double square = span.squaredNorm();
  if (square == 0) return line.a;
  return line.a + span * std::clamp((p - line.a).dot(span) / square, 0.0, 1.0);
}

/// Builds the list; every `add_` makes the solids of one thing and notes the line on which brackets of that body stand.
class Builder {
 public:
  Builder(const Truck& truck, const Expansion& x, const Stance& stance)
      : truck_(truck), x_(x), stance_(stance) {}

  TruckSolids build() {
    add_rails();
    add_axle();
    add_wheel(true);
    add_wheel(false);
    for (const Part& part : truck_.parts)
      std::visit([&](const auto& what) { add(part, what); }, part.what);
    for (const PlainJoint& joint : truck_.joints) {
      if (joint.kind == PlainJointKind::distance && !is_at_rear(joint.ends[0]))
        rod(joint.name, place(joint.ends[0]), place(joint.ends[1]), kHalfLinkRadius);
    }
    add_springs();
    add_brackets();
    return std::move(out_);
  }

 private:
  // Places and directions, in road axes.

  const Anchor& anchor(const std::string& point) const {
    const Point* found = find_point(truck_, point);
    return x_.mechanism.anchor(
        x_.point_anchors[index(static_cast<int>(found - truck_.points.data()))]);
  }
  Vec3 place(const std::string& point) const { return stance_.place(anchor(point)); }
  Vec3 place(AnchorId id) const { return stance_.place(x_.mechanism.anchor(id)); }
  Vec3 on_frame(const Vec3& as_measured) const { return stance_.on_road(as_measured); }

  bool is_at_rear(const Point& point) const { return axlewright::is_at_rear(truck_, x_, point.at); }
  bool is_at_rear(const std::string& point) const { return is_at_rear(*find_point(truck_, point)); }

  const std::string& body_name(BodyId id) const { return x_.body_names[index(id.value)]; }

  // What solids are made of.

  void add(std::string part, Shape shape, bool adjacent = false) {
    out_.solids.push_back({std::move(part), std::move(shape), adjacent});
  }
  void rod(const std::string& part, const Vec3& a, const Vec3& b, double radius) {
    add(part, Rod{a, b, radius});
  }
  void centre_line(const std::string& part, const Vec3& a, const Vec3& b) {
    const Vec3 beyond = (b - a).normalized() * kOverhang;
    out_.centre_lines.push_back({part, a - beyond, b + beyond});
  }

  // The truck around the linkage.

  void add_rails() {
    double top = -std::numeric_limits<double>::infinity();
    double rear = middle_as_measured(x_).x();
    for (const Point& point : truck_.points) {
      if (point.on != "frame" || is_at_rear(point)) continue;
      top = std::max(top, point.at.z());
      rear = std::min(rear, point.at.x());
    }
    if (!std::isfinite(top)) return;
    const double axle = middle_as_measured(x_).x();
    const double front = axle + kRailAhead, middle = 0.5 * (front + rear - 0.1);
    const Vec3 half_x = stance_.along_road({0.5 * (front - rear + 0.1), 0, 0});
    const Vec3 half_y = stance_.along_road({0, kRailHalfWidth, 0});
    const Vec3 half_z = stance_.along_road({0, 0, 0.5 * kRailDepth});
    rail_z_ = top + kRailOverTop - 0.5 * kRailDepth;
    for (const double y : {kRailMiddle, -kRailMiddle}) {
      add("frame", Box{on_frame({middle, y, rail_z_}), half_x, half_y, half_z}, true);
      stands_on_["frame"].push_back(
          {on_frame({rear - 0.1, y, rail_z_}), on_frame({front, y, rail_z_})});
    }
    has_rails_ = true;
  }

  void add_axle() {
    const Vec3 left = place(x_.wheel_on_axle.left), right = place(x_.wheel_on_axle.right);
    const Vec3 way = (left - right).normalized();
    const auto tube_end = [&](AnchorId lower, AnchorId upper, const Vec3& inboard) {
      const Vec3 king = 0.5 * (place(lower) + place(upper));
      const Vec3 end = right + way * (king - right).dot(way) + inboard * kYokeInboard;
      rod("axle", end, place(lower), kYokeRadius);
      rod("axle", end, place(upper), kYokeRadius);
      return end;
    };
    const Vec3 a = tube_end(x_.kingpin_lower.left, x_.kingpin_upper.left, -way);
    const Vec3 b = tube_end(x_.kingpin_lower.right, x_.kingpin_upper.right, way);
    rod("axle", a, b, kAxleRadius);
    centre_line("axle", left, right);
    stands_on_[body_name(x_.axle)] = {{a, b}};
  }

  void add_wheel(bool is_left) {
    const Vec3 centre = place(is_left ? x_.wheel_on_knuckle.left : x_.wheel_on_knuckle.right);
    const Vec3 axis = stance_.direction(x_.mechanism.axis(is_left ? x_.stub.left : x_.stub.right));
    const double radius = truck_.wheels.loaded_radius;
    add(is_left ? "wheel_left" : "wheel_right",
        Tyre{centre, axis, radius, 0.5 * truck_.wheels.section, kRimShare * radius}, true);
    const std::string wheel = is_left ? "wheel_left" : "wheel_right";
    const Vec3 up = (Vec3::UnitZ() - axis * axis.z()).normalized(), ahead = cross(axis, up);
    centre_line(wheel, centre - radius * up, centre + radius * up);
    centre_line(wheel, centre - radius * ahead, centre + radius * ahead);
    const double lowest = centre.z() - radius * std::sqrt(1 - axis.z() * axis.z());
    if (stance_.is_on_pads() && lowest > kLeastPad) {
      add(is_left ? "pad_left" : "pad_right",
          Box{{centre.x(), centre.y(), 0.5 * lowest},
              {0.5 * radius, 0, 0},
              {0, 0.5 * truck_.wheels.section, 0},
              {0, 0, 0.5 * lowest}},
          true);
    }
  }

  /// Between axle tube and rail: what carries the truck is in no file yet, and is drawn so that one sees it rise.
  void add_springs() {
    if (!has_rails_) return;
    const Line tube = stands_on_[body_name(x_.axle)].front();
    for (const double y : {kRailMiddle, -kRailMiddle}) {
      const double x = middle_as_measured(x_).x();
      const Vec3 seat = on_frame({x, y, rail_z_ - 0.5 * kRailDepth});
      const Vec3 foot = nearest_on(tube, seat) + Vec3(0, 0, kAxleRadius);
      if (seat.z() > foot.z())
        add(y > 0 ? "spring_left" : "spring_right", Coil{foot, seat, kSpringRadius}, true);
    }
  }

  // Parts.

  void add(const Part& part, const Bar& bar) {
    if (is_at_rear(bar.ends[0])) return;
    const Vec3 a = place(bar.ends[0]), b = place(bar.ends[1]);
    tube(part.name, a, b);
    if (bar.body) stands_on_[part.name] = {{a, b}};
  }

  void tube(const std::string& part, const Vec3& a, const Vec3& b) {
    rod(part, a, b, kBarRadius);
    rod(part, a, a, kJointRadius);
    rod(part, b, b, kJointRadius);
    centre_line(part, a, b);
  }

  void add(const Part& part, const Kingpin& kingpin) {
    const Vec3 lower = place(kingpin.lower), upper = place(kingpin.upper);
    const bool is_left = kingpin.knuckle == body_name(x_.knuckle.left);
    const Vec3 wheel = place(is_left ? x_.wheel_on_knuckle.left : x_.wheel_on_knuckle.right);
    rod(kingpin.knuckle, lower, upper, kKnuckleRadius);
    rod(kingpin.knuckle, nearest_on({lower, upper}, wheel), wheel, kStubRadius);
    centre_line(part.name, lower + 0.6 * (lower - upper), upper + 0.6 * (upper - lower));
    stands_on_[kingpin.knuckle] = {{lower, upper}};
  }

  void add(const Part& /*part*/, const PitmanArm& arm) {
    Vec3 low = place(arm.axis[0]), high = place(arm.axis[1]);
    if (low.z() > high.z()) std::swap(low, high);  // the file names them in either order
    const Vec3 up = (high - low).normalized();
    // The housing above the shaft's middle, and the worm's across it.
    const Vec3 middle = 0.5 * (low + high);
    add("gear", Drum{middle, high + 0.03 * up, kGearRadius});
    add("gear", Drum{low, middle, kShaftRadius});
    const Vec3 ahead = stance_.along_road(Vec3::UnitX());
    add("gear", Rod{middle + 0.06 * up - 0.07 * ahead, middle + 0.06 * up + 0.12 * ahead, 0.04});
    centre_line("gear", low, high);
    stands_on_[body_name(x_.pitman)] = {{low, middle}};
  }

  void add(const Part& part, const GuidedBar& bar) {
    if (is_at_rear(bar.near_end)) return;
    const Vec3 near = place(bar.near_end), end = place(bar.guide_end);
    const Vec3 middle = place(bar.middle), pivot = place(bar.pivot);
    tube(part.name, near, end);
    const std::string half = part.name + ".half_link";
    rod(half, pivot, middle, kHalfLinkRadius);
    rod(half, pivot, pivot, kJointRadius);
    rod(half, middle, middle, kJointRadius);
    bar.carriage == Carriage::rocker ? add_rocker(part, bar) : add_guide(part, bar);
    stands_on_[part.name + "_through"] = {{near, end}};
  }

  void add_guide(const Part& part, const GuidedBar& bar) {
    const Vec3 end = place(bar.guide_end);
    const Vec3 from = place(bar.guide.from), to = place(bar.guide.to);
    const std::string guide = part.name + ".guide";
    rod(guide, from, to, kGuideRadius);
    const Vec3 along = (to - from).normalized();
    const Vec3 across = cross(along, stance_.along_road(Vec3::UnitX())).normalized();
    add(part.name + ".carriage",
        Box{end, 0.05 * along, 0.032 * across, 0.032 * cross(along, across)});
    out_.centre_lines.push_back({guide, place(bar.pivot), to});
  }

  void add_rocker(const Part& part, const GuidedBar& bar) {
    const std::string rocker = part.name + ".rocker";
    const Vec3 pivot = place(bar.rocker_pivot), end = place(bar.guide_end);
    rod(rocker, pivot, end, kHalfLinkRadius);
    add_pin(rocker, part.name + "_rocker", pivot);
    stands_on_[part.name + "_rocker"] = {{pivot, end}};
  }

  /// The housing of the pin on which a part's own body turns, with its centre line.
  void add_pin(const std::string& part, const std::string& body, const Vec3& at) {
    for (const TurnPlace& turn : x_.turns) {
      if (turn.name != body) continue;
      const Vec3 way =
          stance_.along_road(stance_.bodies[index(turn.carrier.value)].turn(turn.line));
      const Vec3 half = kPinHalfLength * way;
      add(part, Drum{at - half, at + half, kPinRadius});
      centre_line(part, at - half, at + half);
    }
  }

  void add(const Part& part, const FourBar& four_bar) {
    const std::string crank = part.name + ".crank", body = part.name + "_crank";
    const Vec3 pivot = place(four_bar.pivot);
    tube(part.name + ".upper_arm", place(four_bar.upper_arm[0]), place(four_bar.upper_arm[1]));
    tube(part.name + ".lower_arm", place(four_bar.lower_arm[0]), place(four_bar.lower_arm[1]));
    for (const std::string& end : {four_bar.upper_arm[1], four_bar.lower_arm[1]}) {
      rod(crank, pivot, place(end), kCrankRadius);
      stands_on_[body].push_back({pivot, place(end)});
    }
    add_pin(crank, body, pivot);
  }

  void add(const Part& part, const Relay& relay) {
    const Vec3 from = place(relay.axis[0]), to = place(relay.axis[1]);
    add(part.name, Drum{from, to, kPinRadius});
    centre_line(part.name, from, to);
    stands_on_[part.name] = {{from, to}};
  }

  void add(const Part& part, const RadiusArm& arm) {
    const Vec3 ahead = place(arm.axle_ends[0]), behind = place(arm.axle_ends[1]);
    tube(part.name, place(arm.frame_end), 0.5 * (ahead + behind));
    tube(part.name, ahead, behind);
    stands_on_[part.name] = {{place(arm.frame_end), behind}};
  }

  /// Each half from seat to eye by way of its hinges, and the shackle.
  void add(const Part& part, const LeafSpring& leaf) {
    const Vec3 eye = place(leaf.eye), far_eye = place(leaf.shackle_eye);
    for (const std::string& end : {leaf.eye, leaf.shackle_eye}) {
      std::vector<Vec3> way = {place(leaf.seat)};
      const auto of_file = static_cast<int>(find_point(truck_, end) - truck_.points.data());
      const auto seat = static_cast<int>(find_point(truck_, leaf.seat) - truck_.points.data());
      double share = 0;
      for (const Anchor& anchor : x_.mechanism.anchors) {
        if (anchor.point != seat || anchor.towards != of_file || anchor.share <= share) continue;
        way.push_back(stance_.place(anchor));
        share = anchor.share;
      }
      way.push_back(place(end));
      for (std::size_t k = 1; k < way.size(); ++k) rod(part.name, way[k - 1], way[k], kLeafRadius);
    }
    rod(part.name, eye, eye, kJointRadius);
    const std::string shackle = part.name + "_shackle";
    tube(shackle, place(leaf.shackle), far_eye);
    stands_on_[shackle] = {{place(leaf.shackle), far_eye}};
  }

  void add(const Part& /*part*/, const Clamp& /*clamp*/) {}

  /// A keeper's form is the shop's own: it is told in words, not drawn.
  void add(const Part& /*part*/, const Keeper& /*keeper*/) {}

  /// An arm from every point of a body to the nearest line of it; where a body has no line of its own, to its middle.
  void add_brackets() {
    for (const ExtraBody& body : truck_.bodies) stand_on_middle(body.name);
    for (const Point& point : truck_.points) {
      if (!is_joined(point) || is_at_rear(point)) continue;
      const auto lines = stands_on_.find(point.on);
      if (lines == stands_on_.end()) continue;
      const Vec3 end = place(point.name);
      Vec3 foot = nearest_on(lines->second.front(), end);
      for (const Line& line : lines->second) {
        const Vec3 other = nearest_on(line, end);
        if ((other - end).norm() < (foot - end).norm()) foot = other;
      }
      if ((foot - end).norm() < kJointRadius) continue;
      const std::string part = bracket_part(point.on);
      rod(part, foot, end, part == kPitmanArm ? kPitmanRadius : kArmRadius);
    }
  }

  void stand_on_middle(const std::string& body) {
    Vec3 sum = Vec3::Zero();
    int count = 0;
    for (const Point& point : truck_.points) {
      if (point.on != body || is_at_rear(point)) continue;
      sum += place(point.name);
      ++count;
    }
    if (count > 0 && stands_on_.find(body) == stands_on_.end())
      stands_on_[body] = {{sum / count, sum / count}};
  }

  /// What joints hang on; the sector shaft, wheels and kingpins are drawn by themselves.
  bool is_joined(const Point& point) const {
    if (point.name == truck_.wheels.centre_left || point.name == truck_.wheels.centre_right)
      return false;
    for (const Part& part : truck_.parts) {
      if (const auto* arm = std::get_if<PitmanArm>(&part.what);
          arm != nullptr && (arm->axis[0] == point.name || arm->axis[1] == point.name))
        return false;
    }
    return true;
  }

  std::string bracket_part(const std::string& body) const {
    if (x_.pitman.value >= 0 && body == body_name(x_.pitman)) return kPitmanArm;
    return body;
  }

  const Truck& truck_;
  const Expansion& x_;
  const Stance& stance_;
  TruckSolids out_;
  std::map<std::string, std::vector<Line>> stands_on_;  ///< by body
  double rail_z_ = 0;
  bool has_rails_ = false;
};

}  // namespace

TruckSolids truck_solids(const Truck& truck, const Expansion& x, const Stance& stance) {
  return Builder(truck, x, stance).build();
}

Room room_of(const Truck& truck, const Expansion& x, const Stance& as_measured) {
  constexpr double kMargin = 0.06;
  const double radius = truck.wheels.loaded_radius;
  const Vec3 left = as_measured.place(x.mechanism.anchor(x.wheel_on_axle.left));
  const Vec3 right = as_measured.place(x.mechanism.anchor(x.wheel_on_axle.right));
  const double side =
      std::max(std::abs(left.y()), std::abs(right.y())) + 0.5 * truck.wheels.section + 2 * kMargin;
  Room room{{left.x() - radius, -side, -2 * kMargin}, {left.x() + radius, side, 2 * radius}};
  room.high.x() = std::max(room.high.x(), left.x() + kRailAhead);
  double top = 0;
  for (const Point& point : truck.points) {
    if (is_at_rear(truck, x, point.at)) continue;
    const Vec3 at = as_measured.on_road(point.at);
    room.low = room.low.cwiseMin(at);
    room.high = room.high.cwiseMax(at);
    if (point.on == "frame") top = std::max(top, at.z());
  }
  room.low.x() -= 0.1 + kMargin;
  room.high.x() += kMargin;
  room.high.z() = std::max(room.high.z(), top + kRailOverTop + truck.height_range[1]) + kMargin;
  return room;
}

}  // namespace axlewright
