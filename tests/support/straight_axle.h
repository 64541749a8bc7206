#pragma once

#include <optional>
#include <string>

#include "engine/truck/truck.h"

// A truck for closed forms: its axle only rises, leans and goes sideways (plain joints hold it fore-aft, in pitch and in yaw), so that
// what is seen from the front is exact. Base geometry of the first-hour checks: tie-rod balls 170 straight ahead of the kingpin
// lines at ball height and 1415 apart, sector shaft upright, pitman arm 165 to the rear, gear 16:1, through-link 900.

namespace axlewright::testing {

/// A bar across the truck between a frame end and an axle end that lie in one plane square to x.
struct CrossBar {
  double length = 0.900;  ///< centre to centre [m]
  double drop = 0.060;    ///< frame end above axle end [m]
};

struct StraightAxle {
  double kpi_deg = 0;
  double caster_deg = 0;
  double wheelbase = 4.0;
  double wheels_apart = 1.750;
  /// Sideways: a track bar, or a guided bar with its near end on the frame this far below the pitman ball, or (neither) held.
  std::optional<CrossBar> track_bar = {};
  std::optional<double> locator_below_pitman_ball = {};
  /// Steering: a drag link to the right knuckle, or (none) a guided bar with the pitman ball this far above its pivot.
  std::optional<CrossBar> drag_link = {};
  double steering_drop = 0.270;
  double kingpins_apart = 1.415;  ///< and the tie-rod balls
  double arm = 0.170;             ///< of the knuckles, straight ahead
  double pitman = 0.165;
  double ratio = 16;
};

Truck truck_of(const StraightAxle& shape);

/// For trucks whose axle is held otherwise: takes one of "axle fore-aft", "axle yaw", "axle pitch", "axle sideways" away; adds points
/// and links.
void release(Truck& truck, const std::string& joint);
void add_point(Truck& truck, const std::string& name, const std::string& on, const Vec3& at);
void move_point(Truck& truck, const std::string& name, const Vec3& at);
void add_link(Truck& truck, const std::string& name, const Vec3& on_frame, const Vec3& on_axle);

}  // namespace axlewright::testing
