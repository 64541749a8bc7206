#include "tests/oracle/simbody_model.h"

#include <algorithm>

#include "tests/oracle/simbody_numbers.h"

namespace axlewright::oracle {
namespace {

using SimTK::SpatialVec;
using SimTK::Vec3;

}  // namespace

Model::Model(const Problem& problem)
    : matter_(system_), forces_(system_), loads_(forces_, matter_) {
  // Unit mass and inertia: asked for, and without a part in places and statics.
  const SimTK::Body::Rigid some_body(SimTK::MassProperties(1, Vec3(0), SimTK::Inertia(1)));
  bodies_ = {matter_.Ground()};
  for (int i = 0; i < problem.bodies; ++i) {
    bodies_.push_back(SimTK::MobilizedBody::Free(matter_.Ground(), some_body));
  }
  constrain(problem);
  for (const Bushing& bushing : problem.bushings) bush(bushing);
  state_ = system_.realizeTopology();
  system_.realizeModel(state_);
}

void Model::put(const std::vector<Placement>& start) {
  for (std::size_t i = 0; i < start.size(); ++i) {
    bodies_[i + 1].setQToFitTransform(state_, transform(start[i]));
  }
}

void Model::close() {
  // Newton with least changes, which minds no redundant constraint.
  system_.realize(state_, SimTK::Stage::Position);
  system_.projectQ(state_, kConstraintTolerance);
}

std::vector<Placement> Model::placements() const {
  std::vector<Placement> all;
  for (std::size_t i = 1; i < bodies_.size(); ++i) {
    all.push_back(placement_of(bodies_[i].getBodyTransform(state_)));
  }
  return all;
}

void Model::load(const std::vector<Push>& pushes) {
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

double Model::acceleration() const {
  double largest = 0;
  for (std::size_t i = 1; i < bodies_.size(); ++i) {
    const SpatialVec& a = bodies_[i].getBodyAcceleration(state_);
    largest = std::max({largest, a[0].norm(), a[1].norm()});
  }
  return largest;
}

std::vector<Push> Model::constraint_pushes(int labels) const {
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

std::vector<Push> Model::bushing_pushes(int labels) const {
  std::vector<Push> all(static_cast<std::size_t>(labels));
  for (const Gives& gives : bushings_) {
    // At the origin of the bushing's frame on the second body, in the frame's axes.
    const SpatialVec& at_frame = gives.bushing.getF_GM(state_);
    const Vec3& place = gives.bushing.getX_GM(state_).p();
    all[static_cast<std::size_t>(gives.label)] = {triple(at_frame[1]),
                                                  triple(at_frame[0] + place % at_frame[1])};
  }
  return all;
}

void Model::bush(const Bushing& bushing) {
  const SimTK::Mat33 axes(bushing.axes[0][0], bushing.axes[1][0], bushing.axes[2][0],  //
                          bushing.axes[0][1], bushing.axes[1][1], bushing.axes[2][1],  //
                          bushing.axes[0][2], bushing.axes[1][2], bushing.axes[2][2]);
  const SimTK::Rotation turn(axes);
  const SimTK::Vec6 stiffness(bushing.about[0], bushing.about[1], bushing.about[2],
                              bushing.along[0], bushing.along[1], bushing.along[2]);
  bushings_.push_back(
      {SimTK::Force::LinearBushing(
           forces_, at(bushing.body_a), SimTK::Transform(turn, vec(bushing.a)), at(bushing.body_b),
           SimTK::Transform(turn, vec(bushing.b)), stiffness, SimTK::Vec6(0)),
       bushing.body_b, bushing.label});
}

void Model::constrain(const Problem& problem) {
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

Push Model::push(const SimTK::Constraint& constraint, int body) const {
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

}  // namespace axlewright::oracle
