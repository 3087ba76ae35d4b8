// Damage from spectra against numbers worked out apart, and against counted cycles.
#include "solver/dynamics/spectral_damage.h"

#include <cmath>

#include "solver/dynamics/rainflow.h"
#include "solver/road/random_road.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::spectral_damage_test {

namespace {

constexpr Source f2 = rederived("formulas of the road study (F2), independent script");
constexpr Source counted = rederived("rainflow of 2400 s simulated, independent script");

struct Level {
  double from, to, density;  // Hz, MPa2/Hz
};

SpectralMoments moments(const std::vector<Level>& levels) {
  SpectralMoments m;
  for (const Level& l : levels) {
    m = m + spectral_moments([&](double) { return l.density; }, l.from, l.to, 200);
  }
  return m;
}

/// Stress of such a spectrum, counted, sum of range^m per second. Sampled by what samples roads:
/// time for way, frequency for wave number.
std::array<double, 2> counted_damage(const std::vector<Level>& levels, double seconds) {
  constexpr double width = 0.02, rate = 400;
  RandomRoad stress;
  std::minstd_rand0 random(8608);
  std::vector<std::complex<double>> lines;
  std::vector<double> frequencies;
  for (const Level& l : levels) {
    for (double f = l.from; f < l.to - width / 2; f += width) {
      frequencies.push_back(f + width * static_cast<double>(random()) / 2147483647);
      lines.push_back(std::polar(std::sqrt(2 * l.density * width),
                                 6.283185307179586 * static_cast<double>(random()) / 2147483647));
    }
  }
  const auto count = static_cast<Eigen::Index>(lines.size());
  stress.wave_number = Eigen::Map<Eigen::VectorXd>(frequencies.data(), count);
  stress.coefficient = Eigen::Map<Eigen::RowVectorXcd>(lines.data(), count);
  RoadSampler sampler(stress, 1 / rate);
  Eigen::MatrixXd block(RoadSampler::block, 1);
  RainflowCounter counter;
  std::array<double, 2> sums{};
  const auto sink = [&](const Cycle& c) {
    const double third = c.range * c.range * c.range;
    sums[0] += c.count * third;
    sums[1] += c.count * third * c.range * c.range;
  };
  const int blocks = static_cast<int>(seconds * rate / RoadSampler::block);
  for (int b = 0; b < blocks; ++b) {
    sampler.sample(b, block);
    counter.add(block.data(), RoadSampler::block, 1, sink);
  }
  for (const Cycle& c : counter.close(Residue::half_cycles)) sink(c);
  for (double& s : sums) s /= blocks * RoadSampler::block / rate;
  return sums;
}

}  // namespace

TEST_CASE("spectral damage is that of the formulas", "[truth]") {
  struct Row {
    const char* name;
    std::vector<Level> levels;
    std::array<double, 4> moments;
    double nu0, nup;
    std::array<double, 3> third, fifth;
  };
  const std::vector<Row> rows = {{"1-3 Hz 100, 8-12 Hz 25 MPa2/Hz",
                                  {{1, 3, 100}, {8, 12, 25}},
                                  {300, 1400, 11000, 1085160},
                                  6.0553,
                                  9.9323,
                                  {946431, 786231, 648854},
                                  {5.67858e9, 4.3216e9, 3.56325e9}},
                                 {"2-20 Hz 10 MPa2/Hz",
                                  {{2, 20, 10}},
                                  {180, 1980, 26640, 6399936},
                                  12.1655,
                                  15.4996,
                                  {883712, 745314, 761549},
                                  {3.18136e9, 2.42437e9, 2.62295e9}}};
  for (const Row& row : rows) {
    const SpectralMoments m = moments(row.levels);
    const std::string name = named(row.name, ": ");
    truth(name + "l0, MPa2", f2, m.l0, within_rel(row.moments[0], 1e-9));
    truth(name + "l1", f2, m.l1, within_rel(row.moments[1], 1e-9));
    // The second bands' moments are printed rounded.
    truth(name + "l2", f2, m.l2, within_rel(row.moments[2], 1e-3));
    truth(name + "l4", f2, m.l4, within_rel(row.moments[3], 1e-3));
    truth(name + "upcrossings a second", f2, upcrossing_rate(m), within_abs(row.nu0, 6e-5));
    truth(name + "peaks a second", f2, peak_rate(m), within_abs(row.nup, 6e-5));
    for (const auto& [exponent, theirs] : {std::pair{3, row.third}, std::pair{5, row.fifth}}) {
      const std::string sum = named(name, "sum of r^", exponent, " a second, ");
      truth(sum + "narrow band", f2, narrow_band_damage(m, exponent), within_rel(theirs[0], 1e-5));
      truth(sum + "Wirsching-Light", f2, wirsching_light_damage(m, exponent),
            within_rel(theirs[1], 1e-5));
      truth(sum + "Dirlik", f2, dirlik_damage(m, exponent), within_rel(theirs[2], 1e-5));
    }
  }
}

TEST_CASE("counted cycles of such a stress come near what its spectrum says", "[truth]") {
  const std::vector<Level> two = {{1, 3, 100}, {8, 12, 25}}, one = {{2, 20, 10}};
  const auto a = counted_damage(two, 1200), b = counted_damage(one, 1200);
  truth("counted, 1-3 and 8-12 Hz, sum of r^3 a second", counted, a[0], within_rel(707867, 0.06));
  truth("counted, 1-3 and 8-12 Hz, sum of r^5 a second", counted, a[1], within_rel(4.123e9, 0.12));
  truth("counted, 2-20 Hz, sum of r^3 a second", counted, b[0], within_rel(803619, 0.04));
  truth("counted, 2-20 Hz, sum of r^5 a second", counted, b[1], within_rel(2.803e9, 0.08));
  CHECK(a[0] < narrow_band_damage(moments(two), 3));
  CHECK(b[1] < narrow_band_damage(moments(one), 5));
}

TEST_CASE("a single frequency has the damage of a narrow band, whatever the formula") {
  const SpectralMoments m = moments({{4.99999, 5.00001, 1e6}});
  CHECK_THAT(dirlik_damage(m, 3), WithinRel(narrow_band_damage(m, 3), 0.05));
  CHECK_THAT(wirsching_light_damage(m, 3), WithinRel(narrow_band_damage(m, 3), 0.05));
  const SpectralMoments line{1, 5, 25, 625};
  CHECK(dirlik_damage(line, 4) == narrow_band_damage(line, 4));
  CHECK_THAT(upcrossing_rate(line), WithinRel(5, 1e-12));
}

}  // namespace tubewright::spectral_damage_test
