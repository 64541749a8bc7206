#include "engine/solve/fit.h"

#include <array>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>

namespace axlewright {
namespace {

constexpr double kRounding = 1e-12;

/// f = B l + A s + offset
FitProblem linear_problem(const Vector& measured, const Vector& measured_sigma,
                          const Vector& readings, const Vector& reading_sigma, const Matrix& B,
                          const Matrix& A) {
  FitProblem p;
  p.measured = measured;
  p.measured_sigma = measured_sigma;
  p.readings = readings;
  p.reading_sigma = reading_sigma;
  p.free = Vector::Zero(A.cols());
  p.evaluate = [B, A](const Vector& l, const Vector& s) {
    return ReadingValues{B * l + A * s, B, A};
  };
  return p;
}

Vector vector_of(std::initializer_list<double> values) {
  Vector v(static_cast<Eigen::Index>(values.size()));
  int k = 0;
  for (const double value : values) v[k++] = value;
  return v;
}

// One number measured twice, 10.0 within 0.3 and 10.5 within 0.4: the mean weighs them by 1/0.09 and 1/0.16, and what they differ by is
// one standard deviation of their difference, 0.5.
TEST(Fit, OfOneNumberMeasuredTwiceIsTheWeightedMean) {
  const Matrix one = Matrix::Identity(1, 1);
  const Fit fit = axlewright::fit(linear_problem(
      vector_of({10.0}), vector_of({0.3}), vector_of({10.5}), vector_of({0.4}), one, Matrix(1, 0)));
  ASSERT_TRUE(fit.report.usable());
  EXPECT_NEAR(fit.measured[0], (10.0 / 0.09 + 10.5 / 0.16) / (1 / 0.09 + 1 / 0.16), kRounding);
  EXPECT_NEAR(fit.readings[0], fit.measured[0], kRounding);
  EXPECT_NEAR(fit.chi_square, 1, kRounding);
  EXPECT_EQ(fit.redundancy, 1);
  EXPECT_NEAR(fit.measured_normal[0], 1, kRounding);
  EXPECT_NEAR(fit.reading_normal[0], -1, kRounding);
  EXPECT_NEAR(fit.measured_checked[0], 0.09 / 0.25, kRounding);
  EXPECT_NEAR(fit.reading_checked[0], 0.16 / 0.25, kRounding);
  EXPECT_NEAR(fit.measured_by_others[0], 10.5, kRounding);
  EXPECT_NEAR(fit.reading_by_others[0], 10.0, kRounding);
}

// The angles of a triangle add up to 180 degrees, exactly: measured alike, each bears a third of what they miss.
TEST(Fit, OfATrianglesAnglesSharesWhatTheyMiss) {
  constexpr double kExact = 1e-9;
  const Fit fit = axlewright::fit(
      linear_problem(vector_of({50.01, 60.02, 70.03}), vector_of({0.1, 0.1, 0.1}), vector_of({180}),
                     vector_of({kExact}), Matrix::Ones(1, 3), Matrix(1, 0)));
  ASSERT_TRUE(fit.report.usable());
  EXPECT_NEAR(fit.measured[0], 49.99, 1e-10);
  EXPECT_NEAR(fit.measured[1], 60.00, 1e-10);
  EXPECT_NEAR(fit.measured[2], 70.01, 1e-10);
  EXPECT_NEAR(fit.chi_square, 0.06 * 0.06 / 0.03, 1e-10);
  EXPECT_NEAR(fit.measured_checked.sum(), 1, 1e-10);
  // False by itself it would be 180.06, all three being right.
  EXPECT_NEAR(fit.reading_by_others[0], 180.06, 1e-9);
}

/// A place seen from five others by its distances, the five measured with errors: what a tape does.
struct Resection {
  std::vector<std::array<double, 2>> from{{0, 0}, {3, 0.2}, {2.5, 2}, {0.3, 2.4}, {-1, 1}};
  Vector measured, sigma, distances, distance_sigma;

  Resection() {
    measured.resize(10);
    sigma.resize(10);
    distances.resize(5);
    distance_sigma.resize(5);
    const std::array<double, 2> truth{1.2, 0.9};
    for (int k = 0; k < 5; ++k) {
      const auto& p = from[static_cast<std::size_t>(k)];
      distances[k] = std::hypot(truth[0] - p[0], truth[1] - p[1]) + 0.002 * std::cos(5.0 * k);
      distance_sigma[k] = 0.001 * (1 + k);
      for (int c = 0; c < 2; ++c) {
        measured[2 * k + c] = p[static_cast<std::size_t>(c)] + 0.003 * std::sin(3.0 * k + c);
        sigma[2 * k + c] = 0.002 + 0.0005 * c;
      }
    }
  }

  static ReadingValues evaluate(const Vector& l, const Vector& s) {
    ReadingValues now{Vector(5), Matrix::Zero(5, 10), Matrix::Zero(5, 2)};
    for (int k = 0; k < 5; ++k) {
      const double x = s[0] - l[2 * k], y = s[1] - l[2 * k + 1], d = std::hypot(x, y);
      now.values[k] = d;
      now.by_free(k, 0) = x / d;
      now.by_free(k, 1) = y / d;
      now.by_measured(k, 2 * k) = -x / d;
      now.by_measured(k, 2 * k + 1) = -y / d;
    }
    return now;
  }

  FitProblem problem() const {
    return {measured, sigma, distances, distance_sigma, vector_of({1.0, 1.0}), evaluate};
  }

