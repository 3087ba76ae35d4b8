// Forces of tyres against all sets tried out.
#include "solver/dynamics/contact_forces.h"

#include <limits>
#include <random>

#include "tests/catch.h"

namespace tubewright::contact_forces_test {

namespace {

/// Identity and something small, nearly symmetric, as a structure on tyres has it.
TyreMatrix some_matrix(std::mt19937& random, int n, double size, double skew) {
  std::uniform_real_distribution<double> any(-1, 1);
  const auto filled = [&]() {
    return Eigen::MatrixXd(Eigen::MatrixXd::NullaryExpr(n, n, [&]() { return any(random); }));
  };
  const Eigen::MatrixXd B = filled(), S = filled();
  return Eigen::MatrixXd::Identity(n, n) + size * B * B.transpose() + skew * (S - S.transpose());
}

}  // namespace

TEST_CASE("tyres push or are free, and no other set of them does") {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> any(-1, 1);
  for (int run = 0; run < 2000; ++run) {
    const int n = 1 + run % 6;
    const TyreMatrix A = some_matrix(random, n, run % 3 == 0 ? 2 : 0.05, 0.02);
    const TyreVector r = TyreVector::NullaryExpr(n, [&]() { return any(random); });
    auto touching = static_cast<unsigned>(run) % (1U << static_cast<unsigned>(n));
    const TyreVector F = contact_forces(A, r, touching);
    const TyreVector y = r - A * F;
    for (int i = 0; i < n; ++i) {
      CHECK(F[i] >= 0);
      CHECK(y[i] <= 1e-10);
      CHECK(std::abs(F[i] * y[i]) <= 1e-10);
      if (F[i] > 1e-9) CHECK((touching >> static_cast<unsigned>(i) & 1U) == 1);
    }
    unsigned other = (1U << static_cast<unsigned>(n)) - 1;
    CHECK((contact_forces(A, r, other) - F).norm() < 1e-9);
  }
}

TEST_CASE("tyres that are not eligible have no force") {
  const TyreMatrix A = TyreMatrix::Identity(3, 3);
  const TyreVector r = Eigen::Vector3d(1, 2, -3);
  unsigned touching = 7;
  CHECK((contact_forces(A, r, 5, touching) - Eigen::Vector3d(1, 0, 0)).norm() == 0);
  CHECK(touching == 1);
  unsigned none = 0;
  CHECK(contact_forces(TyreMatrix(0, 0), TyreVector(0), none).size() == 0);
}

TEST_CASE("a matrix that no structure has gives finite forces and an end") {
  std::mt19937 random(9);
  std::uniform_real_distribution<double> any(-1, 1);
  for (int run = 0; run < 400; ++run) {
    const int n = 1 + run % 8;
    const TyreMatrix A = TyreMatrix::NullaryExpr(n, n, [&]() { return any(random); });
    const TyreVector r = TyreVector::NullaryExpr(n, [&]() { return any(random); });
    unsigned touching = 0;
    const TyreVector F = contact_forces(A, r, touching);
    CHECK(F.minCoeff() >= 0);
    CHECK(!F.hasNaN());
  }
  unsigned touching = 3;
  const TyreVector F =
      contact_forces(TyreMatrix::Zero(2, 2), TyreVector(Eigen::Vector2d(1, -1)), touching);
  CHECK(!F.hasNaN());
}

}  // namespace tubewright::contact_forces_test
