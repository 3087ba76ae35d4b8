// Mass and stress stiffness of the beam against J. S. Przemieniecki, Theory of Matrix Structural
// Analysis (1968), ch. 11 and 15 (from memory), the mass of rigid motions, and Euler's and
// Engesser's loads (S. P. Timoshenko, J. M. Gere, Theory of Elastic Stability (1961); from memory).
#include "solver/elements/beam_matrices.h"

#include <Eigen/Eigenvalues>
#include <Eigen/Geometry>
#include <cmath>
#include <numbers>

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::beam_matrices_test {

namespace {

constexpr Source gere =
    from_memory("Timoshenko & Gere, Theory of Elastic Stability (1961): Euler, Engesser");

constexpr double pi = std::numbers::pi;

BeamElement element(double shear_area_y, double shear_area_z) {
  BeamElement e;
  e.L = 0.9;
  e.section.A = 4e-4;
  e.section.Iy = 8e-8;
  e.section.Iz = 3e-8;
  e.section.It = 5e-8;
  e.section.Ay = shear_area_y;
  e.section.Az = shear_area_z;
  e.material.E = 200e9;
  e.material.G = 80e9;
  e.material.density = 7850;
  return e;
}

/// Soft enough in shear that Phi is of the order of one.
BeamElement deep() { return element(3e-6, 5e-7); }
BeamElement slender() { return element(rigid, rigid); }

/// The motion of both ends when the member turns by w about a point at `arm` before its `from`.
Vector12 turning(const BeamElement& e, const Eigen::Vector3d& w, double arm) {
  Vector12 u;
  u << w.cross(Eigen::Vector3d(arm, 0, 0)), w, w.cross(Eigen::Vector3d(arm + e.L, 0, 0)), w;
  return u;
}

Vector12 moving(const Eigen::Vector3d& t) {
  Vector12 u;
  u << t, Eigen::Vector3d::Zero(), t, Eigen::Vector3d::Zero();
  return u;
}

/// v1, theta1, v2, theta2 of a matrix in the x-y plane; in the x-z plane theta is -ry.
Eigen::Matrix4d plane(const Matrix12& M, bool xy) {
  const int rows[] = {xy ? 1 : 2, xy ? 5 : 4, xy ? 7 : 8, xy ? 11 : 10};
  const double sign[] = {1, xy ? 1.0 : -1.0, 1, xy ? 1.0 : -1.0};
  Eigen::Matrix4d P;
  for (int i = 0; i < 4; ++i) {
    for (int j = 0; j < 4; ++j) P(i, j) = sign[i] * sign[j] * M(rows[i], rows[j]);
  }
  return P;
}

/// Przemieniecki, eq. 11.29: p = Phi, r2 = (radius of gyration/L)^2, times rho A L.
Eigen::Matrix4d printed_mass(double p, double r2, double L) {
  const double vv = 13.0 / 35 + 7 * p / 10 + p * p / 3 + 6 * r2 / 5;
  const double vt = (11.0 / 210 + 11 * p / 120 + p * p / 24 + (0.1 - p / 2) * r2) * L;
  const double vw = 9.0 / 70 + 3 * p / 10 + p * p / 6 - 6 * r2 / 5;
  const double vs = -(13.0 / 420 + 3 * p / 40 + p * p / 24 - (0.1 - p / 2) * r2) * L;
  const double tt =
      (1.0 / 105 + p / 60 + p * p / 120 + (2.0 / 15 + p / 6 + p * p / 3) * r2) * L * L;
  const double ts =
      (-1.0 / 140 - p / 60 - p * p / 120 + (-1.0 / 30 - p / 6 + p * p / 6) * r2) * L * L;
  Eigen::Matrix4d M;
  M << vv, vt, vw, vs, vt, tt, -vs, ts, vw, -vs, vv, -vt, vs, ts, -vt, tt;
  return M / ((1 + p) * (1 + p));
}

/// The least P at which K - P K_G of a beam between pins, in `pieces`, is singular; x-z plane.
double buckling_load(BeamElement e, int pieces) {
  e.L /= pieces;
  const Eigen::Matrix4d k = plane(local_stiffness(e), false);
  const Eigen::Matrix4d g = plane(local_stress_stiffness(e, 1), false);
  const int n = 2 * (pieces + 1);
  Eigen::MatrixXd K = Eigen::MatrixXd::Zero(n, n), G = K;
  for (int i = 0; i < pieces; ++i) {
    K.block<4, 4>(2 * i, 2 * i) += k;
    G.block<4, 4>(2 * i, 2 * i) += g;
  }
  std::vector<int> free;
  for (int i = 0; i < n; ++i) {
    if (i != 0 && i != n - 2) free.push_back(i);
  }
  const Eigen::MatrixXd Kf = K(free, free), Gf = G(free, free);
  // 1/P is the greatest eigenvalue of G x = mu K x.
  return 1 /
         Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd>(Gf, Kf).eigenvalues().maxCoeff();
}

}  // namespace

TEST_CASE("the consistent mass of a beam is Przemieniecki's, with shear and without") {
  for (const BeamElement& e : {slender(), deep()}) {
    const Matrix12 M = local_mass(e);
    const double m = e.material.density * e.section.A * e.L;
    for (const bool xy : {true, false}) {
      const double I = xy ? e.section.Iz : e.section.Iy;
      const double phi =
          12 * e.material.E * I / (e.material.G * (xy ? e.section.Ay : e.section.Az) * e.L * e.L);
      const Eigen::Matrix4d expected = m * printed_mass(phi, I / (e.section.A * e.L * e.L), e.L);
      CHECK((plane(M, xy) - expected).norm() < 1e-11 * expected.norm());
    }
    CHECK_THAT(M(0, 0), WithinRel(m / 3, 1e-12));
    CHECK_THAT(M(0, 6), WithinRel(m / 6, 1e-12));
    CHECK((M - M.transpose()).norm() < 1e-14 * M.norm());
  }
}

TEST_CASE("a rigid motion of a beam finds its mass and its moments of inertia") {
  for (const BeamElement& e : {slender(), deep()}) {
    const Matrix12 M = local_mass(e);
    const double rho = e.material.density, L = e.L, m = rho * e.section.A * L;
    const auto twice_energy = [&](const Vector12& u) { return u.dot(M * u); };
    for (int d = 0; d < 3; ++d) {
      CHECK_THAT(twice_energy(moving(Eigen::Vector3d::Unit(d))), WithinRel(m, 1e-12));
    }
    const double arm = 0.4, steiner = m * (L * L / 12 + (arm + L / 2) * (arm + L / 2));
    CHECK_THAT(twice_energy(turning(e, Eigen::Vector3d::UnitX(), arm)),
               WithinRel(rho * (e.section.Iy + e.section.Iz) * L, 1e-12));
    CHECK_THAT(twice_energy(turning(e, Eigen::Vector3d::UnitY(), arm)),
               WithinRel(steiner + rho * e.section.Iy * L, 1e-12));
    CHECK_THAT(twice_energy(turning(e, Eigen::Vector3d::UnitZ(), arm)),
               WithinRel(steiner + rho * e.section.Iz * L, 1e-12));
  }
}

TEST_CASE("the stress stiffness of a slender beam is N/30L of 36, 3L, 4L2 and -L2") {
  const BeamElement e = slender();
  const double N = -1234, L = e.L;
  Eigen::Matrix4d expected;
  expected << 36, 3 * L, -36, 3 * L, 3 * L, 4 * L * L, -3 * L, -L * L, -36, -3 * L, 36, -3 * L,
      3 * L, -L * L, -3 * L, 4 * L * L;
  expected *= N / (30 * L);
  const Matrix12 K = local_stress_stiffness(e, N);
  CHECK((plane(K, true) - expected).norm() < 1e-12 * expected.norm());
  CHECK((plane(K, false) - expected).norm() < 1e-12 * expected.norm());
}

TEST_CASE("a stretched beam resists being turned by N L and not being moved or spun") {
  const double N = 500;
  for (const BeamElement& e : {slender(), deep()}) {
    const Matrix12 K = local_stress_stiffness(e, N);
    for (int d = 0; d < 3; ++d) CHECK((K * moving(Eigen::Vector3d::Unit(d))).norm() < 1e-9);
    CHECK((K * turning(e, Eigen::Vector3d::UnitX(), 0.3)).norm() < 1e-9);
    for (int d = 1; d < 3; ++d) {
      const Vector12 u = turning(e, Eigen::Vector3d::Unit(d), 0.3);
      CHECK_THAT(u.dot(K * u), WithinRel(N * e.L, 1e-12));
    }
    Vector12 twist = Vector12::Zero();  // N (Iy + Iz)/A per unit of twist
    twist[9] = 1;
    CHECK_THAT(twist.dot(K * twist),
               WithinRel(N * (e.section.Iy + e.section.Iz) / e.section.A / e.L, 1e-12));
  }
}

TEST_CASE("a column between pins buckles at Euler's load, with shear at Engesser's", "[truth]") {
  const BeamElement e = slender();
  const double euler = pi * pi * e.material.E * e.section.Iy / (e.L * e.L);
  CHECK_THAT(buckling_load(e, 1) / euler, WithinRel(12 / (pi * pi), 1e-9));  // one cubic
  truth("column between pins: critical load, N", gere, buckling_load(e, 16),
        within_rel(euler, 1e-5));
  const BeamElement soft = element(rigid, 2e-6);
  const double engesser = 1 / (1 / euler + 1 / (soft.material.G * soft.section.Az));
  CHECK(engesser < 0.95 * euler);
  truth("column soft in shear: critical load, N", gere, buckling_load(soft, 64),
        within_rel(engesser, 1e-4));
}

TEST_CASE("seen from its joints a hinged beam in tension is a string and keeps its mass") {
  BeamElement e = deep();
  e.axes = Eigen::Quaterniond(0.3, -0.7, 0.5, 0.4).normalized().toRotationMatrix();
  const Matrix12 rotation = rotation_12(e.axes);
  const Matrix12 welded_mass = local_mass(e);
  CHECK((rotation * seen_from_joints(e, welded_mass) * rotation.transpose() - welded_mass).norm() <
        1e-12 * welded_mass.norm());
  for (const int d : {4, 5, 10, 11}) e.connection[d] = 0;
  const double N = 300;
  const Matrix12 string =
      rotation * seen_from_joints(e, local_stress_stiffness(e, N)) * rotation.transpose();
  for (const bool xy : {true, false}) {
    Eigen::Matrix4d expected = Eigen::Matrix4d::Zero();
    expected(0, 0) = expected(2, 2) = N / e.L;
    expected(0, 2) = expected(2, 0) = -N / e.L;
    CHECK((plane(string, xy) - expected).norm() < 1e-9 * N / e.L);
  }
  // Hinges let the section turn, so only rigid motions of the joints are rigid motions of it.
  const Matrix12 M = seen_from_joints(e, welded_mass);
  const Eigen::Vector3d w = Eigen::Vector3d(0, 1, 0), t(0.3, -0.2, 0.7);
  const Vector12 u = turning(e, w, 0) + moving(t);
  const Vector12 global = rotation.transpose() * u;
  CHECK_THAT(global.dot(M * global), WithinRel(u.dot(welded_mass * u), 1e-11));
}

}  // namespace tubewright::beam_matrices_test
