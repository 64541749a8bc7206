#include "engine/truck/likely_cause.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "engine/base/index.h"
#include "engine/base/list_text.h"
#include "engine/truck/complaints.h"
#include "engine/truck/fit_measured.h"
#include "engine/truck/measured_chance.h"
#include "engine/truck/measured_misfits.h"
#include "engine/truck/sections.h"
#include "engine/truck/value.h"

namespace axlewright {

namespace {

constexpr const char* kAxes[] = {"x", "y", "z"};

/// A slip that would explain the misfit.
///   what     "y of 'bar_frame' has the wrong sign (470 mm for -470 mm)"
///   subject  what to measure again: "'bar_frame'"
///   is_free  it leaves a number to be chosen
struct Cause {
  std::string what, subject, fix;
  TextPlace place;
  bool is_free = false;
  double cost = 0;
};

/// Equations that miss so much that a slip may be in them: one that leaves all of its equations in peace explains nothing.
std::vector<int> missing_equations(const FitProblem& problem, const Fit& fit) {
  std::vector<int> missing;
  if (fit.report.usable()) {
    constexpr double kNotable = 2;  // deviations
    for (int row = 0; row < fit.reading_normal.size(); ++row) {
      if (std::abs(fit.reading_normal[row]) >= kNotable) missing.push_back(row);
    }
    return missing;
  }
  // The search did not settle: those that miss most where it began.
  constexpr std::size_t kMost = 8;
  const ReadingValues start = problem.evaluate(problem.measured, problem.free);
  const Matrix half = start.by_measured * problem.measured_sigma.asDiagonal();
  const auto size = [&](int row) {
    const double variance =
        half.row(row).squaredNorm() + problem.reading_sigma[row] * problem.reading_sigma[row];
    return std::abs(start.values[row] - problem.readings[row]) / std::sqrt(variance);
  };
  for (int row = 0; row < problem.readings.size(); ++row) missing.push_back(row);
  std::stable_sort(missing.begin(), missing.end(), [&](int a, int b) { return size(a) > size(b); });
  missing.resize(std::min(missing.size(), kMost));
  return missing;
}

/// Tries slips and keeps those that explain the misfit.
class Suspects {
 public:
  Suspects(const MeasuredModel& model, const FitProblem& problem, const Fit& fit, BareUnit unit)
      : model_(model),
        problem_(problem),
        fit_(fit),
        unit_(unit),
        equations_(missing_equations(problem, fit)) {
    for (const int row : equations_) {
      const std::vector<int>& numbers = model.conditions()[index(row)].numbers;
      numbers_.insert(numbers.begin(), numbers.end());
    }
  }

  std::vector<Cause> explaining() {
    try_signs();
    try_exchanged_coordinates();
    try_exchanged_sides();
    try_sleeves();
    try_signs_of_readings();
    try_sweeps();
    try_numbers();
    try_readings();
    std::stable_sort(causes_.begin(), causes_.end(),
                     [](const Cause& a, const Cause& b) { return a.cost < b.cost; });
    return std::move(causes_);
  }

 private:
  int points() const { return static_cast<int>(model_.measured().points.size()); }
  const std::string& name(int point) const { return model_.truck().points[index(point)].name; }
  const MeasuredPoint& measured(int point) const { return model_.measured().points[index(point)]; }
  bool is_suspect(int number) const { return numbers_.count(number) > 0; }

  static std::string quoted(const std::string& name) { return "'" + name + "'"; }
  std::string length(double value) const { return length_words(value, unit_); }

  /// Keeps the slip if the problem with it undone passes both tests. `is_free`: with a number left to be chosen.
  /// What can be made to agree by choosing is charged for it.
  void consider(const FitProblem& without, bool is_free,
                const std::function<Cause(const Fit&)>& tell, bool can_choose = false) {
    Fit fit = axlewright::fit(without);
    if (!fit.report.usable()) return;
    if (is_free) --fit.redundancy;
    if (chances_of(fit).least() < kDoubted) return;
    Cause cause = tell(fit);
    cause.is_free = is_free;
    cause.cost = fit.chi_square + (is_free || can_choose ? kFreedom : 0);
    causes_.push_back(std::move(cause));
  }

  void try_signs() {
    for (int number = 0; number < 3 * points(); ++number) {
      const double value = problem_.measured[number];
      if (!is_suspect(number) || value == 0) continue;
      FitProblem without = problem_;
      without.measured[number] = -value;
      const int point = number / 3, which = number % 3;
      consider(without, false, [&](const Fit&) {
        return Cause{
            fmt::format("{} of '{}' has the wrong sign ({} for {})", kAxes[which], name(point),
                        length(value), length(-value)),
            quoted(name(point)),
            fmt::format("write {} if that is where it is, or measure it again", length(-value)),
            measured(point).places[index(which)]};
      });
    }
  }

