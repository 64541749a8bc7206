#include "engine/solve/turning_wrenches.h"

#include "engine/base/index.h"

namespace axlewright {
namespace {

/// The velocity of a twist that is carried along by another.
Twist carried(const Twist& twist, const Twist& by) {
  return {cross(by.angular, twist.angular),
          cross(by.origin, twist.angular) + cross(by.angular, twist.origin)};
}

Vec3T<Dual> moving_vector(const Vec3& here, const Vec3& velocity) {
  return {Dual(here.x(), velocity.x()), Dual(here.y(), velocity.y()), Dual(here.z(), velocity.z())};
}

/// What a wrench and its change give along two twists.
double power_of_value(const WrenchT<Dual>& wrench, const Twist& twist) {
  double sum = 0;
  for (int k = 0; k < 3; ++k)
    sum += wrench.force[k].value * twist.origin[k] + wrench.moment[k].value * twist.angular[k];
  return sum;
}

double power_of_slope(const WrenchT<Dual>& wrench, const Twist& twist) {
  double sum = 0;
  for (int k = 0; k < 3; ++k)
    sum += wrench.force[k].slope * twist.origin[k] + wrench.moment[k].slope * twist.angular[k];
  return sum;
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

TurningWrenches::Parts TurningWrenches::moving(const EquationPartsT<double>& here,
                                               const Lever& lever, const Twist& twist) {
  const auto place = [&](const Vec3& p, bool moves) {
    return moving_vector(p, moves ? twist.at(p) : Vec3(Vec3::Zero()));
  };
  const auto direction = [&](const Vec3& s, bool moves) {
    return moving_vector(s, moves ? cross(twist.angular, s) : Vec3(Vec3::Zero()));
  };
  return {place(here.a, lever.moves_a),
          place(here.b, lever.moves_b),
          direction(here.u, lever.moves_u),
          direction(here.v, lever.moves_v),
          direction(here.w, lever.moves_w),
          Dual(here.length),
          here.headings,
          here.against};
}

void TurningWrenches::add_to(Matrix& stiffness, const Vector& forces, const Kinematics& kin) const {
  const Pose* pose = kin.pose.data();
  for (std::size_t k = 0; k < rows_.size(); ++k) {
    const Row& row = rows_[k];
    const double force = forces[static_cast<int>(k)];
    if (force == 0) continue;
    EquationPartsT<double> here = row.measured;
    here.a = pose[row.body_a].place(here.a);
    here.b = pose[row.body_b].place(here.b);
    here.u = pose[row.body_u].turn(here.u);
    here.v = pose[row.body_v].turn(here.v);
    here.w = pose[row.body_w].turn(here.w);
    for (int d = row.lever_begin; d < row.lever_end; ++d) {
      const Lever& mover = levers_[index(d)];
      const Twist& by = kin.column[index(mover.column)];
      const auto value = evaluate_parts<Dual>(row.kind, moving(here, mover, by));
      for (int c = row.lever_begin; c < row.lever_end; ++c) {
        const Lever& lever = levers_[index(c)];
        const WrenchT<Dual>& wrench = value.wrench[index(lever.slot)];
        const Twist& twist = kin.column[index(lever.column)];
        double felt = power_of_slope(wrench, twist);
        if (carries_[index(mover.column)][index(lever.column)])
          felt += power_of_value(wrench, carried(twist, by));
        stiffness(lever.column, mover.column) += force * lever.sign * felt;
      }
    }
  }
}

}  // namespace axlewright
