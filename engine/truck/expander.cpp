#include "engine/truck/expander.h"

#include <cmath>

#include "engine/base/invariant.h"

namespace axlewright {

void Expander::name_body(const std::string& name, BodyId id) {
  bodies_[name] = id;
  out_.body_names.push_back(name);
}

BodyId Expander::add_body(const std::string& name, const std::string& words) {
  const BodyId id = m().add_body(words);
  name_body(name, id);
  return id;
}

void Expander::add_bodies() {
  name_body("frame", kFrame);
  out_.axle = add_body("axle", "axle");
  if (truck_.rear_wheels) add_body(kRearAxle, "rear axle");
  for (const ExtraBody& body : truck_.bodies) add_body(body.name, body.words);
  for (const Part& part : truck_.parts) {
    std::visit([&](const auto& what) { add_part_bodies(*this, part, what); }, part.what);
  }
}

void Expander::set_carriers() {
  for (std::size_t b = 1; b < m().bodies.size(); ++b) {
    const bool is_axle = static_cast<int>(b) == out_.axle.value;
    m().bodies[b].carrier = is_axle ? kFrame : out_.axle;
  }
}

void Expander::add_points() {
  for (const Point& point : truck_.points) {
    out_.point_names.push_back(point.name);
    out_.point_anchors.push_back(anchor(point.name, point.on));
  }
}

const Point& Expander::point(const std::string& name) const {
  const Point* found = find_point(truck_, name);
  AXLEWRIGHT_INVARIANT(found != nullptr);
  return *found;
}

BodyId Expander::body(const std::string& name) const {
  const auto found = bodies_.find(name);
  AXLEWRIGHT_INVARIANT(found != bodies_.end());
  return found->second;
}

AnchorId Expander::anchor(const std::string& point_name, const std::string& body_name) {
  const auto key = std::make_pair(point_name, body_name);
  const auto found = anchors_.find(key);
  if (found != anchors_.end()) return found->second;
  const Point& p = point(point_name);
  const int index = static_cast<int>(&p - truck_.points.data());
  const AnchorId id = m().add_anchor(point_name, body(body_name), p.at, index);
  anchors_[key] = id;
  return id;
}

AnchorId Expander::own_anchor(const std::string& point_name) {
  return anchor(point_name, point(point_name).on);
}

Vec3 Expander::line_of(const Direction& direction) const {
  if (direction.from.empty()) return direction.fixed;
  return point(direction.to).at - point(direction.from).at;
}

AxisId Expander::axis(const std::string& name, const std::string& body_name,
                      const Direction& direction) {
  if (direction.from.empty()) return m().add_axis(name, body(body_name), direction.fixed);
  return m().add_axis(name, body(body_name), anchor(direction.from, body_name),
                      anchor(direction.to, body_name));
}

JointId Expander::pin(const std::string& words, const std::string& axis_words,
                      const std::string& at, const std::string& to, const std::string& a,
                      const std::string& b) {
  const AnchorId at_a = anchor(at, a), to_a = anchor(to, a);
  const AnchorId at_b = anchor(at, b), to_b = anchor(to, b);
  return m().add_joint({.name = words,
                        .kind = JointKind::pin,
                        .body_a = body(a),
                        .body_b = body(b),
                        .a = at_a,
                        .b = at_b,
                        .axis_a = m().add_axis(axis_words, body(a), at_a, to_a),
                        .axis_b = m().add_axis(axis_words, body(b), at_b, to_b)});
}

void Expander::turning(const std::string& words, const std::string& of_body,
                       const std::string& on_body, const std::string& at,
                       const Direction& direction) {
  const AxisId pin = axis(words + " pin", on_body, direction);
  m().add_joint({.name = words + " pin",
                 .kind = JointKind::pin,
                 .body_a = body(on_body),
                 .body_b = body(of_body),
                 .a = anchor(at, on_body),
                 .b = anchor(at, of_body),
                 .axis_a = pin,
                 .axis_b = axis(words + " pin", of_body, direction)});
  out_.turns.push_back({of_body, words, body(of_body), body(on_body), m().axis(pin).direction});
}

JointId Expander::distance(const std::string& words, AnchorId a, AnchorId b,
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

void Expander::clamp(const std::string& words, BodyId a, BodyId b) {
  m().add_joint({.name = words,
                 .kind = JointKind::clamp,
                 .body_a = a,
                 .body_b = b,
                 .a = m().add_anchor(words, a, Vec3::Zero()),
                 .b = m().add_anchor(words, b, Vec3::Zero())});
}

void Expander::keeper(const std::string& words, const std::string& holds,
                      const std::string& against, const Vec3& line) {
  const Vec3 up = upright_square(line);
  m().add_joint({.name = words,
                 .kind = JointKind::spin_keeper,
                 .body_a = body(holds),
                 .body_b = body(against),
                 .axis_a = m().add_axis(words, body(holds), cross(line, up)),
                 .axis_b = m().add_axis(words, body(against), up)});
}

void Expander::note_ball(const std::string& of, const std::string& point_name,
                         const std::string& stud_body, const std::string& housing, AnchorId from,
                         AnchorId to) {
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

Vec3 upright_square(const Vec3& line) {
  const Vec3 reference = std::abs(line.z()) < 0.9 ? Vec3(Vec3::UnitZ()) : Vec3(Vec3::UnitX());
  return reference - reference.dot(line) * line;
}

std::string words_of(std::string name) {
  for (char& c : name) {
    if (c == '_') c = ' ';
  }
  return name;
}

}  // namespace axlewright
