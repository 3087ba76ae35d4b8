// Obstacles against their formulas.
#include "solver/road/obstacles.h"

#include <cmath>
#include <numbers>

#include "tests/catch.h"

namespace tubewright::obstacles_test {

namespace {

constexpr double pi = std::numbers::pi;

}  // namespace

TEST_CASE("an edge goes up or down at 0") {
  CHECK(height(edge(0.05), -1e-9) == 0);
  CHECK(height(edge(0.05), 0) == 0.05);
  CHECK(height(edge(-0.1), 3) == -0.1);
}

TEST_CASE("bumps miss their curves by no more than said, and end level") {
  constexpr double h = 0.025, L = 0.15;
  for (const double spacing : {1e-3, 7e-3, 1.0}) {
    const GroundProfile sine = half_sine(h, L, spacing), versed = versed_sine(h, L, spacing);
    REQUIRE(is_ground_profile(sine));
    const double piece = std::min(spacing, L / 2);
    const double most = h * std::pow(pi * piece / L, 2) / 8 + 1e-12;
    for (int i = 0; i <= 1000; ++i) {
      const double x = L * i / 1000;
      CHECK(std::abs(height(sine, x) - h * std::sin(pi * x / L)) <= most);
      // Curved four times half as much.
      CHECK(std::abs(height(versed, x) - h / 2 * (1 - std::cos(2 * pi * x / L))) <= 2 * most);
    }
    CHECK(height(sine, -1) == 0);
    CHECK(height(sine, L + 1) == 0);
    CHECK(height(versed, L) == 0);
  }
}

TEST_CASE("a pothole is down by its depth over its length, a board up") {
  const GroundProfile hole = pothole(0.05, 0.3);
  CHECK(height(hole, -1e-9) == 0);
  CHECK(height(hole, 0) == -0.05);
  CHECK(height(hole, 0.299) == -0.05);
  CHECK(height(hole, 0.3) == 0);
  CHECK(height(pothole(-0.02, 0.3), 0.1) == 0.02);
}

}  // namespace tubewright::obstacles_test
