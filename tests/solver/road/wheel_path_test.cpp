// Paths of wheels against geometry by hand and against a search over every place of contact.
#include "solver/road/wheel_path.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include "solver/road/obstacles.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::wheel_path_test {

namespace {

constexpr Source rolling =
    seen_in("ezformula.net, force to step over an obstacle: tan = a/(R - h)");
constexpr Source by_hand = rederived("circle over an edge by Pythagoras");

using Kind = WheelContact::Kind;

struct Path {
  std::vector<double> height, slope;
};

Path path(const GroundProfile& profile, const WheelContact& contact, const std::vector<double>& x) {
  Path p{std::vector<double>(x.size()), std::vector<double>(x.size())};
  wheel_path(profile, contact, x.data(), static_cast<std::ptrdiff_t>(x.size()), p.height.data(),
             p.slope.data());
  return p;
}

std::vector<double> places(double from, double to, int count) {
  std::vector<double> x;
  for (int i = 0; i < count; ++i) x.push_back(from + (to - from) * i / (count - 1));
  return x;
}

/// Rough ground with vertical edges, level stretches and gaps of all lengths.
GroundProfile rough(unsigned seed, int vertices) {
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> any(0, 1);
  GroundProfile p;
  double x = 0, z = 0;
  for (int i = 0; i < vertices; ++i) {
    const double kind = any(random);
    x += kind < 0.15 ? 0 : 0.1 * any(random) * (kind > 0.9 ? 6 : 1);
    z = kind > 0.8 ? z : 0.08 * any(random);
    p.x.push_back(x);
    p.z.push_back(z);
  }
  return p;
}

/// Highest of the circle over places of contact, close together, and all vertices.
double searched(const GroundProfile& p, double R, double x) {
  double best = -1;
  const auto take = [&](double contact, double z) {
    const double s = contact - x;
    if (std::abs(s) <= R) best = std::max(best, z + std::sqrt(R * R - s * s) - R);
  };
  for (int i = -4000; i <= 4000; ++i) take(x + R * i / 4000, height(p, x + R * i / 4000));
  for (size_t i = 0; i < p.x.size(); ++i) take(p.x[i], p.z[i]);
  return best;
}

}  // namespace

TEST_CASE("a wheel meets an edge before it and goes up on an arc", "[truth]") {
  struct Row {
    double R, h, a, tan0, speed, time;  // m, m/s at 10 km/h, ms
  };
  const std::array<Row, 6> rows = {{{.10, .0127, .0488, .559, 1.552, 17.6},
                                    {.10, .05, .0866, 1.732, 4.811, 31.2},
                                    {.20, .05, .1323, .882, 2.450, 47.6},
                                    {.25, .05, .1500, .750, 2.083, 54.0},
                                    {.25, .10, .2000, 1.333, 3.704, 72.0},
                                    {.33, .05, .1746, .624, 1.733, 62.9}}};
  for (const Row& r : rows) {
    const double a = std::sqrt(2 * r.R * r.h - r.h * r.h);
    const std::vector<double> x = places(-1.2 * a, 0.2 * a, 140001);
    const Path p = path(edge(r.h), {Kind::circle, r.R}, x);
    const auto first =
        std::find_if(p.height.begin(), p.height.end(), [](double z) { return z > 0; });
    const auto i = static_cast<size_t>(first - p.height.begin());
    const std::string wheel = named("radius ", r.R, " m, edge ", r.h, " m: ");
    truth(wheel + "contact before the edge, m", by_hand, -x[i], within_abs(r.a, 6e-5));
    truth(wheel + "first slope", rolling, p.slope[i], within_abs(r.tan0, 6e-4));
    truth(wheel + "speed upward at 10 km/h, m/s", rolling, p.slope[i] / 0.36,
          within_abs(r.speed, 2e-3));
    truth(wheel + "time on the arc at 10 km/h, ms", by_hand, -x[i] * 360, within_abs(r.time, 0.06));
    for (size_t k = 0; k < x.size(); k += 997) {
      const double arc = x[k] > 0 ? r.h
                         : x[k] < -a
                             ? 0
                             : std::max(0.0, std::sqrt(r.R * r.R - x[k] * x[k]) - (r.R - r.h));
      CHECK_THAT(p.height[k], WithinAbs(arc, 1e-12));
    }
  }
}

