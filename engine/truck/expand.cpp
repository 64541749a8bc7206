#include "engine/truck/expand.h"

#include <cmath>
#include <map>
#include <utility>

#include <fmt/format.h>

#include "engine/base/invariant.h"
#include "engine/base/units.h"

namespace axlewright {
namespace {

class Expander {
 public:
  explicit Expander(const Truck& truck) : truck_(truck) {}

  Expansion run() {
    name_body("frame", kFrame);
    out_.axle = add_body("axle", "axle");
    add_bodies();
    // A carrier is only known once the axle is: everything that spins is told against it.
    for (std::size_t b = 1; b < m().bodies.size(); ++b) {
      const bool is_axle = static_cast<int>(b) == out_.axle.value;
      m().bodies[b].carrier = is_axle ? kFrame : out_.axle;
    }
    for (const Point& point : truck_.points) {
      out_.point_names.push_back(point.name);
      out_.point_anchors.push_back(anchor(point.name, point.on));
    }
    for (const Part& part : truck_.parts) {
      std::visit([&](const auto& what) { add(part, what); }, part.what);
    }
    for (const PlainJoint& joint : truck_.joints) add(joint);
    add_wheels();
    add_inputs();
    add_studs();
    tell_balls_apart();
    return std::move(out_);
  }

 private:
  Mechanism& m() { return out_.mechanism; }

  void name_body(const std::string& name, BodyId id) {
    bodies_[name] = id;
    out_.body_names.push_back(name);
  }

  BodyId add_body(const std::string& name, const std::string& words) {
    const BodyId id = m().add_body(words);
    name_body(name, id);
    return id;
  }

  void add_bodies() {
    for (const ExtraBody& body : truck_.bodies) add_body(body.name, body.words);
    for (const Part& part : truck_.parts) {
      if (const auto* kingpin = std::get_if<Kingpin>(&part.what)) {
        add_knuckle(*kingpin);
      } else if (std::holds_alternative<PitmanArm>(part.what)) {
        out_.pitman = add_body("pitman", "pitman arm");
      } else if (const auto* bar = std::get_if<Bar>(&part.what); bar != nullptr && bar->body) {
        add_body(part.name, part.words);
      } else if (const auto* guided = std::get_if<GuidedBar>(&part.what)) {
        add_body(part.name + "_through", part.words + " through-link");
        if (guided->half_link != HalfLink::distance)
          add_body(part.name + "_half", part.words + " half-link");
        if (guided->carriage == Carriage::slide)
          add_body(part.name + "_carriage", part.words + " carriage");
      } else if (const auto* clamp = std::get_if<Clamp>(&part.what)) {
        add_body(clamp->body, part.words);
      }
    }
  }

  void add_knuckle(const Kingpin& kingpin) {
    const bool left = point(kingpin.lower).at.y() > 0;
    const BodyId id = add_body(kingpin.knuckle, left ? "left knuckle" : "right knuckle");
    (left ? out_.knuckle.left : out_.knuckle.right) = id;
  }

  const Point& point(const std::string& name) const {
    const Point* found = find_point(truck_, name);
    AXLEWRIGHT_INVARIANT(found != nullptr);
    return *found;
  }

  BodyId body(const std::string& name) const {
    const auto found = bodies_.find(name);
    AXLEWRIGHT_INVARIANT(found != bodies_.end());
    return found->second;
  }

  /// The anchor of a point on a body: its own, or its twin on another body that a joint brings there.
  AnchorId anchor(const std::string& point_name, const std::string& body_name) {
    const auto key = std::make_pair(point_name, body_name);
    const auto found = anchors_.find(key);
    if (found != anchors_.end()) return found->second;
    const Point& p = point(point_name);
    const int index = static_cast<int>(&p - truck_.points.data());
    const AnchorId id = m().add_anchor(point_name, body(body_name), p.at, index);
    anchors_[key] = id;
    return id;
  }

  AnchorId own_anchor(const std::string& point_name) {
    return anchor(point_name, point(point_name).on);
  }

