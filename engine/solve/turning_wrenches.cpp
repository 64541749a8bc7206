#include "engine/solve/turning_wrenches.h"

#include <array>
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
  const Mechanism& m = system.mechanism;
  const auto body_of_anchor = [&](AnchorId id) {
    return id.value < 0 ? 0 : m.anchor(id).body.value;
  };
  const auto body_of_axis = [&](AxisId id) { return id.value < 0 ? 0 : m.axis(id).body.value; };
  for (const int equation : rows) {
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
    add_levers(system, equation, row);
    rows_.push_back(row);
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

void TurningWrenches::add_levers(const System& system, int equation, Row& row) {
  row.lever_begin = static_cast<int>(levers_.size());
  // A turn is its coordinate itself: no second derivative.
  if (row.kind != EquationKind::turn) {
    for (const JacobianEntry& entry : system.entries[index(equation)]) {
      const auto moves = [&](int body) -> bool { return moves_[index(body)][index(entry.column)]; };
      levers_.push_back({entry.column, entry.slot, entry.sign, moves(row.body_a), moves(row.body_b),
                         moves(row.body_u), moves(row.body_v), moves(row.body_w)});
    }
  }
  row.lever_end = static_cast<int>(levers_.size());
}

TurningWrenches::Parts TurningWrenches::velocities(const Parts& here, const Lever& lever,
                                                   const Twist& twist) {
  Parts velocity;
  if (lever.moves_a) velocity.a = twist.at(here.a);
  if (lever.moves_b) velocity.b = twist.at(here.b);
  if (lever.moves_u) velocity.u = cross(twist.angular, here.u);
  if (lever.moves_v) velocity.v = cross(twist.angular, here.v);
  if (lever.moves_w) velocity.w = cross(twist.angular, here.w);
  return velocity;
}

void TurningWrenches::add_to(Matrix& stiffness, const Vector& forces, const Kinematics& kin) const {
  const Pose* pose = kin.pose.data();
  for (std::size_t k = 0; k < rows_.size(); ++k) {
    const Row& row = rows_[k];
    const double force = forces[static_cast<int>(k)];
    if (force == 0) continue;
    Parts here = row.measured;
    here.a = pose[row.body_a].place(here.a);
    here.b = pose[row.body_b].place(here.b);
    here.u = pose[row.body_u].turn(here.u);
    here.v = pose[row.body_v].turn(here.v);
    here.w = pose[row.body_w].turn(here.w);
    const auto wrench = evaluate_parts<double>(row.kind, here).wrench;
    for (int d = row.lever_begin; d < row.lever_end; ++d) {
      const Lever& mover = levers_[index(d)];
      const Twist& by = kin.column[index(mover.column)];
      const auto change = wrench_changes(row.kind, here, velocities(here, mover, by));
      std::array<Wrench, kSlots> on_carried = change;
      for (std::size_t slot = 0; slot < kSlots; ++slot) {
        const Wrench along = carried(wrench[slot], by);
        on_carried[slot].force -= along.force;
        on_carried[slot].moment -= along.moment;
      }
      const std::vector<bool>& carries = carries_[index(mover.column)];
      for (int c = row.lever_begin; c < row.lever_end; ++c) {
        const Lever& lever = levers_[index(c)];
        const auto& felt = carries[index(lever.column)] ? on_carried : change;
        stiffness(lever.column, mover.column) +=
            force * lever.sign * felt[index(lever.slot)].power(kin.column[index(lever.column)]);
      }
    }
  }
}

}  // namespace axlewright
