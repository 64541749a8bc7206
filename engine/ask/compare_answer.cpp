#include "engine/ask/compare_answer.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include <fmt/format.h>

#include "engine/ask/open.h"
#include "engine/ask/question.h"
#include "engine/ask/story.h"
#include "engine/ask/sweep_answer.h"
#include "engine/base/list_text.h"
#include "engine/base/units.h"

namespace axlewright {
namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

/// How a quantity is told of a whole sweep.
enum class Told {
  farthest_over_heights,  ///< going straight at every height, farthest from zero
  farthest_over_grid,     ///< over every pose that has it
  change_over_heights     ///< most less least over the heights
};

struct Yardstick {
  const char* words;
  int quantity;
  Told told;
  double alike;  ///< differences below this are none [SI]
};

constexpr double kAngle = 0.05 * kRadiansPerDegree;
constexpr double kRate = 0.005;
constexpr double kBumpRate = 0.005 * kRadiansPerDegree;
constexpr double kWay = 0.5e-3;

constexpr Yardstick kYardsticks[] = {
    {"steering wheel off centre, over the heights", kSteeringWheelOffCentre,
     Told::farthest_over_heights, kAngle},
    {"steering wheel off centre, over the whole grid", kSteeringWheelOffCentre,
     Told::farthest_over_grid, kAngle},
    {"bump steer, over the heights", kBumpSteer, Told::farthest_over_heights, kBumpRate},
    {"bump steer, over the whole grid", kBumpSteer, Told::farthest_over_grid, kBumpRate},
    {"lean steer, over the heights", kLeanSteer, Told::farthest_over_heights, kRate},
    {"axle walk sideways, over the heights", kAxleWalkSide, Told::farthest_over_heights, kWay},
    {"axle walk fore-aft, over the heights", kAxleWalkForward, Told::farthest_over_heights, kWay},
    {"change of caster with height", kCasterLeft, Told::change_over_heights, kAngle},
    {"change of toe with height", kToe, Told::change_over_heights, kAngle},
    {"change of pinion angle with height", kPinionAngle, Told::change_over_heights, kAngle},
    {"change of roll centre with height", kRollCentreHeight, Told::change_over_heights, kWay},
};

/// The first yardstick on a quantity.
std::size_t yardstick_on(int quantity) {
  std::size_t k = 0;
  while (k + 1 < std::size(kYardsticks) && kYardsticks[k].quantity != quantity) ++k;
  return k;
}

double farther(double a, double b) {
  return std::abs(a) >= std::abs(b) ? a : b;
}

double told_of(const Sweep& sweep, const Yardstick& yardstick) {
  const std::size_t k = static_cast<std::size_t>(yardstick.quantity);
  switch (yardstick.told) {
    case Told::farthest_over_heights: {
      const HeightRow* row = farthest_row(sweep, yardstick.quantity);
      return row == nullptr ? kNone : row->rolling.values[k];
    }
    case Told::farthest_over_grid:
      return sweep.lowest[k].found ? farther(sweep.lowest[k].value, sweep.highest[k].value) : kNone;
    case Told::change_over_heights:
      return over_heights(sweep, yardstick.quantity).empty()
                 ? kNone
                 : change_over_heights(sweep, yardstick.quantity);
  }
  return kNone;
}

/// A joint tilt is told of each ball; here the largest of all.
double largest_tilt(const Sweep& sweep) {
  double most = kNone;
  for (std::size_t k = 0; k < sweep.infos.size(); ++k) {
    if (sweep.infos[k].key.rfind("tilt.", 0) != 0 || !sweep.highest[k].found) continue;
    if (!(sweep.highest[k].value <= most)) most = sweep.highest[k].value;
  }
  return most;
}

struct Comparison {
  std::string words;
  QuantityInfo info;
  std::vector<double> worst;  ///< by truck; NaN where it has none
  double alike = 0;
  std::vector<int> order;  ///< the trucks that have it, least magnitude first
  std::size_t best = 0;    ///< how many of them are alike and best; 0 where all are alike