  AxisId axis(const std::string& name, const std::string& body_name, const Direction& direction) {
    if (direction.from.empty()) return m().add_axis(name, body(body_name), direction.fixed);
    return m().add_axis(name, body(body_name), anchor(direction.from, body_name),
                        anchor(direction.to, body_name));
  }

  JointId ball(const std::string& words, const std::string& of, const std::string& point_name,
               const std::string& a, const std::string& b) {
    const JointId id = m().add_joint({.name = words,
                                      .kind = JointKind::ball,
                                      .body_a = body(a),
                                      .body_b = body(b),
                                      .a = anchor(point_name, a),
                                      .b = anchor(point_name, b)});
    const std::string& stud_body = point(point_name).on == b ? b : a;
    note_ball(of, point_name, stud_body, stud_body == a ? b : a, AnchorId{}, AnchorId{});
    return id;
  }

  /// Remembers a ball so that its tilt can be told; the stud's axis is filled in by add_studs().
  void note_ball(const std::string& of, const std::string& point_name, const std::string& stud_body,
                 const std::string& housing, AnchorId from, AnchorId to) {
    BallPlace ball;
    ball.name = ball.point = point_name;
    ball.words = words_of(point_name);
    ball.of = of;
    ball.centre = anchor(point_name, stud_body);
    ball.bar_from = from;
    ball.bar_to = to;
    ball_bodies_.push_back({stud_body, housing});
    out_.balls.push_back(ball);
  }

  static std::string words_of(std::string name) {
    for (char& c : name) {
      if (c == '_') c = ' ';
    }
    return name;
  }

  JointId distance(const std::string& words, AnchorId a, AnchorId b,
                   const std::optional<double>& given) {
    const LengthId length = m().add_length(words, a, b);
    if (given) {
      Length& l = m().lengths[static_cast<std::size_t>(length.value)];
      l.value = *given;
      l.follows = false;
    }
    return m().add_joint({.name = words,
                          .kind = JointKind::distance,
                          .body_a = m().anchor(a).body,
                          .body_b = m().anchor(b).body,
                          .a = a,
                          .b = b,
                          .length = length});
  }

  void add(const Part& part, const Bar& bar) {
    BarPlace place;
    place.name = part.name;
    place.words = part.words;
    place.kind = bar.kind;
    place.sleeve = bar.sleeve.value_or(0);
    place.a = own_anchor(bar.ends[0]);
    place.b = own_anchor(bar.ends[1]);
    const Vec3 span = m().anchor(place.b).at - m().anchor(place.a).at;
    place.given_misfit = bar.length ? *bar.length - span.norm() : 0;
    if (bar.body) {
      place.body = body(part.name);
      for (const std::string& end : bar.ends) {
        ball(part.words + " ball at " + words_of(end), part.name, end, point(end).on, part.name);
      }
      out_.lines.push_back({part.name, part.words, place.body, span / span.norm()});
    } else {
      distance(part.words, place.a, place.b, bar.length);
      place.length = LengthId{static_cast<int>(m().lengths.size()) - 1};
      note_ball(part.name, bar.ends[0], point(bar.ends[0]).on, "", place.a, place.b);
      note_ball(part.name, bar.ends[1], point(bar.ends[1]).on, "", place.b, place.a);
    }
    out_.bars.push_back(place);
  }

  void add(const Part& part, const Kingpin& kingpin) {
    const bool left = point(kingpin.lower).at.y() > 0;
    const std::string side = left ? "left" : "right";
    const AnchorId lower = anchor(kingpin.lower, "axle");
    const AnchorId upper = anchor(kingpin.upper, "axle");
    const AxisId line = m().add_axis("kingpin, " + side, out_.axle, lower, upper);
    (left ? out_.kingpin_lower.left : out_.kingpin_lower.right) = lower;
    (left ? out_.kingpin_upper.left : out_.kingpin_upper.right) = upper;
    (left ? out_.kingpin.left : out_.kingpin.right) = line;
    if (kingpin.style == KingpinStyle::two_balls) {
      ball("lower kingpin ball, " + side, part.name, kingpin.lower, "axle", kingpin.knuckle);
      ball("upper kingpin ball, " + side, part.name, kingpin.upper, "axle", kingpin.knuckle);
      return;
    }
    const AnchorId lower_k = anchor(kingpin.lower, kingpin.knuckle);
    const AnchorId upper_k = anchor(kingpin.upper, kingpin.knuckle);
    m().add_joint(
        {.name = "kingpin, " + side,
         .kind = JointKind::pin,
         .body_a = out_.axle,
         .body_b = body(kingpin.knuckle),
         .a = lower,
         .b = lower_k,
         .axis_a = line,
         .axis_b = m().add_axis("kingpin, " + side, body(kingpin.knuckle), lower_k, upper_k)});
  }

