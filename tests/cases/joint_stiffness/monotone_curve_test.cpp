// A monotone curve through points.
#include "cases/joint_stiffness/monotone_curve.h"

#include <array>
#include <random>
#include <vector>

#include "tests/catch.h"

namespace tubewright::monotone_curve_test {

TEST_CASE("A monotone curve goes through its points and straight lines stay straight") {
  const std::array<double, 4> x = {0, 1, 3, 4}, y = {2, 5, 5.5, 9}, line = {1, 3, 7, 9};
  for (std::size_t i = 0; i < x.size(); ++i) {
    CHECK_THAT(monotone_curve(x, y, x[i]), WithinRel(y[i], 1e-12));
  }
  for (const double at : {0.0, 0.3, 1.7, 3.9}) {
    CHECK_THAT(monotone_curve(x, line, at), WithinRel(1 + 2 * at, 1e-12));
  }
}

TEST_CASE("A monotone curve has no turn that its points do not have") {
  std::mt19937 draw(3);
  const auto random = [&] { return draw() / 4294967296.0; };
  for (int trial = 0; trial < 50; ++trial) {
    std::vector<double> x = {0}, rising = {0};
    for (int i = 0; i < 6; ++i) {
      x.push_back(x.back() + 0.05 + random());
      rising.push_back(rising.back() + random() * random() * random());
    }
    double before = rising.front();
    for (int k = 0; k <= 400; ++k) {
      const double now = monotone_curve(x, rising, x.back() * k / 400);
      REQUIRE(now >= before - 1e-12);
      before = now;
    }
  }
  const std::array<double, 4> x = {0, 1, 2, 3}, hat = {0, 1, 1, 0};
  CHECK_THAT(monotone_curve(x, hat, 1.5), WithinRel(1.0, 1e-12));
}

TEST_CASE("At its points a monotone curve goes on without a kink") {
  const std::array<double, 4> x = {0, 1, 2, 4}, y = {0, 1, 3, 4};
  for (const double at : {1.0, 2.0}) {
    const double h = 1e-6;
    const double left = (monotone_curve(x, y, at) - monotone_curve(x, y, at - h)) / h;
    const double right = (monotone_curve(x, y, at + h) - monotone_curve(x, y, at)) / h;
    CHECK_THAT(left, WithinRel(right, 1e-4));
  }
}

}  // namespace tubewright::monotone_curve_test
