#pragma once

#include <vector>

#include <Simbody.h>

#include "tests/oracle/simbody_oracle.h"

// A problem as Simbody sees it: every body floats, and constraints and bushings do all the rest. Shows Simbody's own types, so it is for
// the oracle's sources alone.

namespace axlewright::oracle {

/// The constraints' accuracy asked of Simbody.
inline constexpr double kConstraintTolerance = 1e-12;

class Model {
 public:
  explicit Model(const Problem& problem);
  Model(const Model&) = delete;
  Model& operator=(const Model&) = delete;

  /// The bodies as they start; as measured if `start` is empty.
  void put(const std::vector<Placement>& start);

  /// The nearest place that meets the constraints; throws where Simbody finds none.
  void close();

  std::vector<Placement> placements() const;

  /// At rest nothing but the loads drives the bodies, so what the constraints answer are the static reactions.
  void load(const std::vector<Push>& pushes);

  /// Largest of any body under the last load.
  double acceleration() const;

  /// Of the constraints under the last load, by label: what they put on the second body.
  std::vector<Push> constraint_pushes(int labels) const;

  /// Of the bushings where they stand, by label.
  std::vector<Push> bushing_pushes(int labels) const;

  const SimTK::MultibodySystem& system() const { return system_; }
  const SimTK::SimbodyMatterSubsystem& matter() const { return matter_; }
  SimTK::State& state() { return state_; }

 private:
  struct Held {
    SimTK::Constraint constraint;
    int second_body, label;
  };
  struct Gives {
    SimTK::Force::LinearBushing bushing;
    int second_body, label;
  };

  SimTK::MobilizedBody& at(int index) { return bodies_[static_cast<std::size_t>(index)]; }
  void constrain(const Problem& problem);
  void bush(const Bushing& bushing);
  Push push(const SimTK::Constraint& constraint, int body) const;

  SimTK::MultibodySystem system_;
  SimTK::SimbodyMatterSubsystem matter_;
  SimTK::GeneralForceSubsystem forces_;
  SimTK::Force::DiscreteForces loads_;
  std::vector<SimTK::MobilizedBody> bodies_;
  std::vector<Held> held_;
  std::vector<Gives> bushings_;
  SimTK::State state_;
};

}  // namespace axlewright::oracle