  void add(const Part& part, const PitmanArm& arm) {
    // The axis points so that the arm turns positively about it as the steering wheel turns left.
    const std::string& from = arm.anticlockwise ? arm.axis[0] : arm.axis[1];
    const std::string& to = arm.anticlockwise ? arm.axis[1] : arm.axis[0];
    const AnchorId from_f = anchor(from, "frame"), to_f = anchor(to, "frame");
    const AnchorId from_p = anchor(from, "pitman"), to_p = anchor(to, "pitman");
    shaft_ = m().add_joint({.name = part.words + " shaft",
                            .kind = JointKind::pin,
                            .body_a = kFrame,
                            .body_b = out_.pitman,
                            .a = from_f,
                            .b = from_p,
                            .axis_a = m().add_axis("sector shaft", kFrame, from_f, to_f),
                            .axis_b = m().add_axis("sector shaft", out_.pitman, from_p, to_p)});
  }

  void add(const Part& part, const GuidedBar& bar) {
    const std::string through = part.name + "_through";
    GuidedPlace place;
    place.name = part.name;
    place.words = part.words;
    place.through = body(through);
    place.near_end = anchor(bar.near_end, through);
    place.guide_end = anchor(bar.guide_end, through);
    place.middle = anchor(bar.middle, through);
    place.pivot = anchor(bar.pivot, bar.carries);
    place.slide_origin = anchor(bar.guide_end, bar.carries);
    place.guide =
        m().add_axis(part.words + " guide", body(bar.carries), anchor(bar.guide[0], bar.carries),
                     anchor(bar.guide[1], bar.carries));
    ball(part.words + " near end", part.name, bar.near_end, bar.near_end_on, through);
    add_half_link(part, bar, place, through);
    add_carriage(part, bar, place, through);
    const Vec3 span = m().anchor(place.guide_end).at - m().anchor(place.near_end).at;
    out_.lines.push_back(
        {through, part.words + " through-link", place.through, span / span.norm()});
    out_.guided.push_back(place);
  }

  void add_half_link(const Part& part, const GuidedBar& bar, const GuidedPlace& place,
                     const std::string& through) {
    const std::string half = part.name + "_half";
    const std::string words = part.words + " half-link";
    if (bar.half_link == HalfLink::distance) {
      distance(words, place.pivot, place.middle, {});
      note_ball(part.name, bar.pivot, bar.carries, "", place.pivot, place.middle);
      note_ball(part.name, bar.middle, through, "", place.middle, place.pivot);
      return;
    }
    ball(words + " pivot", part.name, bar.pivot, bar.carries, half);
    if (bar.half_link == HalfLink::ball_body) {
      ball(words + " middle ball", part.name, bar.middle, through, half);
      return;
    }
    const Vec3 along = point(bar.guide_end).at - point(bar.near_end).at;
    const Vec3 square = cross(along, Vec3(point(bar.middle).at - point(bar.pivot).at));
    m().add_joint({.name = words + " middle pin",
                   .kind = JointKind::pin,
                   .body_a = body(through),
                   .body_b = body(half),
                   .a = place.middle,
                   .b = anchor(bar.middle, half),
                   .axis_a = m().add_axis(words + " pin", body(through), square),
                   .axis_b = m().add_axis(words + " pin", body(half), square)});
  }

