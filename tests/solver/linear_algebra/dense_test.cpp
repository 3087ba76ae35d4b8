// Small dense systems and eigenproblems against closed forms: the chain matrix tridiag(-1, 2, -1)
// of order n has the eigenvalues 2 - 2 cos(k pi/(n + 1)), the vectors sin(i k pi/(n + 1)) and the
// inverse i (n + 1 - j)/(n + 1), i <= j (any textbook on finite differences; from memory).
#include "solver/linear_algebra/dense.h"

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>

#include "tests/catch.h"

namespace tubewright::dense_test {

namespace {

constexpr double pi = std::numbers::pi;

/// Tridiagonal, `d` on the diagonal and `o` beside it.
Eigen::MatrixXd tridiagonal(int n, double d, double o) {
  Eigen::MatrixXd A = Eigen::MatrixXd::Zero(n, n);
  A.diagonal().setConstant(d);
  A.diagonal(1).setConstant(o);
  A.diagonal(-1).setConstant(o);
  return A;
}

/// |v . w|/(|v| |w|) for the k-th shape of a chain: 1 if they are the same line.
double likeness(const Eigen::VectorXd& v, int k) {
  const auto n = static_cast<int>(v.size());
  Eigen::VectorXd shape(n);
  for (int i = 0; i < n; ++i) shape[i] = std::sin((i + 1) * k * pi / (n + 1));
  return std::abs(v.normalized().dot(shape.normalized()));
}

Eigen::MatrixXd inverse_of_chain(int n) {
  Eigen::MatrixXd X(n, n);
  for (int i = 1; i <= n; ++i) {
    for (int j = 1; j <= n; ++j) X(i - 1, j - 1) = std::min(i, j) * (n + 1.0 - std::max(i, j));
  }
  return X / (n + 1);
}

}  // namespace

TEST_CASE("the eigenvalues of a chain matrix are 2 - 2 cos, ascending, its vectors sines") {
  constexpr int n = 9;
  Eigen::MatrixXd A = tridiagonal(n, 2, -1);
  A(0, n - 1) = 1e6;  // the upper triangle is not read
  const EigenSystem s = symmetric_eigensystem(A);
  for (int k = 1; k <= n; ++k) {
    CHECK_THAT(s.values[k - 1], WithinRel(2 - 2 * std::cos(k * pi / (n + 1)), 1e-12));
    CHECK_THAT(s.vectors.col(k - 1).norm(), WithinRel(1.0, 1e-12));
    CHECK_THAT(likeness(s.vectors.col(k - 1), k), WithinRel(1.0, 1e-12));
  }
}

TEST_CASE("a turned diagonal matrix of three gives its diagonal and its turned axes back") {
  const Eigen::Matrix3d R = Eigen::Quaterniond(0.8, 0.1, -0.5, 0.3).normalized().toRotationMatrix();
  const Eigen::Vector3d values(-4, 1, 7);
  Eigen::Matrix3d A = R * values.asDiagonal() * R.transpose();
  A(0, 2) += 1e3;  // the upper triangle is not read
  const EigenSystem3 s = symmetric_eigensystem(A);
  CHECK((s.values - values).norm() < 1e-12);
  for (int k = 0; k < 3; ++k) {
    CHECK_THAT(std::abs(s.vectors.col(k).dot(R.col(k))), WithinRel(1.0, 1e-12));
  }
}

// A rod held at both ends, of n + 1 linear elements of length h: K = tridiag(-1, 2, -1)/h and
// M = tridiag(1, 4, 1) h/6, both with the sines as vectors, so lambda is the quotient.
TEST_CASE("the frequencies of a rod of linear elements are the quotient of two chain values") {
  constexpr int n = 12;
  constexpr double h = 0.3;
  const Eigen::MatrixXd K = tridiagonal(n, 2 / h, -1 / h);
  const Eigen::MatrixXd M = tridiagonal(n, 4 * h / 6, h / 6);
  const std::optional<EigenSystem> s = symmetric_eigensystem(K, M);
  REQUIRE(s);
  for (int k = 1; k <= n; ++k) {
    const double c = std::cos(k * pi / (n + 1));
    CHECK_THAT(s->values[k - 1], WithinRel(6 / (h * h) * (2 - 2 * c) / (4 + 2 * c), 1e-11));
    CHECK_THAT(likeness(s->vectors.col(k - 1), k), WithinRel(1.0, 1e-11));
  }
  const Eigen::MatrixXd unit = s->vectors.transpose() * M * s->vectors;
  CHECK((unit - Eigen::MatrixXd::Identity(n, n)).norm() < 1e-11);
}

TEST_CASE("the solution of a chain under unit loads is its known inverse") {
  constexpr int n = 7;
  const Eigen::MatrixXd A = tridiagonal(n, 2, -1), X = inverse_of_chain(n);
  const Eigen::MatrixXd one = Eigen::MatrixXd::Identity(n, n);
  CHECK((solve_symmetric(A, one) - X).norm() < 1e-13);
  CHECK((solve_symmetric(Eigen::MatrixXd(-A), one) + X).norm() < 1e-13);  // negative definite
  const Eigen::VectorXd load = one.col(2);
  CHECK((solve_symmetric(A, load) - X.col(2)).norm() < 1e-13);
  CHECK((solve_positive_definite(A, load) - X.col(2)).norm() < 1e-13);
  const Eigen::Matrix3d A3 = tridiagonal(3, 2, -1);
  CHECK((solve_symmetric(A3, Eigen::Vector3d::UnitX()) - Eigen::Vector3d(3, 2, 1) / 4).norm() <
        1e-15);
}

TEST_CASE("a cubic through four points is found although the first pivot is zero") {
  // Rows 0, x, x^2, x^3 for (1, 2, 3) and the value at 0: the pivot in the corner is 0.
  Eigen::Matrix4d A;
  A << 0, 0, 0, 1, 1, 1, 1, 1, 8, 4, 2, 1, 27, 9, 3, 1;
  const Eigen::Vector4d cubic(2, -5, 0.5, 7);
  CHECK((solve_general(A, A * cubic) - cubic).norm() < 1e-12);
}

}  // namespace tubewright::dense_test
