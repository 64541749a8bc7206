#include "engine/ask/story.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/base/index.h"
#include "engine/base/units.h"

namespace axlewright {
namespace {

// Below these a change is not worth a sentence: what a shop cannot measure (common practice, no source).
constexpr double kSmallAngle =
    0.05 * kRadiansPerDegree;  // also a tenth of an angle gauge's reading
constexpr double kSmallWay = 0.5e-3;
constexpr double kSmallRate = 0.005;                           // deg per deg
constexpr double kSmallBumpSteer = 0.005 * kRadiansPerDegree;  // per 25 mm

class Story {
 public:
  Story(const Sweep& sweep, const Truck& truck, const Words& words)
      : sweep_(sweep), truck_(truck), words_(words) {}

  std::vector<std::string> tell() {
    if (over_heights(sweep_, kMeanSteer).empty()) {
      sentences_.push_back(
          fmt::format("{} cannot be posed at any height asked for: {}", truck_.name,
                      sweep_.refusals.empty() ? "no height was asked for"
                                              : sweep_.refusals.front().report.message));
      return std::move(sentences_);
    }
    steering_wheel();
    axle();
    rear_axle();
    alignment();
    bumps();
    leans();
    worst_place();
    refusals();
    limits();
    return std::move(sentences_);
  }

 private:
  const QuantityInfo& info(int quantity) const { return sweep_.infos[index(quantity)]; }
  std::string value(int quantity, double si) const { return words_.with_sign(info(quantity), si); }
  std::string at_height(const HeightRow& row) const {
    return "at height " + words_.height(row.height);
  }

  /// How the rear stands meanwhile; nothing where it stands as measured.
  std::string rear() const {
    if (sweep_.plan.rear_with_front) return ", the rear as much,";
    if (sweep_.plan.rear_height == 0) return "";
    return fmt::format(" with the rear at {}", words_.height(sweep_.plan.rear_height));
  }

  void steering_wheel() {
    const std::string range =
        fmt::format("Raised from {} to {}{}", words_.height(sweep_.plan.heights.front()),
                    words_.height(sweep_.plan.heights.back()), rear());
    const HeightRow* worst = farthest_row(sweep_, kSteeringWheelOffCentre);
    if (worst == nullptr) {
      sentences_.push_back(
          range + ": this truck has no pitman arm, so nothing is told of a steering wheel.");
      return;
    }
    const double off = worst->rolling.values[kSteeringWheelOffCentre];
    if (std::abs(off) < kSmallAngle) {
      sentences_.push_back(
          range +
          " the steering wheel stays centred: the truck goes straight with the wheel straight.");
      return;
    }
    std::string text = fmt::format(
        "{} the steering wheel turns off centre, by up to {} {} with the truck going straight.",
        range, value(kSteeringWheelOffCentre, off), at_height(*worst));
    if (worst->held_steer && std::abs(*worst->held_steer) >= kSmallAngle) {
      text += fmt::format(" Held centred there, it steers the road wheels {}.",
                          value(kMeanSteer, *worst->held_steer));
    }
    sentences_.push_back(text);
  }

  void axle() {
    const HeightRow* side = farthest_row(sweep_, kAxleWalkSide);
    const double walk = side->rolling.values[kAxleWalkSide];
    const double forward = farthest_row(sweep_, kAxleWalkForward)->rolling.values[kAxleWalkForward];
    std::string text =
        std::abs(walk) < kSmallWay
            ? "The axle does not walk sideways"
            : fmt::format("The axle walks {} ({})", value(kAxleWalkSide, walk), at_height(*side));
    if (std::abs(forward) >= kSmallWay)
      text += fmt::format(" and moves {}", value(kAxleWalkForward, forward));
    const double yaw = farthest_row(sweep_, kAxleYaw)->rolling.values[kAxleYaw];
    if (std::abs(yaw) >= kSmallAngle) text += fmt::format(", and turns {}", value(kAxleYaw, yaw));
    sentences_.push_back(text + ".");
  }