  void judge() {
    for (std::size_t t = 0; t < worst.size(); ++t) {
      if (!std::isnan(worst[t])) order.push_back(static_cast<int>(t));
    }
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return size(a) < size(b); });
    while (best < order.size() && size(order[best]) - size(order.front()) <= alike) ++best;
    if (best == order.size()) best = 0;
  }

  double size(int truck) const { return std::abs(worst[static_cast<std::size_t>(truck)]); }
  bool is_best(int truck) const {
    return std::find(order.begin(), order.begin() + static_cast<long>(best), truck) !=
           order.begin() + static_cast<long>(best);
  }
};

std::vector<Comparison> compare(const std::vector<AskedSweep>& asked) {
  std::vector<Comparison> list;
  for (const Yardstick& yardstick : kYardsticks) {
    Comparison c;
    c.words = yardstick.words;
    c.info = asked.front().sweep.infos[static_cast<std::size_t>(yardstick.quantity)];
    // A change has no side.
    if (yardstick.told == Told::change_over_heights) c.info.positive = c.info.negative = "";
    c.alike = yardstick.alike;
    for (const AskedSweep& one : asked) c.worst.push_back(told_of(one.sweep, yardstick));
    list.push_back(std::move(c));
  }
  Comparison tilt;
  tilt.words = "largest joint tilt, over the whole grid";
  tilt.info = {"tilt", tilt.words, QuantityUnit::angle, "", ""};
  tilt.alike = kAngle;
  for (const AskedSweep& one : asked) tilt.worst.push_back(largest_tilt(one.sweep));
  list.push_back(std::move(tilt));
  for (Comparison& c : list) c.judge();
  return list;
}

/// Names and values of a comparison, for one list of trucks.
struct Teller {
  const std::vector<AskedSweep>& asked;
  const Words& words;

  const std::string& name(int truck) const {
    return asked[static_cast<std::size_t>(truck)].rig.truck().name;
  }
  std::string value(const Comparison& c, int truck) const {
    return words.with_sign(c.info, c.worst[static_cast<std::size_t>(truck)]);
  }

  std::string names(const Comparison& c, std::size_t from, std::size_t to) const {
    std::vector<std::string> list;
    for (std::size_t k = from; k < to; ++k) list.push_back(name(c.order[k]));
    return list_of(list);
  }

  /// Trucks in order that are told alike stand together.
  std::size_t end_of_group(const Comparison& c, std::size_t from) const {
    std::size_t end = from + 1;
    while (end < c.order.size() && value(c, c.order[end]) == value(c, c.order[from])) ++end;
    return end;
  }

  std::string text_of(const Comparison& c) const {
    if (c.order.empty()) return c.words + ": none of them has it";
    if (c.best == 0) return fmt::format("{}: alike, {}", c.words, value(c, c.order.front()));
    return fmt::format("{}: {} {} best with {}, {} worst with {}", c.words, names(c, 0, c.best),
                       c.best == 1 ? "is" : "are", value(c, c.order.front()), name(c.order.back()),
                       value(c, c.order.back()));
  }

  /// "the steering wheel turns 53.7 deg to the left off centre", or that it does nothing of the kind.
  std::string does(const std::vector<Comparison>& list, int truck, int quantity,
                   const char* does_it, const char* does_not) const {
    const Comparison& c = list[yardstick_on(quantity)];
    const double worst = c.worst[static_cast<std::size_t>(truck)];
    if (std::isnan(worst)) return "there is no steering wheel to tell of";
    if (std::abs(worst) < c.alike) return does_not;
    return fmt::format(fmt::runtime(does_it), value(c, truck));
  }

