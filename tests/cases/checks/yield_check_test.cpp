// The yield check against bars worked by hand: a tie, and a tube in pure shear by von Mises.
#include "cases/checks/yield_check.h"

#include <cmath>
#include <limits>

#include "solver/model/section_shapes.h"
#include "tests/catch.h"

namespace tubewright::yield_check_test {

namespace {

constexpr double MPa = 1e6;

Material steel(double yield) { return {210e9, 81e9, 7850, yield, 360 * MPa}; }

double used(const Stress& stress, double factor) {
  return *yield_check(stress, steel(235 * MPa), factor).utilisation;
}

}  // namespace

TEST_CASE("a tie is at its limit when its force is area times yield strength") {
  const Section tube = hollow_rectangle(0.025, 0.025, 0.002, {0, 0}, 0.3);
  const double A = 4 * 0.023 * 0.002;  // sharp corners: the middle line times the wall
  SectionForces f;
  f.N = -235 * MPa * A;
  CHECK_THAT(used(worst_stress(tube, f), 1), WithinRel(1.0, 1e-12));
  f.N = 235 * MPa * A / 2;
  CHECK_THAT(used(worst_stress(tube, f), 1.5), WithinRel(0.75, 1e-12));
}

TEST_CASE("in pure shear steel yields at f_y over the root of three") {
  // Von Mises; Bredt for the thin ring: tau = T/(2 pi R^2 t), within a percent at R/t = 50.
  const double R = 0.05, t = 0.001;
  const Section ring = round_tube(2 * R + t, t, 0.3);
  SectionForces f;
  f.T = 235 * MPa / std::sqrt(3.0) * 2 * M_PI * R * R * t;
  CHECK_THAT(used(worst_stress(ring, f), 1), WithinRel(1.0, 0.015));
}

TEST_CASE("a case is held against its own factor, else the one of rare events, else the usual") {
  Frame frame;
  Case c;
  CHECK(safety_factor(frame, c) == 1.5);
  frame.limits.yield_factor = 1.8;
  CHECK(safety_factor(frame, c) == 1.8);
  c.rare = true;
  CHECK(safety_factor(frame, c) == 1.0);
  c.yield_factor = 1.2;
  CHECK(safety_factor(frame, c) == 1.2);
  c.rare = false;
  CHECK(safety_factor(frame, c) == 1.2);
}

TEST_CASE("a metal without yield strength is not checked for yield and says why") {
  const Stress stress = {0, 0, 0, 100 * MPa};
  const CheckResult r = yield_check(stress, steel(std::numeric_limits<double>::quiet_NaN()), 1.5);
  CHECK_FALSE(r.utilisation);
  CHECK_THAT(r.reason, ContainsSubstring("yield strength"));
  CHECK(r.needed);
  CHECK(yield_check(stress, steel(235 * MPa), 1.5).reason.empty());
  CHECK_THAT(yield_check(stress, steel(235 * MPa), 1.5).clause, ContainsSubstring("6.2.1(5)"));
}

}  // namespace tubewright::yield_check_test
