// Small programmes against all their vertices: where n of the rows and bounds hold as equations
// and the others are met. In a box there is an optimum at one of these (any textbook on linear
// programming).
#include "solver/linear_algebra/linear_program.h"

#include <Eigen/LU>
#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <optional>
#include <random>

#include "tests/catch.h"

namespace tubewright::linear_program_test {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using State = LinearAnswer::State;
using Random = std::mt19937;

bool meets_all(const LinearProgram& p, const VectorXd& x) {
  constexpr double rounding = 1e-9;
  return (p.rows * x - p.least).minCoeff() >= -rounding && (x - p.lo).minCoeff() >= -rounding &&
         (p.up - x).minCoeff() >= -rounding;
}

/// Cost of the cheapest vertex; none: there is no x.
std::optional<double> cheapest_vertex(const LinearProgram& p) {
  const Index n = p.rows.cols(), m = p.rows.rows();
  MatrixXd all(m + 2 * n, n);
  all << p.rows, MatrixXd::Identity(n, n), MatrixXd::Identity(n, n);
  VectorXd sides(m + 2 * n);
  sides << p.least, p.lo, p.up;
  std::optional<double> best;
  for (unsigned set = 0; set < 1U << (m + 2 * n); ++set) {
    if (std::popcount(set) != n) continue;
    MatrixXd A(n, n);
    VectorXd b(n);
    for (Index i = 0, row = 0; i < m + 2 * n; ++i) {
      if ((set >> i & 1U) == 0) continue;
      A.row(row) = all.row(i);
      b[row++] = sides[i];
    }
    const Eigen::FullPivLU<MatrixXd> lu(A);
    if (!lu.isInvertible()) continue;
    const VectorXd x = lu.solve(b);
    if (meets_all(p, x)) best = std::min(best.value_or(INFINITY), p.cost.dot(x));
  }
  return best;
}

/// Up to 4 columns and 1 to 5 rows; whole numbers, with many a zero, make many ties.
LinearProgram random_program(Random& random, bool whole_numbers) {
  const auto n = std::uniform_int_distribution<Index>(1, 4)(random);
  const auto m = std::uniform_int_distribution<Index>(1, 5)(random);
  std::uniform_real_distribution<double> real(-3, 3);
  const auto number = [&] { return whole_numbers ? std::trunc(real(random)) : real(random); };
  LinearProgram p;
  p.cost = VectorXd::NullaryExpr(n, number);
  p.rows = MatrixXd::NullaryExpr(m, n, number);
  p.least = VectorXd::NullaryExpr(m, number);
  p.lo = VectorXd::NullaryExpr(n, number);
  p.up = p.lo + 2 * VectorXd::NullaryExpr(n, number).cwiseAbs();  // some with lo == up
  return p;
}

/// y'b + sum min over the box of (c - A'y)_j x_j.
double dual_value(const LinearProgram& p, const VectorXd& y) {
  const VectorXd r = p.cost - p.rows.transpose() * y;
  return y.dot(p.least) + r.cwiseProduct(p.lo).cwiseMin(r.cwiseProduct(p.up)).sum();
}

/// Whether the rows summed up with these multipliers ask for more than the box can give.
bool proves_that_nothing_meets(const LinearProgram& p, const VectorXd& y) {
  const VectorXd sum = p.rows.transpose() * y;
  return y.minCoeff() >= 0 &&
         y.dot(p.least) > sum.cwiseProduct(p.lo).cwiseMax(sum.cwiseProduct(p.up)).sum();
}

LinearProgram box_of(const VectorXd& cost, const VectorXd& lo, const VectorXd& up) {
  return {cost, MatrixXd(0, cost.size()), VectorXd(0), lo, up};
}

}  // namespace

TEST_CASE("random programmes end at the cheapest of all their vertices, or at none as these do") {
  Random random(20240611);
  int with_answer = 0, without = 0;
  for (int trial = 0; trial < 600; ++trial) {
    const LinearProgram p = random_program(random, trial % 2 == 0);
    const std::optional<double> best = cheapest_vertex(p);
    const LinearAnswer answer = solve(p);
    INFO("trial " << trial);
    ++(best ? with_answer : without);
    if (best) {
      REQUIRE(answer.state == State::optimal);
      CHECK_THAT(answer.bound, WithinAbs(*best, 1e-8));
      CHECK(answer.bound <= *best + 1e-12 * (1 + std::abs(*best)));
      CHECK(meets_all(p, answer.x));
      CHECK_THAT(p.cost.dot(answer.x), WithinAbs(*best, 1e-8));
    } else {
      REQUIRE(answer.state == State::infeasible);
      CHECK(answer.bound == std::numeric_limits<double>::infinity());
      CHECK(proves_that_nothing_meets(p, answer.multipliers));
    }
  }
  CHECK(with_answer > 150);
  CHECK(without > 100);
}

