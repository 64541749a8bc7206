#include "engine/solve/flat_equations.h"

#include <cmath>

#include "engine/base/index.h"

namespace axlewright {

void FlatEquations::lay_down(const System& system, const Design& design,
                             const std::vector<int>& rows) {
  *this = FlatEquations{};
  const Mechanism& m = system.mechanism;
  const auto body_of_anchor = [&](AnchorId id) {
    return id.value < 0 ? 0 : m.anchor(id).body.value;
  };
  const auto body_of_axis = [&](AxisId id) { return id.value < 0 ? 0 : m.axis(id).body.value; };
  const auto place = [&](AnchorId id) {
    return id.value < 0 ? Vec3(Vec3::Zero()) : design.places[index(id.value)];
  };
  const auto direction = [&](AxisId id) {
    return id.value < 0 ? Vec3(Vec3::Zero()) : design.directions[index(id.value)];
  };
  std::vector<TreeKind> kind_at(index(system.coordinates), TreeKind::weld);
  for (const TreeJoint& tree : system.tree) {
    if (tree.count > 0) kind_at[index(tree.first)] = tree.kind;
  }
  for (const int equation : rows) {
    const Equation& e = system.equations[index(equation)];
    Row row{};
    row.kind = e.kind;
    row.body_a = body_of_anchor(e.a);
    row.body_b = body_of_anchor(e.b);
    row.body_u = body_of_axis(e.u);
    row.body_v = body_of_axis(e.v);
    row.a = place(e.a);
    row.b = place(e.b);
    row.new_places = rows_.empty() || rows_.back().kind != e.kind ||
                     rows_.back().body_a != row.body_a || rows_.back().body_b != row.body_b ||
                     rows_.back().a != row.a || rows_.back().b != row.b;
    row.against = e.kind == EquationKind::heading && e.u.value >= 0;
    row.u = direction(e.u);
    row.v = direction(e.v);
    row.w = direction(e.w);
    row.length = e.length.value < 0 ? 1 : design.lengths[index(e.length.value)];
    row.inverse_length = 1 / row.length;
    row.target = e.target;
    row.input = e.input;
    row.tree = e.tree;
    row.sign = e.tree < 0 ? 1 : system.tree[index(e.tree)].sign;
    row.as_measured = e.as_measured;
    row.heading_begin = static_cast<int>(headings_.size());
    for (const AxisId id : e.headings) headings_.push_back({body_of_axis(id), direction(id)});
    row.heading_end = static_cast<int>(headings_.size());
    row.lever_begin = static_cast<int>(levers_.size());
    for (const JacobianEntry& entry : system.entries[index(equation)]) {
      // Coordinates of one tree joint follow each other: one lever for all of them.
      if (kind_at[index(entry.column)] != TreeKind::weld) {
        levers_.push_back({kind_at[index(entry.column)], entry.slot, entry.column,
                           static_cast<int>(entry_rows_.size()), entry.sign});
      }
      entry_rows_.push_back(static_cast<int>(rows_.size()));
      entry_columns_.push_back(entry.column);
    }
    row.lever_end = static_cast<int>(levers_.size());
    rows_.push_back(row);
  }
}

void FlatEquations::evaluate(const State& state, const Kinematics& kin, const double* inputs,
                             double* residuals, double* entries) const {
  const Pose* pose = kin.pose.data();
  Vec3 p_a = Vec3::Zero(), p_b = Vec3::Zero();
  for (std::size_t k = 0; k < rows_.size(); ++k) {
    const Row& row = rows_[k];
    const double target = row.input >= 0 ? inputs[row.input] : row.target;
    switch (row.kind) {
      // Force and counterforce on one line: the moment about the origin is the same for both ends.
      case EquationKind::distance: {
        p_a = pose[row.body_a].place(row.a);
        const Vec3 r = p_a - pose[row.body_b].place(row.b);
        const Vec3 n = r * row.inverse_length;
        residuals[k] = 0.5 * (r.dot(n) - row.length);
        if (entries == nullptr) break;
        const Vec3 moment = cross(p_a, n);
        const Wrench wrench[] = {{n, moment}, {-n, -moment}};
        write_entries(row, wrench, kin, entries);
        break;
      }
      case EquationKind::offset: {
        const Vec3 n = row.body_u == 0 ? row.u : pose[row.body_u].turn(row.u);
        if (row.new_places) {
          p_a = pose[row.body_a].place(row.a);
          p_b = pose[row.body_b].place(row.b);
        }
        const Vec3 r = p_a - p_b;
        residuals[k] = n.dot(r) - target;
        if (entries == nullptr) break;
        const Vec3 on_a = cross(p_a, n), on_b = cross(n, p_b);
        const Wrench wrench[] = {{n, on_a}, {-n, on_b}, {Vec3::Zero(), -(on_a + on_b)}};
        write_entries(row, wrench, kin, entries);
        break;
      }
      case EquationKind::cosine: {
        const Vec3 u = pose[row.body_u].turn(row.u);
        const Vec3 v = pose[row.body_v].turn(row.v);
        residuals[k] = u.dot(v) - target;
        if (entries != nullptr) write_moments(row, cross(u, v), kin, entries);
        break;
      }
      case EquationKind::angle: {
        const Vec3 u = pose[row.body_u].turn(row.u);
        const Vec3 v = pose[row.body_v].turn(row.v);
        const Vec3 w = pose[row.body_v].turn(row.w);
        const double c = u.dot(v), s = u.dot(w);
        residuals[k] = std::atan2(s, c) - target;
        if (entries == nullptr) break;
        write_moments(row, cross(u, Vec3((c * w - s * v) / (c * c + s * s))), kin, entries);
        break;
      }
      case EquationKind::tilt: {
        const Vec3 u = pose[row.body_u].turn(row.u);
        const Vec3 v = pose[row.body_v].turn(row.v);
        const double s = u.dot(v);
        residuals[k] = std::asin(s) - target;
        if (entries == nullptr) break;
        write_moments(row, Vec3(cross(u, v) / std::sqrt(1 - s * s)), kin, entries);
        break;
      }
      case EquationKind::turn:
        residuals[k] = row.sign * state[index(row.tree)].x + row.as_measured - target;
        if (entries != nullptr) entries[levers_[index(row.lever_begin)].entry] = row.sign;
        break;
      case EquationKind::heading: {
        const double share = 1.0 / (row.heading_end - row.heading_begin);
        double mean = 0;
        Wrench wrench[kSlots];
        for (int h = row.heading_begin; h < row.heading_end; ++h) {
          const Heading& heading = headings_[index(h)];
          const Vec3 s = pose[heading.body].turn(heading.direction);
          mean += heading_of<double>(s) * share;
          if (entries == nullptr) continue;
          const Vec3 moment = heading_moment<double>(s) * share;
          wrench[h - row.heading_begin].moment = moment;
          wrench[2].moment -= moment;
        }
        if (row.against) {
          const Vec3 s = pose[row.body_u].turn(row.u);
          mean -= heading_of<double>(s);
          if (entries != nullptr) wrench[kAgainst].moment = -heading_moment<double>(s);
        }
        residuals[k] = mean - target;
        if (entries != nullptr) write_entries(row, wrench, kin, entries);
        break;
      }
    }
  }
}

/// Of an equation whose wrenches are a moment and its opposite.
void FlatEquations::write_moments(const Row& row, const Vec3& moment, const Kinematics& kin,
                                  double* entries) const {
  const Wrench wrench[] = {{Vec3::Zero(), moment}, {Vec3::Zero(), -moment}};
  write_entries(row, wrench, kin, entries);
}

void FlatEquations::write_entries(const Row& row, const Wrench* wrench, const Kinematics& kin,
                                  double* entries) const {
  for (int k = row.lever_begin; k < row.lever_end; ++k) {
    const Lever& lever = levers_[index(k)];
    const Wrench& w = wrench[lever.slot];
    const Twist* column = kin.column.data() + lever.column;
    double* out = entries + lever.entry;
    switch (lever.kind) {
      case TreeKind::weld:
        break;
      case TreeKind::pin:
        out[0] = lever.sign * w.power(column[0]);
        break;
      case TreeKind::slide:
        out[0] = lever.sign * w.force.dot(column[0].origin);
        break;
      case TreeKind::free:
        for (int c = 0; c < 3; ++c) out[3 + c] = lever.sign * w.force[c];
        [[fallthrough]];
      case TreeKind::ball:
        for (int c = 0; c < 3; ++c) out[c] = lever.sign * w.power(column[c]);
        break;
    }
  }
}

}  // namespace axlewright
