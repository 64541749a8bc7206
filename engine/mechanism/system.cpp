#include "engine/mechanism/system.h"

#include <algorithm>
#include <array>

#include "engine/base/invariant.h"

namespace axlewright {
namespace {

std::size_t at(BodyId id) {
  return static_cast<std::size_t>(id.value);
}

/// Coordinates that a joint needs as a tree joint, or -1 if it cannot be one.
int tree_cost(JointKind kind) {
  switch (kind) {
    case JointKind::clamp:
      return 0;
    case JointKind::pin:
    case JointKind::slide:
      return 1;
    case JointKind::ball:
      return 3;
    default:
      return -1;
  }
}

TreeKind tree_kind(JointKind kind) {
  switch (kind) {
    case JointKind::clamp:
      return TreeKind::weld;
    case JointKind::pin:
      return TreeKind::pin;
    case JointKind::slide:
      return TreeKind::slide;
    default:
      return TreeKind::ball;
  }
}

class TreeBuilder {
 public:
  explicit TreeBuilder(System& system)
      : system_(system),
        in_tree_(system.mechanism.bodies.size(), false),
        joint_in_tree_(system.mechanism.joints.size(), false) {
    in_tree_[0] = true;
    system_.tree_of_body.assign(system.mechanism.bodies.size(), -1);
  }

  std::vector<bool> build() {
    for (;;) {
      attach_stiff_neighbours();
      const BodyId next = busiest_body_left();
      if (next.value < 0) return joint_in_tree_;
      const JointId joint = cheapest_joint_to_tree(next);
      if (joint.value >= 0) {
        attach(joint);
      } else {
        free_body(next);
      }
    }
  }

 private:
  void attach_stiff_neighbours() {
    bool grew = true;
    while (grew) {
      grew = false;
      for (int j = 0; j < static_cast<int>(system_.mechanism.joints.size()); ++j) {
        const Joint& joint = system_.mechanism.joint(JointId{j});
        const int cost = tree_cost(joint.kind);
        if (cost < 0 || cost > 1 || in_tree_[at(joint.body_a)] == in_tree_[at(joint.body_b)])
          continue;
        attach(JointId{j});
        grew = true;
      }
    }
  }

  BodyId busiest_body_left() const {
    std::vector<int> busy(in_tree_.size(), 0);
    for (const Joint& joint : system_.mechanism.joints) {
      ++busy[at(joint.body_a)];
      ++busy[at(joint.body_b)];
    }
    BodyId best;
    for (std::size_t b = 0; b < in_tree_.size(); ++b) {
      if (in_tree_[b]) continue;
      if (best.value < 0 || busy[b] > busy[at(best)]) best = BodyId{static_cast<int>(b)};
    }
    return best;
  }

  JointId cheapest_joint_to_tree(BodyId body) const {
    JointId best;
    int best_cost = 6;
    for (int j = 0; j < static_cast<int>(system_.mechanism.joints.size()); ++j) {
      const Joint& joint = system_.mechanism.joint(JointId{j});
      const bool meets = (joint.body_a == body && in_tree_[at(joint.body_b)]) ||
                         (joint.body_b == body && in_tree_[at(joint.body_a)]);
      const int cost = tree_cost(joint.kind);
      if (!meets || cost < 0 || cost >= best_cost) continue;
      best = JointId{j};
      best_cost = cost;
    }
    return best;
  }

  void attach(JointId id) {
    const Joint& joint = system_.mechanism.joint(id);
    const bool a_is_parent = in_tree_[at(joint.body_a)];
    TreeJoint tree;
    tree.kind = tree_kind(joint.kind);
    tree.parent = a_is_parent ? joint.body_a : joint.body_b;
    tree.body = a_is_parent ? joint.body_b : joint.body_a;
    tree.pivot_parent = a_is_parent ? joint.a : joint.b;
    tree.pivot_child = a_is_parent ? joint.b : joint.a;
    tree.axis = a_is_parent ? joint.axis_a : joint.axis_b;
    tree.sign = a_is_parent ? 1 : -1;
    tree.joint = id;
    tree.count = tree_cost(joint.kind);
    joint_in_tree_[static_cast<std::size_t>(id.value)] = true;
    push(tree);
  }