TEST_CASE("the bound is what the multipliers prove, and the reduced costs are theirs") {
  Random random(7);
  int rows_at_work = 0;
  for (int trial = 0; trial < 1000; ++trial) {
    const LinearProgram p = random_program(random, trial % 2 == 0);
    const LinearAnswer answer = solve(p);
    if (answer.state == State::infeasible) continue;
    INFO("trial " << trial);
    CHECK(answer.multipliers.minCoeff() >= 0);
    CHECK((answer.reduced_cost - (p.cost - p.rows.transpose() * answer.multipliers)).norm() <
          1e-12);
    CHECK_THAT(answer.bound, WithinAbs(dual_value(p, answer.multipliers), 1e-9));
    if (answer.multipliers.maxCoeff() > 0) ++rows_at_work;
  }
  CHECK(rows_at_work > 100);
}

TEST_CASE("rows and costs of very different sizes give the same answer in other units") {
  Random random(99);
  std::uniform_real_distribution<double> power(-6, 6);
  int compared = 0;
  for (int trial = 0; trial < 200; ++trial) {
    const LinearProgram p = random_program(random, false);
    LinearProgram q = p;
    for (Index i = 0; i < q.rows.rows(); ++i) {
      const double unit = std::pow(10, power(random));
      q.rows.row(i) *= unit;
      q.least[i] *= unit;
    }
    const double currency = std::pow(10, power(random));
    q.cost *= currency;
    const std::optional<double> best = cheapest_vertex(p);
    const LinearAnswer answer = solve(q);
    INFO("trial " << trial);
    REQUIRE((answer.state == State::infeasible) == !best);
    if (!best) continue;
    CHECK_THAT(answer.bound / currency, WithinAbs(*best, 1e-8));
    ++compared;
  }
  CHECK(compared > 50);
}

TEST_CASE("without rows every x goes to its cheaper bound") {
  const LinearAnswer answer = solve(
      box_of(Eigen::Vector3d(2, -3, 0), Eigen::Vector3d(-1, -2, 4), Eigen::Vector3d(5, 7, 6)));
  CHECK(answer.state == State::optimal);
  CHECK(answer.x[0] == -1);
  CHECK(answer.x[1] == 7);
  CHECK_THAT(answer.bound, WithinRel(-2.0 - 21, 1e-9));
  CHECK(answer.multipliers.size() == 0);
  CHECK((answer.reduced_cost - Eigen::Vector3d(2, -3, 0)).norm() == 0);
}

TEST_CASE("without columns the rows are met if they ask for nothing") {
  LinearProgram p;
  p.rows.resize(2, 0);
  p.least = Eigen::Vector2d(-1, 0);
  CHECK(solve(p).state == State::optimal);
  CHECK(solve(p).bound == 0);
  CHECK(solve(p).multipliers.size() == 2);
  p.least[1] = 1;
  CHECK(solve(p).state == State::infeasible);
  CHECK(solve(p).bound == std::numeric_limits<double>::infinity());
  p.rows.resize(0, 0);
  p.least.resize(0);
  CHECK(solve(p).state == State::optimal);
}

TEST_CASE("where the box is a point that is the answer, or nothing is") {
  LinearProgram p = box_of(Eigen::Vector2d(1, 2), Eigen::Vector2d(3, 4), Eigen::Vector2d(3, 4));
  p.rows = Eigen::RowVector2d(1, 1);
  p.least = Eigen::VectorXd::Constant(1, 7);
  CHECK(solve(p).state == State::optimal);
  CHECK_THAT(solve(p).bound, WithinRel(11, 1e-9));
  p.least[0] = 7.01;
  CHECK(solve(p).state == State::infeasible);
}

TEST_CASE("a row of zeros is met or cannot be, and alike rows are as one") {
  LinearProgram p = box_of(Eigen::Vector2d(1, 2), Eigen::Vector2d(0, 0), Eigen::Vector2d(1, 1));
  p.rows = MatrixXd::Zero(3, 2);
  p.rows.row(1) << 1, 1;
  p.rows.row(2) << 2, 2;
  p.least = Eigen::Vector3d(-1, 1.5, 3);
  CHECK(solve(p).state == State::optimal);
  CHECK_THAT(solve(p).bound, WithinRel(1 + 2 * 0.5, 1e-9));
  p.least[0] = 1;
  CHECK(solve(p).state == State::infeasible);
}

}  // namespace tubewright::linear_program_test
