// [rear_wheels], and what they say again of [truck]: wheelbase, rake and thrust angle.

#include <cmath>

#include <fmt/format.h>

#include "engine/truck/ranges.h"
#include "engine/truck/read_context.h"
#include "engine/truck/rear_stance.h"

namespace axlewright {

namespace {

struct WheelCentres {
  Vec3 left, right;
  Vec3 middle() const { return 0.5 * (left + right); }
};

std::optional<WheelCentres> centres_of(const ReadContext& context, const std::string& left,
                                       const std::string& right) {
  const Point *l = placed_point(context, left), *r = placed_point(context, right);
  if (l == nullptr || r == nullptr) return std::nullopt;
  return WheelCentres{l->at, r->at};
}

/// Definition 3 again: what is given counts, and what the points say otherwise may miss it by the tolerance, at the rear wheels.
class SaidTwice {
 public:
  SaidTwice(ReadContext& context, const WheelCentres& front, const WheelCentres& rear)
      : context_(context), front_(front), rear_(rear) {}

  void wheelbase() {
    const Node* given = truck_key(context_, "wheelbase");
    const double between = front_.middle().x() - rear_.middle().x();
    if (given == nullptr || !misses(between - context_.truck.wheelbase)) return;
    context_.complaints.error(
        given->place,
        fmt::format("'wheelbase' is {}, but the wheel centres of the axles are {} apart",
                    length_words(context_.truck.wheelbase, given->unit),
                    length_words(between, given->unit)),
        fix("wheelbase"));
  }

  void rake() {
    Truck& truck = context_.truck;
    const std::optional<double> stands =
        rake_of_wheels(front_.middle(), rear_.middle(),
                       truck.wheels.loaded_radius - truck.rear_wheels->loaded_radius);
    if (!stands) return;  // complained of as a wheelbase
    const Node* given = truck_key(context_, "rake");
    const double length = (front_.middle() - rear_.middle()).norm();
    if (given == nullptr) {
      truck.rake = *stands;
    } else if (misses(length * (*stands - truck.rake))) {
      complain_of_angle(*given, "rake", truck.rake, *stands,
                        "the wheel centres and loaded radii of the axles stand the frame at");
    }
  }

  /// The heading of the line through the centres.
  void thrust_angle() {
    Truck& truck = context_.truck;
    const Vec3 across = rear_.left - rear_.right;
    const double square = heading_square_to(across);
    const Node* given = truck_key(context_, "thrust_angle");
    truck.rear_wheels->square_to_centres = given == nullptr;
    if (given == nullptr) {
      truck.thrust_angle = square;
    } else if (misses(across.norm() * (square - truck.thrust_angle))) {
      complain_of_angle(*given, "thrust_angle", truck.thrust_angle, square,
                        "square to the line through the rear wheel centres is");
    }
  }

 private:
  bool misses(double by) const { return std::abs(by) > context_.truck.tolerance; }

  static std::string fix(const char* key) {
    return fmt::format("mend the points or '{}'; 'tolerance' of [truck] says how far they may miss",
                       key);
  }

  void complain_of_angle(const Node& given, const char* key, double is, double points_say,
                         const char* what_they_say) {
    context_.complaints.error(given.place,
                              fmt::format("'{}' is {}, but {} {}", key, angle_words(is),
                                          what_they_say, angle_words(points_say)),
                              fix(key) + "; without the key the points count");
  }

  ReadContext& context_;
  const WheelCentres front_, rear_;
};

void warn_of_no_rear_wheels(ReadContext& context) {
  const Node* aligned = truck_key(context, "aligned_rear_height");
  if (aligned == nullptr) return;
  context.complaints.warning(aligned->place,
                             "nothing hangs on 'aligned_rear_height' without [rear_wheels]",
                             "take it away, or add [rear_wheels] and what holds the rear axle");
}

}  // namespace

void read_rear_wheels(ReadContext& context) {
  const Entry* entry = find_section(context, "rear_wheels", false);
  if (entry == nullptr) return warn_of_no_rear_wheels(context);
  Fields fields = fields_of(context, *entry);
  const Wheels& front = context.truck.wheels;
  RearWheels rear;
  rear.centre_left = need_wheel_centre(context, fields, "centre_left", "rear_axle");
  rear.centre_right = need_wheel_centre(context, fields, "centre_right", "rear_axle");
  check_track(context, fields, rear.centre_left, rear.centre_right);
  rear.loaded_radius =
      fields.length("loaded_radius", ranges::kLoadedRadius).value_or(front.loaded_radius);
  rear.section = fields.length("section", ranges::kSection).value_or(front.section);
  fields.reject_unknown();
  context.truck.rear_wheels = rear;
  const auto ahead = centres_of(context, front.centre_left, front.centre_right);
  const auto behind = centres_of(context, rear.centre_left, rear.centre_right);
  if (!ahead || !behind) return;
  SaidTwice said(context, *ahead, *behind);
  said.wheelbase();
  said.rake();
  said.thrust_angle();
}

}  // namespace axlewright
