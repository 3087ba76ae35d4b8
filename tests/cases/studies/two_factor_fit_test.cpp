// Springs in series whose stiffnesses are known: the fit has to find them again, and to say where
// it cannot. Condition and error by hand.
#include "cases/studies/two_factor_fit.h"

#include <cmath>
#include <random>

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::two_factor_fit_test {

namespace {

constexpr Source series = rederived("springs in series, r = a + b/k1 + c/k2, solved for k1 and k2");

/// Readings of gauges that each see a stiff part and two springs: a + b/k1 + c/k2.
struct Gauges {
  std::vector<double> a, b, c;

  std::vector<double> at(const std::array<double, 2>& k) const {
    std::vector<double> readings;
    for (std::size_t i = 0; i < a.size(); ++i) readings.push_back(a[i] + b[i] / k[0] + c[i] / k[1]);
    return readings;
  }
};

constexpr std::array<ValueRange, 2> ranges = {{{10, 1e7}, {1e4, 1e10}}};

TwoFactorFit fitted(const Gauges& g, const std::vector<double>& readings, double error = 1e-5) {
  const auto fit = fit_two_factors([&](const auto& k) { return g.at(k); }, readings, ranges, error);
  REQUIRE(fit);
  return *fit;
}

// Four gauges, of which two see mostly one spring and two the other, lengths in m.
const Gauges apart = {{1e-3, 2e-3, 1e-3, 5e-4}, {2, 3, 0.1, 0.2}, {50, 10, 900, 700}};

}  // namespace

TEST_CASE("two springs in series are found again from gauges that see them differently",
          "[truth]") {
  std::mt19937 random(4);
  std::uniform_real_distribution<double> u(0, 1);
  for (int i = 0; i < 20; ++i) {
    const std::array<double, 2> k = {std::pow(10, 2.5 + 1.5 * u(random)),
                                     std::pow(10, 5 + 1.5 * u(random))};
    const TwoFactorFit fit = fitted(apart, apart.at(k));
    INFO(k[0] << " and " << k[1]);
    CHECK_THAT(fit.value[0], WithinRel(k[0], 1e-5));
    CHECK_THAT(fit.value[1], WithinRel(k[1], 1e-5));
    CHECK(fit.rms < 1e-10);
  }
  const std::array<double, 2> k = {3000, 0.8e6};
  const TwoFactorFit fit = fitted(apart, apart.at(k));
  truth("springs in series, fitted together: the first, N m/rad", series, fit.value[0],
        within_rel(3000, 1e-6));
  truth("springs in series, fitted together: the second, N/m", series, fit.value[1],
        within_rel(0.8e6, 1e-6));
}

TEST_CASE("the condition is that of the angle between what the two values do to the readings") {
  // With respect to ln k: -b/k1 and -c/k2; the angle between b and c.
  const TwoFactorFit fit = fitted(apart, apart.at({3000, 0.8e6}));
  double bb = 0, cc = 0, bc = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    bb += apart.b[i] * apart.b[i];
    cc += apart.c[i] * apart.c[i];
    bc += apart.b[i] * apart.c[i];
  }
  const double cosine = bc / std::sqrt(bb * cc);
  CHECK_THAT(fit.condition, WithinRel(std::sqrt((1 + cosine) / (1 - cosine)), 1e-3));
  CHECK(fit.condition < 2);
}

TEST_CASE("gauges that see both springs in one proportion cannot tell them apart") {
  Gauges same = apart;
  for (std::size_t i = 0; i < 4; ++i) same.c[i] = 300 * same.b[i];
  CHECK(fitted(same, same.at({3000, 0.8e6})).condition > 1e3);
  for (std::size_t i = 0; i < 4; ++i) same.c[i] *= 1 + 0.02 * (i % 2 == 0 ? 1 : -1);
  const TwoFactorFit nearly = fitted(same, same.at({3000, 0.8e6}));
  CHECK(nearly.condition > 50);
  CHECK(nearly.condition < 1e3);
}

TEST_CASE("a reading error moves the values by no more than is said, and nearly so at worst") {
  const std::array<double, 2> k = {3000, 0.8e6};
  const double error = 2e-6;
  const std::vector<double> exact = apart.at(k);
  const TwoFactorFit fit = fitted(apart, exact, error);
  std::array<double, 2> worst = {1, 1};
  for (unsigned signs = 0; signs < 16; ++signs) {
    std::vector<double> off = exact;
    for (unsigned i = 0; i < 4; ++i) off[i] += (signs >> i & 1U) != 0 ? error : -error;
    const TwoFactorFit moved = fitted(apart, off);
    for (std::size_t v = 0; v < 2; ++v) {
      worst[v] = std::max(worst[v], std::exp(std::abs(std::log(moved.value[v] / k[v]))));
    }
  }
  for (std::size_t v = 0; v < 2; ++v) {
    CHECK(worst[v] > 1);
    CHECK_THAT(worst[v] - 1, WithinRel(fit.moved_by[v] - 1, 0.05));
  }
}

TEST_CASE("a value that the readings do not see has no sensitivity") {
  Gauges blind = apart;
  for (double& c : blind.c) c = 0;
  const TwoFactorFit fit = fitted(blind, blind.at({3000, 0.8e6}));
  CHECK(fit.sensitivity[1] == 0);
  CHECK(fit.sensitivity[0] > 0.01);
  CHECK(std::isinf(fit.condition));
  CHECK_THAT(fit.value[0], WithinRel(3000.0, 1e-5));
  // As stiff as can be: what is left to give is nothing.
  CHECK(fitted(apart, apart.at({3000, 1e10})).sensitivity[1] < 1e-4);
}

TEST_CASE("without readings, or where no pair has an answer, nothing is fitted") {
  CHECK_FALSE(fit_two_factors([&](const auto& k) { return apart.at(k); }, {}, ranges, 1e-5));
  CHECK_FALSE(
      fit_two_factors([](const auto&) { return std::vector<double>(); }, {1, 2, 3}, ranges, 1e-5));
}

}  // namespace tubewright::two_factor_fit_test