  /// All twelve numbers as unknowns, every measured one a row of its own: the usual way, dense.
  Matrix rows_at(const Vector& x, Vector& misses) const {
    const ReadingValues now = evaluate(x.head(10), x.tail(2));
    Matrix rows = Matrix::Zero(15, 12);
    misses.resize(15);
    for (int k = 0; k < 10; ++k) {
      rows(k, k) = 1 / sigma[k];
      misses[k] = (measured[k] - x[k]) / sigma[k];
    }
    for (int k = 0; k < 5; ++k) {
      rows.row(10 + k) << now.by_measured.row(k) / distance_sigma[k],
          now.by_free.row(k) / distance_sigma[k];
      misses[10 + k] = (distances[k] - now.values[k]) / distance_sigma[k];
    }
    return rows;
  }
};

TEST(Fit, AgreesWithTheDenseSolutionOfAllUnknowns) {
  const Resection resection;
  const FitProblem problem = resection.problem();
  const Fit fit = axlewright::fit(problem);
  ASSERT_TRUE(fit.report.usable());
  Vector x(12), misses;
  x << resection.measured, 1.0, 1.0;
  for (int step = 0; step < 40; ++step) {
    const Matrix rows = resection.rows_at(x, misses);
    x += least_norm_solve(rows, misses);
  }
  constexpr double kSame = 1e-10;  // both settle below 1e-11
  EXPECT_LT((fit.measured - x.head(10)).cwiseAbs().maxCoeff(), kSame);
  EXPECT_LT((fit.free - x.tail(2)).cwiseAbs().maxCoeff(), kSame);
  const Matrix rows = resection.rows_at(x, misses);
  EXPECT_NEAR(fit.chi_square, misses.squaredNorm(), 1e-8);
  // Covariance: the inverse of the normal matrix.
  const Matrix normal = rows.transpose() * rows, covariance = covariance_of(problem, fit);
  EXPECT_LT((normal * covariance - Matrix::Identity(12, 12)).cwiseAbs().maxCoeff(), 1e-7);
  EXPECT_NEAR(fit.measured_checked.sum() + fit.reading_checked.sum(), fit.redundancy, 1e-9);
  EXPECT_EQ(fit.redundancy, 3);
}

// Left out of the fit, a number is what the others say it is: so it is told without a second fit.
TEST(Fit, TellsWhatTheOthersSayOfANumber) {
  Matrix B(4, 3);
  B << 1, -1, 0, 0, 1, -1, 1, 0, -1, 1, 1, 1;
  const Vector truth = vector_of({0.4, 1.1, -0.3});
  for (int wrong = 0; wrong < 3; ++wrong) {
    Vector measured = truth;
    measured[wrong] += 0.25;
    const Fit fit = axlewright::fit(linear_problem(measured, Vector::Constant(3, 0.01), B * truth,
                                                   Vector::Constant(4, 0.02), B, Matrix(4, 0)));
    ASSERT_TRUE(fit.report.usable());
    EXPECT_NEAR(fit.measured_by_others[wrong], truth[wrong], kRounding);
    // And its misfit is the largest of all.
    int row = 0;
    fit.measured_normal.cwiseAbs().maxCoeff(&row);
    EXPECT_EQ(row, wrong);
    EXPECT_GT(std::abs(fit.measured_normal[wrong]),
              fit.reading_normal.cwiseAbs().maxCoeff() + 1e-3);
  }
}

TEST(Fit, SaysNothingOfWhatNothingChecks) {
  Matrix B(1, 2);
  B << 1, 0;
  const Fit fit =
      axlewright::fit(linear_problem(vector_of({1, 2}), vector_of({0.1, 0.1}), vector_of({1.05}),
                                     vector_of({0.1}), B, Matrix(1, 0)));
  ASSERT_TRUE(fit.report.usable());
  EXPECT_EQ(fit.measured[1], 2);
  EXPECT_EQ(fit.measured_checked[1], 0);
  EXPECT_EQ(fit.measured_normal[1], 0);
  EXPECT_TRUE(std::isnan(fit.measured_by_others[1]));
}

TEST(Fit, WithoutReadingsLeavesAllAsItIs) {
  const Fit fit = axlewright::fit(linear_problem(vector_of({1, 2}), vector_of({0.1, 0.1}),
                                                 Vector(0), Vector(0), Matrix(0, 2), Matrix(0, 0)));
  ASSERT_TRUE(fit.report.usable());
  EXPECT_EQ(fit.measured, vector_of({1, 2}));
  EXPECT_EQ(fit.redundancy, 0);
}

// Two distances leave a place on either side of their line, but a single one leaves it anywhere on a circle.
TEST(Fit, GivesNoNumbersWhereAFreeOneIsNotTold) {
  Matrix A(1, 2);
  A << 1, 1;
  const Fit fit = axlewright::fit(linear_problem(vector_of({1}), vector_of({0.1}), vector_of({2}),
                                                 vector_of({0.1}), Matrix::Ones(1, 1), A));
  EXPECT_EQ(fit.report.outcome, Outcome::singular);
  EXPECT_FALSE(fit.report.message.empty());
}

// cos l = 2 for an exact statement: every step goes elsewhere.
TEST(Fit, GivesNoNumbersWhereItDoesNotSettle) {
  FitProblem p;
  p.measured = vector_of({0.3});
  p.measured_sigma = vector_of({1});
  p.readings = vector_of({2});
  p.reading_sigma = vector_of({1e-6});
  p.evaluate = [](const Vector& l, const Vector&) {
    return ReadingValues{vector_of({std::cos(l[0])}), Matrix::Constant(1, 1, -std::sin(l[0])),
                         Matrix(1, 0)};
  };
  const Fit fit = axlewright::fit(p);
  EXPECT_EQ(fit.report.outcome, Outcome::iteration_limit);
  EXPECT_FALSE(fit.report.usable());
}

}  // namespace
}  // namespace axlewright
