#include "viz/files/surface_stress.h"

#include <cmath>

#include "solver/model/section_shapes.h"
#include "tests/catch.h"

namespace tubewright::surface_stress_test {

namespace {

constexpr double nu = 0.3;

SectionForces bending(double N, double My, double Mz) {
  SectionForces f;
  f.N = N;
  f.My = My;
  f.Mz = Mz;
  return f;
}

Section numbers_only(double A, double I, double W) {
  Section s;
  s.A = A;
  s.Iy = s.Iz = I;
  s.It = 2 * I;
  s.Wy = s.Wz = W;
  s.Wt = 2 * W;
  s.Ay = s.Az = std::numeric_limits<double>::infinity();
  return s;
}

double signed_area(const std::vector<StressPoint>& ring) {
  double area = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const StressPoint& a = ring[i];
    const StressPoint& b = ring[(i + 1) % ring.size()];
    area += (a.y * b.z - b.y * a.z) / 2;
  }
  return area;
}

double greatest_on_ring(const Section& s, const SectionForces& f) {
  double greatest = 0;
  for (const StressPoint& p : surface_ring(s, f))
    greatest = std::max(greatest, std::abs(surface_stress(s, p, f).normal));
  return greatest;
}

}  // namespace

TEST_CASE("the ring of a rectangular tube is its outer face") {
  const Section s = hollow_rectangle(0.04, 0.02, 0.002, {}, nu);
  const std::vector<StressPoint> ring = surface_ring(s, bending(0, 10, 5));
  REQUIRE(ring.size() == 8);
  CHECK_THAT(signed_area(ring), WithinRel(0.04 * 0.02, 1e-12));  // positive: anticlockwise
}

TEST_CASE("every point of a round's ring is half a diameter from the axis") {
  const Section s = round_tube(0.0269, 0.0023, nu);
  const std::vector<StressPoint> ring = surface_ring(s, bending(100, 12, -7));
  REQUIRE(ring.size() == 32);
  for (const StressPoint& p : ring) CHECK_THAT(std::hypot(p.y, p.z), WithinRel(0.01345, 1e-12));
  const double polygon = 16 * 0.01345 * 0.01345 * std::sin(2 * M_PI / 32);
  CHECK_THAT(signed_area(ring), WithinRel(polygon, 1e-12));
}

TEST_CASE("the greatest bending stress on a round's ring is M/W whatever the plane of bending") {
  const Section s = round_tube(0.0269, 0.0023, nu);
  const double angle = GENERATE(0.0, 0.05, 0.3, 1.0, 2.2, 3.14159, -0.7, -2.9);
  const double W = M_PI * (std::pow(0.0269, 4) - std::pow(0.0223, 4)) / (32 * 0.0269);
  const SectionForces f = bending(0, 80 * std::cos(angle), 80 * std::sin(angle));
  CHECK_THAT(greatest_on_ring(s, f), WithinRel(80 / W, 1e-12));
}

TEST_CASE("a turned point of a round's ring has the transverse shear of its angle") {
  // Thin tube: tau = 2 V/A at the neutral axis, falling with the cosine (any mechanics textbook).
  const Section s = round_tube(0.1, 0.0005, nu);
  SectionForces f = bending(0, 1e-9, 1e-9 * std::tan(0.05));
  f.Vz = 1000;
  for (const StressPoint& p : surface_ring(s, f)) {
    const double expected = 2 * f.Vz / s.A * p.y / 0.05;
    CHECK_THAT(surface_stress(s, p, f).shear, WithinAbs(expected, 0.01 * 2 * f.Vz / s.A));
  }
}

TEST_CASE("a section known by its numbers is drawn as the thin square tube they fit") {
  const double b = 0.03, t = 0.001;
  const Section s = numbers_only(4 * b * t, 2.0 / 3 * b * b * b * t, 1e-6);
  const std::vector<StressPoint> ring = surface_ring(s, bending(1, 2, 3));
  REQUIRE(ring.size() == 8);
  CHECK_THAT(signed_area(ring), WithinRel(b * b, 1e-12));
}

TEST_CASE("a section known by its numbers shows its worst stress all round") {
  const Section s = numbers_only(2e-4, 2e-8, 1e-6);
  const SectionForces f = bending(-1000, 30, -40);
  for (const StressPoint& p : surface_ring(s, f)) {
    const PointStress here = surface_stress(s, p, f);
    CHECK_THAT(here.normal,
               WithinRel(-(1000 / 2e-4 + 70 / 1e-6), 1e-12));  // -(N/A + M_y/W + M_z/W)
    CHECK_THAT(here.von_mises, WithinRel(1000 / 2e-4 + 70 / 1e-6, 1e-12));
  }
}

TEST_CASE("the greatest longitudinal stress keeps its sign") {
  const Section s = hollow_rectangle(0.025, 0.025, 0.002, {}, nu);
  const double bent = 100 / s.Wy;
  CHECK_THAT(greatest_normal_stress(s, bending(2000, 100, 0)), WithinRel(2000 / s.A + bent, 1e-9));
  CHECK_THAT(greatest_normal_stress(s, bending(-2000, 100, 0)),
             WithinRel(-2000 / s.A - bent, 1e-9));
  CHECK_THAT(greatest_normal_stress(s, bending(0, 100, 0)), WithinRel(bent, 1e-9));
  CHECK_THAT(greatest_normal_stress(s, bending(0, -100, 0)), WithinRel(bent, 1e-9));
}

}  // namespace tubewright::surface_stress_test
