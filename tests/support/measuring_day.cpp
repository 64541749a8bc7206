#include "tests/support/measuring_day.h"

#include <cmath>
#include <numbers>
#include <utility>

#include <gtest/gtest.h>
#include <Eigen/Geometry>

#include "engine/study/rig.h"
#include "tests/support/truck_files.h"

namespace axlewright::testing {
namespace {

Mat3 turn(double angle, const Vec3& axis) {
  return Eigen::AngleAxisd(angle, axis).toRotationMatrix();
}

Mat3 tilt_of(const Stood& stood) {
  // Nose up is a turn to the right-hand side about y, backwards.
  return turn(-stood.rake, Vec3::UnitY()) * turn(stood.lean, Vec3::UnitX());
}

double heading(const Vec3& spin) {
  return std::atan2(-spin.x(), spin.y());
}

/// Turns a wheel about its axis, a little at a time, until it steers so. `spin` points left on both sides.
Vec3 spin_steered_by(const Vec3& axis, double steer) {
  const auto spin_at = [&](double turned) { return Vec3(turn(turned, axis) * Vec3::UnitY()); };
  double low = steer - 0.5, high = steer + 0.5;
  for (int step = 0; step < 100; ++step) {
    const double middle = 0.5 * (low + high);
    (heading(spin_at(middle)) < steer ? low : high) = middle;
  }
  return spin_at(0.5 * (low + high));
}

}  // namespace

std::size_t MeasuringDay::index_of(const std::string& point) const {
  for (std::size_t k = 0; k < truck.points.size(); ++k) {
    if (truck.points[k].name == point) return k;
  }
  ADD_FAILURE() << "no point " << point;
  return 0;
}

Reading& MeasuringDay::add(ReadingKind kind, const std::string& name, double plus_minus) {
  Reading reading;
  reading.kind = kind;
  reading.name = reading.words = name;
  reading.plus_minus = plus_minus;
  reading.place = {"measured.toml", static_cast<int>(measured.readings.size()) + 1, 1, 1};
  measured.readings.push_back(reading);
  return measured.readings.back();
}

void MeasuringDay::read_between(const std::string& p, const std::string& q, double plus_minus) {
  Reading& reading = add(ReadingKind::length, p + " to " + q, plus_minus);
  reading.points = {p, q};
  reading.value = (as_stood[index_of(q)] - as_stood[index_of(p)]).norm();
}

void MeasuringDay::read_length(const std::string& bar, double plus_minus) {
  for (const Part& part : truck.parts) {
    if (part.name != bar) continue;
    const auto& ends = std::get<Bar>(part.what).ends;
    read_between(ends[0], ends[1], plus_minus);
    measured.readings.back().part = bar;
    measured.readings.back().name = measured.readings.back().words = bar;
  }
}

void MeasuringDay::read_height(const std::string& point, double floor, double plus_minus) {
  Reading& reading = add(ReadingKind::height, point + " over the floor", plus_minus);
  reading.points[0] = point;
  reading.value = on_floor[index_of(point)].z() + floor;
}

void MeasuringDay::read_slope(const std::string& p, const std::string& q, double plus_minus) {
  Reading& reading = add(ReadingKind::slope, "slope " + p, plus_minus);
  reading.points = {p, q};
  const Vec3 span = on_floor[index_of(q)] - on_floor[index_of(p)];
  reading.value = std::atan2(span.z(), std::hypot(span.x(), span.y()));
}

void MeasuringDay::read_lean(double plus_minus) {
  add(ReadingKind::lean, "lean", plus_minus).value = stood.lean;
}

void MeasuringDay::read_rake(double plus_minus) {
  add(ReadingKind::rake, "rake", plus_minus).value = stood.rake;
}

Vec3 MeasuringDay::axis_of(const std::string& kingpin) const {
  for (const Part& part : truck.parts) {
    if (part.name != kingpin) continue;
    const auto& pin = std::get<Kingpin>(part.what);
    // Whichever way the measuring axes are turned, a gauge tells caster along the truck.
    const Vec3 axis =
        tilt_of(stood) * (as_stood[index_of(pin.upper)] - as_stood[index_of(pin.lower)]);
    return axis / axis.norm();
  }
  ADD_FAILURE() << "no kingpin " << kingpin;
  return Vec3::UnitZ();
}

void MeasuringDay::read_caster(const std::string& kingpin, double plus_minus) {
  Reading& reading = add(ReadingKind::caster, "caster " + kingpin, plus_minus);
  for (const Part& part : truck.parts) {
    if (part.name != kingpin) continue;
    const auto& pin = std::get<Kingpin>(part.what);
    reading.points = {pin.lower, pin.upper};
  }
  reading.part = kingpin;
  const Vec3 k = axis_of(kingpin);
  reading.value = std::atan(-k.x() / k.z());
}

void MeasuringDay::read_inclination(const std::string& kingpin, double plus_minus) {
  read_caster(kingpin, plus_minus);
  Reading& reading = measured.readings.back();
  reading.kind = ReadingKind::kingpin_inclination;
  reading.name = reading.words = "inclination " + kingpin;
  const Vec3 k = axis_of(kingpin);
  const bool left = as_stood[index_of(reading.points[0])].y() > 0;
  reading.value = std::atan((left ? -k.y() : k.y()) / k.z());
}

void MeasuringDay::read_sweep(const std::string& kingpin, const std::vector<double>& steers,
                              double plus_minus) {
  read_caster(kingpin, plus_minus);
  Reading& reading = measured.readings.back();
  reading.kind = ReadingKind::camber_sweep;
  reading.name = reading.words = "sweep " + kingpin;
  reading.value = 0;
  reading.steers = steers;
  const bool left = as_stood[index_of(reading.points[0])].y() > 0;
  for (const double steer : steers) {
    // The spin axis points left; a wheel whose top is out has it falling outboard.
    const double fall = std::asin(spin_steered_by(axis_of(kingpin), steer).z());
    reading.cambers.push_back(left ? -fall : fall);
  }
}

void MeasuringDay::know_hole(const std::string& point) {
  measured.holes.push_back({point, as_stood[index_of(point)], {"measured.toml", 900, 1, 1}});
}

MeasuringDay measuring_day(const Truck& truth, MeasuringAxes axes, const Stood& stood,
                           double plus_minus) {
  MeasuringDay day;
  day.truck = truth;
  day.stood = stood;
  day.measured.axes = axes;
  day.measured.has_section = true;
  if (axes == MeasuringAxes::road) day.measured.plumbed_at = stood.about.z();
  if (axes != MeasuringAxes::gauge_holes) day.truck.rake = stood.rake;
  Rig rig(truth);
  PoseRequest leaning;
  leaning.lean = stood.lean;
  const PoseResult pose = rig.solve_place(leaning);
  EXPECT_TRUE(pose.report.usable()) << pose.report.message;
  const Mat3 out = turn(stood.yaw, Vec3::UnitZ()) * tilt_of(stood);
  for (std::size_t k = 0; k < truth.points.size(); ++k) {
    Point& point = day.truck.points[k];
    point.mirror_of.clear();
    day.straight.push_back(point.at);
    point.at = place_of(rig, point.name);
    day.as_stood.push_back(point.at);
    day.on_floor.push_back(out * (point.at - stood.about) + stood.about + stood.shift);
    MeasuredPoint measured;
    measured.at = axes == MeasuringAxes::frame ? point.at : day.on_floor.back();
    measured.plus_minus = plus_minus;
    for (int c = 0; c < 3; ++c)
      measured.places[static_cast<std::size_t>(c)] = {"measured.toml", 1000 + static_cast<int>(k),
                                                      c + 1, 1};
    day.measured.points.push_back(measured);
  }
  return day;
}

std::uint64_t Dice::next() {
  // SplitMix64: each state gives one number.
  std::uint64_t z = (state_ += 0x9e3779b97f4a7c15u);
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
  return z ^ (z >> 31);
}

double Dice::between(double low, double high) {
  return low + (high - low) * (static_cast<double>(next() >> 11) * 0x1p-53);
}

double Dice::normal() {
  // Box and Muller; the logarithm never sees a zero.
  const double radius = std::sqrt(-2 * std::log(1 - between(0, 1)));
  return radius * std::cos(between(0, 2 * std::numbers::pi));
}

int Dice::below(int count) {
  return static_cast<int>(between(0, count));
}

MeasuringDay with_errors(MeasuringDay day, Dice& dice, Errors errors) {
  const auto error = [&](double plus_minus) {
    return errors == Errors::within ? dice.between(-plus_minus, plus_minus)
                                    : dice.normal() * plus_minus / std::numbers::sqrt3;
  };
  for (MeasuredPoint& point : day.measured.points) {
    for (int c = 0; c < 3; ++c) point.at[c] += error(point.plus_minus);
  }
  for (Reading& reading : day.measured.readings) {
    if (reading.kind != ReadingKind::camber_sweep) reading.value += error(reading.plus_minus);
    for (double& camber : reading.cambers) camber += error(reading.plus_minus);
  }
  for (GaugeHole& hole : day.measured.holes) {
    for (int c = 0; c < 3; ++c) hole.known[c] += error(day.measured.holes_plus_minus);
  }
  return day;
}

}  // namespace axlewright::testing
