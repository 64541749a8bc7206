#include "engine/ask/held_answer.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "engine/solve/reactions.h"

namespace axlewright {
namespace {

constexpr double kWorthNaming = 0.2;  // of the part that carries most
constexpr double kAlike = 1e-6;

struct Way {
  const char* words;
  Vec3 force, moment;
  bool on_knuckle;
};

struct Carrier {
  std::string part;
  double share = 0;
};

/// What a joint belongs to in trade words: its guided bar, its tie rod, else itself.
std::string part_of(const Expansion& x, const Joint& joint) {
  for (const GuidedPlace& guided : x.guided) {
    if (joint.body_a == guided.through || joint.body_b == guided.through) return guided.words;
    if (joint.kind == JointKind::distance && (joint.a == guided.middle || joint.b == guided.middle))
      return guided.words;
  }
  for (const LinePlace& line : x.lines) {
    if (joint.body_a == line.body || joint.body_b == line.body) return line.words;
  }
  return joint.name;
}

/// Whether a part only stands between frame and axle: it locates the axle and steers nothing.
bool locates_the_axle(const Rig& rig, const Joint& joint) {
  const Expansion& x = rig.expansion();
  const auto is_end = [&](BodyId body) { return body == kFrame || body == x.axle; };
  for (const GuidedPlace& guided : x.guided) {
    const bool belongs = joint.body_a == guided.through || joint.body_b == guided.through;
    if (!belongs) continue;
    const BodyId carrier = x.mechanism.anchor(guided.pivot).body;
    if (!is_end(carrier)) return false;
    // The other end of its near-end ball.
    for (const Joint& ball : x.mechanism.joints) {
      if (ball.kind != JointKind::ball || ball.b != guided.near_end) continue;
      return is_end(ball.body_a);
    }
  }
  return is_end(joint.body_a) && is_end(joint.body_b);
}

/// The parts that carry the load, strongest first. Bars carry along their line; of a part with several joints the strongest
/// counts.
std::vector<Carrier> carriers(const Rig& rig, const Reactions& found, bool steering) {
  const Expansion& x = rig.expansion();
  std::vector<Carrier> list;
  for (std::size_t j = 0; j < x.mechanism.joints.size(); ++j) {
    const Joint& joint = x.mechanism.joints[j];
    double force = 0;
    if (found.axial[j]) {
      force = *found.axial[j];
    } else if (joint.kind == JointKind::ball && found.joints[j].force) {
      force = found.joints[j].force->norm();
    }
    if (force == 0 || (steering && locates_the_axle(rig, joint))) continue;
    const std::string part = part_of(x, joint);
    const auto known =
        std::find_if(list.begin(), list.end(), [&](const Carrier& c) { return c.part == part; });
    if (known == list.end()) {
      list.push_back({part, force});
    } else if (std::abs(force) > std::abs(known->share)) {
      known->share = force;
    }
  }
  // Parts that share alike stay in the file's order: rounding must not decide.
  std::stable_sort(list.begin(), list.end(), [](const Carrier& a, const Carrier& b) {
    return std::round(std::abs(a.share) / kAlike) > std::round(std::abs(b.share) / kAlike);
  });
  const double most = list.empty() ? 0 : std::abs(list.front().share);
  list.erase(
      std::remove_if(list.begin(), list.end(),
                     [&](const Carrier& c) { return std::abs(c.share) < kWorthNaming * most; }),
      list.end());
  return list;
}

std::string names_of(const std::vector<Carrier>& list) {
  std::string text;
  for (std::size_t k = 0; k < list.size(); ++k)
    text += (k == 0 ? "" : k + 1 == list.size() ? " and " : ", ") + list[k].part;
  return text;
}

}  // namespace

Json what_holds(Rig& rig) {
  static const Way kWays[] = {
      {"the axle sideways", Vec3::UnitY(), Vec3::Zero(), false},
      {"the axle fore-aft", Vec3::UnitX(), Vec3::Zero(), false},
      {"the axle against pitching", Vec3::Zero(), Vec3::UnitY(), false},
      {"the axle against yawing", Vec3::Zero(), Vec3::UnitZ(), false},
      {"the road wheels", Vec3::Zero(), Vec3::UnitZ(), true},
  };
  Json list = Json::array();
  PoseRequest request;
  request.height = rig.truck().aligned_height;
  request.steer_by =
      rig.expansion().pitman_turn.value >= 0 ? SteerBy::held : SteerBy::straight_ahead;
  if (!rig.solve(request).report.usable()) return list;
  PathFollower& there = rig.follower();
  for (const Way& way : kWays) {
    BodyLoad load;
    load.body = way.on_knuckle ? rig.expansion().knuckle.left : rig.expansion().axle;
    load.force = way.force;
    load.moment = way.moment;
    load.place = axle_middle<double>(rig.expansion(), there.design(), there.kinematics());
    const std::vector<Carrier> by = carriers(rig, reactions(there, {load}), way.on_knuckle);
    Json j;
    j["way"] = way.words;
    j["by"] = Json::array();
    for (const Carrier& carrier : by)
      j["by"].push_back(Json{{"part", carrier.part}, {"share", carrier.share}});
    j["text"] = by.empty()
                    ? fmt::format("{}: shared in a way that only elasticity decides", way.words)
                    : fmt::format("{}: {}", way.words, names_of(by));
    list.push_back(std::move(j));
  }
  return list;
}

}  // namespace axlewright
