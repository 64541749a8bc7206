#include "tests/support/truck_files.h"

#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

#include "engine/truck/expand.h"
#include "engine/truck/read.h"

namespace axlewright::testing {

tl::expected<std::string, std::string> text_of_file(const std::string& path) {
  std::ifstream file(path);
  if (!file) return tl::unexpected<std::string>("cannot be opened");
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

std::string source_path(const std::string& path) {
  return std::string(AXLEWRIGHT_ROOT) + "/" + path;
}

Truck truck_of(const std::string& path) {
  const Result<Truck> truck = read_truck(source_path(path), text_of_file);
  if (truck) return *truck;
  for (const Fault& fault : truck.error()) {
    ADD_FAILURE() << path << ":" << fault.line << ": " << fault.what << "; " << fault.fix;
  }
  return {};
}

Vec3 place_of(Rig& rig, const std::string& point) {
  const Expansion& x = rig.expansion();
  for (std::size_t k = 0; k < x.point_names.size(); ++k) {
    if (x.point_names[k] != point) continue;
    const Anchor& anchor = x.mechanism.anchor(x.point_anchors[k]);
    const PathFollower& there = rig.follower();
    return there.kinematics().pose[static_cast<std::size_t>(anchor.body.value)].place(anchor.at);
  }
  ADD_FAILURE() << "no point " << point;
  return Vec3::Zero();
}

}  // namespace axlewright::testing
