#include "engine/solve/fit.h"

#include <cmath>
#include <limits>
#include <optional>

#include <fmt/format.h>

#include "engine/base/invariant.h"

namespace axlewright {
namespace {

constexpr int kMostSteps = 50;
// [m or rad] a step below this is the last; where a number is hardly known, rounding moves it by more.
constexpr double kSettled = 1e-11;
constexpr double kSettledOfDeviation = 1e-9;
// Below this part of a number's error showing, rounding shows as much.
constexpr double kUnchecked = 1e-9;

/// The equations at one place, and what follows from them for the multipliers.
struct Linear {
  Matrix B, A;
  Vector c;
  Matrix weight;      ///< S^-1
  Matrix free_cov;    ///< (A^T S^-1 A)^-1
  Matrix lambda_cov;  ///< S^-1 - S^-1 A (A^T S^-1 A)^-1 A^T S^-1
};

/// Nothing if the readings contradict themselves in form, or do not tell a free number.
std::optional<Linear> linear_at(const FitProblem& p, const Vector& measured, const Vector& free) {
  ReadingValues now = p.evaluate(measured, free);
  Linear linear;
  linear.c = now.values - p.readings - now.by_measured * (measured - p.measured);
  linear.B = std::move(now.by_measured);
  linear.A = std::move(now.by_free);
  const Matrix half = linear.B * p.measured_sigma.asDiagonal();
  Matrix S = half * half.transpose();
  S.diagonal() += p.reading_sigma.cwiseAbs2();
  auto weight = inverse_of_positive(S);
  if (!weight || !linear.c.allFinite()) return std::nullopt;
  linear.weight = std::move(*weight);
  linear.lambda_cov = linear.weight;
  if (free.size() == 0) return linear;
  const Matrix weighted = linear.weight * linear.A;
  auto free_cov = inverse_of_positive(linear.A.transpose() * weighted);
  if (!free_cov) return std::nullopt;
  linear.free_cov = std::move(*free_cov);
  linear.lambda_cov -= weighted * linear.free_cov * weighted.transpose();
  return linear;
}

/// Variance of each measured number's error per its own variance squared: diagonal of B^T cov(lambda) B.
Vector shown_by_measured(const Linear& linear) {
  const Matrix half = linear.lambda_cov * linear.B;
  Vector shown(linear.B.cols());
  for (int i = 0; i < shown.size(); ++i) shown[i] = linear.B.col(i).dot(half.col(i));
  return shown;
}

double over_root(double error, double variance) {
  return variance > 0 ? error / std::sqrt(variance) : 0;
}

void tell_measured(const FitProblem& p, const Linear& linear, const Vector& lambda, Fit& fit) {
  const Vector pull = -(linear.B.transpose() * lambda), shown = shown_by_measured(linear);
  const auto n = p.measured.size();
  fit.measured_normal.setZero(n);
  fit.measured_checked.setZero(n);
  fit.measured_by_others.setConstant(n, std::numeric_limits<double>::quiet_NaN());
  for (int i = 0; i < n; ++i) {
    const double checked = p.measured_sigma[i] * p.measured_sigma[i] * shown[i];
    if (checked < kUnchecked) continue;
    fit.measured_checked[i] = checked;
    fit.measured_normal[i] = over_root(pull[i], shown[i]);
    fit.measured_by_others[i] = p.measured[i] + pull[i] / shown[i];
  }
}

void tell_readings(const FitProblem& p, const Linear& linear, const Vector& lambda, Fit& fit) {
  const auto m = p.readings.size();
  fit.reading_normal.setZero(m);
  fit.reading_checked.setZero(m);
  fit.reading_by_others.setConstant(m, std::numeric_limits<double>::quiet_NaN());
  for (int j = 0; j < m; ++j) {
    const double shown = linear.lambda_cov(j, j);
    const double variance = p.reading_sigma[j] * p.reading_sigma[j];
    // An exact statement's own error never shows, but it can still be false: so it is judged by what would show of it.
    if (shown <= kUnchecked * linear.weight(j, j)) continue;
    fit.reading_checked[j] = variance * shown;
    fit.reading_normal[j] = over_root(lambda[j], shown);
    fit.reading_by_others[j] = p.readings[j] + lambda[j] / shown;
  }
}

void give_up(Fit& fit, Outcome outcome, std::string message) {
  fit.report.outcome = outcome;
  fit.report.message = std::move(message);
}

}  // namespace

Fit fit(const FitProblem& p) {
  AXLEWRIGHT_INVARIANT(p.measured.size() == p.measured_sigma.size());
  AXLEWRIGHT_INVARIANT(p.readings.size() == p.reading_sigma.size());
  Fit fit;
  fit.measured = p.measured;
  fit.free = p.free;
  fit.redundancy = static_cast<int>(p.readings.size() - p.free.size());
  const double settled =
      kSettled + (p.measured.size() > 0 ? kSettledOfDeviation * p.measured_sigma.maxCoeff() : 0.0);
  for (int step = 1; step <= kMostSteps; ++step) {
    const std::optional<Linear> linear = linear_at(p, fit.measured, fit.free);
    if (!linear) {
      give_up(fit, Outcome::singular, "the readings do not tell every number that is asked for");
      return fit;
    }
    Vector ds = Vector::Zero(p.free.size());
    if (p.free.size() > 0)
      ds = -(linear->free_cov * (linear->A.transpose() * (linear->weight * linear->c)));
    const Vector open = linear->c + linear->A * ds;
    const Vector lambda = linear->weight * open;
    const Vector measured =
        p.measured - p.measured_sigma.cwiseAbs2().cwiseProduct(linear->B.transpose() * lambda);
    const Vector change = measured - fit.measured;
    fit.report.iterations = step;
    fit.report.last_step = std::max(change.size() > 0 ? change.cwiseAbs().maxCoeff() : 0.0,
                                    ds.size() > 0 ? ds.cwiseAbs().maxCoeff() : 0.0);
    fit.measured = measured;
    fit.free += ds;
    if (!std::isfinite(fit.report.last_step)) break;
    if (fit.report.last_step > settled) continue;
    fit.readings = p.readings + p.reading_sigma.cwiseAbs2().cwiseProduct(lambda);
    fit.chi_square = std::max(0.0, lambda.dot(open));
    const Vector missed = p.evaluate(fit.measured, fit.free).values - fit.readings;
    fit.report.residual = missed.size() > 0 ? missed.cwiseAbs().maxCoeff() : 0;
    fit.report.outcome = Outcome::converged;
    tell_measured(p, *linear, lambda, fit);
    tell_readings(p, *linear, lambda, fit);
    return fit;
  }
  give_up(fit, Outcome::iteration_limit,
          fmt::format("the search for numbers that fit did not settle in {} steps",
                      fit.report.iterations));
  return fit;
}

Matrix covariance_of(const FitProblem& p, const Fit& fit) {
  AXLEWRIGHT_INVARIANT(fit.report.usable());
  const std::optional<Linear> linear = linear_at(p, fit.measured, fit.free);
  AXLEWRIGHT_INVARIANT(linear.has_value());
  const auto n = p.measured.size(), s = p.free.size();
  const Vector variance = p.measured_sigma.cwiseAbs2();
  const Matrix gain = linear->B * variance.asDiagonal();
  Matrix covariance = Matrix::Zero(n + s, n + s);
  covariance.topLeftCorner(n, n) = -(gain.transpose() * linear->lambda_cov * gain);
  covariance.topLeftCorner(n, n).diagonal() += variance;
  if (s > 0) {
    covariance.topRightCorner(n, s) =
        -(gain.transpose() * (linear->weight * linear->A * linear->free_cov));
    covariance.bottomLeftCorner(s, n) = covariance.topRightCorner(n, s).transpose();
    covariance.bottomRightCorner(s, s) = linear->free_cov;
  }
  return covariance;
}

}  // namespace axlewright
