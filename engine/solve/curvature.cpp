#include "engine/solve/curvature.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/index.h"
#include "engine/base/invariant.h"

namespace axlewright {
namespace {

/// Angle of a rotation, by its sine and cosine: precise at every angle.
double angle_of(const Mat3& R) {
  const Vec3 skew(R(2, 1) - R(1, 2), R(0, 2) - R(2, 0), R(1, 0) - R(0, 1));
  return std::atan2(0.5 * skew.norm(), 0.5 * (R(0, 0) + R(1, 1) + R(2, 2) - 1));
}

}  // namespace

std::vector<Block> blocks_of(const System& system) {
  std::vector<Block> blocks;
  for (std::size_t t = 0; t < system.tree.size(); ++t) {
    const TreeJoint& tree = system.tree[t];
    const int joint = static_cast<int>(t);
    switch (tree.kind) {
      case TreeKind::weld:
        break;
      case TreeKind::pin:
      case TreeKind::ball:
        blocks.push_back({tree.first, tree.count, true, joint});
        break;
      case TreeKind::slide:
        blocks.push_back({tree.first, 1, false, joint});
        break;
      case TreeKind::free:
        blocks.push_back({tree.first, 3, true, joint});
        blocks.push_back({tree.first + 3, 3, false, joint});
        break;
    }
  }
  return blocks;
}

double distance_in_block(const Block& block, const State& from, const State& to) {
  const JointStateT<double>& a = from[index(block.tree)];
  const JointStateT<double>& b = to[index(block.tree)];
  if (block.count == 1) return std::abs(b.x - a.x);
  if (!block.turns) return (b.shift - a.shift).norm();
  return angle_of(product<double>(Mat3(a.turn.transpose()), b.turn));
}

CurvatureBounds::CurvatureBounds(const System& system, const Design& design,
                                 const std::vector<int>& rows)
    : blocks_(blocks_of(system)), first_block_(system.tree.size(), -1) {
  for (std::size_t b = blocks_.size(); b-- > 0;)
    first_block_[index(blocks_[b].tree)] = static_cast<int>(b);
  for (const TreeJoint& tree : system.tree) {
    Pivot pivot{.kind = tree.kind, .parent = tree.parent.value, .at = tree.centre, .axis = {}};
    if (tree.pivot_parent.value >= 0) pivot.at = design.places[index(tree.pivot_parent.value)];
    if (tree.axis.value >= 0) pivot.axis = design.directions[index(tree.axis.value)];
    pivots_.push_back(pivot);
  }
  for (const int e : rows) rows_.push_back(lay_down(system, design, system.equations[index(e)]));
}

CurvatureBounds::Row CurvatureBounds::lay_down(const System& system, const Design& design,
                                               const Equation& e) const {
  const Mechanism& m = system.mechanism;
  const auto place = [&](AnchorId id) {
    if (id.value < 0) return Place{};
    return Place{m.anchor(id).body.value, design.places[index(id.value)]};
  };
  Row row;
  row.kind = e.kind;
  switch (e.kind) {
    case EquationKind::distance:
    case EquationKind::offset: {
      row.a = place(e.a);
      row.b = place(e.b);
      const BodyId root = e.kind == EquationKind::offset ? m.axis(e.u).body : kFrame;
      const Way to_a = way_between(system, root, BodyId{row.a.body});
      const Way to_b = way_between(system, root, BodyId{row.b.body});
      const auto [a, b] =
          std::mismatch(to_a.begin(), to_a.end(), to_b.begin(), to_b.end(),
                        [](const Lever& x, const Lever& y) { return x.block == y.block; });
      row.to_a.assign(a, to_a.end());
      row.to_b.assign(b, to_b.end());
      // What turns both ends alike does not change their distance.
      if (e.kind == EquationKind::offset) row.shared.assign(to_a.begin(), a);
      if (e.kind == EquationKind::distance) row.length = design.lengths[index(e.length.value)];
      break;
    }
    case EquationKind::cosine:
      row.shared = way_between(system, m.axis(e.u).body, m.axis(e.v).body);
      break;
    case EquationKind::angle:
    case EquationKind::tilt:
      // Deflections of bushes: where there are any the pose is a resting place, of which nothing is proved.
      AXLEWRIGHT_INVARIANT(false);
      break;
    case EquationKind::turn:
      break;
    case EquationKind::heading: {
      const auto add = [&](AxisId axis, double share) {
        const BodyId body = m.axis(axis).body;
        row.headings.push_back({.way = way_between(system, kFrame, body),
                                .body = body.value,
                                .direction = design.directions[index(axis.value)],
                                .share = share});
      };
      for (const AxisId axis : e.headings) add(axis, 1.0 / static_cast<double>(e.headings.size()));
      if (e.u.value >= 0) add(e.u, 1);
      break;
    }
  }
  return row;
}

/// The joints met from one body to another: first up the tree, each joint backwards, then down.
CurvatureBounds::Way CurvatureBounds::way_between(const System& system, BodyId root,
                                                  BodyId body) const {
  std::vector<BodyId> up = path_to_frame(system, root), down = path_to_frame(system, body);
  while (!up.empty() && !down.empty() && up.back() == down.back()) {
    up.pop_back();
    down.pop_back();
  }
  std::reverse(down.begin(), down.end());
  Way way;
  const auto meet = [&](BodyId moved, bool backwards) {
    const int t = system.tree_of_body[index(moved.value)];
    const int block = first_block_[index(t)];
    const Lever shift{block, Motion::shift, 1}, about_axis{block, Motion::turn_about_axis, 0},
        about_point{block, Motion::turn_about_point, 0};
    switch (system.tree[index(t)].kind) {
      case TreeKind::weld:
        break;
      case TreeKind::pin:
        way.push_back(about_axis);
        break;
      case TreeKind::slide:
        way.push_back(shift);
        break;
      case TreeKind::ball:
        way.push_back(about_point);
        break;
      case TreeKind::free: {
        // From the parent the shift comes first, then the turn about the shifted centre.
        Lever shifted = shift;
        ++shifted.block;
        way.push_back(backwards ? about_point : shifted);
        way.push_back(backwards ? shifted : about_point);
        break;
      }
    }
  };
  for (const BodyId moved : up) meet(moved, true);
  for (const BodyId moved : down) meet(moved, false);
  return way;
}

void CurvatureBounds::take_reaches(const Vec3& place, Way& way) const {
  for (Lever& lever : way) {
    if (lever.motion == Motion::shift) continue;
    const Pivot& pivot = pivots_[index(blocks_[index(lever.block)].tree)];
    const Vec3 arm = place - pivot.at_here;
    lever.reach =
        lever.motion == Motion::turn_about_point ? arm.norm() : cross(pivot.axis_here, arm).norm();
  }
}

void CurvatureBounds::centre_on(const State& state, const Kinematics& kin) {
  for (std::size_t t = 0; t < pivots_.size(); ++t) {
    Pivot& pivot = pivots_[t];
    const Pose& parent = kin.pose[index(pivot.parent)];
    pivot.at_here =
        pivot.kind == TreeKind::free ? Vec3(pivot.at + state[t].shift) : parent.place(pivot.at);
    if (pivot.kind == TreeKind::pin) pivot.axis_here = parent.turn(pivot.axis);
  }
  for (Row& row : rows_) {
    const Vec3 a = kin.pose[index(row.a.body)].place(row.a.at);
    const Vec3 b = kin.pose[index(row.b.body)].place(row.b.at);
    row.apart = (a - b).norm();
    take_reaches(a, row.to_a);
    take_reaches(b, row.to_b);
    for (Heading& heading : row.headings) {
      const Vec3 s = kin.pose[index(heading.body)].turn(heading.direction);
      heading.level = std::hypot(s.x(), s.y());
    }
  }
}

/// W: sum of the turns on a way.
double CurvatureBounds::turns_of(const Way& way, const std::vector<double>& weights) {
  double sum = 0;
  for (const Lever& lever : way) {
    if (lever.motion != Motion::shift) sum += weights[index(lever.block)];
  }
  return sum;
}

/// V and S of the place at the end of a way that begins where `inner_turns` are already summed. From the outermost joint
/// inwards, since a reach grows by what the joints outward of it can do.
CurvatureBounds::Bend CurvatureBounds::bend_of(const Way& way, double inner_turns,
                                               const std::vector<double>& weights, double radius) {
  Bend bend;
  double inner = inner_turns + turns_of(way, weights);
  for (std::size_t k = way.size(); k-- > 0;) {
    const Lever& lever = way[k];
    const double w = weights[index(lever.block)];
    if (lever.motion == Motion::shift) {
      bend.second += w * 2 * inner;
      bend.first += w;
      continue;
    }
    inner -= w;
    const double reach = lever.reach + radius * bend.first;
    bend.second += w * reach * (w + 2 * inner);
    bend.first += w * reach;
  }
  return bend;
}

double CurvatureBounds::bound_of(const Row& row, const std::vector<double>& weights,
                                 double radius) {
  switch (row.kind) {
    case EquationKind::distance:
    case EquationKind::offset: {
      const double shared = turns_of(row.shared, weights);
      const Bend a = bend_of(row.to_a, shared, weights, radius);
      const Bend b = bend_of(row.to_b, shared, weights, radius);
      const double first = a.first + b.first, second = a.second + b.second;
      const double apart = row.apart + radius * first;
      if (row.kind == EquationKind::distance) return (first * first + apart * second) / row.length;
      // The shared joints among themselves: sum of w_k (w_k + 2 sum of those inward) is the square of the sum.
      return second + apart * shared * shared;
    }
    case EquationKind::cosine: {
      const double turns = turns_of(row.shared, weights);
      return turns * turns;
    }
    case EquationKind::angle:
    case EquationKind::tilt:
      return std::numeric_limits<double>::infinity();
    case EquationKind::turn:
      return 0;
    case EquationKind::heading: {
      double sum = 0;
      for (const Heading& heading : row.headings) {
        const double turns = turns_of(heading.way, weights);
        const double level = heading.level - radius * turns;
        if (!(level > 0)) return std::numeric_limits<double>::infinity();
        sum += heading.share * turns * turns * (1 / level + 1 / (level * level));
      }
      return sum;
    }
  }
  return 0;
}

void CurvatureBounds::evaluate(const std::vector<double>& weights, double radius,
                               std::vector<double>& bounds) const {
  bounds.clear();
  for (const Row& row : rows_) bounds.push_back(bound_of(row, weights, radius));
}

}  // namespace axlewright