TEST_CASE("a circle's path over rough ground is the highest that a search finds") {
  for (unsigned seed = 0; seed < 12; ++seed) {
    const GroundProfile ground = rough(seed, 60);
    const double R = std::array{0.03, 0.12, 0.25, 1.5}[seed % 4];
    const std::vector<double> x = places(-0.5, ground.x.back() + 0.5, 700);
    const Path p = path(ground, {Kind::circle, R}, x);
    for (size_t i = 0; i < x.size(); i += 3) {
      CAPTURE(seed, R, x[i]);
      const double there = searched(ground, R, x[i]);
      CHECK(p.height[i] >= there - 1e-12);
      CHECK(p.height[i] <= there + 4e-4 * R);
    }
  }
}

TEST_CASE("the slope of a circle's path is its derivative, cut off near the vertical") {
  for (unsigned seed = 20; seed < 24; ++seed) {
    const GroundProfile ground = rough(seed, 40);
    constexpr double step = 1e-7;
    std::vector<double> x;
    for (const double middle : places(0.1, ground.x.back(), 500)) {
      for (const int i : {-1, 0, 1}) x.push_back(middle + i * step);
    }
    const Path p = path(ground, {Kind::circle, 0.25}, x);
    int checked = 0;
    for (size_t i = 1; i < x.size(); i += 3) {
      if (std::abs(p.slope[i + 1] - p.slope[i - 1]) > 1e-4) continue;  // a corner
      CHECK_THAT(p.slope[i], WithinAbs((p.height[i + 1] - p.height[i - 1]) / (2 * step), 1e-5));
      ++checked;
    }
    CHECK(checked > 400);
  }
}

TEST_CASE("a circle jumps up an edge as high as its radius, without a NaN") {
  for (const double h : {0.0999, 0.1, 0.3}) {
    std::vector<double> x = places(-0.2, 0.2, 401);
    x.insert(std::lower_bound(x.begin(), x.end(), -0.1), -0.1);
    const Path p = path(edge(h), {Kind::circle, 0.1}, x);
    for (size_t i = 0; i < x.size(); ++i) {
      CHECK(std::isfinite(p.height[i]));
      CHECK(std::abs(p.slope[i]) <= steepest_path);
      if (x[i] >= 0) CHECK(p.height[i] == h);
    }
  }
  const GroundProfile wall{{0, 0, 1e-12, 1e-12, 1e-300}, {0, 5, -5, 2, 0}};
  const GroundProfile sorted{{0, 0, 1e-300, 1e-12, 1}, {0, 5, -5, 2, 0}};
  CHECK_FALSE(is_ground_profile(wall));
  for (const Kind kind : {Kind::point, Kind::circle, Kind::patch}) {
    const Path p = path(sorted, {kind, 0.1}, places(-0.3, 0.3, 601));
    for (size_t i = 0; i < p.height.size(); ++i) {
      CHECK(std::isfinite(p.height[i]));
      CHECK(std::isfinite(p.slope[i]));
    }
  }
}

TEST_CASE("paths over a mirrored road are mirrored") {
  const GroundProfile ground = rough(31, 50);
  GroundProfile mirror;
  for (size_t i = ground.x.size(); i-- > 0;) {
    mirror.x.push_back(-ground.x[i]);
    mirror.z.push_back(ground.z[i]);
  }
  std::vector<double> x = places(-0.41, 2.03, 300), back;
  for (size_t i = x.size(); i-- > 0;) back.push_back(-x[i]);
  for (const WheelContact& c : {WheelContact{Kind::circle, 0.2}, WheelContact{Kind::patch, 0.1}}) {
    const Path p = path(ground, c, x), m = path(mirror, c, back);
    for (size_t i = 0; i < x.size(); ++i) {
      CHECK_THAT(p.height[i], WithinAbs(m.height[x.size() - 1 - i], 1e-12));
      CHECK_THAT(p.slope[i], WithinAbs(-m.slope[x.size() - 1 - i], 1e-9));
    }
  }
}

