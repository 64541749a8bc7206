// Places of rest by Simbody: its forces, its constraints, its factorisations, its minimiser.

#include <algorithm>
#include <complex>
#include <exception>

#include "tests/oracle/simbody_model.h"

namespace axlewright::oracle {
namespace {

using SimTK::Matrix;
using SimTK::State;
using SimTK::Vector;

constexpr double kLastStep = 1e-11;    // [m, rad]
constexpr double kLongestStep = 0.01;  // [m, rad]
constexpr double kNear = 1e-5;  // [m, rad] steps below it keep the stiffness of the step before
constexpr double kDifference =
    1e-6;  // [m, rad] by which a coordinate is moved to see how forces change
constexpr double kForceScale = 1e6;  // [N/m] about that of a rubber bush: forces compare as ways
constexpr double kNoRank = 1e-9;     // of constraints that repeat others
constexpr int kMostSteps = 25;

void put(Model& model, const std::vector<Placement>& start) {
  // Angles for quaternions: as many coordinates as speeds and no norm to keep. None turns far from as measured.
  model.matter().setUseEulerAngles(model.state(), true);
  model.system().realizeModel(model.state());
  model.put(start);
}

Rest rest_here(Model& model, int labels) {
  model.system().realize(model.state(), SimTK::Stage::Dynamics);
  Rest rest;
  rest.placements = model.placements();
  rest.energy = model.system().calcPotentialEnergy(model.state());
  rest.bushings = model.bushing_pushes(labels);
  return rest;
}

class Search {
 public:
  explicit Search(Model& model)
      : system_(model.system()), matter_(model.matter()), state_(model.state()) {
    system_.realize(state_, SimTK::Stage::Dynamics);
    beside_ = state_;
    coordinates_ = state_.getNU();
    matter_.calcG(state_, constraints_);
    const Matrix across(~constraints_);
    multipliers_.resize(constraints_.nrow());
    SimTK::FactorQTZ(across, kNoRank).solve(forces(state_), multipliers_);
  }

  bool settle() {
    double last = 1;
    for (int k = 0; k < kMostSteps; ++k) {
      if (last > kNear) measure();
      last = step();
      if (last <= kLastStep) return true;
    }
    return false;
  }

  double unbalanced() const { return kForceScale * unbalanced_at(state_).normInf(); }

  /// Of the stiffness last measured, among the motions that the constraints there leave.
  double least_stiffness() const {
    Matrix square(coordinates_, coordinates_, 0.0);
    square(0, 0, constraints_.nrow(), coordinates_) = constraints_;
    Vector values;
    Matrix left, right;  // as rows
    SimTK::FactorSVD(square).getSingularValuesAndVectors(values, left, right);
    int rank = 0;
    while (rank < coordinates_ && values[rank] > kNoRank * values[0]) ++rank;
    const Matrix loose(~right(rank, 0, coordinates_ - rank, coordinates_));
    const Matrix among_loose = ~loose * (stiffness_ * loose);
    SimTK::Vector_<std::complex<double>> stiffnesses;
    SimTK::Eigen(Matrix(0.5 * (among_loose + ~among_loose))).getAllEigenValues(stiffnesses);
    double least = SimTK::Infinity;
    for (int k = 0; k < stiffnesses.size(); ++k) least = std::min(least, stiffnesses[k].real());
    return kForceScale * least;
  }

 private:
  /// Generalised, of all bushings, in kForceScale.
  Vector forces(const State& state) const {
    Vector generalised;
    matter_.multiplyBySystemJacobianTranspose(
        state, system_.getRigidBodyForces(state, SimTK::Stage::Dynamics), generalised);
    return generalised / kForceScale;
  }

  /// What the constraints would have to bear less what they do.
  Vector unbalanced_at(const State& state) const {
    Vector borne;
    matter_.multiplyByGTranspose(state, multipliers_, borne);
    return borne - forces(state);
  }

  void move(State& there, const Vector& way) const {
    Vector change;
    matter_.multiplyByN(state_, false, way, change);
    there.updQ() = state_.getQ() + change;
    system_.realize(there, SimTK::Stage::Dynamics);
  }

  void measure() {
    matter_.calcG(state_, constraints_);
    stiffness_.resize(coordinates_, coordinates_);
    const Vector here = unbalanced_at(state_);
    Vector way(coordinates_, 0.0);
    for (int c = 0; c < coordinates_; ++c) {
      way[c] = kDifference;
      move(beside_, way);
      stiffness_.updCol(c) = (unbalanced_at(beside_) - here) / kDifference;
      way[c] = 0;
    }
    const int constraints = constraints_.nrow(), all = coordinates_ + constraints;
    Matrix whole(all, all, 0.0);
    whole(0, 0, coordinates_, coordinates_) = stiffness_;
    whole(coordinates_, 0, constraints, coordinates_) = constraints_;
    whole(0, coordinates_, coordinates_, constraints) = ~constraints_;
    factors_.factor(whole, kNoRank);
  }

  double step() {
    const int constraints = constraints_.nrow();
    Vector wanted(coordinates_ + constraints), change;
    wanted(0, coordinates_) = -1.0 * unbalanced_at(state_);
    wanted(coordinates_, constraints) = -1.0 * state_.getQErr();
    change.resize(wanted.size());
    factors_.solve(wanted, change);
    const double length = change(0, coordinates_).normInf();
    if (length > kLongestStep) change *= kLongestStep / length;
    const Vector way(change(0, coordinates_));
    move(state_, way);
    multipliers_ += change(coordinates_, constraints);
    return length;
  }

  const SimTK::MultibodySystem& system_;
  const SimTK::SimbodyMatterSubsystem& matter_;
  State& state_;
  State beside_;
  int coordinates_ = 0;
  Vector multipliers_;  // in kForceScale
  Matrix constraints_, stiffness_;
  SimTK::FactorQTZ factors_;
};

}  // namespace

std::optional<Rest> solve_rest(const Problem& problem, const std::vector<Placement>& start) {
  try {
    Model model(problem);
    put(model, start);
    Search search(model);
    if (!search.settle()) return std::nullopt;
    Rest rest = rest_here(model, problem.labels);
    rest.stiffness = search.least_stiffness();
    rest.unbalanced = search.unbalanced();
    return rest;
  } catch (const std::exception&) {
    return std::nullopt;
  }
}

std::optional<Rest> minimise_energy(const Problem& problem, const std::vector<Placement>& start,
                                    double tolerance) {
  try {
    Model model(problem);
    put(model, start);
    model.close();
    SimTK::LocalEnergyMinimizer::minimizeEnergy(model.system(), model.state(), tolerance);
    return rest_here(model, problem.labels);
  } catch (const std::exception&) {
    return std::nullopt;
  }
}

}  // namespace axlewright::oracle
