// Binned ranges against the ranges.
#include "solver/dynamics/range_spectrum.h"

#include <cmath>
#include <random>

#include "tests/catch.h"

namespace tubewright::range_spectrum_test {

TEST_CASE("bins keep counts exactly and powers nearly") {
  std::mt19937 random(4);
  std::lognormal_distribution<double> any(3, 1);
  RangeSpectrum s(1e-3);
  double count = 0, third = 0, fifth = 0;
  for (int i = 0; i < 5000; ++i) {
    const double range = any(random), n = i % 2 == 0 ? 1 : 0.5;
    s.add(range, n);
    count += n;
    third += n * std::pow(range, 3);
    fifth += n * std::pow(range, 5);
  }
  CHECK_THAT(s.moment(0), WithinRel(count, 1e-12));
  CHECK_THAT(s.moment(3), WithinRel(third, 5e-3));
  CHECK_THAT(s.moment(5), WithinRel(fifth, 2e-2));
  double last = 0;
  for (const auto& bin : s.bins()) {
    CHECK(bin.range > last);
    CHECK(bin.count > 0);
    last = bin.range;
  }
}

TEST_CASE("one range is off by half a per cent at most, too small ones are left out") {
  for (double range = 0.01; range < 1e6; range *= 1.37) {
    RangeSpectrum s(0.01);
    s.add(range, 2);
    REQUIRE(s.bins().size() == 1);
    CHECK_THAT(s.bins()[0].range, WithinRel(range, 0.00505));
  }
  RangeSpectrum s(1);
  s.add(0.999, 1);
  s.add(0, 1);
  s.add(-5, 1);
  CHECK(s.bins().empty());
  CHECK(s.moment(3) == 0);
}

}  // namespace tubewright::range_spectrum_test
