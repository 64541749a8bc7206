// Tells which points of a truck matter most for how far its axle walks sideways at the top, in mm of walk per mm of the
// point; then moves the first of them by a millimetre and looks.
//
//   what_matters TRUCK.toml

#include <algorithm>
#include <cmath>
#include <cstdio>

#include <engine/base/number.h>
#include <engine/disk/read_file.h>
#include <engine/study/rig.h>
#include <engine/truck/fault_text.h>

namespace aw = axlewright;

namespace {

constexpr int kTold = 4;
constexpr aw::FixedQuantity kWalk = aw::kAxleWalkSide;

/// The walk at the top of the truck with these settings [m], not a number where it cannot be had.
double walk_at_top(const char* file, const std::vector<aw::Setting>& settings) {
  const aw::Result<aw::Truck> truck = aw::read_truck(file, aw::texts_on_disk(), settings);
  if (!truck) return std::nan("");
  aw::Rig rig(*truck);
  const aw::PoseResult pose = rig.solve({.height = truck->height_range[1]});
  return pose.report.usable() ? pose.values[kWalk] : std::nan("");
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::fputs("usage: what_matters TRUCK.toml\n", stderr);
    return 2;
  }
  const aw::Result<aw::Truck> truck = aw::read_truck(argv[1], aw::texts_on_disk());
  if (!truck) {
    for (const aw::Fault& fault : truck.error()) std::fputs(aw::text_of(fault).c_str(), stderr);
    return 2;
  }

  // Exact slopes of every quantity, from the same factors that closed the pose: no second solve, no step to choose. In a
  // design move the bars follow the point; build_errors() moves each end alone instead.
  aw::Rig rig(*truck);
  std::vector<aw::Influence> moves = rig.design_moves({.height = truck->height_range[1]});
  if (moves.empty()) {
    std::puts("The truck has no pose at the top.");
    return 3;
  }
  std::sort(moves.begin(), moves.end(), [](const aw::Influence& a, const aw::Influence& b) {
    return std::abs(a.per_metre[kWalk]) > std::abs(b.per_metre[kWalk]);
  });

  std::printf("%s: axle walk to the left at the top, per mm of\n", truck->name.c_str());
  for (int k = 0; k < std::min(kTold, static_cast<int>(moves.size())); ++k) {
    const aw::Influence& move = moves[static_cast<std::size_t>(k)];
    std::printf("  %-20s %-6s  %7s mm\n", move.name.c_str(), move.coordinate.c_str(),
                aw::decimal_text(move.per_metre[kWalk], 3, 3).c_str());
  }

  // The same by hand: a setting is what `--set` takes on the command line.
  const std::string setting = moves[0].name + "." + moves[0].coordinate + "=+1mm";
  const double moved = walk_at_top(argv[1], {{setting}}) - walk_at_top(argv[1], {});
  std::printf("Moved and solved anew, %s: %s mm\n", setting.c_str(),
              aw::decimal_text(moved * 1e3, 3, 3).c_str());
}
