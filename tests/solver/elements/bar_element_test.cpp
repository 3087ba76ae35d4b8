// The bar against its true length: force is stiffness times elongation, its stress stiffness what
// a force does by turning; derivatives by finite differences.
#include "solver/elements/bar_element.h"

#include <Eigen/Geometry>
#include <cmath>

#include "tests/catch.h"

namespace tubewright::bar_element_test {

namespace {

struct OneBar {
  Model model;
  Bar bar;

  OneBar() {
    model.nodes = {{0.2, -0.1, 0.4}, {9, 9, 9}, {1.3, 0.8, -0.3}};
    bar.from = 2;
    bar.to = 0;
    bar.stiffness = 3e5;
  }

  /// Its two ends' entries out of six a node.
  Vector12 ends(const Eigen::VectorXd& u) const {
    Vector12 v;
    v << u.segment<6>(6 * bar.from), u.segment<6>(6 * bar.to);
    return v;
  }

  double length(const Vector12& u) const {
    return (model.nodes[bar.to] + u.segment<3>(6) - model.nodes[bar.from] - u.head<3>()).norm();
  }

  /// Potential of a spring of this stiffness, stretched by `stretch` before the ends move.
  double energy(const Vector12& u, double stretch) const {
    const double e = length(u) - length(Vector12::Zero()) + stretch;
    return bar.stiffness * e * e / 2;
  }
};

/// Second derivatives by central differences.
template <typename Energy>
Matrix12 hessian(const Energy& energy, double h) {
  Matrix12 H;
  for (int i = 0; i < 12; ++i) {
    for (int j = 0; j < 12; ++j) {
      const auto at = [&](double a, double b) {
        Vector12 u = Vector12::Zero();
        u[i] += a * h;
        u[j] += b * h;
        return energy(u);
      };
      H(i, j) = (at(1, 1) - at(1, -1) - at(-1, 1) + at(-1, -1)) / (4 * h * h);
    }
  }
  return H;
}

}  // namespace

TEST_CASE("a bar points from its first to its second node") {
  const OneBar b;
  const Eigen::Vector3d n = bar_direction(b.model, b.bar);
  CHECK_THAT(n.norm(), WithinRel(1.0, 1e-15));
  CHECK((b.model.nodes[2] + b.length(Vector12::Zero()) * n - b.model.nodes[0]).norm() < 1e-15);
}

TEST_CASE("a bar's elongation is the change of its length to first order") {
  const OneBar b;
  Eigen::VectorXd u(18);
  for (int i = 0; i < 18; ++i) u[i] = 1e-7 * std::sin(1.0 + 5 * i);
  CHECK_THAT(bar_elongation(b.model, b.bar, u),
             WithinAbs(b.length(b.ends(u)) - b.length(Vector12::Zero()), 1e-13));
}

TEST_CASE("a bar's stiffness and stress stiffness are second derivatives of its energy") {
  const OneBar b;
  constexpr double h = 1e-4;
  const Matrix12 K = bar_stiffness(b.model, b.bar);
  const Matrix12 free = hessian([&](const Vector12& u) { return b.energy(u, 0); }, h);
  CHECK((K - free).norm() < 1e-5 * K.norm());
  for (const double N : {2e4, -2e4}) {
    const double stretch = N / b.bar.stiffness;
    const Matrix12 H = hessian([&](const Vector12& u) { return b.energy(u, stretch); }, h);
    const Matrix12 G = bar_stress_stiffness(b.model, b.bar, N);
    CHECK((H - K - G).norm() < 1e-3 * G.norm());
  }
}

TEST_CASE("a bar pulls nothing on its rotations and nothing when it moves as a whole") {
  const OneBar b;
  const Eigen::Vector3d w(0.2, -0.5, 0.3), t(1, 2, -3);
  Vector12 turn;
  turn << t + w.cross(b.model.nodes[2]), w, t + w.cross(b.model.nodes[0]), w;
  CHECK((bar_stiffness(b.model, b.bar) * turn).norm() < 1e-9 * b.bar.stiffness);
  // N/L across a turn by w: N times how far the force turns, none of it along the bar.
  const Vector12 f = bar_stress_stiffness(b.model, b.bar, 700) * turn;
  const Eigen::Vector3d n = bar_direction(b.model, b.bar);
  CHECK((f.segment<3>(6) - 700 * w.cross(n)).norm() < 1e-10);
  CHECK((f.head<3>() + f.segment<3>(6)).norm() < 1e-10);
  CHECK(f.segment<3>(3).norm() + f.segment<3>(9).norm() == 0);
}

}  // namespace tubewright::bar_element_test
