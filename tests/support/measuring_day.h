#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "engine/truck/measured.h"
#include "engine/truck/truck.h"

// A truck of which everything is known, measured by an invented shop: what a tape, an angle gauge and turn plates read of it where it
// stands, without the program's own equations, and then with the errors that such readings have.

namespace axlewright::testing {

/// Where the frame stood in the measuring axes: rolled (left side up), pitched (nose up), turned (to the left) about a point of it, then
/// shifted.
struct Stood {
  double lean = 0, rake = 0, yaw = 0;
  Vec3 about = Vec3::Zero(), shift = Vec3::Zero();
};

struct MeasuringDay {
  Truck truck;        ///< points near their places, both sides written
  Measured measured;  ///< what was read
  Stood stood;
  std::vector<Vec3> straight;  ///< where the points are without lean: frame axes
  std::vector<Vec3> as_stood;  ///< where they were: frame axes
  std::vector<Vec3>
      on_floor;  ///< along the road's forward, left and up, from wherever the shop measured

  std::size_t index_of(const std::string& point) const;

  void read_length(const std::string& bar, double plus_minus);
  void read_between(const std::string& p, const std::string& q, double plus_minus);
  /// `floor`: how far below the measuring axes' origin the floor is.
  void read_height(const std::string& point, double floor, double plus_minus);
  void read_slope(const std::string& p, const std::string& q, double plus_minus);
  void read_lean(double plus_minus);
  void read_rake(double plus_minus);
  void read_caster(const std::string& kingpin, double plus_minus);
  void read_inclination(const std::string& kingpin, double plus_minus);
  /// Of a wheel that stands upright and points straight ahead where it is not steered; by turning it until it steers so.
  void read_sweep(const std::string& kingpin, const std::vector<double>& steers, double plus_minus);
  /// Its place in frame axes is known.
  void know_hole(const std::string& point);

 private:
  Reading& add(ReadingKind kind, const std::string& name, double plus_minus);
  Vec3 axis_of(const std::string& kingpin) const;
};

/// A day without errors. `truth`: a sound truck; every point is known within `plus_minus`.
MeasuringDay measuring_day(const Truck& truth, MeasuringAxes axes, const Stood& stood,
                           double plus_minus);

/// Numbers that are the same on every machine.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}
  double between(double low, double high);
  double normal();  ///< mean 0, deviation 1
  int below(int count);

 private:
  std::uint64_t next();
  std::uint64_t state_;
};

/// How errors are spread: anywhere within the plus_minus alike, or normally with that band's standard deviation.
enum class Errors { within, normal };

/// The same day, everything read with errors.
MeasuringDay with_errors(MeasuringDay day, Dice& dice, Errors errors);

}  // namespace axlewright::testing