  void free_body(BodyId body) {
    TreeJoint tree;
    tree.kind = TreeKind::free;
    tree.parent = kFrame;
    tree.body = body;
    tree.count = 6;
    int anchors = 0;
    for (const Anchor& anchor : system_.mechanism.anchors) {
      if (anchor.body != body) continue;
      tree.centre += anchor.at;
      ++anchors;
    }
    if (anchors > 0) tree.centre /= anchors;
    push(tree);
  }

  void push(TreeJoint tree) {
    tree.first = system_.coordinates;
    system_.coordinates += tree.count;
    in_tree_[at(tree.body)] = true;
    system_.tree_of_body[at(tree.body)] = static_cast<int>(system_.tree.size());
    system_.tree.push_back(tree);
  }

  System& system_;
  std::vector<bool> in_tree_;
  std::vector<bool> joint_in_tree_;
};

AxisId side_of(Mechanism& mechanism, AxisId id, int side) {
  const Axis axis = mechanism.axis(id);
  if (axis.from.value >= 0)
    return mechanism.add_axis(axis.name, axis.body, axis.from, axis.to, side);
  return mechanism.add_axis(axis.name, axis.body,
                            direction_on_side<double>(axis.direction, side, axis.direction));
}

/// Writes the equations of one joint that the tree does not hold.
class JointEquations {
 public:
  JointEquations(System& system, JointId id)
      : system_(system), id_(id), joint_(system.mechanism.joint(id)) {}

  void write() {
    switch (joint_.kind) {
      case JointKind::ball:
        return coincide();
      case JointKind::pin:
        coincide();
        return aligned();
      case JointKind::slide:
        on_line();
        return no_turn();
      case JointKind::clamp:
        coincide();
        return no_turn();
      case JointKind::distance:
        return distance();
      case JointKind::point_on_line:
        return on_line();
      case JointKind::point_on_plane:
        return offset(joint_.axis_a, "", 0);
      case JointKind::perpendicular:
      case JointKind::spin_keeper:
        return cosine(joint_.axis_a, joint_.axis_b, "", 0);
      case JointKind::held_coordinate:
        return offset(joint_.axis_a, "", as_measured_offset());
      case JointKind::bush:
        return give();
    }
  }

 private:
  void coincide() {
    static constexpr std::array<const char*, 3> kWays = {"fore-aft", "sideways", "up-down"};
    for (int k = 0; k < 3; ++k) {
      const AxisId way =
          system_.mechanism.add_axis(kWays[static_cast<std::size_t>(k)], kFrame, Vec3::Unit(k));
      offset(way, kWays[static_cast<std::size_t>(k)], 0);
    }
  }

  void on_line() {
    offset(side_of(system_.mechanism, joint_.axis_a, 1), "off the line one way", 0);
    offset(side_of(system_.mechanism, joint_.axis_a, 2), "off the line the other way", 0);
  }

  void aligned() {
    cosine(joint_.axis_a, side_of(system_.mechanism, joint_.axis_b, 1), "tilt one way", 0);
    cosine(joint_.axis_a, side_of(system_.mechanism, joint_.axis_b, 2), "tilt the other way", 0);
  }

  void no_turn() {
    Mechanism& m = system_.mechanism;
    std::array<AxisId, 3> on_a, on_b;
    for (int k = 0; k < 3; ++k) {
      on_a[static_cast<std::size_t>(k)] = m.add_axis("lock", joint_.body_a, Vec3::Unit(k));
      on_b[static_cast<std::size_t>(k)] = m.add_axis("lock", joint_.body_b, Vec3::Unit(k));
    }
    cosine(on_a[0], on_b[1], "turn about up", 0);
    cosine(on_a[1], on_b[2], "turn about forward", 0);
    cosine(on_a[2], on_b[0], "turn about left", 0);
  }

