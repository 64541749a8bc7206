#include "engine/truck/fit_measured.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include <fmt/format.h>

#include "engine/base/index.h"
#include "engine/truck/complaints.h"
#include "engine/truck/likely_cause.h"
#include "engine/truck/measured_chance.h"
#include "engine/truck/measured_misfits.h"
#include "engine/truck/measured_model.h"
#include "engine/truck/rear_stance.h"
#include "engine/truck/set_straight.h"
#include "engine/truck/value.h"

namespace axlewright {

namespace {

/// Lean, rake and yaw with what is left open of each.
FoundStance stance_of(const MeasuredModel& model, const Fit& fit, const Matrix& covariance) {
  const MeasuredStance stood = model.stance(fit.free);
  const auto open = [&](int number) {
    if (number < 0) return 0.0;
    const auto k = fit.measured.size() + number;
    return plus_minus_of(std::sqrt(covariance(k, k)));
  };
  return {.lean = stood.lean,
          .lean_plus_minus = open(model.free_lean()),
          .rake = stood.rake,
          .rake_plus_minus = open(model.free_rake()),
          .yaw = stood.yaw,
          .yaw_plus_minus = open(model.free_yaw())};
}

/// The covariance of a point's place, by all numbers that it hangs on.
Mat3 covariance_of_place(const MeasuredModel& model, const Fit& fit, const Matrix& covariance,
                         int point) {
  const MeasuredModel::PlaceSlopes slopes = model.place_slopes(point, fit.measured, fit.free);
  std::vector<int> numbers = model.numbers_of(point);
  for (int k = 0; k < fit.free.size(); ++k)
    numbers.push_back(static_cast<int>(fit.measured.size()) + k);
  const auto count = static_cast<Eigen::Index>(numbers.size());
  Matrix by(3, count), part(count, count);
  by << slopes.by_numbers, slopes.by_free;
  for (int row = 0; row < count; ++row) {
    for (int column = 0; column < count; ++column)
      part(row, column) = covariance(numbers[index(row)], numbers[index(column)]);
  }
  return by * part * by.transpose();
}

std::vector<FittedPoint> points_of(const MeasuredModel& model, const FitProblem& problem,
                                   const Fit& fit, const Matrix& covariance) {
  std::vector<FittedPoint> points;
  for (std::size_t k = 0; k < model.measured().points.size(); ++k) {
    FittedPoint point;
    const int which = static_cast<int>(k);
    point.measured = model.measuring_place(which, problem.measured, fit.free);
    point.moved = (model.measuring_place(which, fit.measured, fit.free) - point.measured).norm();
    point.as_stood = model.place(which, fit.measured, fit.free);
    point.covariance = covariance_of_place(model, fit, covariance, which);
    for (int c = 0; c < 3; ++c)
      point.plus_minus[c] = plus_minus_of(std::sqrt(std::max(0.0, point.covariance(c, c))));
    points.push_back(point);
  }
  return points;
}

MeasuredFit told(const MeasuredModel& model, const FitProblem& problem, const Fit& fit) {
  const Matrix covariance = covariance_of(problem, fit);
  MeasuredFit told;
  const Measured& measured = model.measured();
  told.axes = measured.axes;
  told.report = fit.report;
  told.chi_square = fit.chi_square;
  told.redundancy = fit.redundancy;
  const Chances chances = chances_of(fit);
  told.chance = chances.of_sum;
  told.chance_of_largest = chances.of_largest;
  told.misfits = misfits_of(model, fit);
  told.worst = worst_of(told.misfits);
  told.stance = stance_of(model, fit, covariance);
  told.points = points_of(model, problem, fit, covariance);
  told.measuring_only = measured.measuring_only;
  told.has_section = measured.has_section;
  told.has_readings = measured.has_readings;
  return told;
}

/// What the fitted wheel centres of two axles say again (definitions 2 and 5).
void restate_rear_wheels(const Measured& measured, Truck& truck) {
  if (!truck.rear_wheels) return;
  const auto place = [&](const std::string& name) { return find_point(truck, name)->at; };
  const Vec3 left = place(truck.rear_wheels->centre_left),
             right = place(truck.rear_wheels->centre_right);
  if (truck.rear_wheels->square_to_centres) truck.thrust_angle = heading_square_to(left - right);
  if (!measured.rake_by_wheels || truck.fit->stance.rake_plus_minus > 0) return;
  const Vec3 front = 0.5 * (place(truck.wheels.centre_left) + place(truck.wheels.centre_right));
  truck.rake = rake_of_wheels(front, 0.5 * (left + right),
                              truck.wheels.loaded_radius - truck.rear_wheels->loaded_radius)
                   .value_or(truck.rake);
}

/// A frame that leans stands over its axle as no mirror shows: points of the axle and of what hangs on it are measured on both sides then.
std::vector<Fault> one_sided_points(const Truck& truck, const MeasuredModel& model,
                                    const Sources& sources) {
  std::vector<Fault> faults;
  if (model.free_lean() < 0) return faults;
  for (std::size_t k = 0; k < truck.points.size(); ++k) {
    const Point& point = truck.points[k];
    if (point.mirror_of.empty() || point.on == "frame") continue;
    const MeasuredPoint& written =
        model.measured().points[index(model.written(static_cast<int>(k)))];
    faults.push_back(fault_at(
        sources, written.places[0],
        fmt::format(
            "the frame may have leaned as it was measured, and '{}' on the {} is the mirror "
            "image of '{}': over a frame that leans it stands elsewhere",
            point.name, point.on, point.mirror_of),
        "take mirror = true away and write both sides as they were measured; or leave out what "
        "tells "
        "the lean; a kit goes on top of the file that check --fitted writes"));
  }
  return faults;
}

/// Where it was read that the frame leaned.
TextPlace place_of_lean(const Measured& measured) {
  for (const Reading& reading : measured.readings) {
    if (reading.kind == ReadingKind::lean) return reading.place;
  }
  return measured.place;
}

/// The measurements fit, but only just.
void warn_if_doubted(const Sources& sources, BareUnit unit, Truck& truck) {
  const MeasuredFit& fit = *truck.fit;
  if (fit.worst < 0 || std::min(fit.chance, fit.chance_of_largest) >= kDoubted) return;
  const Misfit& worst = fit.misfits[index(fit.worst)];
  Fault warning = fault_at(sources, worst.place,
                           fmt::format("what was measured hardly fits together: the worst is {}",
                                       misfit_words(worst, unit)),
                           "measure it again; or it is known less well than its 'plus_minus' says");
  warning.severity = Severity::warning;
  truck.warnings.push_back(std::move(warning));
}

}  // namespace

Result<Truck> fit_measured(Truck truck, const Measured& measured, const Sources& sources) {
  const BareUnit unit = truck.inches ? BareUnit::inch : BareUnit::mm;
  const auto refuse = [](Fault fault) {
    return tl::unexpected(std::vector<Fault>{std::move(fault)});
  };
  {
    const MeasuredModel model(truck, measured);
    if (auto faults = one_sided_points(truck, model, sources); !faults.empty())
      return tl::unexpected(std::move(faults));
    const FitProblem problem = model.problem();
    const Fit fit = axlewright::fit(problem);
    if (!fit.report.usable() || chances_of(fit).least() < kRefused)
      return refuse(contradiction(model, problem, fit, sources, unit));
    truck.fit = told(model, problem, fit);
  }
  for (std::size_t k = 0; k < truck.points.size(); ++k)
    truck.points[k].at = truck.fit->points[k].as_stood;
  truck.rake = truck.fit->stance.rake;
  if (const std::string wrong = set_straight(truck); !wrong.empty()) {
    return refuse(fault_at(
        sources, place_of_lean(measured),
        fmt::format("the truck leaned {} as it stood, and its linkage cannot be set straight: {}",
                    angle_words(truck.fit->stance.lean), wrong),
        "measure it without lean, or mend the linkage first"));
  }
  restate_rear_wheels(measured, truck);
  warn_if_doubted(sources, unit, truck);
  return truck;
}

}  // namespace axlewright
