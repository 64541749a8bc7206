#include "engine/solve/run_out.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/base/index.h"
#include "engine/base/list_text.h"

namespace axlewright {
namespace {

constexpr double kNamed = 0.3;  // of the largest swing: named too
constexpr std::size_t kMostNamed = 3;
constexpr double kStill = 0.05;   // of the speed of the place that two parts share: stands still
constexpr double kInLine = 0.05;  // sine of the angle between two parts in one line
constexpr double kNoSwing =
    1e-9;  // of the largest force times speed squared: nothing turns under load

/// Where a joint meets a part, how fast it moves there and what it puts on it.
struct JointEnd {
  JointId joint;  ///< none for an input
  Vec3 place, velocity, force;
};

/// A bar or a body in the loose motion.
struct Part {
  std::string name;
  Vec3 turn = Vec3::Zero();  ///< angular velocity
  double swing = 0;
  std::vector<JointEnd> ends;
  bool is_bar = false;
};

/// w x (w x p)
Vec3 drawn_in(const Vec3& w, const Vec3& p) {
  return w * w.dot(p) - p * w.dot(w);
}

/// All parts of a mechanism under the forces that go round.
class LoadedParts {
 public:
  LoadedParts(const System& system, const Design& design, const Kinematics& kin,
              const Vector& motion)
      : system_(system),
        design_(design),
        kin_(kin),
        twists_(body_twists(system, kin, motion.data())),
        carried_(twists_.size(), Vec3(Vec3::Zero())) {
    for (std::size_t b = 0; b < twists_.size(); ++b)
      bodies_.push_back(
          {.name = system.mechanism.bodies[b].name, .turn = twists_[b].angular, .ends = {}});
  }

  void add(const Equation& e, double multiplier) {
    const Mechanism& m = system_.mechanism;
    if (e.kind == EquationKind::distance) {
      const Vec3 from_b = place_of(e.a) - place_of(e.b);
      const double tightness = multiplier / design_.lengths[index(e.length.value)];
      load(e.joint, m.anchor(e.a).body, place_of(e.a), from_b * tightness);
      load(e.joint, m.anchor(e.b).body, place_of(e.b), -from_b * tightness);
      add_bar(e, tightness);
    } else if (e.kind == EquationKind::offset) {
      const Pose& pose = kin_.pose[index(m.axis(e.u).body.value)];
      const Vec3 force = pose.turn(design_.directions[index(e.u.value)]) * multiplier;
      load(e.joint, m.anchor(e.a).body, place_of(e.a), force);
      if (e.b.value >= 0) load(e.joint, m.anchor(e.b).body, place_of(e.b), -force);
    }
    // Couples swing nothing: what turns with them keeps its lever.
  }

  /// Tree joints have no equations: each passes inward what its subtree carries. After all equations.
  void add_tree_joints() {
    for (std::size_t t = system_.tree.size(); t-- > 0;) {
      const TreeJoint& tree = system_.tree[t];
      if (tree.kind == TreeKind::free) continue;
      const Vec3 place = place_of(tree.pivot_child);
      const Vec3 force = carried_[index(tree.body.value)];
      load(tree.joint, tree.parent, place, force);
      load(tree.joint, tree.body, place, -force);
    }
  }

  /// The strongest swing first; the frame is none of them.
  std::vector<Part> by_swing() const {
    std::vector<Part> all(bodies_.begin() + 1, bodies_.end());
    all.insert(all.end(), bars_.begin(), bars_.end());
    constexpr double kAlike = 1e-6;  // mirror twins keep their order
    std::stable_sort(all.begin(), all.end(), [](const Part& x, const Part& y) {
      return std::abs(x.swing) > std::abs(y.swing) * (1 + kAlike);
    });
    return all;
  }

  double largest_force() const { return largest_force_; }

 private:
  Vec3 place_of(AnchorId id) const {
    const BodyId body = system_.mechanism.anchor(id).body;
    return kin_.pose[index(body.value)].place(design_.places[index(id.value)]);
  }

  void load(JointId joint, BodyId body, const Vec3& place, const Vec3& force) {
    Part& part = bodies_[index(body.value)];
    part.swing += force.dot(drawn_in(part.turn, place));
    part.ends.push_back({joint, place, twists_[index(body.value)].at(place), force});
    carried_[index(body.value)] += force;
    largest_force_ = std::max(largest_force_, force.norm());
  }

  void add_bar(const Equation& e, double tightness) {
    const Mechanism& m = system_.mechanism;
    const Vec3 a = place_of(e.a), b = place_of(e.b);
    const Vec3 v_a = twists_[index(m.anchor(e.a).body.value)].at(a);
    const Vec3 v_b = twists_[index(m.anchor(e.b).body.value)].at(b);
    Part bar;
    bar.name = m.joint(e.joint).name;
    bar.turn = cross(Vec3(a - b), Vec3(v_a - v_b)) / (a - b).squaredNorm();
    // The forces on it are the opposite of those on the bodies, and both its ends are drawn in.
    bar.swing = tightness * (v_a - v_b).squaredNorm();
    const Vec3 force = (b - a) * tightness;
    bar.ends = {{e.joint, a, v_a, force}, {e.joint, b, v_b, -force}};
    bar.is_bar = true;
    bars_.push_back(std::move(bar));
  }

