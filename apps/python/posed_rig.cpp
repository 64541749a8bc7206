#include "apps/python/posed_rig.h"

#include <limits>
#include <utility>

#include <pybind11/stl.h>

#include "apps/python/outside.h"
#include "engine/ask/json.h"
#include "engine/ask/posed_question.h"
#include "engine/ask/question.h"
#include "engine/base/progress.h"
#include "engine/base/units.h"

namespace py = pybind11;

namespace axlewright {
namespace {

constexpr std::size_t kPosesBetweenSignals = 64;  // a few milliseconds

/// What is told of many poses, pose by pose.
struct Columns {
  std::vector<double> values, place_mm, matrix;
  std::vector<std::string> outcome, message;

  void add_pose(const Rig& rig, const Kinematics& kin, const PoseResult& pose) {
    for (std::size_t q = 0; q < rig.quantities().size(); ++q)
      values.push_back(to_json_unit(rig.quantities()[q].unit, pose.values[q]));
    for (const Pose& body : kin.pose) {
      for (int r = 0; r < 3; ++r) place_mm.push_back(to_mm(body.t[r]));
      for (int r = 0; r < 3; ++r) {
        for (int c = 0; c < 3; ++c) matrix.push_back(body.R(r, c));
      }
    }
  }

  void add_gap(const Rig& rig) {
    constexpr double none = std::numeric_limits<double>::quiet_NaN();
    const std::size_t bodies = rig.expansion().body_names.size();
    values.insert(values.end(), rig.quantities().size(), none);
    place_mm.insert(place_mm.end(), 3 * bodies, none);
    matrix.insert(matrix.end(), 9 * bodies, none);
  }

  void add(Rig& rig, const PoseRequest& request) {
    const PoseResult pose = rig.solve(request);
    outcome.emplace_back(word_for(pose.report.outcome));
    message.push_back(pose.report.message);
    if (pose.report.usable()) {
      add_pose(rig, rig.follower().kinematics(), pose);
    } else {
      add_gap(rig);
    }
  }
};

/// Many questions to `pose`: one for each column of numbers, whose rows are the inputs of that name.
struct Questions {
  const std::vector<std::string>& names;
  const double* numbers;
  std::size_t count;
  Json flags;

  Json at(std::size_t k) const {
    Json question = flags;
    for (std::size_t n = 0; n < names.size(); ++n) question[names[n]] = numbers[n * count + k];
    return question;
  }
};

/// Asks them until one is wrong or there is no going on.
Result<Columns> ask_all(Rig& rig, const Questions& questions, const Progress& goes_on) {
  Columns columns;
  for (std::size_t k = 0; k < questions.count; ++k) {
    const auto share = static_cast<double>(k) / static_cast<double>(questions.count);
    if (k % kPosesBetweenSignals == 0 && !goes_on(share)) break;
    const Json question = questions.at(k);
    if (k == 0) {
      std::vector<Fault> faults = unknown_keys(question, pose_keys());
      if (!faults.empty()) return tl::unexpected(std::move(faults));
    }
    const Result<PoseRequest> request = pose_for(rig, question);
    if (!request) return tl::unexpected(request.error());
    columns.add(rig, *request);
  }
  return columns;
}

/// A NumPy array that owns the numbers: nothing is copied.
py::array as_array(std::vector<double> numbers, std::vector<py::ssize_t> shape) {
  auto* kept = new std::vector<double>(std::move(numbers));
  const py::capsule owner(kept, [](void* v) { delete static_cast<std::vector<double>*>(v); });
  return py::array_t<double>(std::move(shape), kept->data(), owner);
}

}  // namespace

PosedRig::PosedRig(const std::string& question, const py::object& texts) {
  Outside outside(texts, py::none());
  Result<PosedQuestion> posed = [&] {
    const py::gil_scoped_release free;
    return posed_question(Json::parse(question), {}, outside.context());
  }();
  outside.finish();
  if (!posed) raise_faults(posed.error());
  rig_ = std::make_unique<Rig>(std::move(posed->rig));
}

std::string PosedRig::quantities() const {
  return json_of(rig_->quantities()).dump();
}

std::vector<double> PosedRig::height_range_mm() const {
  const std::array<double, 2>& range = rig_->truck().height_range;
  return {to_mm(range[0]), to_mm(range[1])};
}

py::tuple PosedRig::poses(const std::vector<std::string>& names,
                          const py::array_t<double, py::array::c_style>& inputs,
                          const std::string& flags, const py::object& progress) {
  Outside outside(py::none(), progress);
  const auto count = inputs.shape(1);
  Result<Columns> columns = [&] {
    const Questions questions{names, inputs.data(), static_cast<std::size_t>(count),
                              Json::parse(flags)};
    const py::gil_scoped_release free;
    const std::lock_guard<std::mutex> alone(asked_);
    return ask_all(*rig_, questions, outside.context().progress);
  }();
  outside.finish();
  if (!columns) raise_faults(columns.error());
  const auto quantity_count = static_cast<py::ssize_t>(rig_->quantities().size());
  const auto body_count = static_cast<py::ssize_t>(bodies().size());
  return py::make_tuple(as_array(std::move(columns->values), {count, quantity_count}),
                        as_array(std::move(columns->place_mm), {count, body_count, 3}),
                        as_array(std::move(columns->matrix), {count, body_count, 3, 3}),
                        std::move(columns->outcome), std::move(columns->message));
}

}  // namespace axlewright