  void add_carriage(const Part& part, const GuidedBar& bar, const GuidedPlace& place,
                    const std::string& through) {
    if (bar.carriage == Carriage::point) {
      m().add_joint({.name = part.words + " guide",
                     .kind = JointKind::point_on_line,
                     .body_a = body(bar.carries),
                     .body_b = body(through),
                     .a = place.slide_origin,
                     .b = place.guide_end,
                     .axis_a = place.guide});
      return;
    }
    const std::string carriage = part.name + "_carriage";
    m().add_joint({.name = part.words + " carriage slide",
                   .kind = JointKind::slide,
                   .body_a = body(bar.carries),
                   .body_b = body(carriage),
                   .a = place.slide_origin,
                   .b = anchor(bar.guide_end, carriage),
                   .axis_a = place.guide});
    ball(part.words + " guide end", part.name, bar.guide_end, carriage, through);
  }

  void add(const Part& part, const Clamp& clamp) {
    add_clamp(part.words, body(clamp.to), body(clamp.body));
  }

  void add(const Part& part, const Keeper& keeper) {
    add_keeper(part.words, keeper.holds, keeper.against, own_line(keeper.holds));
  }

  /// The line through the two ends of a body made by a tie rod or a guided bar, wherever its part stands in the file.
  Vec3 own_line(const std::string& body_name) const {
    Vec3 span = Vec3::UnitY();
    for (const Part& part : truck_.parts) {
      if (const auto* bar = std::get_if<Bar>(&part.what);
          bar != nullptr && bar->body && part.name == body_name) {
        span = point(bar->ends[1]).at - point(bar->ends[0]).at;
      } else if (const auto* guided = std::get_if<GuidedBar>(&part.what);
                 guided != nullptr && part.name + "_through" == body_name) {
        span = point(guided->guide_end).at - point(guided->near_end).at;
      }
    }
    return span / span.norm();
  }

  /// Line x up on the bar stays square to up on the body that it is kept against.
  void add_keeper(const std::string& words, const std::string& holds, const std::string& against,
                  const Vec3& line) {
    const Vec3 reference = std::abs(line.z()) < 0.9 ? Vec3(Vec3::UnitZ()) : Vec3(Vec3::UnitX());
    const Vec3 up = reference - reference.dot(line) * line;
    m().add_joint({.name = words,
                   .kind = JointKind::spin_keeper,
                   .body_a = body(holds),
                   .body_b = body(against),
                   .axis_a = m().add_axis(words, body(holds), cross(line, up)),
                   .axis_b = m().add_axis(words, body(against), up)});
  }

  void add(const PlainJoint& joint) {
    const std::string& a = joint.between[0];
    const std::string& b = joint.between[1];
    switch (joint.kind) {
      case PlainJointKind::ball:
        ball(joint.words, joint.name, joint.point, a, b);
        return;
      case PlainJointKind::pin:
        m().add_joint({.name = joint.words,
                       .kind = JointKind::pin,
                       .body_a = body(a),
                       .body_b = body(b),
                       .a = anchor(joint.point, a),
                       .b = anchor(joint.point, b),
                       .axis_a = axis(joint.words, a, joint.first),
                       .axis_b = axis(joint.words, b, joint.first)});
        return;
      case PlainJointKind::slide: {
        const AxisId way = axis(joint.words, a, joint.first);
        // No place of its own: any pair of places that agree as measured will do.
        const Vec3 origin =
            joint.first.from.empty() ? Vec3(Vec3::Zero()) : point(joint.first.from).at;
        m().add_joint({.name = joint.words,
                       .kind = JointKind::slide,
                       .body_a = body(a),
                       .body_b = body(b),
                       .a = m().add_anchor(joint.name, body(a), origin),
                       .b = m().add_anchor(joint.name, body(b), origin),
                       .axis_a = way});
        return;
      }
      case PlainJointKind::clamp:
        add_clamp(joint.words, body(a), body(b));
        return;
      case PlainJointKind::point_on_line:
        add_point_on_line(joint);
        return;
      case PlainJointKind::distance: {
        const AnchorId from = own_anchor(joint.ends[0]), to = own_anchor(joint.ends[1]);
        distance(joint.words, from, to, joint.length);
        note_ball(joint.name, joint.ends[0], point(joint.ends[0]).on, "", from, to);
        note_ball(joint.name, joint.ends[1], point(joint.ends[1]).on, "", to, from);
        return;
      }
      case PlainJointKind::perpendicular:
        m().add_joint({.name = joint.words,
                       .kind = JointKind::perpendicular,
                       .body_a = body(a),
                       .body_b = body(b),
                       .axis_a = axis(joint.words, a, joint.first),
                       .axis_b = axis(joint.words, b, joint.second)});
        return;
      case PlainJointKind::spin_keeper: {
        const Vec3 span = point(joint.ends[1]).at - point(joint.ends[0]).at;
        add_keeper(joint.words, a, b, span / span.norm());
        return;
      }
      case PlainJointKind::held_coordinate: {
        const AnchorId held = anchor(joint.point, b);
        const AnchorId from =
            m().add_anchor(joint.name, body(a), m().anchor(held).at, m().anchor(held).point);
        m().add_joint({.name = joint.words,
                       .kind = JointKind::held_coordinate,
                       .body_a = body(a),
                       .body_b = body(b),
                       .a = from,
                       .b = held,
                       .axis_a = axis(joint.words, a, joint.first)});
        return;
      }
    }
  }