  /// The deflections of a bush and its turns about body_a's axes f1, f2, f3 (the bush's own); g1, g2, g3 are body_b's. As body-fixed
  /// turns a, b, c about the axes 1, 2, 3: f1.g3 = sin b, f2.g3 = -sin a cos b, f3.g3 = cos a cos b, f1.g2 = -cos b sin c,
  /// f1.g1 = cos b cos c. The signs of a and c do not matter to a stiffness.
  void give() {
    Mechanism& m = system_.mechanism;
    std::array<AxisId, 3> f, g;
    for (int k = 0; k < 3; ++k) {
      f[static_cast<std::size_t>(k)] = side_of(m, joint_.axis_a, (k + 1) % 3);
      g[static_cast<std::size_t>(k)] = side_of(m, joint_.axis_b, (k + 1) % 3);
    }
    const auto add = [&](EquationKind kind, const char* way, double stiffness, AxisId u, AxisId v,
                         AxisId w) {
      if (stiffness == 0) return;
      Equation e = blank(way);
      e.kind = kind;
      e.role = EquationRole::bush;
      e.stiffness = stiffness;
      e.u = u;
      e.v = v;
      e.w = w;
      if (kind == EquationKind::offset) {
        e.a = joint_.b;
        e.b = joint_.a;
      }
      add_equation(system_, std::move(e));
    };
    const Bush& bush = joint_.bush;
    add(EquationKind::offset, "across one way", bush.along.x(), f[0], {}, {});
    add(EquationKind::offset, "across the other way", bush.along.y(), f[1], {}, {});
    add(EquationKind::offset, "along", bush.along.z(), f[2], {}, {});
    add(EquationKind::angle, "tilt one way", bush.about.x(), g[2], f[2], f[1]);
    add(EquationKind::tilt, "tilt the other way", bush.about.y(), f[0], g[2], {});
    add(EquationKind::angle, "twist", bush.about.z(), f[0], g[0], g[1]);
  }

  void distance() {
    Equation e = blank("");
    e.kind = EquationKind::distance;
    e.a = joint_.a;
    e.b = joint_.b;
    e.length = joint_.length;
    add_equation(system_, std::move(e));
  }

  void offset(AxisId n, const char* way, double target) {
    Equation e = blank(way);
    e.kind = EquationKind::offset;
    e.a = joint_.b;
    e.b = joint_.a;
    e.u = n;
    e.target = target;
    add_equation(system_, std::move(e));
  }

  void cosine(AxisId u, AxisId v, const char* way, double target) {
    Equation e = blank(way);
    e.kind = EquationKind::cosine;
    e.u = u;
    e.v = v;
    e.target = target;
    add_equation(system_, std::move(e));
  }

  double as_measured_offset() const {
    const Mechanism& m = system_.mechanism;
    return m.axis(joint_.axis_a).direction.dot(m.anchor(joint_.b).at - m.anchor(joint_.a).at);
  }

  Equation blank(const char* way) const {
    Equation e;
    e.joint = id_;
    e.name = *way == '\0' ? joint_.name : joint_.name + ": " + way;
    return e;
  }

