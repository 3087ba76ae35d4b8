// The spectrum of ISO 8608 and the coherence of two tracks against numbers worked out apart.
#include "solver/road/road_spectrum.h"

#include <array>
#include <cmath>
#include <numbers>

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::road_spectrum_test {

namespace {

constexpr Source answers = seen_in("a public question on ISO roads (class A, w = 2, n0 = 0.1)");
constexpr Source remembered = from_memory("ISO 8608, geometric means of the classes");
constexpr Source band_formula = rederived("integral of Gd(n0) n0^2/n^2 over the band");
constexpr Source isotropy =
    rederived("Fourier integral of an isotropic surface's spectrum, x K1(x), by script");

/// Gd, by Simpson's rule over its logarithm.
template <class Function>
double integral(double from, double to, const Function& f) {
  constexpr int pieces = 2000;
  const double step = std::log(to / from) / pieces;
  double sum = 0;
  for (int i = 0; i <= pieces; ++i) {
    const double n = from * std::exp(i * step);
    sum += (i == 0 || i == pieces ? 1 : i % 2 == 1 ? 4 : 2) * step / 3 * n * f(n);
  }
  return sum;
}

}  // namespace

TEST_CASE("classes of roads have the levels of ISO 8608", "[truth]") {
  truth("Gd(n0) of class A, 1e-6 m3", answers, *class_level('A') * 1e6, within_rel(16, 1e-12));
  const std::array<double, 8> means = {16, 64, 256, 1024, 4096, 16384, 65536, 262144};
  for (size_t i = 1; i < means.size(); ++i) {
    const char letter = static_cast<char>('A' + i);
    truth(named("Gd(n0) of class ", letter, ", 1e-6 m3"), remembered, *class_level(letter) * 1e6,
          within_rel(means[i], 1e-12));
  }
  for (const char letter : {'a', 'I', '@', ' ', '\0'}) CHECK_FALSE(class_level(letter).has_value());
}

TEST_CASE("heights of a class vary as the integral of its spectrum", "[truth]") {
  const std::array<double, 5> sigma = {1.78, 3.57, 7.14, 14.28, 28.55};  // mm
  for (size_t i = 0; i < sigma.size(); ++i) {
    const char letter = static_cast<char>('A' + i);
    RoadSpectrum s;
    s.level = *class_level(letter);
    truth(named("sigma of heights, class ", letter, ", 0.05-10 cycle/m, mm"), band_formula,
          1e3 * std::sqrt(height_variance(s, 0.05, 10)), within_abs(sigma[i], 0.005));
  }
  for (const double w : {1.5, 2.0, 2.7}) {
    const RoadSpectrum s{1e-4, w, 0.02, 10};
    CHECK_THAT(
        height_variance(s, 0.03, 7),
        WithinRel(integral(0.03, 7, [&](double n) { return displacement_density(s, n); }), 1e-9));
  }
  const RoadSpectrum s{1e-4, 2, 0.02, 10};
  CHECK(displacement_density(s, 0.1) == 1e-4);
  CHECK(displacement_density(s, 0.019) == 0);
  CHECK(displacement_density(s, 10.1) == 0);
}

TEST_CASE("two tracks of an isotropic road go together in long waves only", "[truth]") {
  struct Row {
    double distance;
    std::array<double, 7> ratio;
    double roll;  // %
  };
  const std::array<double, 7> n = {0.01, 0.05, 0.1, 0.2, 0.5, 1, 2};
  const std::array<Row, 3> rows = {{{0.6, {.9972, .9592, .8839, .7104, .3071, .0613, .0019}, 5.2},
                                    {0.8, {.9954, .9362, .8270, .5997, .1827, .0197, .0002}, 6.8},
                                    {1.0, {.9933, .9109, .7685, .5002, .1065, .0062, .0000}, 8.3}}};
  for (const Row& row : rows) {
    for (size_t i = 0; i < n.size(); ++i) {
      truth(
          named("cross to direct spectrum, tracks ", row.distance, " m apart, ", n[i], " cycle/m"),
          isotropy, isotropic_coherence(2, n[i], row.distance), within_abs(row.ratio[i], 0.00006));
    }
    const auto roll = [&](double k) {
      return (1 - isotropic_coherence(2, k, row.distance)) / 2 / (k * k);
    };
    truth(named("roll's share of the variance, tracks ", row.distance,
                " m apart, 0.02-10 cycle/m, %"),
          isotropy, 100 * integral(0.02, 10, roll) / (1 / 0.02 - 1 / 10.0),
          within_abs(row.roll, 0.05));
  }
  truth("cross to direct spectrum, tracks 0.8 m apart, 0.2 cycle/m, by quadrature", isotropy,
        isotropic_coherence(2, 0.2, 0.8), within_abs(0.5996743, 1e-7));
}

TEST_CASE("the coherence is the Fourier integral across the road, for any waviness") {
  // Spectrum of the surface (k^2 + ky^2)^(-(w+1)/2); along ky = k sinh t it falls fast.
  for (const double w : {1.4, 2.0, 2.6}) {
    for (const double x : {0.1, 1.0, 4.0}) {
      double sum = 0, whole = 0;
      constexpr double step = 1e-4;
      for (int i = 0; i < 140000; ++i) {
        const double t = (i + 0.5) * step, part = std::pow(std::cosh(t), -w);
        whole += part;
        sum += part * std::cos(x * std::sinh(t));
        if (part < 1e-9) break;
      }
      CHECK_THAT(isotropic_coherence(w, x / (2 * std::numbers::pi), 1),
                 WithinAbs(sum / whole, 3e-4));
    }
  }
}

TEST_CASE("the coherence goes from 1 at no distance to 0 far off without a jump or a NaN") {
  double last = 1;
  CHECK(isotropic_coherence(2, 0.5, 0) == 1);
  for (double x = 1e-12; x < 1e6; x *= 1.5) {
    const double g = isotropic_coherence(2, x / 6, 1);
    CHECK(g <= last + 1e-12);
    CHECK(g >= 0);
    CHECK(last - g < 0.2);
    CHECK(g == isotropic_coherence(2, x / 6, -1));
    last = g;
  }
  CHECK(last == 0);
}

}  // namespace tubewright::road_spectrum_test
