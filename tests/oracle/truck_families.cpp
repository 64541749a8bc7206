#include "tests/oracle/truck_families.h"

#include <cmath>
#include <set>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "engine/base/units.h"

namespace axlewright::oracle {
namespace {

class Builder {
 public:
  explicit Builder(const FamilyChoice& choice) : choice_(choice) {}

  Truck build() {
    head();
    axle();
    if (choice_.links == Links::three) {
      three_links();
    } else {
      four_links();
    }
    if (choice_.guided_steering) {
      guided_steering();
    } else {
      plain_steering();
    }
    if (choice_.guided_locator) {
      guided_locator();
    } else if (choice_.four_bar_locator) {
      four_bar_locator();
    } else {
      track_bar();
    }
    return truck_;
  }

 private:
  void head() {
    truck_.name = "family";
    truck_.wheelbase = from_mm(4060);
    truck_.height_range = {0, from_mm(235)};
    truck_.lean = from_deg(4);
    truck_.wheels.centre_left = "wheel_centre_left";
    truck_.wheels.centre_right = "wheel_centre_right";
    truck_.wheels.loaded_radius = from_mm(462);
    truck_.wheels.section = from_mm(318);
    truck_.gear.ratio = {{0, 16}};
    truck_.gear.stop_left = truck_.gear.stop_right = from_deg(1.9 * 360);
  }

  void point(const std::string& name, const std::string& on, double x, double y, double z) {
    Point p;
    p.name = name;
    p.on = on;
    p.at = Vec3(from_mm(x), from_mm(y), from_mm(z));
    truck_.points.push_back(p);
  }

  void both(const std::string& name, const std::string& on, double x, double y, double z) {
    const bool knuckle = on == "knuckle";
    point(name + "_left", knuckle ? "knuckle_left" : on, x, y, z);
    point(name + "_right", knuckle ? "knuckle_right" : on, x, -y, z);
  }

  template <class What>
  void part(const std::string& name, What what) {
    Part p;
    p.name = name;
    p.words = name;
    p.what = std::move(what);
    truck_.parts.push_back(std::move(p));
  }

  void bar(const std::string& name, BarKind kind, const std::string& a, const std::string& b,
           bool body = false) {
    Bar bar;
    bar.kind = kind;
    bar.ends = {a, b};
    bar.body = body;
    part(name, bar);
  }

  void axle() {
    both("wheel_centre", "axle", 0, 875, 462);
    both("kingpin_lower", "axle", 6.5, 747, 390);
    both("kingpin_upper", "axle", -6.6, 723.2, 540);
    both("tie_rod_ball", "knuckle", 175, 765, 420);
    point("sector_shaft_low", "frame", 340, 430, 590);
    point("sector_shaft_high", "frame", 340, 430, 720);
    point("pitman_ball", "pitman", 175, 430, 600);
    for (const std::string side : {"left", "right"}) {
      Kingpin kingpin;
      kingpin.knuckle = "knuckle_" + side;
      kingpin.lower = "kingpin_lower_" + side;
      kingpin.upper = "kingpin_upper_" + side;
      kingpin.style = choice_.kingpins;
      part("kingpin_" + side, kingpin);
    }
    PitmanArm arm;
    arm.axis = {"sector_shaft_low", "sector_shaft_high"};
    arm.anticlockwise = false;
    part("pitman_arm", arm);
  }

  void three_links() {
    both("lower_link_axle", "axle", -40, 520, 400);
    both("lower_link_frame", "frame", -1090, 470, 290);
    point("upper_link_axle", "axle", -40, 250, 640);
    point("upper_link_frame", "frame", -1090, 250, 530);
    bar("lower_link_left", BarKind::lower_link, "lower_link_frame_left", "lower_link_axle_left");
    bar("lower_link_right", BarKind::lower_link, "lower_link_frame_right", "lower_link_axle_right");
    bar("upper_link", BarKind::upper_link, "upper_link_frame", "upper_link_axle");
  }

  void four_links() {
    both("lower_link_axle", "axle", -40, 520, 400);
    both("lower_link_frame", "frame", -1090, 470, 290);
    both("upper_link_axle", "axle", -40, 430, 640);
    both("upper_link_frame", "frame", -1050, 400, 560);
    for (const std::string side : {"left", "right"}) {
      for (const auto& [kind, place] : {std::pair{BarKind::lower_link, "lower_link"},
                                        std::pair{BarKind::upper_link, "upper_link"}}) {
        const std::string at_frame = fmt::format("{}_frame_{}", place, side),
                          at_axle = fmt::format("{}_axle_{}", place, side);
        bar(fmt::format("{}_{}", place, side), kind, at_frame, at_axle, true);
        bush(at_frame);
        bush(at_axle);
      }
    }
  }

  /// A typical rubber bush of a link, its pin across the truck.
  void bush(const std::string& ball) {
    BushEntry entry;
    entry.name = entry.ball = ball;
    entry.axis.fixed = Vec3::UnitY();
    entry.radial = 8e6;
    entry.axial = 1e6;
    entry.tilt = 900;
    entry.twist = 60;
    truck_.bushes.push_back(entry);
  }

