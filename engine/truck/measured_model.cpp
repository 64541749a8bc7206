#include "engine/truck/measured_model.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "engine/base/dual.h"
#include "engine/base/index.h"
#include "engine/base/invariant.h"
#include "engine/base/units.h"
#include "engine/mechanism/mechanism.h"

namespace axlewright {

namespace {

// What the file or the layout states counts as true to this [m]: far below any tape, far above rounding.
constexpr double kExact = 1e-6;

template <class T>
std::vector<T> scalars_of(const Vector& numbers) {
  return std::vector<T>(numbers.data(), numbers.data() + numbers.size());
}

template <class T>
T length_of(const Vec3T<T>& v) {
  using std::sqrt;
  return sqrt(v.dot(v));
}

/// The mean of what was read of a kind, if anything was.
std::optional<double> mean_read(const Measured& measured, ReadingKind kind) {
  double sum = 0;
  int count = 0;
  for (const Reading& reading : measured.readings) {
    if (reading.kind != kind) continue;
    sum += reading.value;
    ++count;
  }
  return count > 0 ? std::optional<double>(sum / count) : std::nullopt;
}

}  // namespace

double deviation_of(double plus_minus) {
  return plus_minus / std::numbers::sqrt3;
}

double plus_minus_of(double deviation) {
  return deviation * std::numbers::sqrt3;
}

template <class T>
T swept_camber(Vec3T<T> k, double toe, T camber, double steer, bool left) {
  using std::acos;
  using std::asin;
  using std::atan2;
  using std::cos;
  using std::sin;
  using std::sqrt;
  if (!left) {
    k.y() = -k.y();
    steer = -steer;
  }
  const T level = cos(camber);
  const Vec3T<T> s0(T(std::sin(toe)) * level, T(std::cos(toe)) * level, -sin(camber));
  const Vec3T<T> along = k * k.dot(s0), square = s0 - along, turned = cross(k, s0);
  const Vec3T<T> d(T(std::cos(steer)), T(std::sin(steer)), T(0));
  const T A = square.dot(d), B = turned.dot(d), C = along.dot(d);
  const T first = atan2(B, A), apart = acos(-C / sqrt(A * A + B * B));
  const auto spin_axis = [&](const T& e) -> Vec3T<T> {
    return square * cos(e) + turned * sin(e) + along;
  };
  // Of the two turns the one that leaves the axis pointing outboard; the other has the wheel turned round.
  const Vec3T<T> outboard(T(-std::sin(steer)), T(std::cos(steer)), T(0));
  const Vec3T<T> one = spin_axis(first + apart), other = spin_axis(first - apart);
  return one.dot(outboard) > other.dot(outboard) ? -asin(one.z()) : -asin(other.z());
}

template double swept_camber(Vec3T<double>, double, double, double, bool);
template Dual swept_camber(Vec3T<Dual>, double, Dual, double, bool);

bool MeasuredModel::Condition::is_angle() const {
  return kind != Kind::length && kind != Kind::height && kind != Kind::hole &&
         kind != Kind::off_line;
}

MeasuredModel::MeasuredModel(const Truck& truck, const Measured& measured)
    : truck_(truck), measured_(measured) {
  AXLEWRIGHT_INVARIANT(truck.points.size() == measured.points.size());
  for (const Point& point : truck.points) {
    const int own = static_cast<int>(index_.size());
    index_[point.name] = own;
  }
  for (const Point& point : truck.points) {
    written_.push_back(index_of(point.mirror_of.empty() ? point.name : point.mirror_of));
    from_.push_back(point.from.empty() ? -1 : index_of(point.from));
  }
  choose_free_numbers();
  add_readings();
  add_holes();
  add_given_lengths();
  add_points_on_lines();
}

int MeasuredModel::index_of(const std::string& point) const {
  const auto found = index_.find(point);
  AXLEWRIGHT_INVARIANT(found != index_.end());
  return found->second;
}

bool MeasuredModel::is_uncertain(int point) const {
  const std::vector<int> numbers = numbers_of(point);
  return std::any_of(numbers.begin(), numbers.end(), [&](int number) {
    return measured_.points[index(number / 3)].plus_minus > 0;
  });
}

/// Of a point that is written itself, as are those that it counts from.
Vec3 MeasuredModel::written_place(int point) const {
  const Vec3& at = measured_.points[index(point)].at;
  const int from = from_[index(point)];
  return from < 0 ? at : Vec3(at + written_place(from));
}

void MeasuredModel::free_number(StanceNumber number, double start) {
  free_[number] = static_cast<int>(free_start_.size());
  free_start_.push_back(start);
}

void MeasuredModel::choose_free_numbers() {
  free_.fill(-1);
  const auto lean_read = mean_read(measured_, ReadingKind::lean);
  const auto rake_read = mean_read(measured_, ReadingKind::rake);
  std::vector<Vec3> holes;
  for (const GaugeHole& hole : measured_.holes)
    holes.push_back(written_place(index_of(hole.point)));
  // On a level floor the wheels of two axles tell nothing of the frame: told by them alone, its axes are the road's.
  const bool level = measured_.rake_by_wheels && measured_.axes != MeasuringAxes::frame;
  start_ = start_stance(measured_, holes, lean_read.value_or(0),
                        rake_read.value_or(level ? 0 : truck_.rake));
  const ToldByHoles told = told_by(measured_.holes);
  if (lean_read || told.lean) free_number(kLean, start_.lean);
  if (rake_read || told.rake) free_number(kRake, start_.rake);
  if (measured_.axes == MeasuringAxes::gauge_holes) {
    free_number(kYaw, start_.yaw);
    free_number(kShiftX, start_.shift.x());
    free_number(kShiftY, start_.shift.y());
    free_number(kShiftZ, start_.shift.z());
  }
  const bool heights =
      std::any_of(measured_.readings.begin(), measured_.readings.end(),
                  [](const Reading& reading) { return reading.kind == ReadingKind::height; });
  if (heights && measured_.axes != MeasuringAxes::road) free_number(kFloor, 0);
}

void MeasuredModel::add(Condition c) {
  const auto hangs_on_stance = [&](StanceNumber number) {
    if (free_[number] >= 0) c.frees.push_back(free_[number]);
  };
  for (const int point : c.points) {
    if (point < 0) continue;
    const std::vector<int> numbers = numbers_of(point);
    c.numbers.insert(c.numbers.end(), numbers.begin(), numbers.end());
  }
  std::sort(c.numbers.begin(), c.numbers.end());
  c.numbers.erase(std::unique(c.numbers.begin(), c.numbers.end()), c.numbers.end());
  for (int number = 0; number < kStanceNumbers; ++number)
    hangs_on_stance(static_cast<StanceNumber>(number));
  if (c.camber >= 0) c.frees.push_back(c.camber);
  conditions_.push_back(std::move(c));
}

void MeasuredModel::add_readings() {
  static constexpr Kind kKinds[] = {Kind::length,
                                    Kind::height,
                                    Kind::slope,
                                    Kind::lean,
                                    Kind::rake,
                                    Kind::caster,
                                    Kind::kingpin_inclination,
                                    Kind::camber};
  for (std::size_t k = 0; k < measured_.readings.size(); ++k) {
    const Reading& reading = measured_.readings[k];
    if (reading.kind == ReadingKind::camber_sweep) {
      add_sweep(static_cast<int>(k));
      continue;
    }
    Condition c;
    c.kind = kKinds[static_cast<int>(reading.kind)];
    for (std::size_t p = 0; p < 2; ++p)
      c.points[p] = reading.points[p].empty() ? -1 : index_of(reading.points[p]);
    if (!reading.part.empty()) {
      const auto part = std::find_if(truck_.parts.begin(), truck_.parts.end(),
                                     [&](const Part& p) { return p.name == reading.part; });
      c.part = static_cast<int>(part - truck_.parts.begin());
    }
    c.left = c.points[0] >= 0 && truck_.points[index(c.points[0])].at.y() > 0;
    c.value = reading.value;
    c.plus_minus = reading.plus_minus;
    c.reading = static_cast<int>(k);
    c.name = reading.name;
    c.words = reading.words;
    c.place = reading.place;
    add(std::move(c));
  }
}

/// One equation for each camber; the camber straight ahead is a free number of its own, since the sweep is told by differences.
void MeasuredModel::add_sweep(int number) {
  const Reading& reading = measured_.readings[index(number)];
  const int straight = static_cast<int>(free_start_.size());
  free_start_.push_back(std::accumulate(reading.cambers.begin(), reading.cambers.end(), 0.0) /
                        static_cast<double>(reading.cambers.size()));
  for (std::size_t k = 0; k < reading.cambers.size(); ++k) {
    Condition c;
    c.kind = Kind::camber;
    c.points = {index_of(reading.points[0]), index_of(reading.points[1]), -1};
    c.left = truck_.points[index(c.points[0])].at.y() > 0;
    c.steer = reading.steers[k];
    c.camber = straight;
    c.value = reading.cambers[k];
    c.plus_minus = reading.plus_minus;
    c.reading = number;
    c.name = reading.name;
    c.words = fmt::format("{}, camber at {:.3g} deg {}", reading.words, std::abs(to_deg(c.steer)),
                          c.steer < 0 ? "right" : "left");
    c.place = reading.place;
    add(std::move(c));
  }
}

void MeasuredModel::add_holes() {
  static constexpr const char* kAxes[] = {"x", "y", "z"};
  for (const GaugeHole& hole : measured_.holes) {
    const int point = index_of(hole.point);
    for (int k = 0; k < 3; ++k) {
      Condition c;
      c.kind = Kind::hole;
      c.points[0] = point;
      c.which = k;
      c.value = hole.known[k];
      c.plus_minus = measured_.holes_plus_minus;
      c.name = hole.point;
      c.words = fmt::format("known {} of '{}'", kAxes[k], hole.point);
      c.place = hole.place;
      add(std::move(c));
    }
  }
}

void MeasuredModel::add_given_length(const std::array<std::string, 2>& ends, double length,
                                     int part, const std::string& words, const TextPlace& place) {
  Condition c;
  c.points = {index_of(ends[0]), index_of(ends[1]), -1};
  if (!is_uncertain(c.points[0]) && !is_uncertain(c.points[1])) return;
  c.value = length;
  c.part = part;
  c.name = words;
  c.words = fmt::format("'length' of the {}", words);
  c.place = place;
  add(std::move(c));
}

void MeasuredModel::add_given_lengths() {
  for (std::size_t k = 0; k < truck_.parts.size(); ++k) {
    const Part& part = truck_.parts[k];
    const Bar* bar = std::get_if<Bar>(&part.what);
    if (bar == nullptr || !bar->length) continue;
    add_given_length(bar->ends, *bar->length, static_cast<int>(k), part.words, part.place);
  }
  for (const PlainJoint& joint : truck_.joints) {
    if (joint.kind != PlainJointKind::distance || !joint.length) continue;
    add_given_length(joint.ends, *joint.length, -1, joint.words, joint.place);
  }
}

void MeasuredModel::add_point_on_line(const std::string& point,
                                      const std::array<std::string, 2>& line,
                                      const std::string& words, const TextPlace& place) {
  Condition c;
  c.kind = Kind::off_line;
  c.points = {index_of(point), index_of(line[0]), index_of(line[1])};
  if (std::none_of(c.points.begin(), c.points.end(), [&](int p) { return is_uncertain(p); }))
    return;
  c.name = point;
  c.words = fmt::format("'{}' on its line, {}", point, words);
  c.place = place;
  for (const int side : {1, 2}) {
    c.which = side;
    add(c);
  }
}

void MeasuredModel::add_points_on_lines() {
  for (const Part& part : truck_.parts) {
    const GuidedBar* bar = std::get_if<GuidedBar>(&part.what);
    if (bar == nullptr || bar->carriage != Carriage::point) continue;
    add_point_on_line(bar->guide_end, {bar->guide.from, bar->guide.to}, part.words, part.place);
  }
  for (const PlainJoint& joint : truck_.joints) {
    if (joint.kind == PlainJointKind::point_on_line)
      add_point_on_line(joint.point, joint.ends, joint.words, joint.place);
  }
}

template <class T>
StanceT<T> MeasuredModel::stance_of(const std::vector<T>& free) const {
  const auto number = [&](StanceNumber which, double told) {
    return free_[which] >= 0 ? free[index(free_[which])] : T(told);
  };
  StanceT<T> stance;
  stance.lean = number(kLean, start_.lean);
  stance.rake = number(kRake, start_.rake);
  stance.yaw = number(kYaw, start_.yaw);
  stance.shift = {number(kShiftX, start_.shift.x()), number(kShiftY, start_.shift.y()),
                  number(kShiftZ, start_.shift.z())};
  stance.pivot = start_.pivot;
  stance.floor = number(kFloor, 0);
  return stance;
}

std::vector<int> MeasuredModel::numbers_of(int point) const {
  std::vector<int> numbers;
  // A row of points that count from each other ends: the reader has seen to that.
  for (int p = written(point); p >= 0;) {
    for (int k = 0; k < 3; ++k) numbers.push_back(3 * p + k);
    const int from = from_[index(p)];
    p = from < 0 ? -1 : written(from);
  }
  return numbers;
}

template <class T>
Vec3T<T> MeasuredModel::measuring_place_of(int point, const std::vector<T>& measured,
                                           const StanceT<T>& stance) const {
  if (written(point) != point) {
    const Vec3T<T> image = place_of<T>(point, measured, stance);
    return measured_.axes == MeasuringAxes::frame ? image : stance.measured_place(image);
  }
  const std::size_t first = 3 * index(point);
  Vec3T<T> place(measured[first], measured[first + 1], measured[first + 2]);
  const int from = from_[index(point)];
  if (from >= 0) place += measuring_place_of<T>(from, measured, stance);
  return place;
}

template <class T>
Vec3T<T> MeasuredModel::place_of(int point, const std::vector<T>& measured,
                                 const StanceT<T>& stance) const {
  Vec3T<T> place = measuring_place_of<T>(written(point), measured, stance);
  if (measured_.axes != MeasuringAxes::frame) place = stance.frame_place(place);
  if (written(point) != point) place.y() = -place.y();
  return place;
}

template <class T>
T MeasuredModel::value_of(const Condition& c, const std::vector<T>& measured,
                          const std::vector<T>& free) const {
  using std::asin;
  using std::atan2;
  const StanceT<T> stance = stance_of<T>(free);
  const auto place = [&](std::size_t k) { return place_of<T>(c.points[k], measured, stance); };
  switch (c.kind) {
    // |q - p|
    case Kind::length:
      return length_of<T>(place(1) - place(0));
    case Kind::height:
      return stance.height_of(place(0));
    // asin(n . (q - p) / |q - p|), n the road's normal
    case Kind::slope: {
      const Vec3T<T> span = place(1) - place(0);
      return asin(stance.on_road(span).z() / length_of<T>(span));
    }
    case Kind::lean:
      return stance.lean;
    case Kind::rake:
      return stance.rake;
    // Definition 7: atan2(-k_forward, k_up), of the axis from the lower point to the upper
    case Kind::caster: {
      const Vec3T<T> k = stance.on_road(place(1) - place(0));
      return atan2(-k.x(), k.z());
    }
    // atan2(-k_left, k_up) on the left, atan2(k_left, k_up) on the right
    case Kind::kingpin_inclination: {
      const Vec3T<T> k = stance.on_road(place(1) - place(0));
      return atan2(c.left ? -k.y() : k.y(), k.z());
    }
    case Kind::camber: {
      const Vec3T<T> k = stance.on_road(place(1) - place(0));
      return swept_camber<T>(k * (T(1) / length_of<T>(k)), 0.5 * truck_.wheels.toe_in,
                             free[index(c.camber)], c.steer, c.left);
    }
    case Kind::hole:
      return place(0)[c.which];
    // What the point is off the line, along two directions square to it
    case Kind::off_line: {
      const Vec3T<T> span = place(2) - place(1);
      const Vec3 hint(axlewright::value_of(span.x()), axlewright::value_of(span.y()),
                      axlewright::value_of(span.z()));
      const Vec3T<T> line = span * (T(1) / length_of<T>(span));
      return direction_on_side<T>(line, c.which, hint / hint.norm()).dot(place(0) - place(1));
    }
  }
  return T(0);
}

ReadingValues MeasuredModel::evaluate(const Vector& measured, const Vector& free) const {
  const auto rows = static_cast<Eigen::Index>(conditions_.size());
  ReadingValues now{Vector(rows), Matrix::Zero(rows, measured.size()),
                    Matrix::Zero(rows, free.size())};
  std::vector<Dual> l = scalars_of<Dual>(measured), s = scalars_of<Dual>(free);
  const auto slope_by = [&](Dual& number, const Condition& c) {
    number.slope = 1;
    const double slope = value_of<Dual>(c, l, s).slope;
    number.slope = 0;
    return slope;
  };
  for (int row = 0; row < rows; ++row) {
    const Condition& c = conditions_[index(row)];
    now.values[row] = value_of<Dual>(c, l, s).value;
    for (const int k : c.numbers) now.by_measured(row, k) = slope_by(l[index(k)], c);
    for (const int k : c.frees) now.by_free(row, k) = slope_by(s[index(k)], c);
  }
  return now;
}

FitProblem MeasuredModel::problem() const {
  FitProblem p;
  const auto n = static_cast<Eigen::Index>(3 * measured_.points.size());
  const auto m = static_cast<Eigen::Index>(conditions_.size());
  p.measured.resize(n);
  p.measured_sigma.resize(n);
  for (int k = 0; k < n; ++k) {
    const MeasuredPoint& point = measured_.points[index(k / 3)];
    p.measured[k] = point.at[k % 3];
    p.measured_sigma[k] = deviation_of(point.plus_minus);
  }
  p.readings.resize(m);
  p.reading_sigma.resize(m);
  for (int k = 0; k < m; ++k) {
    const Condition& c = conditions_[index(k)];
    p.readings[k] = c.value;
    p.reading_sigma[k] = c.plus_minus > 0 ? deviation_of(c.plus_minus) : kExact;
  }
  p.free =
      Eigen::Map<const Vector>(free_start_.data(), static_cast<Eigen::Index>(free_start_.size()));
  p.evaluate = [this](const Vector& measured, const Vector& free) {
    return evaluate(measured, free);
  };
  return p;
}

MeasuredStance MeasuredModel::stance(const Vector& free) const {
  return stance_of<double>(scalars_of<double>(free));
}

Vec3 MeasuredModel::place(int point, const Vector& measured, const Vector& free) const {
  return place_of<double>(point, scalars_of<double>(measured), stance(free));
}

Vec3 MeasuredModel::measuring_place(int point, const Vector& measured, const Vector& free) const {
  return measuring_place_of<double>(point, scalars_of<double>(measured), stance(free));
}

MeasuredModel::PlaceSlopes MeasuredModel::place_slopes(int point, const Vector& measured,
                                                       const Vector& free) const {
  std::vector<Dual> l = scalars_of<Dual>(measured), s = scalars_of<Dual>(free);
  const auto column = [&](Dual& number) {
    number.slope = 1;
    const Vec3T<Dual> place = place_of<Dual>(point, l, stance_of<Dual>(s));
    number.slope = 0;
    return Vec3(place.x().slope, place.y().slope, place.z().slope);
  };
  const std::vector<int> numbers = numbers_of(point);
  PlaceSlopes slopes{Matrix(3, static_cast<Eigen::Index>(numbers.size())), Matrix(3, free.size())};
  for (std::size_t k = 0; k < numbers.size(); ++k)
    slopes.by_numbers.col(static_cast<Eigen::Index>(k)) = column(l[index(numbers[k])]);
  for (int k = 0; k < free.size(); ++k) slopes.by_free.col(k) = column(s[index(k)]);
  return slopes;
}

}  // namespace axlewright
