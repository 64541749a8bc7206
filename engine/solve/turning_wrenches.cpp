#include "engine/solve/turning_wrenches.h"

#include <algorithm>
#include <cmath>

#include "engine/base/dual.h"
#include "engine/base/index.h"

namespace axlewright {
namespace {

using Parts = EquationPartsT<double>;

Vec3 heading_moment_change(const Vec3& s, const Vec3& velocity) {
  const Vec3T<Dual> moving(Dual(s.x(), velocity.x()), Dual(s.y(), velocity.y()),
                           Dual(s.z(), velocity.z()));
  const Vec3T<Dual> moment = heading_moment<Dual>(moving);
  return {moment.x().slope, moment.y().slope, moment.z().slope};
}

/// How the wrenches of evaluate_parts() change as the parts move: its formulas by the product rule. Slots 2 of distance and kAgainst of
/// all but headings stay zero.
std::array<Wrench, kSlots> wrench_changes(EquationKind kind, const Parts& p, const Parts& dp) {
  std::array<Wrench, kSlots> change;
  switch (kind) {
    case EquationKind::distance: {
      const double per_length = 1 / p.length;
      const Vec3 n = (p.a - p.b) * per_length, dn = (dp.a - dp.b) * per_length;
      change[0] = {dn, cross(dp.a, n) + cross(p.a, dn)};
      change[1] = {-dn, -cross(dp.b, n) - cross(p.b, dn)};
      break;
    }
    case EquationKind::offset:
      change[0] = {dp.u, cross(dp.a, p.u) + cross(p.a, dp.u)};
      change[1] = {-dp.u, -cross(dp.b, p.u) - cross(p.b, dp.u)};
      change[2].moment = -(change[0].moment + change[1].moment);
      break;
    case EquationKind::cosine:
      change[0].moment = cross(dp.u, p.v) + cross(p.u, dp.v);
      change[1].moment = -change[0].moment;
      break;
    case EquationKind::angle: {
      const double c = p.u.dot(p.v), dc = dp.u.dot(p.v) + p.u.dot(dp.v);
      const double s = p.u.dot(p.w), ds = dp.u.dot(p.w) + p.u.dot(dp.w);
      const double q = c * c + s * s, dq = 2 * (c * dc + s * ds);
      const Vec3 y = p.w * c - p.v * s, dy = p.w * dc + dp.w * c - p.v * ds - dp.v * s;
      change[0].moment = (cross(dp.u, y) + cross(p.u, dy) - cross(p.u, y) * (dq / q)) / q;
      change[1].moment = -change[0].moment;
      break;
    }
    case EquationKind::tilt: {
      const double s = p.u.dot(p.v), ds = dp.u.dot(p.v) + p.u.dot(dp.v);
      const double g = 1 / std::sqrt(1 - s * s), dg = s * ds * g * g * g;
      change[0].moment = (cross(dp.u, p.v) + cross(p.u, dp.v)) * g + cross(p.u, p.v) * dg;
      change[1].moment = -change[0].moment;
      break;
    }
    case EquationKind::turn:
      break;
    case EquationKind::heading:
      for (int k = 0; k < p.headings; ++k) {
        const Vec3 moment =
            heading_moment_change(k == 0 ? p.v : p.w, k == 0 ? dp.v : dp.w) / p.headings;
        change[index(k)].moment = moment;
        change[2].moment -= moment;
      }
      if (p.against) change[kAgainst].moment = -heading_moment_change(p.u, dp.u);
      break;
  }
  return change;
}

/// What a wrench would change by if it were carried along by a motion. On a coordinate that is itself carried along its power does not
/// change then: what the coordinate's own motion adds is the opposite of what this does.
Wrench carried(const Wrench& wrench, const Twist& by) {
  return {cross(by.angular, wrench.force),
          cross(by.angular, wrench.moment) + cross(by.origin, wrench.force)};
}

}  // namespace

void TurningWrenches::lay_down(const System& system, const Design& design,
                               const std::vector<int>& rows) {
  *this = TurningWrenches{};
  coordinates_ = system.coordinates;
  find_what_moves(system);
  for (const int equation : rows) rows_.push_back(row_of(system, design, equation));
  const auto joint = [&](int row) { return system.equations[index(rows[index(row)])].joint.value; };
  const int count = static_cast<int>(rows.size());
  for (int begin = 0, end = 0; begin < count; begin = end) {
    while (end < count && joint(end) == joint(begin)) ++end;
    add_group(system, rows, begin, end);
  }
}

void TurningWrenches::find_what_moves(const System& system) {
  const std::vector<bool> none(index(coordinates_), false);
  moves_.assign(system.mechanism.bodies.size(), none);
  carries_.assign(index(coordinates_), none);
  for (const TreeJoint& tree : system.tree) {
    const std::vector<bool>& parent = moves_[index(tree.parent.value)];
    std::vector<bool> own = parent;
    for (int c = tree.first; c < tree.first + tree.count; ++c) {
      own[index(c)] = true;
      for (int d = 0; d < coordinates_; ++d) carries_[index(d)][index(c)] = parent[index(d)];
      // The turns of a free body are about a point that its own shifts carry.
      if (tree.kind == TreeKind::free && c < tree.first + 3) {
        for (int shift = 3; shift < 6; ++shift)
          carries_[index(tree.first + shift)][index(c)] = true;
      }
    }
    moves_[index(tree.body.value)] = own;
  }
}

TurningWrenches::Row TurningWrenches::row_of(const System& system, const Design& design,
                                             int equation) const {
  const Mechanism& m = system.mechanism;
  const auto body_of_anchor = [&](AnchorId id) {
    return id.value < 0 ? 0 : m.anchor(id).body.value;
  };
  const auto body_of_axis = [&](AxisId id) { return id.value < 0 ? 0 : m.axis(id).body.value; };
  const Equation& e = system.equations[index(equation)];
  Row row;
  row.kind = e.kind;
  row.measured = parts_of<double>(
      e, design, [&](AnchorId id) { return design.places[index(id.value)]; },
      [&](AxisId id) { return design.directions[index(id.value)]; });
  row.body_a = body_of_anchor(e.a);
  row.body_b = body_of_anchor(e.b);
  row.body_u = body_of_axis(e.u);
  row.body_v = body_of_axis(e.headings.empty() ? e.v : e.headings[0]);
  // The w of an angle rides on the body of v.
  row.body_w = body_of_axis(e.headings.size() > 1 ? e.headings[1] : e.w);
  return row;
}

TurningWrenches::Reach TurningWrenches::reach_of(const System& system, const std::vector<int>& rows,
                                                 int k, int column) const {
  const Row& row = rows_[index(k)];
  // A turn is its coordinate itself: no second derivative.
  if (row.kind == EquationKind::turn) return {};
  for (const JacobianEntry& entry : system.entries[index(rows[index(k)])]) {
    if (entry.column != column) continue;
    const auto moves = [&](int body) -> bool { return moves_[index(body)][index(column)]; };
    return {entry.slot,        entry.sign,        moves(row.body_a), moves(row.body_b),
            moves(row.body_u), moves(row.body_v), moves(row.body_w)};
  }
  return {};
}

void TurningWrenches::add_group(const System& system, const std::vector<int>& rows, int begin,
                                int end) {
  Group group{.row_begin = begin,
              .row_end = end,
              .side_begin = static_cast<int>(first_reach_.size()),
              .lever_begin = static_cast<int>(levers_.size())};
  std::vector<std::vector<Reach>> sides;
  for (int column = 0; column < coordinates_; ++column) {
    std::vector<Reach> reaches;
    for (int k = begin; k < end; ++k) reaches.push_back(reach_of(system, rows, k, column));
    if (std::none_of(reaches.begin(), reaches.end(), [](const Reach& r) { return r.answers(); }))
      continue;
    const auto side = std::find(sides.begin(), sides.end(), reaches);
    levers_.push_back({column, static_cast<int>(side - sides.begin())});
    if (side == sides.end()) sides.push_back(reaches);
  }
  for (const std::vector<Reach>& reaches : sides) {
    first_reach_.push_back(static_cast<int>(reaches_.size()));
    reaches_.insert(reaches_.end(), reaches.begin(), reaches.end());
  }
  group.sides = static_cast<int>(sides.size());
  group.lever_end = static_cast<int>(levers_.size());
  groups_.push_back(group);
}

const TurningWrenches::Reach& TurningWrenches::reach(const Group& group, int side, int row) const {
  return reaches_[index(first_reach_[index(group.side_begin + side)] + row - group.row_begin)];
}

TurningWrenches::Parts TurningWrenches::velocities(const Parts& here, const Reach& mover,
                                                   const Twist& twist) {
  Parts velocity;
  if (mover.moves_a) velocity.a = twist.at(here.a);
  if (mover.moves_b) velocity.b = twist.at(here.b);
  if (mover.moves_u) velocity.u = cross(twist.angular, here.u);
  if (mover.moves_v) velocity.v = cross(twist.angular, here.v);
  if (mover.moves_w) velocity.w = cross(twist.angular, here.w);
  return velocity;
}

void TurningWrenches::stand(const Group& group, const Vector& forces, const Kinematics& kin) {
  standing_.clear();
  for (int k = group.row_begin; k < group.row_end; ++k) {
    const Row& row = rows_[index(k)];
    Standing standing{.here = row.measured, .wrench = {}, .force = forces[k]};
    Parts& here = standing.here;
    here.a = kin.pose[index(row.body_a)].place(here.a);
    here.b = kin.pose[index(row.body_b)].place(here.b);
    here.u = kin.pose[index(row.body_u)].turn(here.u);
    here.v = kin.pose[index(row.body_v)].turn(here.v);
    here.w = kin.pose[index(row.body_w)].turn(here.w);
    standing.wrench = evaluate_parts<double>(row.kind, here).wrench;
    standing_.push_back(standing);
  }
}

/// What each side of the group feels more as the mover moves, by all its equations.
void TurningWrenches::move(const Group& group, const Lever& mover, const Twist& by) {
  changes_.assign(index(group.sides), Wrench{});
  carried_along_.assign(index(group.sides), Wrench{});
  for (int k = group.row_begin; k < group.row_end; ++k) {
    const Standing& standing = standing_[index(k - group.row_begin)];
    const Reach& moves = reach(group, mover.side, k);
    if (standing.force == 0 || !moves.answers()) continue;
    const auto change =
        wrench_changes(rows_[index(k)].kind, standing.here, velocities(standing.here, moves, by));
    for (int side = 0; side < group.sides; ++side) {
      const Reach& feels = reach(group, side, k);
      if (!feels.answers()) continue;
      const double force = standing.force * feels.sign;
      const std::size_t slot = index(feels.slot);
      changes_[index(side)].force += force * change[slot].force;
      changes_[index(side)].moment += force * change[slot].moment;
      carried_along_[index(side)].force += force * standing.wrench[slot].force;
      carried_along_[index(side)].moment += force * standing.wrench[slot].moment;
    }
  }
  for (Wrench& wrench : carried_along_) wrench = carried(wrench, by);
}

void TurningWrenches::add_to(Matrix& stiffness, const Vector& forces, const Kinematics& kin) {
  for (const Group& group : groups_) {
    stand(group, forces, kin);
    for (int d = group.lever_begin; d < group.lever_end; ++d) {
      const Lever& mover = levers_[index(d)];
      move(group, mover, kin.column[index(mover.column)]);
      const std::vector<bool>& carries = carries_[index(mover.column)];
      for (int c = group.lever_begin; c < group.lever_end; ++c) {
        const Lever& lever = levers_[index(c)];
        const Twist& twist = kin.column[index(lever.column)];
        double felt = changes_[index(lever.side)].power(twist);
        if (carries[index(lever.column)]) felt -= carried_along_[index(lever.side)].power(twist);
        stiffness(lever.column, mover.column) += felt;
      }
    }
  }
}

}  // namespace axlewright
