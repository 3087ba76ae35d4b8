// Joints of sheets against limits that need no shear lag: a narrow bond is a plain shear spring
// G w/t, forces balance across the width, and lengths scale. The series of strips that stands for
// the bond stands in sheet_buckling_test.cpp.
#include "solver/elements/sheet_joint.h"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

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

TEST_CASE("a sheet that goes on over its bond: strips of adhesive under flows on both sides") {
  // Gt u'' = G_a u/t_a with Gt u' = q1 and q2 at the two edges of the sheet on the tube, by central
  // differences on cells; the tube does not move. Slips and stresses by superposition.
  constexpr int cells = 4000;
  for (const BondLine& bond :
       {BondLine{800e6, 0.3e-3, 20e-3}, BondLine{50e6, 2e-3, 15e-3}, BondLine{1e6, 3e-3, 10e-3}}) {
    const double h = bond.width / cells, spring = bond.G / bond.thickness * h, link = Gt / h;
    for (const auto& [q1, q2] : {std::pair{1.0, 1.0}, {1.0, -1.0}, {1.0, 0.0}, {0.7, 1.9}}) {
      // Balance of a cell: link (u_i+1 - u_i) - link (u_i - u_i-1) = spring u_i; Thomas' algorithm.
      std::vector<double> diagonal(cells, 2 * link + spring), right(cells, 0.0), u(cells);
      diagonal.front() = diagonal.back() = link + spring;
      right.front() = -q1;
      right.back() = q2;
      for (int i = 1; i < cells; ++i) {
        const double w = link / diagonal[i - 1];
        diagonal[i] -= w * link;
        right[i] += w * right[i - 1];
      }
      u.back() = right.back() / diagonal.back();
      for (int i = cells - 2; i >= 0; --i) u[i] = (right[i] + link * u[i + 1]) / diagonal[i];
      const double end1 = u.front() - q1 * h / (2 * Gt), end2 = u.back() + q2 * h / (2 * Gt);
      // The work of the flows: through and net part do none on each other.
      const double through = (q1 + q2) / 2, net = q1 - q2;
      const double alone = 1 / bond_stiffness(bond, Gt);
      const double passing = bond_through_flexibility(bond, Gt);
      const double work = q2 * end2 - q1 * end1;
      CHECK_THAT(
          work,
          WithinRel(2 * through * through * passing + net * net / 2 * (2 * alone - passing), 1e-5));
      const double peak = bond.G / bond.thickness * std::max(std::abs(end1), std::abs(end2));
      CHECK_THAT(peak, WithinRel(std::abs(net) * bond_peak_per_net(bond, Gt) +
                                     std::abs(through) * bond_peak_per_through(bond, Gt),
                                 1e-5));
    }
  }
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