  void rear_axle() {
    if (!truck_.rear_wheels) return;
    const HeightRow* side = farthest_row(sweep_, kRearWalkSide);
    const double walk = side->rolling.values[kRearWalkSide];
    const double thrust = farthest_row(sweep_, kThrustAngle)->rolling.values[kThrustAngle];
    std::string text = std::abs(walk) < kSmallWay
                           ? "The rear axle does not walk sideways"
                           : fmt::format("The rear axle walks {} ({})", value(kRearWalkSide, walk),
                                         at_height(*side));
    if (std::abs(thrust) >= kSmallAngle)
      text +=
          fmt::format(" and drives the truck {}: straight ahead the road wheels point there too",
                      value(kThrustAngle, thrust));
    sentences_.push_back(text + ".");
  }

  /// How far the heights have tipped the frame, nose up [rad].
  double tipped_at(double height) const {
    return std::atan((height - rear_height_at(sweep_.plan, height)) / truck_.wheelbase);
  }

  void alignment() {
    const std::vector<double> caster = over_heights(sweep_, kCasterLeft);
    const double change = caster.back() - caster.front();
    std::string text;
    if (std::abs(change) < kSmallAngle) {
      text = fmt::format("Caster stays at {}", value(kCasterLeft, caster.front()));
    } else {
      text = fmt::format("Caster goes from {} to {}", value(kCasterLeft, caster.front()),
                         value(kCasterLeft, caster.back()));
      const double rake =
          tipped_at(sweep_.plan.heights.back()) - tipped_at(sweep_.plan.heights.front());
      // With the rear left down the frame tips nose up and takes the axle along.
      if (std::abs(rake) >= kSmallAngle)
        text += fmt::format(", of which {} is the frame's own tipping (the front alone is raised)",
                            words_.angle(rake));
    }
    const double most =
        std::max({change_over_heights(sweep_, kToe), change_over_heights(sweep_, kCamberLeft),
                  change_over_heights(sweep_, kCamberRight)});
    sentences_.push_back(
        text +
        (most < kSmallAngle
             ? "; toe and camber stay."
             : fmt::format("; toe changes by {} and camber by {}.",
                           words_.angle(change_over_heights(sweep_, kToe)),
                           words_.angle(std::max(change_over_heights(sweep_, kCamberLeft),
                                                 change_over_heights(sweep_, kCamberRight))))));
  }

  void bumps() {
    const HeightRow* worst = farthest_row(sweep_, kBumpSteer);
    const double rate = worst->rolling.values[kBumpSteer];
    if (std::abs(rate) < kSmallBumpSteer) {
      sentences_.push_back("Bumps that both wheels take alike do not steer it.");
      return;
    }
    std::string text = fmt::format("With the steering wheel held, a bump steers it {} ({})",
                                   value(kBumpSteer, rate), at_height(*worst));
    const HeightRow* widest = nullptr;
    for (const HeightRow& row : sweep_.rows) {
      if (row.bump_sweep &&
          (widest == nullptr || std::abs(*row.bump_sweep) > std::abs(*widest->bump_sweep)))
        widest = &row;
    }
    if (widest != nullptr)
      text +=
          fmt::format("; over the whole travel up to {}", value(kMeanSteer, *widest->bump_sweep));
    sentences_.push_back(text + ".");
  }

  void leans() {
    const HeightRow* worst = farthest_row(sweep_, kLeanSteer);
    const double rate = worst->rolling.values[kLeanSteer];
    sentences_.push_back(
        std::abs(rate) < kSmallRate
            ? "A lean does not steer it."
            : fmt::format("Each degree of lean, left side up, steers it {} deg {} ({}).",
                          fmt::format("{:.2f}", std::abs(rate)),
                          rate > 0 ? info(kLeanSteer).positive : info(kLeanSteer).negative,
                          at_height(*worst)));
  }

