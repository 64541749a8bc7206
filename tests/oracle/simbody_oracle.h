#pragma once

#include <array>
#include <optional>
#include <vector>

// Poses of rigid bodies under constraints and the forces in them, found by Simbody: an independent second opinion for
// tests. Plain numbers only, in metres, radians and newtons, in frame axes. As in our mechanisms every body's pose is the
// identity as measured, so places and directions are those of the as-measured assembly whatever body they are on.
// Body 0 is the frame.

namespace axlewright::oracle {

using Triple = std::array<double, 3>;

/// p = R p0 + t, R by rows.
struct Placement {
  std::array<double, 9> R = {1, 0, 0, 0, 1, 0, 0, 0, 1};
  Triple t = {0, 0, 0};
};

/// |p_a - p_b| = length.
struct Rod {
  int body_a = 0;
  Triple a{};
  int body_b = 0;
  Triple b{};
  double length = 0;
  int label = 0;
};

/// p_a = p_b.
struct Ball {
  int body_a = 0;
  Triple a{};
  int body_b = 0;
  Triple b{};
  int label = 0;
};

/// normal . p_point = height, the normal on its body and through the frame's origin as measured.
struct PointInPlane {
  int plane_body = 0;
  Triple normal{};
  double height = 0;
  int point_body = 0;
  Triple point{};
  int label = 0;
};

/// The point stays on the line through `origin` along `direction`.
struct PointOnLine {
  int line_body = 0;
  Triple origin{};
  Triple direction{};
  int point_body = 0;
  Triple point{};
  int label = 0;
};

/// The angle between two directions.
struct Angle {
  int body_u = 0;
  Triple u{};
  int body_v = 0;
  Triple v{};
  double angle = 0;
  int label = 0;
};

/// The two bodies do not turn against each other.
struct SameTurn {
  int body_a = 0;
  int body_b = 0;
  int label = 0;
};

/// The two bodies do not move against each other.
struct Weld {
  int body_a = 0;
  int body_b = 0;
  int label = 0;
};

/// Elastic: pulls b back to a and body_b back to its turn as measured, in proportion to how far b has gone along the axes as body_a
/// carries them and to the three successive angles about x, y and z that take them to where body_b carries them.
///   axes   x, y, z: right-handed, of unit length
///   along  [N/m], about [N m/rad]; by axis
struct Bushing {
  int body_a = 0;
  Triple a{};
  int body_b = 0;
  Triple b{};
  std::array<Triple, 3> axes{};
  Triple along{};
  Triple about{};
  int label = 0;
};

/// Constraints of one label join the same two bodies in the same order; their forces are added up.
struct Problem {
  int bodies = 0;  ///< without the frame; they are 1 .. bodies
  int labels = 1;  ///< labels are 0 .. labels - 1
  std::vector<Rod> rods;
  std::vector<Ball> balls;
  std::vector<PointInPlane> planes;
  std::vector<PointOnLine> lines;
  std::vector<Angle> angles;
  std::vector<SameTurn> same_turns;
  std::vector<Weld> welds;
  std::vector<Bushing> bushings;
};

/// A force and the moment that goes with it about the frame's origin, frame axes [N, N m].
struct Push {
  Triple force{};
  Triple moment{};
};

/// The poses of the bodies 1 .. bodies nearest to where they start (as measured if `start` is empty) that meet every
/// constraint to 1e-12; nothing if none was found.
std::optional<std::vector<Placement>> solve(const Problem& problem,
                                            const std::vector<Placement>& start = {});

/// A pose and the forces that hold it.
///   pushes        by label, what the constraints put on the second body that they name
///   acceleration  the largest of any body, of unit mass and inertia [m/s2, rad/s2]: zero where all is held
struct Statics {
  std::vector<Placement> placements;
  std::vector<Push> pushes;
  double acceleration = 0;
};

/// As solve(), and at the pose found the constraint forces that balance a push on each body, 1 .. bodies. Where constraints
/// are redundant, Simbody's own choice among the answers.
std::optional<Statics> solve_statics(const Problem& problem, const std::vector<Placement>& start,
                                     const std::vector<Push>& loads);

/// A place of rest.
///   energy      of all bushings [J]
///   bushings    by label, what each puts on its second body
///   stiffness   the least against any small motion that the constraints allow, turns counted at 1 m [N/m]; above zero the place is a
///               minimum of the energy
///   unbalanced  the largest generalised force that the constraints do not bear [N, N m]
struct Rest {
  std::vector<Placement> placements;
  double energy = 0;
  std::vector<Push> bushings;
  double stiffness = 0;
  double unbalanced = 0;
};

/// Newton's method on Simbody's forces and constraints from a place near by, until a step is shorter than 1e-11 (m and rad);
/// nothing if it does not settle. Where it ends is decided by the forces alone: their differences, which say where to step, are only
/// good to six digits or so.
std::optional<Rest> solve_rest(const Problem& problem, const std::vector<Placement>& start);

/// Where Simbody's own minimiser of energy ends, which is asked for a gradient of `tolerance` [N, N m]; nothing if it gives up.
/// Its `stiffness` and `unbalanced` are not told.
std::optional<Rest> minimise_energy(const Problem& problem, const std::vector<Placement>& start,
                                    double tolerance);

}  // namespace axlewright::oracle
