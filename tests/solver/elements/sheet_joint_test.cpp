// Joints of sheets against limits that need no shear lag: a narrow bond is a plain shear spring
// G w/t, forces balance across the width, and lengths scale. The series of strips that stands for
// the bond stands in sheet_buckling_test.cpp.
#include "solver/elements/sheet_joint.h"

#include <cmath>

#include "tests/catch.h"

namespace tubewright::sheet_joint_test {

namespace {

constexpr double Gt = 26e9 * 0.8e-3;  // aluminium sheet of 0.8 mm

}  // namespace

TEST_CASE("a narrow bond is a plain shear spring whose stress is even") {
  const BondLine bond = {2e6, 3e-3, 1e-4};
  CHECK_THAT(bond_stiffness(bond, Gt), WithinRel(bond.G * bond.width / bond.thickness, 1e-6));
  CHECK_THAT(bond_peak_per_flow(bond, Gt), WithinRel(1 / bond.width, 1e-6));
}

TEST_CASE("the stress of a bond falls off from its peak and carries the whole flow") {
  // tau(x) = peak cosh(lambda (w - x))/cosh(lambda w) solves Gt u'' = G_a u/t_a with a free far
  // edge; its sum across the width is the flow, and the flow over the slip at x = 0 the stiffness.
  const BondLine bond = {800e6, 0.3e-3, 20e-3};
  const double lambda = std::sqrt(bond.G / (bond.thickness * Gt));
  const double peak = bond_peak_per_flow(bond, Gt);
  constexpr int strips = 2000;
  double flow = 0;
  for (int i = 0; i < strips; ++i) {
    const double x = (i + 0.5) / strips * bond.width;
    flow += peak * std::cosh(lambda * (bond.width - x)) / std::cosh(lambda * bond.width) *
            bond.width / strips;
  }
  CHECK_THAT(flow, WithinRel(1.0, 1e-6));
  const double slip = peak * bond.thickness / bond.G;
  CHECK_THAT(bond_stiffness(bond, Gt), WithinRel(1 / slip, 1e-12));
}

TEST_CASE("a rivet between like plates of its own thickness and material gives 6.6/(E t)") {
  // Huth's formula with t1 = t2 = d: 2.2 (1 + 1 + 1/2 + 1/2)/(E t).
  const Plate plate = {3e-3, 70e9};
  CHECK_THAT(solid_rivet_flexibility(3e-3, 70e9, plate, plate),
             WithinRel(6.6 / (70e9 * 3e-3), 1e-12));
}

TEST_CASE("a rivet does not mind which plate is named first, and twice the size gives half") {
  const Plate sheet = {0.8e-3, 70e9}, tube = {2e-3, 210e9};
  const double C = solid_rivet_flexibility(4e-3, 70e9, sheet, tube);
  CHECK_THAT(solid_rivet_flexibility(4e-3, 70e9, tube, sheet), WithinRel(C, 1e-14));
  CHECK_THAT(solid_rivet_flexibility(8e-3, 70e9, {1.6e-3, 70e9}, {4e-3, 210e9}),
             WithinRel(C / 2, 1e-12));
  CHECK(solid_rivet_flexibility(5e-3, 70e9, sheet, tube) < C);
  CHECK(solid_rivet_flexibility(4e-3, 210e9, sheet, tube) < C);
}

}  // namespace tubewright::sheet_joint_test