TEST_CASE("a wheel on a straight slope keeps its distance from it") {
  const GroundProfile ramp{{0, 10}, {0, 5}};
  const Path p = path(ramp, {Kind::circle, 0.3}, {4, 5, 6});
  for (size_t i = 0; i < 3; ++i) {
    CHECK_THAT(p.height[i], WithinAbs((4.0 + i) / 2 + 0.3 * (std::sqrt(1.25) - 1), 1e-12));
    CHECK_THAT(p.slope[i], WithinAbs(0.5, 1e-12));
  }
}

TEST_CASE("a point has the heights and slopes of the profile") {
  const GroundProfile ground = rough(40, 50);
  const std::vector<double> x = places(-1, ground.x.back() + 1, 500);
  const Path p = path(ground, {Kind::point, 0}, x);
  for (size_t i = 0; i < x.size(); ++i) {
    CHECK_THAT(p.height[i], WithinAbs(height(ground, x[i]), 1e-14));
    CHECK_THAT(p.slope[i], WithinAbs(slope(ground, x[i]), 1e-9));
  }
}

TEST_CASE("a patch takes the mean under it") {
  const GroundProfile ground = rough(50, 60);
  const std::vector<double> x = places(-0.3, ground.x.back() + 0.3, 997);
  for (const double L : {0.013, 0.1, 2.0}) {
    const Path p = path(ground, {Kind::patch, L}, x);
    for (size_t i = 0; i < x.size(); i += 7) {
      double sum = 0;
      constexpr int parts = 20000;
      for (int k = 0; k < parts; ++k) sum += height(ground, x[i] + L * ((k + 0.5) / parts - 0.5));
      CHECK_THAT(p.height[i], WithinAbs(sum / parts, 2e-5));
      CHECK_THAT(
          p.slope[i],
          WithinAbs((height(ground, x[i] + L / 2) - height(ground, x[i] - L / 2)) / L, 1e-9));
    }
  }
}

TEST_CASE("a patch reduces a wave by sin(pi n L)/(pi n L)", "[truth]") {
  constexpr double pi = std::numbers::pi, n = 2, L = 0.443 / n;
  GroundProfile wave;
  for (int i = -4000; i <= 4000; ++i) {
    wave.x.push_back(i / 4000.0);
    wave.z.push_back(0.01 * std::cos(2 * pi * n * wave.x.back()));
  }
  const Path p = path(wave, {Kind::patch, L}, {0});
  truth("wave of 0.443/L under a patch, dB", rederived("sin(pi n L)/(pi n L)"),
        20 * std::log10(p.height[0] / 0.01), within_abs(-3.0, 0.02));
}

TEST_CASE("places asked together or one by one give one path") {
  const GroundProfile ground = rough(60, 60);
  const std::vector<double> x = places(-0.2, 2.5, 900);
  for (const WheelContact& c : {WheelContact{Kind::point, 0}, WheelContact{Kind::circle, 0.25},
                                WheelContact{Kind::patch, 0.1}}) {
    const Path together = path(ground, c, x);
    for (size_t i = 0; i < x.size(); i += 11) {
      const Path alone = path(ground, c, {x[i]});
      CHECK_THAT(together.height[i], WithinAbs(alone.height[0], 1e-13));
    }
    CHECK(path(ground, c, {}).height.empty());
    CHECK(path(GroundProfile{}, c, {1, 2}).height == std::vector<double>{0, 0});
  }
}

}  // namespace tubewright::wheel_path_test