  void plain_steering() {
    point("drag_link_knuckle", "knuckle_right", 175, -700, 470);
    bar("tie_rod", BarKind::tie_rod, "tie_rod_ball_left", "tie_rod_ball_right",
        choice_.tie_rod_body);
    bar("drag_link", BarKind::drag_link, "pitman_ball", "drag_link_knuckle");
  }

  void track_bar() {
    point("track_bar_frame", "frame", -90, 520, 610);
    point("track_bar_axle", "axle", -90, -610, 480);
    bar("track_bar", BarKind::track_bar, "track_bar_frame", "track_bar_axle");
  }

  /// The through-link is 900 between its balls and falls 130 from near end to guide.
  void guided_bar(const std::string& name, double x, const std::string& near_end,
                  const std::string& near_end_on, double pivot_z, const std::string& carries) {
    const double near_y = 430, drop = 130;
    const double guide_y = near_y - std::sqrt(900.0 * 900.0 - drop * drop);
    point(name + "_pivot", carries, x, near_y, pivot_z);
    point(name + "_guide_inner", carries, x, -100, pivot_z);
    point(name + "_guide_outer", carries, x, -600, pivot_z);
    point(name + "_middle", name + "_through", x, (near_y + guide_y) / 2, pivot_z + drop / 2);
    point(name + "_guide_end", name + "_through", x, guide_y, pivot_z);
    GuidedBar bar;
    bar.near_end = near_end;
    bar.near_end_on = near_end_on;
    bar.guide_end = name + "_guide_end";
    bar.middle = name + "_middle";
    bar.pivot = name + "_pivot";
    bar.guide = Direction{name + "_guide_inner", name + "_guide_outer", Vec3::Zero()};
    bar.half_link = choice_.half_link;
    bar.carriage = choice_.carriage;
    bar.carries = carries;
    if (choice_.carriage == Carriage::rocker) {
      bar.rocker_pivot = name + "_rocker_pivot";
      point(bar.rocker_pivot, carries, x, guide_y + 34, pivot_z - 180);
      bar.rocker_axis.fixed = Vec3::UnitX();
    }
    part(name, bar);
  }

  /// Crank on the axle, arms of 430 level halfway up.
  void four_bar_locator() {
    point("four_bar_pivot", "axle", -90, 0, 560);
    point("four_bar_top", "four_bar_crank", -90, 16, 658.7);
    point("four_bar_bottom", "four_bar_crank", -90, -16.8, 461.4);
    point("four_bar_frame_left", "frame", -90, 430, 542.5);
    point("four_bar_frame_right", "frame", -90, -430, 342.5);
    FourBar four_bar;
    four_bar.upper_arm = {"four_bar_frame_left", "four_bar_top"};
    four_bar.lower_arm = {"four_bar_frame_right", "four_bar_bottom"};
    four_bar.pivot = "four_bar_pivot";
    four_bar.axis.fixed = Vec3::UnitX();
    four_bar.carries = "axle";
    part("four_bar", four_bar);
  }

  void guided_steering() {
    bar("tie_rod", BarKind::tie_rod, "tie_rod_ball_left", "tie_rod_ball_right", true);
    guided_bar("steer", 175, "pitman_ball", "pitman", 470, "tie_rod");
    if (choice_.keeper) part("keeper", Keeper{"tie_rod", "axle"});
  }

  void guided_locator() {
    point("locator_near_end", "frame", -90, 430, 600);
    guided_bar("locator", -90, "locator_near_end", "frame", 470, "axle");
  }

  FamilyChoice choice_;
  Truck truck_;
};

}  // namespace

Truck family_truck(const FamilyChoice& choice) {
  return Builder(choice).build();
}

Truck with_other_bushes(Truck truck, std::uint64_t seed) {
  Random random(seed);
  const auto other = [&](double& stiffness) { stiffness *= std::exp2(random.between(-1, 1)); };
  for (BushEntry& bush : truck.bushes) {
    for (double* stiffness : {&bush.radial, &bush.axial, &bush.tilt, &bush.twist})
      other(*stiffness);
  }
  for (Part& part : truck.parts) {
    if (auto* leaf = std::get_if<LeafSpring>(&part.what)) other(leaf->rate);
  }
  return truck;
}

double Random::between(double low, double high) {
  state_ += 0x9e3779b97f4a7c15U;
  std::uint64_t z = state_;
  z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
  z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
  z ^= z >> 31U;
  return low + (high - low) * (static_cast<double>(z >> 11U) * 0x1.0p-53);
}

Truck with_moved_points(Truck truck, std::uint64_t seed, double way) {
  std::set<std::string> precise;
  for (const Part& part : truck.parts) {
    if (const auto* bar = std::get_if<GuidedBar>(&part.what)) {
      precise.insert({bar->near_end, bar->guide_end, bar->middle, bar->pivot, bar->guide.from,
                      bar->guide.to, bar->rocker_pivot});
    }
  }
  Random random(seed);
  for (Point& point : truck.points) {
    const double most = precise.count(point.name) > 0 ? way / 10 : way;
    for (int k = 0; k < 3; ++k) point.at[k] += random.between(-most, most);
  }
  for (Part& part : truck.parts) {
    if (auto* bar = std::get_if<Bar>(&part.what)) bar->length.reset();
  }
  return truck;
}

}  // namespace axlewright::oracle