  void worst_place() {
    const Extreme& low = sweep_.lowest[kSteeringWheelOffCentre];
    const Extreme& high = sweep_.highest[kSteeringWheelOffCentre];
    if (!low.found) return;
    const Extreme& worst = std::abs(low.value) > std::abs(high.value) ? low : high;
    const std::string looked =
        fmt::format("Of all {} poses over height, travel, lean and steering", sweep_.poses);
    if (std::abs(worst.value) < kSmallAngle) {
      sentences_.push_back(looked + " none needs the steering wheel off centre to go straight.");
      return;
    }
    std::string text =
        fmt::format("{} the worst is {}: there it takes the steering wheel {} to go straight",
                    looked, words_.place(worst.where), value(kSteeringWheelOffCentre, worst.value));
    // Told from the gear's centre, as its stops are.
    const double from_centre = worst.value + sweep_.aligned_wheel;
    const double stop = from_centre > 0 ? truck_.gear.stop_left : truck_.gear.stop_right;
    if (stop > 0 && std::abs(from_centre) > stop)
      text += fmt::format(", more than the gear's stop at {} lets it", words_.angle(stop));
    sentences_.push_back(text + ".");
  }

  void refusals() {
    if (sweep_.refusals.empty()) return;
    const Refusal& first = sweep_.refusals.front();
    sentences_.push_back(fmt::format("{} of the {} poses cannot be had, the first {}: {}.",
                                     sweep_.refused, sweep_.poses, words_.place(first.request),
                                     first.report.message));
  }

  void limits() {
    const auto count = [&](Verdict verdict) {
      return std::count_if(sweep_.limits.begin(), sweep_.limits.end(),
                           [&](const LimitResult& result) { return result.verdict == verdict; });
    };
    if (sweep_.limits.empty()) {
      sentences_.push_back("The file sets no limit.");
      return;
    }
    const long broken = count(Verdict::broken), unreached = count(Verdict::not_reached),
               untold = count(Verdict::not_told);
    std::string text = broken == 0
                           ? fmt::format("Of its {} limits none is broken", sweep_.limits.size())
                           : fmt::format("Of its {} limits {} {} broken", sweep_.limits.size(),
                                         broken, broken == 1 ? "is" : "are");
    if (unreached > 0) text += fmt::format(", {} could not be looked at everywhere", unreached);
    if (untold > 0) text += fmt::format(", {} could not be looked at", untold);
    sentences_.push_back(text + ".");
  }

  const Sweep& sweep_;
  const Truck& truck_;
  const Words& words_;
  std::vector<std::string> sentences_;
};

}  // namespace

const HeightRow* farthest_row(const Sweep& sweep, int quantity) {
  const HeightRow* farthest = nullptr;
  double most = -1;
  for (const HeightRow& row : sweep.rows) {
    if (!row.rolling.report.usable()) continue;
    const double size = std::abs(row.rolling.values[index(quantity)]);
    if (size > most) {  // false for NaN
      most = size;
      farthest = &row;
    }
  }
  return farthest;
}

std::vector<double> over_heights(const Sweep& sweep, int quantity) {
  std::vector<double> values;
  for (const HeightRow& row : sweep.rows) {
    if (!row.rolling.report.usable()) continue;
    const double value = row.rolling.values[index(quantity)];
    if (!std::isnan(value)) values.push_back(value);
  }
  return values;
}

double change_over_heights(const Sweep& sweep, int quantity) {
  const std::vector<double> values = over_heights(sweep, quantity);
  if (values.empty()) return 0;
  const auto [least, most] = std::minmax_element(values.begin(), values.end());
  return *most - *least;
}

std::vector<std::string> story_of(const Sweep& sweep, const Truck& truck, const Words& words) {
  return Story(sweep, truck, words).tell();
}

}  // namespace axlewright