  std::string summary_of(const std::vector<Comparison>& list, int truck) const {
    const Sweep& sweep = asked[static_cast<std::size_t>(truck)].sweep;
    if (over_heights(sweep, kMeanSteer).empty())
      return fmt::format("{}: cannot be posed at any height asked for: {}.", name(truck),
                         sweep.refusals.front().report.message);
    return fmt::format(
        "{}: raised from bottom to top {}, {}; {}, {}.", name(truck),
        does(list, truck, kSteeringWheelOffCentre, "the steering wheel turns {} off centre",
             "the steering wheel stays centred"),
        does(list, truck, kAxleWalkSide, "the axle walks {}", "the axle does not walk"),
        does(list, truck, kBumpSteer, "a bump steers it {}", "a bump does not steer it"),
        does(list, truck, kLeanSteer, "a lean {}", "nor does a lean"));
  }

  /// "Bump steer, over the heights: least in A and B (0.00 deg per 25 mm), then C (0.09 ...), most in D (0.97 ...)."
  std::string verdict_of(const Comparison& c) const {
    std::string text = c.words;
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
    if (c.best == 0) return text_with(text, c);
    text += fmt::format(": least in {} ({})", names(c, 0, c.best), value(c, c.order.front()));
    for (std::size_t k = c.best; k < c.order.size();) {
      const std::size_t end = end_of_group(c, k);
      text += fmt::format(", {} {} ({})", end == c.order.size() ? "most in" : "then",
                          names(c, k, end), value(c, c.order[k]));
      k = end;
    }
    return text + ".";
  }

  std::string text_with(const std::string& head, const Comparison& c) const {
    return c.order.empty() ? head + ": none of them has it."
                           : fmt::format("{}: alike in all, {}.", head, value(c, c.order.front()));
  }
};

Json json_of(const Comparison& c, const Teller& teller) {
  Json worst = Json::array();
  for (const double w : c.worst) worst.push_back(json_value(c.info, w));
  Json j = json_of(c.info);
  j["words"] = c.words;
  j["worst"] = std::move(worst);
  j["best"] = Json::array();
  for (int truck = 0; truck < static_cast<int>(c.worst.size()); ++truck) {
    if (c.is_best(truck)) j["best"].push_back(truck);
  }
  j["text"] = teller.text_of(c);
  return j;
}

/// One sentence a truck on its steering wheel and axle, then which truck is best at what and by how much.
std::vector<std::string> story_of(const std::vector<Comparison>& list, const Teller& teller) {
  std::vector<std::string> story;
  const std::vector<AskedSweep>& asked = teller.asked;
  const std::vector<std::string>& kits = asked.front().rig.truck().kits;
  if (!kits.empty()) story.push_back(fmt::format("{} on each of them.", list_of(kits)));
  for (std::size_t t = 0; t < asked.size(); ++t)
    story.push_back(teller.summary_of(list, static_cast<int>(t)));
  for (const int quantity :
       {kSteeringWheelOffCentre, kBumpSteer, kLeanSteer, kAxleWalkSide, kCasterLeft})
    story.push_back(teller.verdict_of(list[yardstick_on(quantity)]));
  for (const AskedSweep& one : asked) {
    if (!one.sweep.refusals.empty())
      story.push_back(
          fmt::format("{}: {} of its {} poses cannot be had; what is told of it leaves them out.",
                      one.rig.truck().name, one.sweep.refused, one.sweep.poses));
  }
  return story;
}

