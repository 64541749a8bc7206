// Raises a truck from bottom to top and prints what its steering wheel and its axle do on the way.
//
//   raise_truck TRUCK.toml

#include <cstdio>
#include <string>

#include <engine/base/number.h>
#include <engine/base/units.h>
#include <engine/disk/read_file.h>
#include <engine/study/sweep.h>
#include <engine/truck/fault_text.h>

namespace aw = axlewright;

namespace {

// Inside, everything is metre and radian; here is where numbers leave. One decimal, and never "-0.0".
std::string mm(double metres) {
  return aw::decimal_text(aw::to_mm(metres), 1, 1);
}
std::string deg(double radians) {
  return aw::decimal_text(aw::to_deg(radians), 1, 1);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::fputs("usage: raise_truck TRUCK.toml\n", stderr);
    return 2;
  }
  // A truck, or every fault of its file with the place and what to write instead.
  const aw::Result<aw::Truck> truck = aw::read_truck(argv[1], aw::texts_on_disk());
  if (!truck) {
    for (const aw::Fault& fault : truck.error()) std::fputs(aw::text_of(fault).c_str(), stderr);
    return 2;
  }

  // A rig is a truck set up to be asked. What is loose or fights itself has no pose, and says so.
  aw::Rig rig(*truck);
  if (!rig.aligned_report().usable()) {
    std::printf("%s\n", rig.aligned_report().message.c_str());
    return 3;
  }

  // Six heights, and with each the whole grid of travel, lean and steering that the file asks for.
  const aw::Sweep sweep = aw::run_sweep(rig, aw::sweep_plan(*truck, 6));

  std::printf("%s\n\n", sweep.truck.c_str());
  std::printf("  height  steering wheel    axle walk\n");
  std::printf("      mm  deg to the left   mm left   mm forward\n");
  for (const aw::HeightRow& row : sweep.rows) {
    const aw::PoseResult& pose = row.rolling;  // going straight, with the tyres deciding
    if (!pose.report.usable()) {               // nothing unconverged is ever a number
      std::printf("%8s  %s\n", mm(row.height).c_str(), pose.report.message.c_str());
      continue;
    }
    std::printf("%8s  %15s  %8s   %10s\n", mm(row.height).c_str(),
                deg(pose.values[aw::kSteeringWheelOffCentre]).c_str(),
                mm(pose.values[aw::kAxleWalkSide]).c_str(),
                mm(pose.values[aw::kAxleWalkForward]).c_str());
  }

  // The worst place of a quantity is looked for over the whole grid, not straight ahead alone.
  const aw::Extreme& left = sweep.highest[aw::kBumpSteer];
  std::printf("\nMost bump steer to the left: %s deg per 25 mm, at height %s mm, lean %s deg.\n",
              aw::decimal_text(aw::to_deg(left.value), 2, 2).c_str(), mm(left.where.height).c_str(),
              deg(left.where.lean).c_str());
  std::printf("%d poses looked at, %d of them out of reach.\n", sweep.poses, sweep.refused);
}
