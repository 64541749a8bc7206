#include "engine/ask/check_answer.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "engine/ask/fight_answer.h"
#include "engine/ask/guided_answer.h"
#include "engine/ask/held_answer.h"
#include "engine/ask/loose_answer.h"
#include "engine/ask/margin_answer.h"
#include "engine/ask/measured_answer.h"
#include "engine/ask/open.h"
#include "engine/ask/proof_answer.h"
#include "engine/ask/question.h"
#include "engine/base/index.h"
#include "engine/base/units.h"
#include "engine/truck/fitted_file.h"

namespace axlewright {
namespace {

constexpr double kSmallMisfit = 0.05e-3;  // [m] less than one reads off a tape

const char* word_for(Soundness soundness) {
  switch (soundness) {
    case Soundness::sound:
      return "sound";
    case Soundness::under_held:
      return "under-held";
    case Soundness::over_held:
      return "over-held";
    case Soundness::singular:
      return "singular";
  }
  return "";
}

Json counts_json(const Rig& rig) {
  const Assembly& assembly = rig.rolling().assembly();
  const Mechanism& m = rig.expansion().mechanism;
  const auto gauges =
      std::count_if(assembly.system.equations.begin(), assembly.system.equations.end(),
                    [](const Equation& e) { return e.role == EquationRole::gauge; });
  return Json{{"bodies", m.bodies.size()},
              {"joints", m.joints.size()},
              {"coordinates", assembly.system.coordinates},
              {"equations", assembly.system.equation_count() - gauges},
              {"inputs", height_inputs(rig.expansion()).size() + 1},
              {"mobility", assembly.mobility}};
}

Json set_aside_json(const Rig& rig) {
  const Assembly& assembly = rig.rolling().assembly();
  Json list = Json::array();
  for (const int e : assembly.set_aside) {
    const std::string& name = assembly.system.equations[index(e)].name;
    list.push_back(
        Json{{"equation", name},
             {"text", name + ": the other parts hold this already; it is checked at every pose"}});
  }
  return list;
}

/// Bars whose given length wins over their points (definition 3), and by how much the two differ.
Json misfits(const Rig& rig, const Words& words) {
  Json list = Json::array();
  for (const BarPlace& bar : rig.expansion().bars) {
    if (std::abs(bar.given_misfit) < kSmallMisfit) continue;
    list.push_back(Json{
        {"bar", bar.name},
        {"misfit_mm", to_mm(bar.given_misfit)},
        {"text", fmt::format("{}: the length given is {} {} than its points are apart; it wins",
                             bar.words, words.length(bar.given_misfit),
                             bar.given_misfit > 0 ? "longer" : "shorter")}});
  }
  return list;
}

Json joint_json(const Expansion& x, const Joint& joint) {
  const Mechanism& m = x.mechanism;
  const auto name = [&](BodyId body) { return x.body_names[index(body.value)]; };
  Json j{{"name", joint.name},
         {"kind", word_for(joint.kind)},
         {"between", Json::array({name(joint.body_a), name(joint.body_b)})},
         {"holds", held_by(joint.kind)}};
  if (joint.kind == JointKind::distance) {
    j["ends_mm"] = Json::array({place_mm(m.anchor(joint.a).at), place_mm(m.anchor(joint.b).at)});
    j["length_mm"] = to_mm(m.length(joint.length).value);
  } else if (joint.b.value >= 0) {
    j["at_mm"] = place_mm(m.anchor(joint.b).at);
  }
  return j;
}

void expand_into(Json& answer, const Expansion& x) {
  answer["bodies"] = Json::array();
  for (std::size_t b = 0; b < x.body_names.size(); ++b) {
    const BodyId carrier = x.mechanism.bodies[b].carrier;
    answer["bodies"].push_back(
        Json{{"name", x.body_names[b]},
             {"carrier", b == 0 ? Json() : Json(x.body_names[index(carrier.value)])}});
  }
  answer["joints"] = Json::array();
  for (const Joint& joint : x.mechanism.joints) answer["joints"].push_back(joint_json(x, joint));
}

/// The mechanism with the steering wheel held, unless only the one with the road wheels held has something to tell.
const Assembly& telling_assembly(const Rig& rig) {
  const Assembly& held = rig.held().assembly();
  return held.soundness != Soundness::sound ? held : rig.rolling().assembly();
}

std::string not_sound_sentence(const Rig& rig) {
  const Assembly& assembly = telling_assembly(rig);
  if (assembly.soundness != Soundness::sound)
    return fmt::format("{} cannot be computed as it stands: {}.", rig.truck().name,
                       assembly.message);
  return fmt::format("{} closes as measured, but not at its aligned height: {}.", rig.truck().name,
                     rig.aligned_report().message);
}

std::string loose_sentence(const Json& loose) {
  if (loose.empty()) return "With height, lean and steering set, nothing in it can move.";
  std::string text =
      fmt::format("With height, lean and steering set, {} still can move: ",
                  loose.size() == 1 ? "one thing" : fmt::format("{} things", loose.size()));
  for (std::size_t k = 0; k < loose.size(); ++k)
    text += (k == 0 ? "" : " / ") + loose[k]["text"].get<std::string>();
  return text + ".";
}

std::string margin_sentence(const std::vector<Margin>& margins, const Words& words) {
  const Margin* nearest = nullptr;
  for (const Margin& margin : margins) {
    if (margin.by == WayEnd::search) continue;
    const auto part = [](const Margin& m) { return m.margin() / (m.is_angle ? 0.2 : 0.1); };
    if (nearest == nullptr || part(margin) < part(*nearest)) nearest = &margin;
  }
  if (nearest == nullptr)
    return "Nothing in it binds or comes to a dead centre anywhere near what the file asks of it.";
  return fmt::format("Nearest to its end: {}.",
                     json_of(*nearest, words)["text"].get<std::string>());
}

void add_findings(Json& answer, Rig& rig, const Words& words) {
  answer["holds"] = what_holds(rig);
  answer["loose"] = loose_motions(rig, words);
  answer["guided_bars"] = guided_bars(rig, words);
  const std::vector<Margin> margins = find_margins(rig);
  answer["margins"] = Json::array();
  for (const Margin& margin : margins) answer["margins"].push_back(json_of(margin, words));
  std::string held = fmt::format("{}: the linkage closes, and this holds it: ", rig.truck().name);
  for (std::size_t k = 0; k < answer["holds"].size(); ++k)
    held += (k == 0 ? "" : "; ") + answer["holds"][k]["text"].get<std::string>();
  answer["story"].push_back(held + ".");
  answer["story"].push_back(loose_sentence(answer["loose"]));
  answer["story"].push_back(margin_sentence(margins, words));
}

/// What the file that gives the fitted truck shall call the measured one; empty if none is asked for.
Result<std::string> fitted_on_in(const Json& question, const Truck& truck) {
  Result<std::string> name = text_in(question, "fitted_on", "");
  if (!name || name->empty()) return name;
  for (const char* key : {"with", "set"}) {
    if (question.contains(key) && !question[key].empty()) {
      return fail(
          fmt::format("the fitted truck's file stands on the file alone: what '{}' says would "
                      "be lost with it",
                      key),
          "have the file itself say so (--set with --write), or put the kit on top of the "
          "fitted file");
    }
  }
  if (truck.fit) return name;
  return fail("this truck is not fitted: its points are told as they stand in the file",
              "tell how it was measured in [measured], or what was read in [readings]");
}

/// Only a truck that was measured and fitted has any of it.
void add_measured(Json& answer, const Truck& truck, const std::string& fitted_on,
                  const Words& words) {
  if (!truck.fit) return;
  answer["measured"] = measured_json(truck, words);
  answer["story"].push_back(measured_sentence(truck, words));
  if (!fitted_on.empty()) answer["measured"]["file_text"] = fitted_file(truck, fitted_on);
}

}  // namespace

Result<Json> answer_check(const Json& question, const AskContext& context) {
  if (auto faults = unknown_keys(question, {"file", "expand", "fitted_on"}); !faults.empty())
    return tl::unexpected(std::move(faults));
  const Result<std::string> file = text_in(question, "file", "");
  if (!file) return tl::unexpected(file.error());
  const Result<bool> expand = flag_in(question, "expand");
  if (!expand) return tl::unexpected(expand.error());
  Result<Truck> truck = open_truck(question, *file, context);
  if (!truck) return tl::unexpected(std::move(truck.error()));
  const Result<Words> words = words_for(question, *truck);
  if (!words) return tl::unexpected(words.error());
  const Result<std::string> fitted_on = fitted_on_in(question, *truck);
  if (!fitted_on) return tl::unexpected(fitted_on.error());

  Rig rig(std::move(*truck));
  const RangeProof proof = prove_range(rig, context.progress);
  if (proof.cancelled) return fail("stopped before it was done", "ask again");
  const Assembly& assembly = telling_assembly(rig);
  Json answer = answer_head(question, rig.truck(), *words);
  answer["counts"] = counts_json(rig);
  answer["soundness"] = word_for(assembly.soundness);
  answer["message"] = assembly.message;
  answer["set_aside"] = set_aside_json(rig);
  answer["fighting"] = assembly.fighting;
  answer["fights"] = fights(rig, *words);
  answer["misfits"] = misfits(rig, *words);
  add_measured(answer, rig.truck(), *fitted_on, *words);
  answer["aligned"] = json_of(rig.aligned_report());
  answer["proof"] = json_of(proof, rig.truck(), *words);
  if (rig.aligned_report().usable()) {
    add_findings(answer, rig, *words);
  } else {
    answer["story"].push_back(not_sound_sentence(rig));
    answer["loose"] = Json::array();
    for (const LooseMotion& motion : assembly.loose)
      answer["loose"].push_back(
          Json{{"name", motion.name}, {"spin", motion.spin}, {"text", motion.name}});
  }
  if (*expand) expand_into(answer, rig.expansion());
  answer["cautions"] = cautions();
  return answer;
}

}  // namespace axlewright