/// The faults of each platform with the same kits on top. What is wrong on every one is the kit's and told once; what some
/// do not take says which.
std::vector<Fault> faults_of_kits(const std::vector<std::string>& files,
                                  const std::vector<std::vector<Fault>>& by_file) {
  const auto is_same = [](const Fault& a, const Fault& b) {
    return a.file == b.file && a.line == b.line && a.column == b.column && a.what == b.what;
  };
  std::vector<Fault> told;
  std::vector<std::vector<std::string>> on;  // the files that have it
  for (std::size_t t = 0; t < files.size(); ++t) {
    for (const Fault& fault : by_file[t]) {
      std::size_t k = 0;
      while (k < told.size() && !is_same(told[k], fault)) ++k;
      if (k == told.size()) {
        told.push_back(fault);
        on.emplace_back();
      }
      on[k].push_back(files[t]);
    }
  }
  for (std::size_t k = 0; k < told.size(); ++k) {
    const bool is_its_own = on[k].size() == 1 && on[k].front() == told[k].file;
    if (on[k].size() < files.size() && !is_its_own)
      told[k].what += fmt::format(", on {}", list_of(on[k]));
  }
  return told;
}

/// Every truck opened before any is swept, so that all that is wrong with them is told at once.
Result<std::vector<AskedSweep>> open_all(const Json& question,
                                         const std::vector<std::string>& files,
                                         const AskContext& context) {
  std::vector<AskedSweep> asked;
  std::vector<std::vector<Fault>> faults(files.size());
  for (std::size_t t = 0; t < files.size(); ++t) {
    Result<AskedSweep> one = open_sweep(question, files[t], context);
    if (one) {
      asked.push_back(std::move(*one));
    } else {
      faults[t] = std::move(one.error());
    }
  }
  if (asked.size() == files.size()) return asked;
  if (question.contains("with")) return tl::unexpected(faults_of_kits(files, faults));
  std::vector<Fault> all;
  for (const std::vector<Fault>& some : faults) all.insert(all.end(), some.begin(), some.end());
  return tl::unexpected(std::move(all));
}

/// False if it was cancelled.
bool run_all(std::vector<AskedSweep>& asked, const AskedRaise& raise, const AskContext& context) {
  const auto share = [&](std::size_t trucks) {
    return static_cast<double>(trucks) / static_cast<double>(asked.size());
  };
  for (std::size_t t = 0; t < asked.size(); ++t) {
    const Progress progress = part_of(context.progress, share(t), share(t + 1));
    if (!run_asked_sweep(asked[t], raise, progress, context.for_each)) return false;
  }
  return true;
}

}  // namespace

Result<Json> answer_compare(const Json& question, const AskContext& context) {
  std::vector<std::string> keys = {"files"};
  keys.insert(keys.end(), raise_keys().begin(), raise_keys().end());
  if (auto faults = unknown_keys(question, keys); !faults.empty())
    return tl::unexpected(std::move(faults));
  const Result<std::vector<std::string>> files = texts_in(question, "files");
  const Result<AskedRaise> raise = raise_in(question);
  if (!files) return tl::unexpected(files.error());
  if (!raise) return tl::unexpected(raise.error());
  if (files->size() < 2)
    return fail("one truck cannot be compared", "name two truck files or more");

  Result<std::vector<AskedSweep>> asked_or_faults = open_all(question, *files, context);
  if (!asked_or_faults) return tl::unexpected(std::move(asked_or_faults.error()));
  std::vector<AskedSweep>& asked = *asked_or_faults;
  if (!run_all(asked, *raise, context)) return tl::unexpected(stopped());

  const Words& words = asked.front().words;
  const std::vector<Comparison> list = compare(asked);
  const Teller teller{asked, words};
  Json answer;
  answer["ask"] = question["ask"];
  answer["version"] = kAnswerVersion;
  answer["units"] = words.inches ? "inch" : "mm";
  if (!asked.front().rig.truck().kits.empty()) answer["kits"] = asked.front().rig.truck().kits;
  answer["story"] = Json::array();
  for (const std::string& sentence : story_of(list, teller)) answer["story"].push_back(sentence);
  answer["comparison"] = Json::array();
  for (const Comparison& c : list) answer["comparison"].push_back(json_of(c, teller));
  answer["trucks"] = Json::array();
  for (const AskedSweep& one : asked) answer["trucks"].push_back(json_of(question, one));
  answer["cautions"] = cautions();
  return answer;
}

}  // namespace axlewright