  void try_exchanged_coordinates() {
    for (int point = 0; point < points(); ++point) {
      for (const auto& [a, b] : {std::pair(0, 1), std::pair(0, 2), std::pair(1, 2)}) {
        if (!is_suspect(3 * point)) continue;
        FitProblem without = problem_;
        std::swap(without.measured[3 * point + a], without.measured[3 * point + b]);
        if (without.measured[3 * point + a] == problem_.measured[3 * point + a]) continue;
        const int first = a, second = b;
        consider(without, false, [&](const Fit&) {
          return Cause{fmt::format("{} and {} of '{}' are exchanged", kAxes[first], kAxes[second],
                                   name(point)),
                       quoted(name(point)), "write at = [x, y, z]: forward, left, up",
                       measured(point).places[index(first)]};
        });
      }
    }
  }

  /// The places of two points of a pair, each written for the other side.
  void try_exchanged_sides() {
    for (int left = 0; left < points(); ++left) {
      if (side_of(name(left)) <= 0) continue;
      const std::string other = other_side(name(left));
      for (int right = 0; right < points(); ++right) {
        if (name(right) != other || model_.written(right) != right) continue;
        if (!is_suspect(3 * left) && !is_suspect(3 * right)) continue;
        FitProblem without = problem_;
        for (int k = 0; k < 3; ++k) {
          const double sign = k == 1 ? -1 : 1;
          without.measured[3 * left + k] = sign * problem_.measured[3 * right + k];
          without.measured[3 * right + k] = sign * problem_.measured[3 * left + k];
        }
        if (without.measured == problem_.measured) continue;
        consider(without, false, [&](const Fit&) {
          return Cause{
              fmt::format("'{}' and '{}' are exchanged: each is written for the other side",
                          name(left), name(right)),
              quoted(name(left)), "exchange the two, with the signs of their y",
              measured(left).places[0]};
        });
      }
    }
  }

  /// How closely the others tell a reading, its own error with it; endless where the search did not settle.
  double deviation_by_others(int row) const {
    if (!fit_.report.usable() || fit_.reading_normal[row] == 0) return INFINITY;
    return std::abs((fit_.reading_by_others[row] - problem_.readings[row]) /
                    fit_.reading_normal[row]);
  }

  void try_sleeves() {
    for (const int row : equations_) {
      const MeasuredModel::Condition& c = model_.conditions()[index(row)];
      if (c.kind != MeasuredModel::Kind::length || c.part < 0) continue;
      const Part& part = model_.truck().parts[index(c.part)];
      const double sleeve = std::get<Bar>(part.what).sleeve.value_or(0);
      if (sleeve <= 0) continue;
      // Turns so fine that one of them always comes near what the rest says are as good as any number.
      constexpr double kFine = 4;
      const bool is_fine = sleeve < kFine * deviation_by_others(row);
      for (const int turns : {1, -1, 2, -2}) {
        FitProblem without = problem_;
        without.readings[row] += turns * sleeve;
        consider(
            without, false,
            [&](const Fit&) {
              return Cause{
                  fmt::format("the sleeve of the {} was turned after its length was read: the bar "
                              "is {} ({}) {} than {}",
                              part.words, std::abs(turns) == 1 ? "one turn" : "two turns",
                              length(std::abs(turns) * sleeve), turns > 0 ? "longer" : "shorter",
                              length(c.value)),
                  c.words,
                  fmt::format("write {}, or measure the bar again as it stands",
                              length(without.readings[row])),
                  c.place};
            },
            is_fine);
      }
    }
  }

  /// Of angles: which way a slope falls or a frame leans is easily written the other way round.
  void try_signs_of_readings() {
    for (const int row : equations_) {
      const MeasuredModel::Condition& c = model_.conditions()[index(row)];
      if (!c.is_angle() || c.value == 0) continue;
      FitProblem without = problem_;
      without.readings[row] = -c.value;
      consider(without, false, [&](const Fit&) {
        return Cause{fmt::format("{} has the wrong sign ({} for {})", c.words, angle_words(c.value),
                                 angle_words(-c.value)),
                     c.words,
                     fmt::format("write {} if that is what was read, or measure it again",
                                 angle_words(-c.value)),
                     c.place};
      });
    }
  }

  /// All cambers of a sweep at once: what its plates turned to the left was written for the right.
  void try_sweeps() {
    for (std::size_t k = 0; k < model_.measured().readings.size(); ++k) {
      const Reading& reading = model_.measured().readings[k];
      if (reading.kind != ReadingKind::camber_sweep) continue;
      FitProblem without = problem_;
      bool is_suspect = false;
      for (int row = 0; row < without.readings.size(); ++row) {
        if (model_.conditions()[index(row)].reading != static_cast<int>(k)) continue;
        without.readings[row] = -without.readings[row];
        is_suspect =
            is_suspect || std::find(equations_.begin(), equations_.end(), row) != equations_.end();
      }
      if (!is_suspect) continue;
      consider(without, false, [&](const Fit&) {
        return Cause{
            fmt::format("the {} has left and right exchanged, or all its cambers the wrong sign",
                        reading.words),
            reading.words, "exchange the signs of its 'steers', or measure it again",
            reading.place};
      });
    }
  }

  /// As good as not measured.
  static double no_matter(bool is_angle) { return is_angle ? 1.0 : 10.0; }

