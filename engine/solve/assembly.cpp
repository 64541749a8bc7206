#include "engine/solve/assembly.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

#include "engine/base/list_text.h"
#include "engine/base/units.h"
#include "engine/solve/linearise.h"

namespace axlewright {
namespace {

constexpr double kRankThreshold = 1e-9;  // scaled singular values below it are zero
constexpr double kClosed = 1e-11;        // [m] a displaced pose that closes
constexpr double kFights = 1e-7;         // [m] a displaced pose that does not
constexpr int kLeastNormSteps = 40;
constexpr double kShortArm =
    0.1;  // [m] what shifts names a motion before the short arms that it turns: an axle before knuckles

bool gives(const System& system, int equation) {
  return system.equations[static_cast<std::size_t>(equation)].role == EquationRole::bush;
}

/// A pose with everything needed to look at it.
struct Sample {
  State state;
  Kinematics kin;
  std::vector<double> inputs;
  double misfit = 0;  ///< largest scaled residual [m]
  int worst = -1;     ///< its equation
};

/// Which equations are looked at.
using Rows = std::vector<bool>;

Rows closures_of(const System& system) {
  Rows rows;
  for (int e = 0; e < system.equation_count(); ++e) rows.push_back(!gives(system, e));
  return rows;
}

Sample look(const System& system, const Design& design, const Rows& rows, State state,
            std::vector<double> inputs) {
  Sample s;
  s.state = std::move(state);
  s.inputs = std::move(inputs);
  update_kinematics(system, design, s.state, s.kin);
  const Vector r = scaled_residuals(system, design, s.state, s.kin, s.inputs);
  for (int k = 0; k < r.size(); ++k) {
    if (!rows[static_cast<std::size_t>(k)]) continue;
    const double size = std::abs(r[k]);
    if (size >= s.misfit) {
      s.misfit = size;
      s.worst = k;
    }
  }
  return s;
}

/// A matrix of all equations with zeros for those that are not looked at.
Matrix only(const Rows& rows, Matrix of_all) {
  for (int k = 0; k < of_all.rows(); ++k) {
    if (!rows[static_cast<std::size_t>(k)]) of_all.row(k).setZero();
  }
  return of_all;
}

/// Closes by least-norm Gauss-Newton, which needs neither full rank nor consistency.
Sample close_least_norm(const System& system, const Design& design, const Rows& rows, State state,
                        const std::vector<double>& inputs) {
  const Vector scale = coordinate_scales(system);
  Sample s = look(system, design, rows, std::move(state), inputs);
  for (int k = 0; k < kLeastNormSteps && s.misfit > kClosed; ++k) {
    const Matrix jacobian = only(rows, scaled_jacobian(system, design, s.state, s.kin, s.inputs));
    Vector r = scaled_residuals(system, design, s.state, s.kin, s.inputs);
    for (int e = 0; e < r.size(); ++e) {
      if (!rows[static_cast<std::size_t>(e)]) r[e] = 0;
    }
    Vector step = least_norm_solve(jacobian, -r);
    const double length = step.norm();
    if (length > 0.2)
      step *= 0.2 / length;  // stay near: this only looks around the as-measured pose
    step = step.cwiseQuotient(scale);
    move(system, step.data(), s.state);
    s = look(system, design, rows, s.state, inputs);
    if (length < 1e-14) break;
  }
  return s;
}

/// Displaced poses: every input moved by its own amount, small enough to be in reach of any useful mechanism.
std::vector<Sample> displaced_poses(const System& system, const Design& design, const Rows& rows,
                                    const Sample& measured) {
  static constexpr double kWay = 0.03;    // [m]
  static constexpr double kAngle = 0.05;  // [rad]
  const Matrix jacobian =
      scaled_jacobian(system, design, measured.state, measured.kin, measured.inputs);
  const Svd s = svd(jacobian);
  const Matrix loose = null_space(s, rank_of(s, kRankThreshold), system.coordinates);
  const Vector scale = coordinate_scales(system);
  std::vector<Sample> poses;
  for (const double side : {1.0, -0.8}) {
    std::vector<double> inputs = measured.inputs;
    for (std::size_t k = 0; k < inputs.size(); ++k) {
      const double amount =
          system.mechanism.inputs[k].kind == InputKind::coordinate ? kWay : kAngle;
      inputs[k] += side * amount * (1.0 - 0.35 * static_cast<double>(k));
    }
    State state = measured.state;
    Vector nudge = Vector::Zero(system.coordinates);
    for (int c = 0; c < loose.cols(); ++c) nudge += loose.col(c) * (0.02 * side / (1.0 + c));
    nudge = nudge.cwiseQuotient(scale);
    move(system, nudge.data(), state);
    poses.push_back(close_least_norm(system, design, rows, state, inputs));
  }
  return poses;
}

/// Poses raised and lowered alone, all wheels alike, everything else as measured.
std::vector<Sample> raised_poses(const System& system, const Design& design, const Rows& rows,
                                 const Sample& measured) {
  std::vector<Sample> poses;
  for (const double way : {-0.03, 0.03}) {  // [m]
    std::vector<double> inputs = measured.inputs;
    for (std::size_t k = 0; k < inputs.size(); ++k) {
      if (system.mechanism.inputs[k].kind == InputKind::coordinate) inputs[k] += way;
    }
    poses.push_back(close_least_norm(system, design, rows, measured.state, inputs));
  }
  return poses;
}

Matrix rows_of(const Matrix& a, const std::vector<int>& rows) {
  Matrix part(static_cast<int>(rows.size()), a.cols());
  for (std::size_t k = 0; k < rows.size(); ++k) part.row(static_cast<int>(k)) = a.row(rows[k]);
  return part;
}

/// The line of a body that can spin: through the two farthest of its ball-like places. Zero if it has fewer than two,
/// or a place that pins it otherwise.
Vec3 spin_line(const Mechanism& m, BodyId body) {
  std::vector<Vec3> balls;
  for (const Joint& joint : m.joints) {
    const bool on_a = joint.body_a == body;
    if (!on_a && joint.body_b != body) continue;
    switch (joint.kind) {
      case JointKind::ball:
      case JointKind::distance:
      case JointKind::point_on_line: {
        const AnchorId anchor = on_a ? joint.a : joint.b;
        const bool is_line = joint.kind == JointKind::point_on_line && on_a;
        if (!is_line && joint.kind != JointKind::distance) balls.push_back(m.anchor(anchor).at);
        break;
      }
      default:
        break;
    }
  }
  Vec3 line = Vec3::Zero();
  for (const Vec3& p : balls) {
    for (const Vec3& q : balls) {
      if ((q - p).norm() > line.norm() + 1e-6) line = q - p;
    }
  }
  return line.norm() > 1e-6 ? Vec3(line / line.norm()) : Vec3(Vec3::Zero());
}

double spin_rate(const System& system, const Kinematics& kin, const Vector& rates, BodyId body,
                 const Vec3& line) {
  const std::vector<Twist> twists = body_twists(system, kin, rates.data());
  const BodyId carrier = system.mechanism.body(body).carrier;
  return line.dot(twists[static_cast<std::size_t>(body.value)].angular -
                  twists[static_cast<std::size_t>(carrier.value)].angular);
}

/// The same motions, combined so that each moves a coordinate that none of the others moves: then each has a body of its own to
/// be named by. Gauss-Jordan with full pivoting.
Matrix one_coordinate_each(Matrix basis, const Vector& scale) {
  for (int k = 0; k < basis.cols(); ++k) {
    int row = 0, column = 0;
    (scale.asDiagonal() * basis.rightCols(basis.cols() - k)).cwiseAbs().maxCoeff(&row, &column);
    basis.col(k).swap(basis.col(k + column));
    basis.col(k) /= basis(row, k);
    for (int other = 0; other < basis.cols(); ++other) {
      if (other != k) basis.col(other) -= basis.col(k) * basis(row, other);
    }
  }
  return basis;
}

/// Names loose motions by the bodies that spin in them, one body each, and leaves the rest.
/// `basis`: null vectors at the as-measured pose, in coordinates (rad, m).
std::vector<LooseMotion> name_motions(const System& system, const Design& design,
                                      const Kinematics& kin, Matrix basis) {
  std::vector<LooseMotion> motions;
  const Mechanism& m = system.mechanism;
  std::vector<BodyId> candidates;
  std::vector<Vec3> lines;
  for (int b = 1; b < static_cast<int>(m.bodies.size()); ++b) {
    const Vec3 line = spin_line(m, BodyId{b});
    if (line.norm() == 0) continue;
    candidates.push_back(BodyId{b});
    lines.push_back(line);
  }
  while (basis.cols() > 0) {
    // The candidate that spins most in what is left; then that spin is taken out of the other motions.
    int best = -1;
    double best_rate = 1e-6;
    Vector best_rates;
    for (std::size_t c = 0; c < candidates.size(); ++c) {
      Vector rates(basis.cols());
      for (int k = 0; k < basis.cols(); ++k)
        rates[k] = spin_rate(system, kin, basis.col(k), candidates[c], lines[c]);
      if (rates.norm() > best_rate * (1 + 1e-9)) {
        best = static_cast<int>(c);
        best_rate = rates.norm();
        best_rates = rates;
      }
    }
    if (best < 0) break;
    const Vector combination = best_rates / best_rates.squaredNorm();
    LooseMotion motion;
    motion.body = candidates[static_cast<std::size_t>(best)];
    motion.line = lines[static_cast<std::size_t>(best)];
    motion.spin = true;
    motion.direction = basis * combination;
    motion.name = m.body(motion.body).name + ": turns about its own line";
    motions.push_back(motion);
    const Svd complement = svd(best_rates.transpose());
    basis = basis * complement.right.rightCols(basis.cols() - 1);
    candidates.erase(candidates.begin() + best);
    lines.erase(lines.begin() + best);
  }
  // Directions so far may still carry spins of bodies chosen later: make each the pure one.
  const std::size_t spins = motions.size();
  if (spins > 1) {
    Matrix table(static_cast<int>(spins), static_cast<int>(spins));
    Matrix directions(system.coordinates, static_cast<int>(spins));
    for (std::size_t i = 0; i < spins; ++i) {
      directions.col(static_cast<int>(i)) = motions[i].direction;
      for (std::size_t j = 0; j < spins; ++j) {
        table(static_cast<int>(j), static_cast<int>(i)) =
            spin_rate(system, kin, motions[i].direction, motions[j].body, motions[j].line);
      }
    }
    for (std::size_t j = 0; j < spins; ++j) {
      motions[j].direction =
          directions *
          lu_solve(table, Vector(Vector::Unit(static_cast<int>(spins), static_cast<int>(j))));
    }
  }
  basis = one_coordinate_each(std::move(basis), coordinate_scales(system));
  for (int k = 0; k < basis.cols(); ++k) {
    LooseMotion motion;
    motion.direction = basis.col(k);
    motion.name = words_for_motion(system, design, motion.direction);
    motions.push_back(motion);
  }
  return motions;
}

/// A spin is fixed by a named gauge: a direction on the body square to its line and one on its carrier stay square.
void add_gauge(System& system, const LooseMotion& motion) {
  Mechanism& m = system.mechanism;
  const Vec3 up = direction_on_side<double>(motion.line, 1, motion.line);
  const Vec3 across = cross(motion.line, up);
  Equation gauge;
  gauge.kind = EquationKind::cosine;
  gauge.role = EquationRole::gauge;
  gauge.u = m.add_axis("gauge", motion.body, up);
  gauge.v = m.add_axis("gauge", m.body(motion.body).carrier, across);
  gauge.name = m.body(motion.body).name + ": spin gauge";
  add_equation(system, std::move(gauge));
}

bool any_closes(const std::vector<Sample>& samples) {
  return std::any_of(samples.begin(), samples.end(),
                     [](const Sample& sample) { return sample.misfit <= kFights; });
}

/// Whether displaced poses can be had with just as many closures as are independent as measured: then it is the rest of them that stands
/// in the way, not reach. False where there are no more than these.
bool closes_by_enough_of_them(const System& system, const Design& design, const Matrix& closures,
                              const Sample& measured) {
  const std::vector<int> order = independent_row_order(closures);
  const int rank = rank_of(svd(closures), kRankThreshold);
  Rows enough(order.size(), false);
  for (int k = 0; k < rank; ++k)
    enough[static_cast<std::size_t>(order[static_cast<std::size_t>(k)])] = true;
  if (enough == closures_of(system)) return false;
  return any_closes(displaced_poses(system, design, enough, measured));
}

void choose_rows(Assembly& assembly, const Design& design, const std::vector<Sample>& samples) {
  const System& system = assembly.system;
  std::vector<int> closures;
  for (int e = 0; e < system.equation_count(); ++e)
    (gives(system, e) ? assembly.bushes : closures).push_back(e);
  // The rows are chosen at a displaced pose, where no accidental alignment hides a dependency that is there for good.
  const Sample& typical = samples.back();
  const Matrix jacobian = rows_of(
      scaled_jacobian(system, design, typical.state, typical.kin, typical.inputs), closures);
  const std::vector<int> order = independent_row_order(jacobian);
  const int rank = rank_of(svd(jacobian), kRankThreshold);
  for (std::size_t k = 0; k < order.size(); ++k) {
    (static_cast<int>(k) < rank ? assembly.active : assembly.set_aside)
        .push_back(closures[static_cast<std::size_t>(order[k])]);
  }
  std::sort(assembly.active.begin(), assembly.active.end());
  std::sort(assembly.set_aside.begin(), assembly.set_aside.end());
}

/// The equations that take part in a fight: those with weight in the left null vectors as measured that a displaced pose
/// no longer has.
std::vector<std::string> fighting_equations(const System& system, const Matrix& jacobian,
                                            int rank) {
  const Svd s = svd(jacobian);
  const Matrix left = s.left.rightCols(jacobian.rows() - rank);
  std::vector<std::string> names;
  for (int k = 0; k < left.rows(); ++k) {
    if (left.row(k).norm() < 1e-3) continue;
    const std::string& name = system.equations[static_cast<std::size_t>(k)].name;
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  }
  return names;
}

}  // namespace

std::vector<int> holding_rows(const Assembly& assembly) {
  std::vector<int> rows = assembly.active;
  rows.insert(rows.end(), assembly.bushes.begin(), assembly.bushes.end());
  return rows;
}

std::string words_for_motion(const System& system, const Design& design, const Vector& direction) {
  Kinematics kin;
  update_kinematics(system, design, as_measured(system), kin);
  const std::vector<Twist> twists = body_twists(system, kin, direction.data());
  static const char* const kWays[] = {"moves fore-aft", "moves sideways", "moves up-down"};
  static const char* const kTurns[] = {"leans (turns about the fore-aft line)",
                                       "pitches (turns about the cross line)",
                                       "yaws (turns about up)"};
  std::string words = "nothing moves";
  double most = 0;
  for (const TreeJoint& tree : system.tree) {
    const Twist& twist = twists[static_cast<std::size_t>(tree.body.value)];
    const Vec3 velocity = twist.at(tree.kind == TreeKind::free ? tree.centre : Vec3(Vec3::Zero()));
    for (int k = 0; k < 3; ++k) {
      const bool shifts = tree.kind == TreeKind::free || tree.kind == TreeKind::slide;
      const double way = shifts ? std::abs(velocity[k]) : 0.0;
      const double turn = std::abs(twist.angular[k]) * kShortArm;
      if (std::max(way, turn) <= most * (1 + 1e-9)) continue;
      most = std::max(way, turn);
      words = system.mechanism.body(tree.body).name + ": " + (way > turn ? kWays[k] : kTurns[k]);
    }
  }
  return words;
}

Assembly assemble(const Mechanism& mechanism, const std::vector<InputId>& held) {
  Assembly assembly;
  assembly.system = make_system(mechanism, held);
  System& system = assembly.system;
  Design design = design_of(system.mechanism);
  Kinematics kin;
  const State start = as_measured(system);
  update_kinematics(system, design, start, kin);
  const Rows all_closures = closures_of(system);
  Sample measured =
      look(system, design, all_closures, start, input_values(system, design, start, kin));
  // Given lengths may miss the points by the file's tolerance: close first.
  measured = close_least_norm(system, design, all_closures, measured.state, measured.inputs);

  const Matrix jacobian =
      scaled_jacobian(system, design, measured.state, measured.kin, measured.inputs);
  const int rank_measured = rank_of(svd(jacobian), kRankThreshold);
  std::vector<Sample> samples = displaced_poses(system, design, all_closures, measured);
  const Matrix closures = only(all_closures, jacobian);
  // Where the as-measured pose is a limit point one side cannot be reached, which is no fight: the other closes.
  if (any_closes(samples)) {
    samples.erase(std::remove_if(samples.begin(), samples.end(),
                                 [](const Sample& sample) { return sample.misfit > kFights; }),
                  samples.end());
  } else if (const std::vector<Sample> raised =
                 raised_poses(system, design, all_closures, measured);
             any_closes(raised)) {
    // What only fights in a lean or a turn can still be raised: it is refused where it fights, pose by pose.
    samples.insert(samples.end(), raised.begin(), raised.end());
    if (samples.back().misfit > kFights) samples.pop_back();
  } else if (closes_by_enough_of_them(system, design, closures, measured)) {
    assembly.soundness = Soundness::over_held;
    assembly.fighting =
        fighting_equations(system, closures, rank_of(svd(closures), kRankThreshold));
  }
  int rank = rank_measured;
  for (const Sample& sample : samples) {
    const Matrix there = scaled_jacobian(system, design, sample.state, sample.kin, sample.inputs);
    rank = std::max(rank, rank_of(svd(there), kRankThreshold));
  }
  if (assembly.soundness == Soundness::over_held) {
    assembly.message = fmt::format(
        "{} fight when the truck moves: rigid parts cannot do it, bushings would have to give",
        list_of(assembly.fighting));
    return assembly;
  }
  assembly.mobility = system.coordinates - rank;
  if (rank_measured < rank) {
    assembly.soundness = Soundness::singular;
    const Svd s = svd(jacobian);
    const Matrix loose = null_space(s, rank_measured, system.coordinates);
    const Vector direction = Vector(loose.col(0)).cwiseQuotient(coordinate_scales(system));
    assembly.message = fmt::format("singular at the as-measured pose: {} for a moment",
                                   words_for_motion(system, design, direction));
  }
  if (assembly.mobility > 0) {
    const Svd s = svd(jacobian);
    Matrix basis = null_space(s, rank, system.coordinates);
    const Vector scale = coordinate_scales(system);
    for (int k = 0; k < basis.cols(); ++k) basis.col(k) = Vector(basis.col(k)).cwiseQuotient(scale);
    assembly.loose = name_motions(system, design, measured.kin, basis);
  }
  std::vector<std::string> unheld;
  for (const LooseMotion& motion : assembly.loose) {
    if (motion.spin) {
      add_gauge(system, motion);
    } else {
      unheld.push_back(motion.name);
    }
  }
  design = design_of(system.mechanism);
  choose_rows(assembly, design, samples);
  const Matrix chosen =
      rows_of(scaled_jacobian(system, design, measured.state, measured.kin, measured.inputs),
              holding_rows(assembly));
  const Svd s = svd(chosen);
  assembly.smallest_singular_value = s.values.size() > 0 ? s.values[s.values.size() - 1] : 0;
  if (!unheld.empty()) {
    assembly.soundness = Soundness::under_held;
    assembly.message = "not held: " + list_of(unheld);
  }
  return assembly;
}

}  // namespace axlewright