  void add_clamp(const std::string& words, BodyId a, BodyId b) {
    m().add_joint({.name = words,
                   .kind = JointKind::clamp,
                   .body_a = a,
                   .body_b = b,
                   .a = m().add_anchor(words, a, Vec3::Zero()),
                   .b = m().add_anchor(words, b, Vec3::Zero())});
  }

  /// The line's two points ride on one body of the pair, the point on the other, whichever comes first.
  void add_point_on_line(const PlainJoint& joint) {
    const std::string& line_body =
        point(joint.ends[0]).on == joint.between[1] ? joint.between[1] : joint.between[0];
    const std::string& rider = line_body == joint.between[0] ? joint.between[1] : joint.between[0];
    const AxisId line = m().add_axis(joint.words, body(line_body), anchor(joint.ends[0], line_body),
                                     anchor(joint.ends[1], line_body));
    m().add_joint({.name = joint.words,
                   .kind = JointKind::point_on_line,
                   .body_a = body(line_body),
                   .body_b = body(rider),
                   .a = anchor(joint.point, line_body),
                   .b = anchor(joint.point, rider),
                   .axis_a = line});
  }

  void add_wheels() {
    const double toe = truck_.wheels.toe_in / 2;
    const double camber = truck_.wheels.camber;
    // The spin axis points left on both sides: outboard on the left, inboard on the right (kinematics reference 4.4).
    const Vec3 left(std::sin(toe) * std::cos(camber), std::cos(toe) * std::cos(camber),
                    -std::sin(camber));
    const Vec3 right(-left.x(), left.y(), -left.z());
    add_wheel(truck_.wheels.centre_left, out_.knuckle.left, left, out_.wheel_on_axle.left,
              out_.wheel_on_knuckle.left, out_.stub.left);
    add_wheel(truck_.wheels.centre_right, out_.knuckle.right, right, out_.wheel_on_axle.right,
              out_.wheel_on_knuckle.right, out_.stub.right);
  }

  void add_wheel(const std::string& centre, BodyId knuckle, const Vec3& spin, AnchorId& on_axle,
                 AnchorId& on_knuckle, AxisId& stub) {
    on_axle = anchor(centre, "axle");
    on_knuckle = anchor(centre, out_.body_names[static_cast<std::size_t>(knuckle.value)]);
    stub = m().add_axis("wheel spin axis", knuckle, spin);
  }

  void add_inputs() {
    const AxisId up = m().add_axis("up", kFrame, Vec3::UnitZ());
    out_.height.left = m().add_input({.name = "left wheel's height",
                                      .kind = InputKind::coordinate,
                                      .anchor = out_.wheel_on_axle.left,
                                      .axis = up});
    out_.height.right = m().add_input({.name = "right wheel's height",
                                       .kind = InputKind::coordinate,
                                       .anchor = out_.wheel_on_axle.right,
                                       .axis = up});
    if (shaft_.value >= 0)
      out_.pitman_turn =
          m().add_input({.name = "pitman arm's turn", .kind = InputKind::turn, .joint = shaft_});
    out_.straight =
        m().add_input({.name = "mean road-wheel steer",
                       .kind = InputKind::heading,
                       .headings = {HeadingOf{out_.stub.left}, HeadingOf{out_.stub.right}}});
  }

