#pragma once

#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include <pybind11/numpy.h>
#include <pybind11/pybind11.h>

#include "engine/ask/ask.h"
#include "engine/study/rig.h"

namespace axlewright {

/// A truck that is opened once and asked for many poses, as arrays. Two threads may ask it: one waits for the other.
class PosedRig {
 public:
  /// `question` is a question to `pose` without inputs: {"file": ..., "set": [...]}. Raises axlewright.Faults.
  PosedRig(const std::string& question, const pybind11::object& texts);

  std::string truck() const { return rig_->truck().name; }
  /// The list of quantities as JSON, as answers tell it.
  std::string quantities() const;
  const std::vector<std::string>& bodies() const { return rig_->expansion().body_names; }
  std::vector<double> height_range_mm() const;

  /// One pose for each column of `inputs`, whose rows are those of `names` ("height_mm"); `flags` is JSON with what is alike for
  /// all ({"held": true}). Gives a tuple
  ///   values    (poses, quantities) in JSON's units, NaN where there is no such value
  ///   place_mm  (poses, bodies, 3)
  ///   matrix    (poses, bodies, 3, 3)
  ///   outcome, message   a text for each pose
  pybind11::tuple poses(const std::vector<std::string>& names,
                        const pybind11::array_t<double, pybind11::array::c_style>& inputs,
                        const std::string& flags, const pybind11::object& progress);

 private:
  std::unique_ptr<Rig> rig_;
  std::mutex asked_;
};

}  // namespace axlewright
