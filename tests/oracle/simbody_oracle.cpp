#include "tests/oracle/simbody_oracle.h"

#include <algorithm>
#include <cmath>
#include <exception>

#include <Simbody.h>

namespace axlewright::oracle {
namespace {

using SimTK::SpatialVec;
using SimTK::Vec3;

constexpr double kTolerance = 1e-12;

Vec3 vec(const Triple& v) {
  return Vec3(v[0], v[1], v[2]);
}

Triple triple(const Vec3& v) {
  return {v[0], v[1], v[2]};
}

SimTK::UnitVec3 unit(const Triple& v) {
  return SimTK::UnitVec3(vec(v));
}

SimTK::Transform transform(const Placement& placement) {
  const auto& r = placement.R;
  const SimTK::Mat33 matrix(r[0], r[1], r[2], r[3], r[4], r[5], r[6], r[7], r[8]);
  return SimTK::Transform(SimTK::Rotation(matrix), vec(placement.t));
}

Placement placement_of(const SimTK::Transform& X) {
  Placement placement;
  for (int row = 0; row < 3; ++row) {
    for (int column = 0; column < 3; ++column) {
      placement.R[static_cast<std::size_t>(3 * row + column)] = X.R().row(row)[column];
    }
    placement.t[static_cast<std::size_t>(row)] = X.p()[row];
  }
  return placement;
}

/// A problem as Simbody sees it: every body floats, and constraints do all the rest.
class Model {
  struct Held {
    SimTK::Constraint constraint;
    int second_body, label;
  };

 public:
  explicit Model(const Problem& problem)
      : matter_(system_), forces_(system_), loads_(forces_, matter_) {
    // Unit mass and inertia: asked for, and without a part in places and statics.
    const SimTK::Body::Rigid some_body(SimTK::MassProperties(1, Vec3(0), SimTK::Inertia(1)));
    bodies_ = {matter_.Ground()};
    for (int i = 0; i < problem.bodies; ++i) {
      bodies_.push_back(SimTK::MobilizedBody::Free(matter_.Ground(), some_body));
    }
    constrain(problem);
    state_ = system_.realizeTopology();
    system_.realizeModel(state_);
  }

  void close(const std::vector<Placement>& start) {
    for (std::size_t i = 0; i < start.size(); ++i) {
      bodies_[i + 1].setQToFitTransform(state_, transform(start[i]));
    }
    // Newton with least changes, which minds no redundant constraint.
    system_.realize(state_, SimTK::Stage::Position);
    system_.projectQ(state_, kTolerance);
  }

  std::vector<Placement> placements() const {
    std::vector<Placement> all;
    for (std::size_t i = 1; i < bodies_.size(); ++i) {
      all.push_back(placement_of(bodies_[i].getBodyTransform(state_)));
    }
    return all;
  }

  /// At rest nothing but the loads drives the bodies, so what the constraints answer are the static reactions.
  void load(const std::vector<Push>& pushes) {
    state_.updU() = 0;
    for (std::size_t i = 0; i < pushes.size(); ++i) {
      // Simbody takes the moment about the body's own origin.
      const Vec3 origin = bodies_[i + 1].getBodyOriginLocation(state_);
      const Vec3 force = vec(pushes[i].force);
      loads_.setOneBodyForce(state_, bodies_[i + 1],
                             SpatialVec(vec(pushes[i].moment) - origin % force, force));
    }
    system_.realize(state_, SimTK::Stage::Acceleration);
  }

  double acceleration() const {
    double largest = 0;
    for (std::size_t i = 1; i < bodies_.size(); ++i) {
      const SpatialVec& a = bodies_[i].getBodyAcceleration(state_);
      largest = std::max({largest, a[0].norm(), a[1].norm()});
    }
    return largest;
  }

  std::vector<Push> pushes(int labels) const {
    std::vector<Push> all(static_cast<std::size_t>(labels));
    for (const Held& held : held_) {
      Push& sum = all[static_cast<std::size_t>(held.label)];
      const Push one = push(held.constraint, held.second_body);
      for (std::size_t k = 0; k < 3; ++k) {
        sum.force[k] += one.force[k];
        sum.moment[k] += one.moment[k];
      }
    }
    return all;
  }

