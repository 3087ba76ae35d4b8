// Random roads against test roads worked out apart, and against what they are made for: variance,
// coherence, no repetition.
#include "solver/road/random_road.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::random_road_test {

namespace {

constexpr Source script = rederived("sum of harmonics with Park-Miller phases, independent script");

RoadSpectrum class_c(double least, double greatest) {
  return {*class_level('C'), 2, least, greatest};
}

RandomRoadOptions options(int lines, std::uint32_t seed, double ramp) {
  RandomRoadOptions o;
  o.lines = lines;
  o.seed = seed;
  o.ramp = ramp;
  return o;
}

double variance_of_lines(const RandomRoad& road, int track) {
  return road.coefficient.row(track).squaredNorm() / 2;
}

}  // namespace

TEST_CASE("an evenly spaced road of seed 8608 is that of the script", "[truth]") {
  const RandomRoad road = evenly_spaced_road(class_c(0.02, 2.02), options(1000, 8608, 0));
  const std::array<std::array<double, 2>, 5> heights = {{{0, 0.019589791},
                                                         {1, 0.009779717},
                                                         {7.3, -0.012650782},
                                                         {50, -0.013568065},
                                                         {123.4, -0.013876365}}};
  for (const auto& [x, z] : heights) {
    truth(named("R1: height at ", x, " m, mm"), script, 1e3 * height(road, 0, x),
          within_abs(1e3 * z, 1e-6));
  }
  truth("R1: slope at 0 m", script, slope(road, 0, 0), within_abs(-0.009720097, 1e-9));
  truth("R1: slope at 1 m", script, slope(road, 0, 1), within_abs(0.005809257, 1e-9));
  truth("R1: sigma of the lines, mm", script, 1e3 * std::sqrt(variance_of_lines(road, 0)),
        within_abs(11.25284, 5e-6));

  RoadSampler sampler(road, 0.05);
  Eigen::MatrixXd block(RoadSampler::block, 1);
  std::vector<double> z;
  for (int b = 0; b * RoadSampler::block <= 10000; ++b) {
    sampler.sample(b, block);
    z.insert(z.end(), block.data(), block.data() + block.rows());
  }
  z.resize(10000);  // its end left out
  const Eigen::Map<const Eigen::ArrayXd> all(z.data(), static_cast<Eigen::Index>(z.size()));
  truth("R1: sigma over 500 m, mm", script, 1e3 * std::sqrt((all - all.mean()).square().mean()),
        within_abs(11.2497, 6e-4));
  truth("R1: highest over 500 m, mm", script, 1e3 * all.maxCoeff(), within_abs(29.0728, 5e-5));
  truth("R1: lowest over 500 m, mm", script, 1e3 * all.minCoeff(), within_abs(-33.0746, 5e-5));
}

TEST_CASE("a ramp lets a road begin level", "[truth]") {
  RoadSpectrum b = class_c(0.02, 4.02);
  b.level = *class_level('B');
  const RandomRoad road = evenly_spaced_road(b, options(2000, 8608, 5));
  const std::array<std::array<double, 2>, 3> heights = {
      {{10, -0.00754420}, {100, 0.00283679}, {200, 0.00210263}}};
  for (const auto& [x, z] : heights) {
    truth(named("Q2: height at ", x, " m, mm"), script, 1e3 * height(road, 0, x),
          within_abs(1e3 * z, 1e-5));
  }
  CHECK(height(road, 0, -3) == 0);
  CHECK(height(road, 0, 0) == 0);
  CHECK(slope(road, 0, 0) == 0);
  for (const double x : {0.5, 2.5, 4.9, 5.0, 17.0}) {
    constexpr double step = 1e-6;
    CHECK_THAT(
        slope(road, 0, x),
        WithinAbs((height(road, 0, x + step) - height(road, 0, x - step)) / (2 * step), 1e-8));
  }
}

TEST_CASE("sampled heights are those of the sum, wherever the block") {
  RandomRoadOptions o = options(300, 7, 4);
  o.tracks = {-0.4, 0.1, 0.5};
  const RandomRoad road = random_road(class_c(0.02, 10), o);
  RoadSampler sampler(road, 0.013);
  Eigen::MatrixXd first(RoadSampler::block, 3), again(RoadSampler::block, 3);
  for (const int number : {-2, 0, 1, 40, 100000}) {
    sampler.sample(number, first);
    for (const int s : {0, 1, 63, 64, 500, RoadSampler::block - 1}) {
      for (int t = 0; t < 3; ++t) {
        const double x = (static_cast<double>(number) * RoadSampler::block + s) * 0.013;
        CHECK_THAT(first(s, t), WithinAbs(height(road, t, x), 1e-8));
      }
    }
  }
  sampler.sample(-2, again);
  CHECK(again.isZero(0));
  sampler.sample(100000, again);
  CHECK(again == first);
}

