#include "bench/simbody_sweep.h"

#include <exception>

#include <Simbody.h>

#include "tests/oracle/simbody_numbers.h"

namespace axlewright::oracle {
namespace {

using SimTK::Rotation;
using SimTK::Transform;
using SimTK::Vec3;
namespace S = SimTK;

/// The height as a function of the state's time: setting it leaves all earlier stages of the state realized.
class HeightIsTime : public S::Motion::Custom::Implementation {
 public:
  Implementation* clone() const override { return new HeightIsTime(*this); }
  S::Motion::Level getLevel(const S::State&) const override { return S::Motion::Position; }
  void calcPrescribedPosition(const S::State& state, int, S::Real* q) const override {
    q[0] = -state.getTime();
  }
  void calcPrescribedPositionDot(const S::State&, int, S::Real* qdot) const override {
    qdot[0] = 0;
  }
  void calcPrescribedPositionDotDot(const S::State&, int, S::Real* qdotdot) const override {
    qdotdot[0] = 0;
  }
};

}  // namespace

struct SimbodySweep::Model {
  S::MultibodySystem system;
  S::SimbodyMatterSubsystem matter{system};
  std::vector<S::MobilizedBody> bodies;
  S::State as_measured, state;
  S::Vector last_q, before_last_q, start;
  int poses = 0;

  S::MobilizedBody& at(int index) { return bodies[static_cast<std::size_t>(index)]; }

  void hang(const Hung& hung) {
    const S::Body::Rigid some_body(S::MassProperties(1, Vec3(0), S::Inertia(1)));
    const Vec3 p = vec(hung.place);
    switch (hung.kind) {
      case Mobilizer::weld:
        bodies.push_back(S::MobilizedBody::Weld(at(hung.parent), some_body));
        return;
      case Mobilizer::pin: {
        const Transform X(Rotation(unit(hung.axis), S::ZAxis), p);
        bodies.push_back(S::MobilizedBody::Pin(at(hung.parent), X, some_body, X));
        return;
      }
      case Mobilizer::slider: {
        const Transform X(Rotation(unit(hung.axis), S::XAxis), p);
        bodies.push_back(S::MobilizedBody::Slider(at(hung.parent), X, some_body, X));
        return;
      }
      case Mobilizer::ball:
        bodies.push_back(
            S::MobilizedBody::Ball(at(hung.parent), Transform(p), some_body, Transform(p)));
        return;
      case Mobilizer::axle: {
        const Transform up(Rotation(S::UnitVec3(0, 0, 1), S::XAxis), p);
        S::MobilizedBody::Slider height(at(hung.parent), up, some_body, up);
        S::Motion::Custom(height, new HeightIsTime);
        S::MobilizedBody::Planar loose(height, Transform(p), some_body, Transform(p));
        const Transform across(Rotation(S::UnitVec3(0, 1, 0), S::ZAxis), p);
        bodies.push_back(S::MobilizedBody::Pin(loose, across, some_body, across));
        return;
      }
    }
  }

  void constrain(const Problem& problem) {
    for (const Rod& rod : problem.rods) {
      S::Constraint::Rod(at(rod.body_a), vec(rod.a), at(rod.body_b), vec(rod.b), rod.length);
    }
    for (const Ball& ball : problem.balls) {
      S::Constraint::Ball(at(ball.body_a), vec(ball.a), at(ball.body_b), vec(ball.b));
    }
    for (const PointOnLine& line : problem.lines) {
      S::Constraint::PointOnLine(at(line.line_body), unit(line.direction), vec(line.origin),
                                 at(line.point_body), vec(line.point));
    }
    for (const Angle& angle : problem.angles) {
      S::Constraint::ConstantAngle(at(angle.body_u), unit(angle.u), at(angle.body_v), unit(angle.v),
                                   angle.angle);
    }
  }
};

SimbodySweep::SimbodySweep(const Problem& constraints, const std::vector<Hung>& tree)
    : model_(std::make_unique<Model>()) {
  model_->bodies.push_back(model_->matter.Ground());
  for (const Hung& hung : tree) model_->hang(hung);
  model_->constrain(constraints);
  // Angles for balls instead of quaternions: three coordinates each and no norm to keep. None turns far in a height sweep.
  model_->as_measured = model_->system.realizeTopology();
  model_->matter.setUseEulerAngles(model_->as_measured, true);
  model_->system.realizeModel(model_->as_measured);
  restart();
}

SimbodySweep::~SimbodySweep() = default;

void SimbodySweep::restart() {
  model_->state = model_->as_measured;
  model_->poses = 0;
}

bool SimbodySweep::go_to(double lower, const SweepCall& call) {
  Model& m = *model_;
  try {
    if (call.extrapolate) {
      m.last_q = m.state.getQ();
      if (m.poses > 1) {
        m.start = 2 * m.last_q;
        m.start -= m.before_last_q;
        m.state.setQ(m.start);
      }
      m.before_last_q = m.last_q;
    }
    ++m.poses;
    m.state.setTime(lower);
    m.system.realize(m.state, S::Stage::Time);
    m.system.prescribeQ(m.state);
    m.system.realize(m.state, S::Stage::Position);
    m.system.projectQ(m.state, call.accuracy);
    return true;
  } catch (const std::exception&) {
    return false;
  }
}

Placement SimbodySweep::placement(int body) const {
  return placement_of(model_->at(body).getBodyTransform(model_->state));
}

}  // namespace axlewright::oracle