 private:
  SimTK::MobilizedBody& at(int index) { return bodies_[static_cast<std::size_t>(index)]; }

  void constrain(const Problem& problem) {
    namespace S = SimTK;
    const auto hold = [&](const auto& what, int second_body, const S::Constraint& constraint) {
      held_.push_back({constraint, second_body, what.label});
    };
    for (const Rod& rod : problem.rods) {
      hold(rod, rod.body_b,
           S::Constraint::Rod(at(rod.body_a), vec(rod.a), at(rod.body_b), vec(rod.b), rod.length));
    }
    for (const Ball& ball : problem.balls) {
      hold(ball, ball.body_b,
           S::Constraint::Ball(at(ball.body_a), vec(ball.a), at(ball.body_b), vec(ball.b)));
    }
    for (const PointInPlane& plane : problem.planes) {
      hold(plane, plane.point_body,
           S::Constraint::PointInPlane(at(plane.plane_body), unit(plane.normal), plane.height,
                                       at(plane.point_body), vec(plane.point)));
    }
    for (const PointOnLine& line : problem.lines) {
      hold(line, line.point_body,
           S::Constraint::PointOnLine(at(line.line_body), unit(line.direction), vec(line.origin),
                                      at(line.point_body), vec(line.point)));
    }
    for (const Angle& angle : problem.angles) {
      hold(angle, angle.body_v,
           S::Constraint::ConstantAngle(at(angle.body_u), unit(angle.u), at(angle.body_v),
                                        unit(angle.v), angle.angle));
    }
    for (const SameTurn& same : problem.same_turns) {
      hold(same, same.body_b,
           S::Constraint::ConstantOrientation(at(same.body_a), S::Rotation(), at(same.body_b),
                                              S::Rotation()));
    }
    for (const Weld& weld : problem.welds) {
      hold(weld, weld.body_b, S::Constraint::Weld(at(weld.body_a), at(weld.body_b)));
    }
  }

  Push push(const SimTK::Constraint& constraint, int body) const {
    const SimTK::MobilizedBody& on = bodies_[static_cast<std::size_t>(body)];
    const SimTK::Vector_<SpatialVec> all = constraint.getConstrainedBodyForcesAsVector(state_);
    for (SimTK::ConstrainedBodyIndex i(0); i < constraint.getNumConstrainedBodies(); ++i) {
      if (!constraint.getMobilizedBodyFromConstrainedBody(i).isSameMobilizedBody(on)) continue;
      // Given in the axes of the bodies' common ancestor, here always the frame, about the body's origin, and as it stands in
      // M a + G^T lambda = loads: what the constraint does to the body is the opposite.
      const SpatialVec about_body = -all[i];
      const Vec3 origin = on.getBodyOriginLocation(state_);
      return {triple(about_body[1]), triple(about_body[0] + origin % about_body[1])};
    }
    return {};
  }

  SimTK::MultibodySystem system_;
  SimTK::SimbodyMatterSubsystem matter_;
  SimTK::GeneralForceSubsystem forces_;
  SimTK::Force::DiscreteForces loads_;
  std::vector<SimTK::MobilizedBody> bodies_;
  std::vector<Held> held_;
  SimTK::State state_;
};

}  // namespace

std::optional<std::vector<Placement>> solve(const Problem& problem,
                                            const std::vector<Placement>& start) {
  try {
    Model model(problem);
    model.close(start);
    return model.placements();
  } catch (const std::exception&) {
    return std::nullopt;  // Simbody's way to say that no pose was found
  }
}

std::optional<Statics> solve_statics(const Problem& problem, const std::vector<Placement>& start,
                                     const std::vector<Push>& loads) {
  try {
    Model model(problem);
    model.close(start);
    model.load(loads);
    return Statics{model.placements(), model.pushes(problem.labels), model.acceleration()};
  } catch (const std::exception&) {
    return std::nullopt;
  }
}

}  // namespace axlewright::oracle
