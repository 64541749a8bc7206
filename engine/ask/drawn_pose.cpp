#include "engine/ask/drawn_pose.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "engine/base/did_you_mean.h"
#include "engine/base/index.h"
#include "engine/base/units.h"
#include "engine/study/loose_pose.h"

namespace axlewright {
namespace {

/// How many heights a swept way is drawn through.
constexpr int kSweptHeights = 41;

/// The loose motion of that name, or nothing.
const LooseMotion* find_motion(const Assembly& assembly, const std::string& name) {
  for (const LooseMotion& motion : assembly.loose) {
    if (motion.name == name) return &motion;
  }
  return nullptr;
}

/// A fault where the truck has no point of that name.
std::vector<Fault> unknown_point(const std::string& point, const Expansion& x) {
  if (std::find(x.point_names.begin(), x.point_names.end(), point) != x.point_names.end())
    return {};
  const std::string near = did_you_mean(point, x.point_names);
  return fail(fmt::format("`swept`: there is no point \"{}\" in this truck", point),
              near.empty() ? "name a point of the file" : fmt::format("did you mean \"{}\"?", near))
      .value();
}

}  // namespace

double height_of_range(const Truck& truck, int k, int count) {
  const auto [low, high] = truck.height_range;
  return low + (high - low) * k / (count - 1);
}

std::string no_pose_beside(double height, const Words& words) {
  return fmt::format("There is no pose at height {} to draw beside it.", words.height(height));
}

std::vector<Fault> DrawnPose::go_to(const PoseRequest& request,
                                    const std::optional<AskedMotion>& motion, Json& answer) {
  const PoseResult asked = rig_.solve(request);
  const bool complete = asked.report.usable();
  answer["request"] = json_of(request);
  answer["report"] = json_of(asked.report);
  drawn_ = complete ? asked : rig_.last_on_the_way_to(request);
  if (!complete) {
    answer["story"].push_back(fmt::format("{} has no pose {}: {}.", rig_.truck().name,
                                          words_.place(request), asked.report.message));
  }
  if (motion) {
    if (auto faults = carry_out_motion(*motion); !faults.empty()) return faults;
  }
  if (complete) {
    answer["values"] =
        json_values(rig_.quantities(), motion ? rig_.values_here(drawn_) : drawn_.values);
  }
  now_ = drawn_.report.usable() ? stance_of(rig_, drawn_) : stance_as_measured(rig_);
  answer["drawn"] = json_of(now_.request);
  answer["drawn_text"] = drawn_.report.usable() ? words_.place(now_.request) : "as measured";
  answer["complete"] = complete;
  return {};
}

Json DrawnPose::points() const {
  Json list = Json::array();
  const Expansion& x = rig_.expansion();
  for (std::size_t p = 0; p < x.point_names.size(); ++p) {
    const Anchor& anchor = x.mechanism.anchor(x.point_anchors[p]);
    const std::size_t body = index(anchor.body.value);
    list.push_back(Json{{"name", x.point_names[p]},
                        {"on", x.body_names[body]},
                        {"place_mm", place_mm(now_.bodies[body].place(anchor.at))},
                        {"measured_mm", place_mm(anchor.at)}});
  }
  return list;
}

Result<DrawnTruck> DrawnPose::drawn(const std::vector<std::string>& swept,
                                    std::optional<double> beside) {
  DrawnTruck drawn{rig_.truck(), rig_.expansion(),
                   now_,         beside ? stance_beside(*beside) : std::nullopt,
                   {},           room_of(rig_.truck(), rig_.expansion(), stance_as_measured(rig_))};
  for (const std::string& point : swept) {
    if (auto faults = unknown_point(point, rig_.expansion()); !faults.empty())
      return tl::unexpected(std::move(faults));
    drawn.swept.push_back(swept_way(rig_.expansion(), point, now_, poses_over_heights()));
  }
  return drawn;
}

std::vector<Fault> DrawnPose::carry_out_motion(const AskedMotion& asked) {
  const LooseMotion* motion = find_motion(rig_.follower().assembly(), asked.name);
  if (motion == nullptr) {
    return fail(fmt::format("nothing called \"{}\" is loose in this truck", asked.name),
                "`check` lists what is loose")
        .value();
  }
  if (!drawn_.report.usable() || !carry_out(rig_.follower(), *motion, asked.angle)) {
    return fail(fmt::format("\"{}\" cannot be carried out by {:.1f} deg here", asked.name,
                            to_deg(asked.angle)),
                "ask for a smaller angle, or another pose")
        .value();
  }
  return {};
}

std::optional<Stance> DrawnPose::stance_beside(double height) {
  PoseRequest request;
  request.height = height;
  request.rear_height = now_.request.rear_height;
  const PoseResult pose = rig_.solve(request);
  if (!pose.report.usable()) return std::nullopt;
  return stance_of(rig_, pose);
}

const std::vector<std::vector<Pose>>& DrawnPose::poses_over_heights() {
  if (!over_heights_.empty()) return over_heights_;
  for (int k = 0; k < kSweptHeights; ++k) {
    PoseRequest request;
    request.height = height_of_range(rig_.truck(), k, kSweptHeights);
    if (rig_.solve_place(request).report.usable())
      over_heights_.push_back(rig_.follower().kinematics().pose);
  }
  return over_heights_;
}

}  // namespace axlewright