  System& system_;
  JointId id_;
  Joint joint_;  // a copy: adding axes may move the mechanism's own
};

Equation input_equation(const System& system, InputId id) {
  const Input& input = system.mechanism.inputs[static_cast<std::size_t>(id.value)];
  Equation e;
  e.role = EquationRole::input;
  e.input = id.value;
  e.name = input.name;
  switch (input.kind) {
    case InputKind::coordinate:
      e.kind = EquationKind::offset;
      e.a = input.anchor;
      e.u = input.axis;
      break;
    case InputKind::turn:
      e.kind = EquationKind::turn;
      e.as_measured = input.as_measured;
      for (std::size_t t = 0; t < system.tree.size(); ++t) {
        if (system.tree[t].joint == input.joint && system.tree[t].kind == TreeKind::pin)
          e.tree = static_cast<int>(t);
      }
      // Pins enter the tree first, and the sector shaft's pin is on the frame, the tree's root.
      AXLEWRIGHT_INVARIANT(e.tree >= 0);
      break;
    case InputKind::heading:
      e.kind = EquationKind::heading;
      for (const HeadingOf& heading : input.headings) e.headings.push_back(heading.axis);
      e.u = input.axis;
      break;
  }
  return e;
}

std::vector<JacobianEntry> structure_of(const System& system, const Equation& e) {
  if (e.kind == EquationKind::turn) {
    const TreeJoint& tree = system.tree[static_cast<std::size_t>(e.tree)];
    return {JacobianEntry{tree.first, 0, tree.sign}};
  }
  const std::array<int, kSlots> slots = bodies_of(system, e);
  const auto rides_on = [&](const TreeJoint& tree, int slot) {
    const std::vector<BodyId> path =
        path_to_frame(system, BodyId{slots[static_cast<std::size_t>(slot)]});
    return std::find(path.begin(), path.end(), tree.body) != path.end();
  };
  std::vector<JacobianEntry> entries;
  const auto add = [&](const TreeJoint& tree, int slot, double sign) {
    for (int k = 0; k < tree.count; ++k) entries.push_back({tree.first + k, slot, sign});
  };
  for (const TreeJoint& tree : system.tree) {
    // Which slots ride on this tree joint? A set and its complement carry opposite total wrenches (an equation does
    // not change when everything moves together), so one slot with a sign is always enough.
    std::vector<int> moved, still;
    for (int s = 0; s < kAgainst; ++s) {
      if (slots[static_cast<std::size_t>(s)] < 0) continue;
      (rides_on(tree, s) ? moved : still).push_back(s);
    }
    if (!moved.empty() && !still.empty()) {
      AXLEWRIGHT_INVARIANT(moved.size() == 1 || still.size() == 1);
      const bool by_moved = moved.size() == 1;
      add(tree, by_moved ? moved[0] : still[0], by_moved ? 1.0 : -1.0);
    }
    // Entries add up where both move with one joint.
    if (slots[kAgainst] >= 0 && rides_on(tree, kAgainst)) add(tree, kAgainst, 1.0);
  }
  return entries;
}

}  // namespace

std::array<int, kSlots> bodies_of(const System& system, const Equation& e) {
  const Mechanism& m = system.mechanism;
  std::array<int, kSlots> slots = {-1, -1, -1, -1};
  switch (e.kind) {
    case EquationKind::distance:
      slots = {m.anchor(e.a).body.value, m.anchor(e.b).body.value, -1, -1};
      break;
    case EquationKind::offset:
      slots = {m.anchor(e.a).body.value, e.b.value >= 0 ? m.anchor(e.b).body.value : 0,
               m.axis(e.u).body.value, -1};
      break;
    case EquationKind::cosine:
    case EquationKind::angle:
    case EquationKind::tilt:
      slots = {m.axis(e.u).body.value, m.axis(e.v).body.value, -1, -1};
      break;
    case EquationKind::heading:
      // The frame is the third body: headings are measured in it.
      for (std::size_t k = 0; k < e.headings.size(); ++k)
        slots[k] = m.axis(e.headings[k]).body.value;
      slots[2] = 0;
      if (e.u.value >= 0) slots[kAgainst] = m.axis(e.u).body.value;
      break;
    case EquationKind::turn:
      break;
  }
  return slots;
}

std::vector<BodyId> path_to_frame(const System& system, BodyId body) {
  std::vector<BodyId> path;
  while (body != kFrame) {
    path.push_back(body);
    body = system.tree[static_cast<std::size_t>(system.tree_of_body[at(body)])].parent;
  }
  return path;
}

void add_equation(System& system, Equation equation) {
  system.entries.push_back(structure_of(system, equation));
  system.equations.push_back(std::move(equation));
}

System make_system(const Mechanism& mechanism, const std::vector<InputId>& held) {
  System system;
  system.mechanism = mechanism;
  const std::vector<bool> joint_in_tree = TreeBuilder(system).build();
  for (std::size_t j = 0; j < joint_in_tree.size(); ++j) {
    if (!joint_in_tree[j]) JointEquations(system, JointId{static_cast<int>(j)}).write();
  }
  for (const InputId input : held) add_equation(system, input_equation(system, input));
  return system;
}

}  // namespace axlewright
