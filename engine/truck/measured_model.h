#pragma once

#include <array>
#include <map>
#include <string>
#include <vector>

#include "engine/solve/fit.h"
#include "engine/truck/measured_stance.h"
#include "engine/truck/truck.h"

namespace axlewright {

/// A measured truck as equations. Measured numbers are the coordinates of all points, three for each in the order of Truck::points, as
/// written; those of a mirrored point count for nothing, since its place is the mirror image of the point that is written. Free
/// numbers are what of the stance is asked for, and for each sweep the camber straight ahead. Readings are
///   what was read             each kind's equation stands at its case in measured_model.cpp
///   known places of holes     three coordinates each
///   exact statements          lengths that the file gives its bars (definition 3), points on the lines that they slide on: where one of
///                             the points has a plus_minus
/// A plus_minus counts as a standard deviation of plus_minus / sqrt(3) (JCGM 100:2008, 4.3.7); an exact statement as one of 1
/// micrometre.
class MeasuredModel {
 public:
  /// `truck` as read, with its points in the order of `measured.points`. Both must outlive the model.
  MeasuredModel(const Truck& truck, const Measured& measured);

  /// What is measured, and the equations between it. The problem refers to the model.
  FitProblem problem() const;

  enum class Kind {
    length,
    height,
    slope,
    lean,
    rake,
    caster,
    kingpin_inclination,
    camber,
    hole,
    off_line
  };

  /// One equation.
  ///   points       by Truck::points, as many as the kind takes
  ///   which        coordinate of a hole; 1 or 2, across the line
  ///   numbers      measured numbers that it hangs on; frees: free ones
  ///   part         index in Truck::parts of the bar whose length it is; -1
  ///   reading      index of what was read; -1 for a hole or an exact statement
  struct Condition {
    Kind kind = Kind::length;
    std::array<int, 3> points{-1, -1, -1};
    int which = 0;
    bool left = true;
    double steer = 0;
    int camber = -1;  ///< place of the camber straight ahead in the free numbers
    double value = 0, plus_minus = 0;
    std::vector<int> numbers, frees;
    int part = -1, reading = -1;
    std::string name, words;
    TextPlace place;

    bool is_angle() const;
  };

  const std::vector<Condition>& conditions() const { return conditions_; }
  const Truck& truck() const { return truck_; }
  const Measured& measured() const { return measured_; }

  /// The point whose written place tells that of this one: itself, or the point that it mirrors.
  int written(int point) const { return written_[static_cast<std::size_t>(point)]; }

  MeasuredStance stance(const Vector& free) const;
  /// Place of in the free numbers, or -1 where the stance has it as told.
  int free_lean() const { return free_[kLean]; }
  int free_rake() const { return free_[kRake]; }
  int free_yaw() const { return free_[kYaw]; }

  /// The measured numbers that a point's place hangs on: its own, and those of what it counts from.
  std::vector<int> numbers_of(int point) const;

  /// A point in the measuring axes.
  Vec3 measuring_place(int point, const Vector& measured, const Vector& free) const;
  /// A point in frame axes, as the truck stood, and its change with the numbers that it hangs on.
  Vec3 place(int point, const Vector& measured, const Vector& free) const;
  /// A row for each of x, y and z.
  struct PlaceSlopes {
    Matrix by_numbers;  ///< in the order of numbers_of(point)
    Matrix by_free;
  };
  PlaceSlopes place_slopes(int point, const Vector& measured, const Vector& free) const;

 private:
  enum StanceNumber { kLean, kRake, kYaw, kShiftX, kShiftY, kShiftZ, kFloor, kStanceNumbers };

  void choose_free_numbers();
  void free_number(StanceNumber number, double start);
  void add_readings();
  void add_sweep(int reading);
  void add_holes();
  void add_given_lengths();
  void add_given_length(const std::array<std::string, 2>& ends, double length, int part,
                        const std::string& words, const TextPlace& place);
  void add_points_on_lines();
  void add_point_on_line(const std::string& point, const std::array<std::string, 2>& line,
                         const std::string& words, const TextPlace& place);
  void add(Condition condition);
  int index_of(const std::string& point) const;
  Vec3 written_place(int point) const;
  bool is_uncertain(int point) const;

  template <class T>
  StanceT<T> stance_of(const std::vector<T>& free) const;
  template <class T>
  Vec3T<T> measuring_place_of(int point, const std::vector<T>& measured,
                              const StanceT<T>& stance) const;
  template <class T>
  Vec3T<T> place_of(int point, const std::vector<T>& measured, const StanceT<T>& stance) const;
  template <class T>
  T value_of(const Condition& c, const std::vector<T>& measured, const std::vector<T>& free) const;
  ReadingValues evaluate(const Vector& measured, const Vector& free) const;

  const Truck& truck_;
  const Measured& measured_;
  std::map<std::string, int> index_;
  std::vector<int> written_, from_;  ///< from_: -1 for a point that counts from the origin
  MeasuredStance start_;
  std::array<int, kStanceNumbers> free_{};
  std::vector<double> free_start_;
  std::vector<Condition> conditions_;
};

/// The standard deviation that a plus_minus stands for.
double deviation_of(double plus_minus);
/// And the other way round.
double plus_minus_of(double deviation);

/// Camber of a wheel, top outboard positive, where it steers by `steer` (left positive) on the road, exact: the spin axis that is
/// (sin toe cos camber, cos toe cos camber, -sin camber) straight ahead is turned about the kingpin until its heading is that.
///   k       unit steering axis, pointing up: along the road's forward, left and normal directions
///   toe     of this wheel, in positive [rad]
///   camber  straight ahead [rad]
///   left    side of the truck: a right wheel is the mirror image of a left one
/// Kinematics reference 4.4 turned round: s(e) . d = 0 with d along the wheel's heading is A cos e + B sin e + C = 0.
/// Not a number where no turn gives that heading. Over double and Dual.
template <class T>
T swept_camber(Vec3T<T> k, double toe, T camber, double steer, bool left);

}  // namespace axlewright
