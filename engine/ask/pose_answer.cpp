#include "engine/ask/pose_answer.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>
#include <Eigen/Geometry>

#include "engine/ask/open.h"
#include "engine/ask/posed_question.h"
#include "engine/base/index.h"
#include "engine/base/units.h"
#include "engine/solve/linearise.h"

namespace axlewright {
namespace {

Json matrix_json(const Mat3& R) {
  Json rows = Json::array();
  for (int r = 0; r < 3; ++r) rows.push_back(Json::array({R(r, 0), R(r, 1), R(r, 2)}));
  return rows;
}

Json bodies_json(const Rig& rig, const Kinematics& kin) {
  Json list = Json::array();
  for (std::size_t b = 0; b < kin.pose.size(); ++b) {
    const Eigen::AngleAxisd turn(kin.pose[b].R);
    list.push_back(
        Json{{"name", rig.expansion().body_names[b]},
             {"place_mm", place_mm(kin.pose[b].t)},
             {"turn_deg", to_deg(turn.angle())},
             {"turn_axis", Json::array({turn.axis().x(), turn.axis().y(), turn.axis().z()})},
             {"matrix", matrix_json(kin.pose[b].R)}});
  }
  return list;
}

Json points_json(const Rig& rig, const Kinematics& kin) {
  const Expansion& x = rig.expansion();
  Json list = Json::array();
  for (std::size_t p = 0; p < x.point_names.size(); ++p) {
    const Anchor& anchor = x.mechanism.anchor(x.point_anchors[p]);
    const std::size_t body = index(anchor.body.value);
    list.push_back(Json{{"name", x.point_names[p]},
                        {"on", x.body_names[body]},
                        {"place_mm", place_mm(kin.pose[body].place(anchor.at))}});
  }
  return list;
}

Json residuals_json(const PathFollower& there) {
  const Assembly& assembly = there.assembly();
  const Vector all =
      residuals(assembly.system, there.design(), there.state(), there.kinematics(), there.inputs());
  Json list = Json::array();
  for (int e = 0; e < all.size(); ++e) {
    const Equation& equation = assembly.system.equations[index(e)];
    if (equation.role == EquationRole::bush) continue;  // a deflection: no closure
    const bool aside = std::find(assembly.set_aside.begin(), assembly.set_aside.end(), e) !=
                       assembly.set_aside.end();
    list.push_back(Json{{"equation", equation.name},
                        {"residual_m", all[e] * residual_scale(equation)},
                        {"set_aside", aside}});
  }
  return list;
}

std::vector<std::string> story_of(const Rig& rig, const PoseResult& pose, const Words& words) {
  const std::string place = words.place(pose.request);
  if (!pose.report.usable())
    return {fmt::format("{} has no pose {}: {}.", rig.truck().name, place, pose.report.message)};
  const auto value = [&](int quantity) {
    return words.with_sign(rig.quantities()[index(quantity)], pose.values[index(quantity)]);
  };
  std::vector<std::string> story;
  std::string steering = fmt::format("{} {}: ", rig.truck().name, place);
  if (rig.expansion().pitman_turn.value >= 0)
    steering +=
        fmt::format("the steering wheel is {} off centre and ", value(kSteeringWheelOffCentre));
  story.push_back(steering + fmt::format("the road wheels steer {}.", value(kMeanSteer)));
  story.push_back(fmt::format(
      "The axle has walked {} and {}; caster is {} on the left and {} on the right, toe {}.",
      value(kAxleWalkSide), value(kAxleWalkForward), value(kCasterLeft), value(kCasterRight),
      value(kToe)));
  if (rig.expansion().rear)
    story.push_back(fmt::format("The rear axle has walked {} and {}, and drives the truck {}.",
                                value(kRearWalkSide), value(kRearWalkForward),
                                value(kThrustAngle)));
  story.push_back(
      fmt::format("From here a bump of both wheels steers it {}, with the steering wheel held.",
                  value(kBumpSteer)));
  return story;
}

}  // namespace

Result<Json> answer_pose(const Json& question, const AskContext& context) {
  Result<PosedQuestion> posed = posed_question(question, {}, context);
  if (!posed) return tl::unexpected(std::move(posed.error()));
  Rig& rig = posed->rig;
  const PoseResult pose = rig.solve(posed->request);
  Json answer = answer_head(question, rig.truck(), posed->words);
  for (const std::string& sentence : story_of(rig, pose, posed->words))
    answer["story"].push_back(sentence);
  answer["request"] = json_of(pose.request);
  answer["report"] = json_of(pose.report);
  answer["quantities"] = json_of(rig.quantities());
  if (pose.report.usable()) {
    const PathFollower& there = rig.follower();
    answer["values"] = json_values(rig.quantities(), pose.values);
    answer["bodies"] = bodies_json(rig, there.kinematics());
    answer["points"] = points_json(rig, there.kinematics());
    answer["residuals"] = residuals_json(there);
  }
  answer["cautions"] = cautions();
  return answer;
}

}  // namespace axlewright