  void try_numbers() {
    for (int number = 0; number < 3 * points(); ++number) {
      if (!is_suspect(number)) continue;
      FitProblem without = problem_;
      without.measured_sigma[number] = no_matter(false);
      const int point = number / 3, which = number % 3;
      consider(without, true, [&](const Fit& fit) {
        return Cause{fmt::format("{} of '{}' is wrong: {} is written, {} would fit", kAxes[which],
                                 name(point), length(problem_.measured[number]),
                                 length(fit.measured[number])),
                     quoted(name(point)), "measure it again", measured(point).places[index(which)]};
      });
    }
  }

  void try_readings() {
    for (const int row : equations_) {
      const MeasuredModel::Condition& c = model_.conditions()[index(row)];
      // That a point slides on its line is no number that can be wrong.
      if (c.kind == MeasuredModel::Kind::off_line) continue;
      FitProblem without = problem_;
      without.reading_sigma[row] = no_matter(c.is_angle());
      consider(without, true, [&](const Fit& fit) {
        return Cause{fmt::format("{} is wrong: {} is written, {} would fit", c.words,
                                 measured_words(c.value, c.is_angle(), unit_),
                                 measured_words(fit.readings[row], c.is_angle(), unit_)),
                     c.words, "measure it again", c.place};
      });
    }
  }

  const MeasuredModel& model_;
  const FitProblem& problem_;
  const Fit& fit_;
  BareUnit unit_;
  std::vector<int> equations_;  ///< that a slip may be in
  std::set<int> numbers_;       ///< and the measured numbers that they hang on
  std::vector<Cause> causes_;
};

/// The likeliest, and those that are as good; a number that would have to be just what a slip makes of it says nothing more.
std::vector<Cause> likeliest(std::vector<Cause> causes) {
  const auto worse = std::find_if(causes.begin(), causes.end(), [&](const Cause& cause) {
    return cause.cost > causes.front().cost + kAlike;
  });
  causes.erase(worse, causes.end());
  // Slips with nothing to choose first: they say the most.
  std::stable_partition(causes.begin(), causes.end(),
                        [](const Cause& cause) { return !cause.is_free; });
  std::vector<Cause> told;
  for (Cause& cause : causes) {
    const bool said = cause.is_free && std::any_of(told.begin(), told.end(), [&](const Cause& one) {
                        return !one.is_free && one.subject == cause.subject;
                      });
    if (!said) told.push_back(std::move(cause));
  }
  return told;
}

/// What is wrong: one slip, one of few, or one of the numbers named.
std::string causes_words(const std::vector<Cause>& causes) {
  constexpr std::size_t kFew = 3;
  if (causes.size() == 1) return "likeliest, " + causes.front().what;
  std::vector<std::string> what, subjects;
  bool all_free = true;
  for (const Cause& cause : causes) {
    all_free = all_free && cause.is_free;
    what.push_back(cause.what);
    if (std::find(subjects.begin(), subjects.end(), cause.subject) == subjects.end())
      subjects.push_back(cause.subject);
  }
  const std::size_t left_out = what.size() - std::min(what.size(), kFew);
  what.resize(what.size() - left_out);
  std::string text;
  if (all_free && subjects.size() > 1) {
    text = "likeliest, one of these is wrong: " + list_of(subjects, " or ");
  } else {
    text = "likeliest, " + fmt::format("{}", fmt::join(what, "; or "));
    if (left_out > 0) text += fmt::format("; or {} more like these", left_out);
  }
  return text + "; nothing else that was measured tells which";
}

std::string fix_for(const std::vector<Cause>& causes) {
  return causes.size() == 1 ? causes.front().fix : "measure these again";
}

Fault unexplained(const MeasuredModel& model, const std::vector<Misfit>& misfits,
                  const Sources& sources, const std::string& how_bad) {
  constexpr std::size_t kMost = 3;
  std::vector<std::string> worst;
  TextPlace place = model.measured().place;
  for (const int k : worst_of(misfits, kMost)) {
    const Misfit& misfit = misfits[index(k)];
    if (worst.empty()) place = misfit.place;
    worst.push_back(misfit.words);
  }
  return fault_at(
      sources, place, how_bad + "; no single slip explains it",
      fmt::format("measure again{}; or these are known less well than their 'plus_minus' says",
                  worst.empty() ? std::string() : " what misses most: " + list_of(worst)));
}

}  // namespace

Fault contradiction(const MeasuredModel& model, const FitProblem& problem, const Fit& fit,
                    const Sources& sources, BareUnit unit) {
  const std::vector<Misfit> misfits =
      fit.report.usable() ? misfits_of(model, fit) : std::vector<Misfit>();
  const int worst = worst_of(misfits);
  std::string how_bad = "what was measured does not fit together";
  if (worst >= 0) how_bad += ": the worst is " + misfit_words(misfits[index(worst)], unit);
  const std::vector<Cause> causes = likeliest(Suspects(model, problem, fit, unit).explaining());
  if (causes.empty()) return unexplained(model, misfits, sources, how_bad);
  return fault_at(sources, causes.front().place, how_bad + "; " + causes_words(causes),
                  fix_for(causes));
}

}  // namespace axlewright