  void add_studs() {
    for (std::size_t k = 0; k < out_.balls.size(); ++k) {
      BallPlace& ball = out_.balls[k];
      std::string stud_body = ball_bodies_[k].first;
      std::string housing = ball_bodies_[k].second;
      Vec3 direction = untilted_axis(ball);
      for (const Stud& stud : truck_.studs) {
        if (stud.ball != ball.point) continue;
        if (stud.on == housing) std::swap(stud_body, housing);
        direction = stud.axis.from.empty()
                        ? stud.axis.fixed
                        : Vec3(point(stud.axis.to).at - point(stud.axis.from).at);
        ball.largest_tilt = stud.largest_tilt.value_or(0);
      }
      ball.centre = anchor(ball.point, stud_body);
      ball.stud_axis = m().add_axis(ball.words + " stud", body(stud_body), direction);
      if (!housing.empty())
        ball.housing_axis = m().add_axis(ball.words + " housing", body(housing), direction);
    }
  }

  /// One point may be the ball of several joints: two bars on one stud.
  void tell_balls_apart() {
    std::map<std::string, int> at_point;
    for (const BallPlace& ball : out_.balls) ++at_point[ball.point];
    for (BallPlace& ball : out_.balls) {
      if (at_point[ball.point] == 1) continue;
      ball.name = ball.point + "." + ball.of;
      ball.words += " of the " + words_of(ball.of);
    }
  }

  /// Without an entry the stud stands upright, or as near to it as is square to the bar.
  Vec3 untilted_axis(const BallPlace& ball) {
    if (ball.bar_from.value < 0) return Vec3::UnitZ();
    const Vec3 span = m().anchor(ball.bar_to).at - m().anchor(ball.bar_from).at;
    const Vec3 line = span / span.norm();
    const Vec3 reference = std::abs(line.z()) < 0.9 ? Vec3(Vec3::UnitZ()) : Vec3(Vec3::UnitX());
    return reference - reference.dot(line) * line;
  }

  const Truck& truck_;
  Expansion out_;
  std::map<std::string, BodyId> bodies_;
  std::map<std::pair<std::string, std::string>, AnchorId> anchors_;
  std::vector<std::pair<std::string, std::string>> ball_bodies_;  // stud, housing ("" for a bar)
  JointId shaft_{};
};

std::string place_text(const Vec3& p) {
  return fmt::format("({:.3f}, {:.3f}, {:.3f})", to_mm(p.x()), to_mm(p.y()), to_mm(p.z()));
}

}  // namespace

const Point* find_point(const Truck& truck, const std::string& name) {
  for (const Point& point : truck.points) {
    if (point.name == name) return &point;
  }
  return nullptr;
}

Expansion expand(const Truck& truck) {
  return Expander(truck).run();
}

double half_track(const Expansion& expansion) {
  const Mechanism& m = expansion.mechanism;
  return 0.5 *
         (m.anchor(expansion.wheel_on_axle.left).at - m.anchor(expansion.wheel_on_axle.right).at)
             .norm();
}

std::string describe(const Expansion& expansion) {
  const Mechanism& m = expansion.mechanism;
  std::string text = "bodies\n";
  for (const std::string& name : expansion.body_names) text += "  " + name + "\n";
  text += "joints (places in mm, as measured)\n";
  for (const Joint& joint : m.joints) {
    text += fmt::format("  {}: {} between {} and {}", joint.name, word_for(joint.kind),
                        expansion.body_names[static_cast<std::size_t>(joint.body_a.value)],
                        expansion.body_names[static_cast<std::size_t>(joint.body_b.value)]);
    if (joint.kind == JointKind::distance) {
      text += fmt::format(", {} to {}, length {:.3f}", place_text(m.anchor(joint.a).at),
                          place_text(m.anchor(joint.b).at), to_mm(m.length(joint.length).value));
    } else if (joint.b.value >= 0) {
      text += " at " + place_text(m.anchor(joint.b).at);
    }
    text += fmt::format(", holds {}\n", held_by(joint.kind));
  }
  return text;
}

}  // namespace axlewright
