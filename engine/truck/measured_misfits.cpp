#include "engine/truck/measured_misfits.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "engine/base/index.h"
#include "engine/base/number.h"
#include "engine/truck/value.h"

namespace axlewright {

namespace {

Misfit misfit_of(const MeasuredModel::Condition& c, const Fit& fit, int row) {
  Misfit misfit;
  misfit.name = c.name;
  misfit.words = c.words;
  misfit.is_angle = c.is_angle();
  misfit.is_exact = c.plus_minus <= 0;
  misfit.value = c.value;
  misfit.fitted = fit.readings[row];
  misfit.plus_minus = c.plus_minus;
  misfit.normal = fit.reading_normal[row];
  misfit.checked = fit.reading_checked[row];
  misfit.by_others = fit.reading_by_others[row];
  misfit.place = c.place;
  return misfit;
}

Misfit misfit_of(const MeasuredModel& model, const Fit& fit, int point, int which) {
  static constexpr const char* kAxes[] = {"x", "y", "z"};
  const MeasuredPoint& measured = model.measured().points[index(point)];
  const std::string& name = model.truck().points[index(point)].name;
  const int row = 3 * point + which;
  Misfit misfit;
  misfit.name = fmt::format("{}.{}", name, kAxes[which]);
  misfit.words = fmt::format("{} of '{}'", kAxes[which], name);
  misfit.is_coordinate = true;
  misfit.value = measured.at[which];
  misfit.fitted = fit.measured[row];
  misfit.plus_minus = measured.plus_minus;
  misfit.normal = fit.measured_normal[row];
  misfit.checked = fit.measured_checked[row];
  misfit.by_others = fit.measured_by_others[row];
  misfit.place = measured.places[index(which)];
  return misfit;
}

}  // namespace

std::vector<Misfit> misfits_of(const MeasuredModel& model, const Fit& fit) {
  std::vector<Misfit> misfits;
  for (std::size_t k = 0; k < model.conditions().size(); ++k)
    misfits.push_back(misfit_of(model.conditions()[k], fit, static_cast<int>(k)));
  for (int point = 0; point < static_cast<int>(model.measured().points.size()); ++point) {
    if (model.written(point) != point || model.measured().points[index(point)].plus_minus <= 0)
      continue;
    for (int which = 0; which < 3; ++which) misfits.push_back(misfit_of(model, fit, point, which));
  }
  return misfits;
}

std::vector<int> worst_of(const std::vector<Misfit>& misfits, std::size_t most) {
  std::vector<int> order;
  for (int k = 0; k < static_cast<int>(misfits.size()); ++k) {
    if (!misfits[index(k)].is_exact && misfits[index(k)].checked > 0) order.push_back(k);
  }
  // Where one equation checks several numbers their misfits are nearly alike: what was read comes first, then the coordinate that it
  // tells most of.
  constexpr double kForKind = 0.05;
  constexpr double kAlike = 1e-6;  // but for rounding
  const auto size = [&](int k) {
    const Misfit& misfit = misfits[index(k)];
    const double less = misfit.is_coordinate ? kForKind * (2 - misfit.checked) : 0;
    return std::round(std::abs(misfit.normal) * (1 - less) / kAlike);
  };
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return size(a) > size(b); });
  if (order.size() > most) order.resize(most);
  return order;
}

int worst_of(const std::vector<Misfit>& misfits) {
  const std::vector<int> worst = worst_of(misfits, 1);
  return worst.empty() ? -1 : worst.front();
}

std::string measured_words(double value, bool is_angle, BareUnit unit) {
  return is_angle ? angle_words(value) : length_words(value, unit);
}

std::string misfit_words(const Misfit& misfit, BareUnit unit) {
  // What the rest says holds near the fit: farther off it tells no number, only that it is far.
  constexpr double kFar = 100;  // times its plus_minus
  if (std::abs(misfit.by_others - misfit.value) > kFar * misfit.plus_minus &&
      misfit.plus_minus > 0) {
    return fmt::format("{}: {} measured, more than {} times its plus_minus from what the rest says",
                       misfit.words, measured_words(misfit.value, misfit.is_angle, unit), kFar);
  }
  // The fit spreads a slip over all that hangs together; what the others say shows it whole.
  const bool told = std::isfinite(misfit.by_others);
  const double should_be = told ? misfit.by_others : misfit.fitted;
  std::string text = fmt::format(
      "{}: {} measured, {} {}", misfit.words, measured_words(misfit.value, misfit.is_angle, unit),
      measured_words(should_be, misfit.is_angle, unit), told ? "by the rest" : "fits");
  if (misfit.plus_minus > 0) {
    text += fmt::format(", {} times its plus_minus away",
                        decimal_text(std::abs(should_be - misfit.value) / misfit.plus_minus, 1, 1));
  }
  return text;
}

}  // namespace axlewright