TEST_CASE("the lines of a random road have the variance of its band and of each part of it") {
  const RoadSpectrum s = class_c(0.02, 10);
  const RandomRoad road = random_road(s, options(2500, 3, 0));
  CHECK_THAT(variance_of_lines(road, 0), WithinRel(height_variance(s, s.least, s.greatest), 1e-9));
  for (double from = 0.03; from < 5; from *= 2) {
    double sum = 0;
    for (Eigen::Index i = 0; i < road.wave_number.size(); ++i) {
      const double n = road.wave_number[i];
      if (n >= from && n < 2 * from) sum += std::norm(road.coefficient(0, i)) / 2;
    }
    CHECK_THAT(sum, WithinRel(height_variance(s, from, 2 * from), 0.02));
  }
}

TEST_CASE("a random road does not repeat where an evenly spaced one does") {
  const RoadSpectrum s = class_c(0.05, 4.05);
  const RandomRoad even = evenly_spaced_road(s, options(400, 5, 0));
  const RandomRoad free = random_road(s, options(400, 5, 0));
  const double period = 2 * 400 / (4.05 - 0.05);  // after half of it with the other sign
  for (const double x : {3.0, 17.0, 55.5}) {
    CHECK_THAT(height(even, 0, x + period), WithinAbs(height(even, 0, x), 1e-9));
  }
  // How far heights so far apart go together: by the lines, for all places.
  const auto together = [](const RandomRoad& road, double distance) {
    double sum = 0;
    for (Eigen::Index i = 0; i < road.wave_number.size(); ++i) {
      sum += std::norm(road.coefficient(0, i)) / 2 *
             std::cos(2 * 3.141592653589793 * road.wave_number[i] * distance);
    }
    return sum / variance_of_lines(road, 0);
  };
  CHECK_THAT(together(even, period), WithinAbs(1, 1e-9));
  double most = 0;
  for (int k = 0; k < 20000; ++k) {
    most = std::max(most, std::abs(together(free, 150 + 0.37 * k)));
  }
  CHECK(most < 0.5);
}

TEST_CASE("tracks go together as their coherence says") {
  const RoadSpectrum s = class_c(0.02, 10);
  RandomRoadOptions o = options(20000, 11, 0);
  o.tracks = {-0.4, 0.4, 0.0};
  const auto ratio = [](const RandomRoad& road, int a, int b, double from, double to) {
    double cross = 0, direct = 0;
    for (Eigen::Index i = 0; i < road.wave_number.size(); ++i) {
      if (road.wave_number[i] < from || road.wave_number[i] > to) continue;
      cross += (road.coefficient(a, i) * std::conj(road.coefficient(b, i))).real();
      direct += std::sqrt(std::norm(road.coefficient(a, i)) * std::norm(road.coefficient(b, i)));
    }
    return cross / direct;
  };
  const RandomRoad isotropic = random_road(s, o);
  for (const double n : {0.05, 0.1, 0.2, 0.4, 0.8, 3.0}) {
    for (const auto& [a, b, distance] :
         {std::tuple{0, 1, 0.8}, std::tuple{0, 2, 0.4}, std::tuple{1, 2, 0.4}}) {
      CAPTURE(n, a, b);
      CHECK_THAT(ratio(isotropic, a, b, n / 1.15, n * 1.15),
                 WithinAbs(isotropic_coherence(2, n, distance), 0.1));
    }
  }
  for (int t = 0; t < 3; ++t) {
    CHECK_THAT(variance_of_lines(isotropic, t),
               WithinRel(height_variance(s, s.least, s.greatest), 0.12));
  }
  o.coherence = TrackCoherence::full;
  const RandomRoad same = random_road(s, o);
  CHECK((same.coefficient.row(0) - same.coefficient.row(1)).norm() == 0);
  CHECK((same.coefficient.row(0) - same.coefficient.row(2)).norm() == 0);
  o.coherence = TrackCoherence::none;
  const RandomRoad independent = random_road(s, o);
  CHECK(std::abs(ratio(independent, 0, 1, 0.02, 10)) < 0.05);
  CHECK((same.coefficient.row(0) - independent.coefficient.row(0)).norm() == 0);
}

TEST_CASE("two tracks in one place are one, four in a row are four") {
  RandomRoadOptions o = options(500, 2, 0);
  o.tracks = {0.3, 0.3, 0.3 + 1e-9, -0.5};
  const RandomRoad road = random_road(class_c(0.02, 10), o);
  CHECK(road.coefficient.allFinite());
  CHECK((road.coefficient.row(0) - road.coefficient.row(1)).norm() < 1e-12);
  CHECK((road.coefficient.row(0) - road.coefficient.row(2)).norm() < 1e-6);
  CHECK((road.coefficient.row(0) - road.coefficient.row(3)).norm() > 1e-3);
}

TEST_CASE("a seed makes one road, another seed another; a level of 0 a level road") {
  const RoadSpectrum s = class_c(0.02, 10);
  CHECK(random_road(s, options(50, 4, 5)).coefficient ==
        random_road(s, options(50, 4, 5)).coefficient);
  CHECK(random_road(s, options(50, 4, 5)).coefficient !=
        random_road(s, options(50, 5, 5)).coefficient);
  RoadSpectrum level = s;
  level.level = 0;
  CHECK(height(random_road(level, options(50, 4, 5)), 0, 12) == 0);
}

}  // namespace tubewright::random_road_test
