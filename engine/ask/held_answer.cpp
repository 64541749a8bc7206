#include "engine/ask/held_answer.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "engine/base/list_text.h"
#include "engine/solve/reactions.h"

namespace axlewright {
namespace {

constexpr double kWorthNaming = 0.2;  // of the part that carries most
constexpr double kAlike = 1e-6;

enum class Pushed { axle, knuckle, rear_axle };

struct Way {
  const char* words;
  Vec3 force, moment;
  Pushed on;
};

struct Carrier {
  std::string part;
  double share = 0;
};

/// What carries a load. `undecided`: parts whose share only elasticity decides, since there are more of them than are needed.
struct Carriers {
  std::vector<Carrier> decided;
  std::vector<std::string> undecided;
};

/// What a joint belongs to in trade words: its guided bar, its four-bar, its tie rod, else itself.
std::string part_of(const Expansion& x, const Joint& joint) {
  for (const GuidedPlace& guided : x.guided) {
    for (const BodyId body : {guided.through, guided.half}) {
      if (body.value > 0 && (joint.body_a == body || joint.body_b == body)) return guided.words;
    }
    if (joint.kind == JointKind::distance && (joint.a == guided.middle || joint.b == guided.middle))
      return guided.words;
  }
  for (const FourBarPlace& four_bar : x.four_bars) {
    if (joint.body_a == four_bar.crank || joint.body_b == four_bar.crank) return four_bar.words;
  }
  // A bar that ends on another bar has its own name.
  if (joint.kind == JointKind::distance) return joint.name;
  for (const LinePlace& line : x.lines) {
    if (joint.body_a == line.body || joint.body_b == line.body) return line.words;
  }
  for (const PartBody& part : x.part_bodies) {
    if (joint.body_a == part.body || joint.body_b == part.body) return part.words;
  }
  return joint.name;
}

/// Whether a body of a bar or part is joined to nothing but frame, axle and the part's own other bodies.
bool stands_between(const Expansion& x, BodyId body) {
  const auto is_of_part = [&](BodyId b) {
    return std::any_of(x.part_bodies.begin(), x.part_bodies.end(),
                       [&](const PartBody& part) { return part.body == b; });
  };
  const bool has_line = std::any_of(x.lines.begin(), x.lines.end(),
                                    [&](const LinePlace& line) { return line.body == body; });
  if (!has_line && !is_of_part(body)) return false;
  return std::all_of(x.mechanism.joints.begin(), x.mechanism.joints.end(), [&](const Joint& j) {
    if (j.body_a != body && j.body_b != body) return true;
    const BodyId other = j.body_a == body ? j.body_b : j.body_a;
    return other == kFrame || other == x.axle || is_of_part(other);
  });
}

/// Whether a part only stands between frame and axle: it locates the axle and steers nothing.
bool locates_the_axle(const Rig& rig, const Joint& joint) {
  const Expansion& x = rig.expansion();
  const auto is_end = [&](BodyId body) {
    return body == kFrame || body == x.axle || stands_between(x, body);
  };
  for (const GuidedPlace& guided : x.guided) {
    const bool belongs = joint.body_a == guided.through || joint.body_b == guided.through ||
                         (guided.half.value > 0 && joint.body_b == guided.half);
    if (!belongs) continue;
    const BodyId carrier = x.mechanism.anchor(guided.pivot).body;
    if (!is_end(carrier)) return false;
    // The other end of its near-end ball.
    for (const Joint& ball : x.mechanism.joints) {
      if (ball.kind != JointKind::ball || ball.b != guided.near_end) continue;
      return is_end(ball.body_a);
    }
  }
  for (const FourBarPlace& four_bar : x.four_bars) {
    if (joint.body_a == four_bar.crank) return is_end(joint.body_b) && is_end(four_bar.carrier);
    if (joint.body_b == four_bar.crank) return is_end(joint.body_a) && is_end(four_bar.carrier);
  }
  return is_end(joint.body_a) && is_end(joint.body_b);
}

/// The parts that carry the load, strongest first. Bars carry along their line; of a part with several joints the strongest
/// counts.
Carriers carriers(const Rig& rig, const Reactions& found, bool steering) {
  const Expansion& x = rig.expansion();
  std::vector<Carrier> list;
  Carriers result;
  for (std::size_t j = 0; j < x.mechanism.joints.size(); ++j) {
    const Joint& joint = x.mechanism.joints[j];
    const bool is_bar = joint.kind == JointKind::distance;
    if (!is_bar && joint.kind != JointKind::ball && joint.kind != JointKind::bush) continue;
    if (steering && locates_the_axle(rig, joint)) continue;
    const std::string part = part_of(x, joint);
    const std::optional<double> force = is_bar ? found.axial[j]
                                        : found.joints[j].force
                                            ? std::optional<double>(found.joints[j].force->norm())
                                            : std::nullopt;
    if (!force) {
      const auto known = std::find(result.undecided.begin(), result.undecided.end(), part);
      if (known == result.undecided.end()) result.undecided.push_back(part);
      continue;
    }
    const auto known =
        std::find_if(list.begin(), list.end(), [&](const Carrier& c) { return c.part == part; });
    if (known == list.end()) {
      list.push_back({part, *force});
    } else if (std::abs(*force) > std::abs(known->share)) {
      known->share = *force;
    }
  }
  // Parts that share alike stay in the file's order: rounding must not decide.
  std::stable_sort(list.begin(), list.end(), [](const Carrier& a, const Carrier& b) {
    return std::round(std::abs(a.share) / kAlike) > std::round(std::abs(b.share) / kAlike);
  });
  const double most = list.empty() ? 0 : std::abs(list.front().share);
  for (const Carrier& carrier : list) {
    // What others share may be most of it: only what carries much of the load itself is named beside them.
    const double least = result.undecided.empty() ? kWorthNaming * most : kWorthNaming;
    if (std::abs(carrier.share) > std::max(least, kAlike)) result.decided.push_back(carrier);
  }
  return result;
}

std::string text_of(const Carriers& by) {
  std::vector<std::string> decided;
  for (const Carrier& carrier : by.decided) decided.push_back(carrier.part);
  if (by.undecided.empty()) return list_of(decided);
  return fmt::format("{}{}{}, in shares that only elasticity decides", list_of(decided),
                     decided.empty() ? "" : "; ", list_of(by.undecided));
}

BodyLoad load_of(const Way& way, const Expansion& x, const PathFollower& there) {
  BodyLoad load;
  load.force = way.force;
  load.moment = way.moment;
  if (way.on == Pushed::rear_axle) {
    load.body = x.rear->body;
    load.place = rear_axle_middle<double>(x, there.design(), there.kinematics());
  } else {
    load.body = way.on == Pushed::knuckle ? x.knuckle.left : x.axle;
    load.place = axle_middle<double>(x, there.design(), there.kinematics());
  }
  return load;
}

}  // namespace

Json what_holds(Rig& rig) {
  static const Way kWays[] = {
      {"the axle sideways", Vec3::UnitY(), Vec3::Zero(), Pushed::axle},
      {"the axle fore-aft", Vec3::UnitX(), Vec3::Zero(), Pushed::axle},
      {"the axle against pitching", Vec3::Zero(), Vec3::UnitY(), Pushed::axle},
      {"the axle against yawing", Vec3::Zero(), Vec3::UnitZ(), Pushed::axle},
      {"the road wheels", Vec3::Zero(), Vec3::UnitZ(), Pushed::knuckle},
      {"the rear axle sideways", Vec3::UnitY(), Vec3::Zero(), Pushed::rear_axle},
      {"the rear axle fore-aft", Vec3::UnitX(), Vec3::Zero(), Pushed::rear_axle},
      {"the rear axle against pitching", Vec3::Zero(), Vec3::UnitY(), Pushed::rear_axle},
      {"the rear axle against yawing", Vec3::Zero(), Vec3::UnitZ(), Pushed::rear_axle},
  };
  Json list = Json::array();
  PoseRequest request = rig.aligned_request();
  request.steer_by =
      rig.expansion().pitman_turn.value >= 0 ? SteerBy::held : SteerBy::straight_ahead;
  if (!rig.solve(request).report.usable()) return list;
  PathFollower& there = rig.follower();
  for (const Way& way : kWays) {
    if (way.on == Pushed::rear_axle && !rig.expansion().rear) continue;
    const BodyLoad load = load_of(way, rig.expansion(), there);
    const Carriers by = carriers(rig, reactions(there, {load}), way.on == Pushed::knuckle);
    Json j;
    j["way"] = way.words;
    j["by"] = Json::array();
    for (const Carrier& carrier : by.decided)
      j["by"].push_back(Json{{"part", carrier.part}, {"share", carrier.share}});
    for (const std::string& part : by.undecided)
      j["by"].push_back(Json{{"part", part}, {"share", Json()}});
    j["text"] = fmt::format("{}: {}", way.words, text_of(by));
    list.push_back(std::move(j));
  }
  return list;
}

}  // namespace axlewright
