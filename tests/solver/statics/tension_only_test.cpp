// The search for slack cables: its step against a plain minimisation of the energy
// 1/2 u'K u + 1/2 sum k max(e, 0)^2 - f'u along the same line.
#include "solver/statics/tension_only.h"

#include <algorithm>
#include <random>

#include "solver/elements/bar_element.h"
#include "solver/statics/assembly.h"
#include "tests/solver/model_builder.h"

namespace tubewright::tension_only_test {

using namespace tubewright::test;

namespace {

/// Nodes in a cloud, links and cables between them.
struct Net : ModelBuilder {
  Eigen::VectorXd u, step, loads;

  explicit Net(unsigned seed) {
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> g(-1, 1);
    for (int i = 0; i < 7; ++i) node(g(random), g(random), g(random));
    for (int i = 0; i < 7; ++i) {
      for (int j = i + 1; j < 7; ++j) bar(i, j, 1e3 * (1.5 + g(random)), g(random) < 0.4);
    }
    const auto vector = [&](double size) {
      return Eigen::VectorXd(Eigen::VectorXd::NullaryExpr(
          dof_count(model), [&](Eigen::Index) { return size * g(random); }));
    };
    u = vector(1e-2);
    step = vector(1e-2);
    loads = vector(30);
    if (slope(0) > 0) step = -step;  // downhill, as Newton's steps are
  }

  double energy(double t) const {
    const Eigen::VectorXd now = u + t * step;
    double sum = -loads.dot(now);
    for (const Bar& b : model.bars) {
      double e = bar_elongation(model, b, now);
      if (b.tension_only) e = std::max(e, 0.0);
      sum += b.stiffness * e * e / 2;
    }
    return sum;
  }

  double slope(double t) const { return (energy(t + 1e-6) - energy(t - 1e-6)) / 2e-6; }

  /// The least energy of a convex function of t > 0, by thirds.
  double least() const {
    double a = 0, b = 1;
    while (energy(2 * b) < energy(b)) b *= 2;
    b *= 2;
    for (int i = 0; i < 200; ++i) {
      const double p = a + (b - a) / 3, q = b - (b - a) / 3;
      (energy(p) < energy(q) ? b : a) = energy(p) < energy(q) ? q : p;
    }
    return (a + b) / 2;
  }
};

}  // namespace

TEST_CASE("a model has cables if any of its bars carries tension only") {
  Net f(1);
  CHECK(has_tension_only(f.model));
  for (Bar& b : f.model.bars) b.tension_only = false;
  CHECK_FALSE(has_tension_only(f.model));
  f.model.bars.clear();
  CHECK_FALSE(has_tension_only(f.model));
}

TEST_CASE("cables that grow shorter are slack, links and cables left as they are never") {
  ModelBuilder b;
  const int o = b.node(0, 0, 0), p = b.node(1, 0, 0), q = b.node(0, 1, 0), r = b.node(0, 0, 1);
  b.bar(o, p, 1e6, true);
  b.bar(o, q, 1e6, true);
  b.bar(r, o, 1e6, true);
  b.bar(q, p, 1e6);
  Eigen::VectorXd u = Eigen::VectorXd::Zero(24);
  CHECK(slack_under(b.model, u) == std::vector<bool>(4, false));
  u[6 * p] = -1e-3;  // shortens the first cable and the link
  u[6 * r + 2] = 1e-3;
  CHECK(slack_under(b.model, u) == std::vector<bool>{true, false, false, false});
  u[6 * r + 2] = -1e-3;
  CHECK(slack_under(b.model, u) == std::vector<bool>{true, false, true, false});
  u[6 * q + 1] = -1e-17;  // rounding
  CHECK(slack_under(b.model, u) == std::vector<bool>{true, false, true, false});
}

TEST_CASE("the energy step reaches the least energy along its line") {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    const Net f(seed);
    const double t = energy_step(f.model, f.u, f.step, f.loads);
    CAPTURE(seed, t);
    CHECK(t > 0);
    CHECK_THAT(t, WithinRel(f.least(), 1e-5));  // half the digits of a minimum are all there are
    CHECK(f.energy(t) <= f.energy(t * 1.001));
    CHECK(f.energy(t) <= f.energy(t * 0.999));
  }
}

TEST_CASE("without cables Newton's step is taken whole") {
  ModelBuilder b;
  const int o = b.node(0, 0, 0), p = b.node(1, 0, 0);
  b.bar(o, p, 2e6);
  Eigen::VectorXd u = Eigen::VectorXd::Zero(12), step = u, loads = u;
  loads[6 * p] = 100;
  step[6 * p] = 100 / 2e6;
  CHECK_THAT(energy_step(b.model, u, step, loads), WithinRel(1.0, 1e-12));
  CHECK_THAT(energy_step(b.model, u, 4 * step, loads), WithinRel(0.25, 1e-12));
}

}  // namespace tubewright::tension_only_test