  const System& system_;
  const Design& design_;
  const Kinematics& kin_;
  std::vector<Twist> twists_;
  std::vector<Part> bodies_, bars_;
  std::vector<Vec3> carried_;  ///< force on a body and what hangs on it
  double largest_force_ = 0;
};

double largest_speed(const std::vector<Part>& parts) {
  double largest = 0;
  for (const Part& part : parts) {
    for (const JointEnd& end : part.ends) largest = std::max(largest, end.velocity.norm());
  }
  return largest;
}

/// From a moving end of a part to each end of it that stands still, seen along an axis.
std::vector<Vec3> arms_from(const JointEnd& moving, const Part& part, const Vec3& axis) {
  std::vector<Vec3> arms;
  for (const JointEnd& end : part.ends) {
    if (end.velocity.norm() > kStill * moving.velocity.norm()) continue;
    const Vec3 arm = end.place - moving.place;
    arms.push_back(arm - axis * axis.dot(arm));
  }
  return arms;
}

bool meet(const JointEnd& x, const JointEnd& y) {
  constexpr double kSamePlace = 1e-6;
  return x.joint.value >= 0 && x.joint == y.joint && (x.place - y.place).norm() <= kSamePlace;
}

/// Whether two parts lie in one line, from a joint between them that moves to where each stands still. Seen along the axis about which
/// the faster turns: a knuckle has no arm along its kingpin.
RunOut::How how_they_lie(const Part& x, const Part& y) {
  const Vec3& turn = x.turn.norm() > y.turn.norm() ? x.turn : y.turn;
  const Vec3 axis = turn / turn.norm();
  for (const JointEnd& of_x : x.ends) {
    for (const JointEnd& of_y : y.ends) {
      if (!meet(of_x, of_y)) continue;
      for (const Vec3& one : arms_from(of_x, x, axis)) {
        for (const Vec3& other : arms_from(of_x, y, axis)) {
          if (cross(one, other).norm() > kInLine * one.norm() * other.norm()) continue;
          return one.dot(other) < 0 ? RunOut::How::straight : RunOut::How::folded;
        }
      }
    }
  }
  return RunOut::How::dead_centre;
}

/// What pushes hardest on a part where it moves, by a joint at one place; none if that is an input or a guide. Of a bar and the body at its
/// end the bar.
const Part* pusher_of(const Part& pushed, const std::vector<Part>& parts) {
  const double speed = largest_speed({pushed});
  const JointEnd* hardest = nullptr;
  for (const JointEnd& end : pushed.ends) {
    if (end.velocity.norm() < kStill * speed) continue;
    if (hardest == nullptr || end.force.norm() > hardest->force.norm()) hardest = &end;
  }
  const Part* pusher = nullptr;
  for (const Part& part : parts) {
    if (hardest == nullptr || &part == &pushed || (pusher != nullptr && !part.is_bar)) continue;
    for (const JointEnd& end : part.ends) {
      if (meet(*hardest, end)) pusher = &part;
    }
  }
  return pusher;
}

/// The joint whose equation carries most.
std::string most_loaded_joint(const System& system, const std::vector<int>& rows,
                              const Vector& multipliers) {
  std::string name;
  double most = -1;
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const Equation& e = system.equations[index(rows[k])];
    const double weight = std::abs(multipliers[static_cast<int>(k)]) / residual_scale(e);
    if (e.role != EquationRole::joint || weight <= most) continue;
    most = weight;
    name = system.mechanism.joint(e.joint).name;
  }
  return name;
}

}  // namespace

std::string RunOut::subject() const {
  return list_of(parts);
}

std::string RunOut::predicate() const {
  switch (how) {
    case How::straight:
      return "run straight";
    case How::folded:
      return "fold over each other";
    case How::dead_centre:
      break;
  }
  return parts.size() > 1 ? "are at a dead centre" : "is at a dead centre";
}

RunOut find_run_out(const System& system, const Design& design, const Kinematics& kin,
                    const std::vector<int>& rows, const Vector& motion, const Vector& multipliers) {
  LoadedParts loaded(system, design, kin, motion);
  for (std::size_t k = 0; k < rows.size(); ++k)
    loaded.add(system.equations[index(rows[k])], multipliers[static_cast<int>(k)]);
  loaded.add_tree_joints();
  const std::vector<Part> parts = loaded.by_swing();
  const double speed = largest_speed(parts);
  RunOut out;
  if (parts.empty() ||
      std::abs(parts[0].swing) <= kNoSwing * loaded.largest_force() * speed * speed) {
    out.parts = {most_loaded_joint(system, rows, multipliers)};
    return out;
  }
  for (std::size_t k = 1; k < parts.size(); ++k) {
    // However little it swings: a long link does beside the short arm that it lies in line with.
    if (parts[k].turn.norm() <= kStill * parts[0].turn.norm()) continue;
    out.how = how_they_lie(parts[0], parts[k]);
    if (out.how == RunOut::How::dead_centre) continue;
    out.parts = {parts[0].name, parts[k].name};
    // The bar first: it is what a shop would change.
    if (parts[k].is_bar && !parts[0].is_bar) std::swap(out.parts[0], out.parts[1]);
    return out;
  }
  for (const Part& part : parts) {
    if (out.parts.size() == kMostNamed) break;
    if (std::abs(part.swing) >= kNamed * std::abs(parts[0].swing)) out.parts.push_back(part.name);
  }
  if (out.parts.size() == 1 && !parts[0].is_bar) {
    if (const Part* pusher = pusher_of(parts[0], parts)) out.parts.push_back(pusher->name);
  }
  return out;
}

}  // namespace axlewright
