#include "cases/checks/aluminium_member.h"

#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>
#include <string>
#include <vector>

#include "solver/model/section_shapes.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::aluminium_member_test {

namespace {

constexpr Source table_6_2 = from_memory("EN 1999-1-1 Table 6.2, internal parts");
constexpr Source table_6_3 = from_memory("EN 1999-1-1 Table 6.3, by hand");
constexpr Source beta_walls = from_memory("EN 1999-1-1 6.1.4, by hand");
constexpr Source curves =
    from_memory("EN 1999-1-1 (6.50), (6.51), Table 6.6 (recomputed to four digits)");
constexpr Source members = from_memory("EN 1999-1-1 6.3.1, 6.3.3 (worked apart from the program)");
constexpr Source welds = from_memory("EN 1999-1-1 8.6.3.3, 8.6.3.4, Table 8.8, by hand");

constexpr double mm = 1e-3, MPa = 1e6, kN = 1e3, E = 70e9, pi = std::numbers::pi;
constexpr double missing = std::numeric_limits<double>::quiet_NaN();
constexpr double infinite = std::numeric_limits<double>::infinity();

Section square(double side, double wall) {  // sharp corners, as extruded
  return hollow_rectangle(side * mm, side * mm, wall * mm, {}, 0.3);
}

/// EN AW-6082-T6 of 5 mm at most: EN 1999-1-1 Table 3.2b, MEMORY.
AluminiumMaterial alloy_6082(bool ends_welded) {
  AluminiumMaterial m{250 * MPa, E, AlloyClass::A, std::nullopt};
  if (ends_welded) m.heat_affected = HeatAffected{125 * MPa, 185 * MPa};
  return m;
}

double used(const Section& s, const AluminiumMaterial& m, double L, double N, double My,
            double Mz) {
  const CheckResult r = aluminium_member_check(s, m, {L, L}, N, My, Mz);
  REQUIRE(r.utilisation);
  return *r.utilisation;
}

/// The multiple of the forces that uses the member to 1.
double limit(const Section& s, const AluminiumMaterial& m, double L, double N, double My,
             double Mz) {
  double low = 0, high = 1e6;
  for (int i = 0; i < 100; ++i) {
    const double middle = (low + high) / 2;
    (used(s, m, L, middle * N, middle * My, middle * Mz) < 1 ? low : high) = middle;
  }
  return low;
}

std::string reason(const CheckResult& r) {
  CHECK_FALSE(r.utilisation);
  CHECK_FALSE(r.clause.empty());
  return r.reason;
}

constexpr SectionForces pull = {30 * kN, 0, 0, 0, 0, 0};

}  // namespace

TEST_CASE("aluminium walls change class at the limits of EN 1999-1-1 Table 6.2", "[truth]") {
  // EN 1999-1-1 Table 6.2, internal parts, MEMORY.
  const struct {
    AlloyClass alloy_class;
    bool heated;
    std::array<double, 3> limits;
  } table[] = {{AlloyClass::A, false, {11, 16, 22}},
               {AlloyClass::A, true, {9, 13, 18}},
               {AlloyClass::B, false, {13, 16.5, 18}},
               {AlloyClass::B, true, {10, 13.5, 15}}};
  for (const auto& row : table) {
    const auto greatest = [&row](int class_value) {
      double low = 0, high = 1000;  // by halves
      for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        const int found = aluminium_wall_class(middle, row.alloy_class, row.heated);
        (found <= class_value ? low : high) = middle;
      }
      return low;
    };
    for (int i = 0; i < 3; ++i) {
      truth(named("class ", row.alloy_class == AlloyClass::A ? "A" : "B",
                  row.heated ? ", welded" : "", ": greatest beta of section class ", i + 1),
            table_6_2, greatest(i + 1), within_abs(row.limits[static_cast<size_t>(i)], 1e-9));
      const double beta = row.limits[static_cast<size_t>(i)];
      CHECK(aluminium_wall_class(beta, row.alloy_class, row.heated) == i + 1);
      CHECK(aluminium_wall_class(beta + 0.01, row.alloy_class, row.heated) == i + 2);
    }
    // The curve of Table 6.3 must meet 1 where class 4 begins (law; both tables MEMORY), and falls.
    const double beta_3 = row.limits[2];
    CHECK(local_buckling_factor(beta_3, row.alloy_class, row.heated) == 1);
    CHECK_THAT(local_buckling_factor(beta_3 * (1 + 1e-12), row.alloy_class, row.heated),
               WithinRel(1.0, 1e-9));
    double before = 1;
    for (double beta = beta_3 + 1; beta < 300; beta += 1) {
      const double rho = local_buckling_factor(beta, row.alloy_class, row.heated);
      CHECK(rho < before);
      CHECK(rho > 0);
      before = rho;
    }
  }
}

TEST_CASE("a tube has the class of its worst wall, better when the alloy is softer", "[truth]") {
  // beta = b/t, epsilon = sqrt(250/f_o), round 3 sqrt(D/t): EN 1999-1-1 6.1.4, MEMORY; by hand.
  AluminiumMaterial m = alloy_6082(false);
  const AluminiumClass c = aluminium_class(square(40, 2), m);
  truth("40 x 40 x 2: beta", beta_walls, c.beta, within_rel(18.0, 1e-12));
  CHECK(c.value == 3);
  CHECK(c.rho_c == 1);
  CHECK(aluminium_class(hollow_rectangle(20 * mm, 40 * mm, 2 * mm, {}, 0.3), m).beta == c.beta);
  m.fo = 160 * MPa;  // epsilon 1.25: 14.4
  CHECK(aluminium_class(square(40, 2), m).value == 2);

  const AluminiumClass round = aluminium_class(round_tube(50 * mm, 1 * mm, 0.3), alloy_6082(false));
  truth("round 50 x 1: beta", beta_walls, round.beta, within_rel(21.0, 1e-9));  // 3 sqrt(49)
  CHECK(round.value == 3);
  const AluminiumClass shell = aluminium_class(round_tube(50 * mm, 1 * mm, 0.3), alloy_6082(true));
  CHECK(shell.value == 0);
  CHECK_THAT(shell.reason, ContainsSubstring("class 4"));
  CHECK(aluminium_class(round_bar(10 * mm, 0.3), m).value == 1);
  CHECK(aluminium_class(flat_bar(40 * mm, 5 * mm, 0.3), m).value == 1);
}

TEST_CASE("thin walls count for the share rho_c, worked by hand", "[truth]") {
  // 60 x 60 x 1.5: beta 38; 32/38 - 220/38^2 = 0.68975, welded 29/38 - 198/38^2 = 0.62604 (MEMORY).
  const Section s = square(60, 1.5);
  truth("60 x 60 x 1.5, 6082-T6: rho_c", table_6_3, aluminium_class(s, alloy_6082(false)).rho_c,
        within_abs(0.68975, 5e-6));
  truth("60 x 60 x 1.5, 6082-T6 welded: rho_c", table_6_3,
        aluminium_class(s, alloy_6082(true)).rho_c, within_abs(0.62604, 5e-6));
  CHECK_THAT(used(s, alloy_6082(false), 1, 0, 500, 0),
             WithinRel(500 / (0.689750692520776 * s.Wy * 250e6 / 1.1), 1e-9));
}

TEST_CASE("rho_c W is not above the modulus with only the compressed half thinned") {
  // Statics: the box in strips, thinned by rho above its own centroid, which is found by iteration.
  for (double ratio : {0.4, 1.0, 3.0}) {
    for (double rho : {0.2, 0.5, 0.69, 0.9}) {
      const double h = ratio, b = 1, flange = b, web = 2.0;  // mid-line, wall 1, both webs
      const auto strips = [&](double threshold, double factor) {
        std::array<double, 3> sums = {};  // A, S, I about mid-height
        constexpr int n = 2000;
        const auto add = [&](double z, double area) {
          const double a = area * (z > threshold ? factor : 1);
          sums = {sums[0] + a, sums[1] + a * z, sums[2] + a * z * z};
        };
        for (int i = 0; i < n; ++i) add(h * ((i + 0.5) / n - 0.5), web * h / n);
        add(h / 2, flange);
        add(-h / 2, flange);
        return sums;
      };
      double centre = 0;
      std::array<double, 3> s = {};
      for (int i = 0; i < 200; ++i) {
        s = strips(centre, rho);
        centre = s[1] / s[0];
      }
      const double W_eff = (s[2] - s[0] * centre * centre) / (h / 2 - centre);
      CHECK(rho * strips(h, 1)[2] / (h / 2) <= W_eff);
    }
  }
}

TEST_CASE("both buckling classes have the reduction factors of EN 1999-1-1 6.3.1.2", "[truth]") {
  // EN 1999-1-1 (6.50), (6.51) with Table 6.6, MEMORY; recomputed to four digits.
  const struct {
    double lambda, A, B;
  } table[] = {{0, 1, 1},           {0.1, 1, .9687},     {0.2, .9796, .9377},
               {0.5, .9063, .8319}, {0.8, .7812, .6865}, {1.0, .6563, .5721},
               {1.5, .3710, .3363}, {2.0, .2228, .2080}, {3.0, .1037, .0993}};
  for (const auto& row : table) {
    truth(named("class A, slenderness ", row.lambda, ": chi"), curves,
          aluminium_reduction_factor(row.lambda, AlloyClass::A), within_abs(row.A, 5.1e-5));
    truth(named("class B, slenderness ", row.lambda, ": chi"), curves,
          aluminium_reduction_factor(row.lambda, AlloyClass::B), within_abs(row.B, 5.1e-5));
  }
}

TEST_CASE("a long aluminium column carries Euler's load over gamma_M1, a short one its yield") {
  // Derived limits; no column above pi^2 E I/L^2 nor above A f_o.
  const Section s = square(40, 3);
  const auto column = [&](double L) { return aluminium_column(s, alloy_6082(false), {L, L}); };
  CHECK_THAT(column(300).N_b_Rd, WithinRel(pi * pi * E * s.Iy / (300.0 * 300.0) / 1.1, 2e-3));
  CHECK_THAT(column(0.01).N_b_Rd, WithinRel(s.A * 250e6 / 1.1, 1e-12));
  for (double L = 0.05; L < 20; L *= 1.3) {
    const AluminiumColumn c = column(L);
    CHECK(c.N_b_Rd < c.N_cr_y);
    CHECK(c.N_b_Rd <= s.A * 250e6);
    CHECK(aluminium_column(s, alloy_6082(true), {L, L}).N_b_Rd < c.N_b_Rd);
  }
  const AluminiumColumn weak = aluminium_column(s, alloy_6082(false), {1, 2});
  CHECK(weak.N_b_Rd == column(2).N_b_Rd);
  CHECK_THAT(weak.N_cr_y, WithinRel(4 * weak.N_cr_z, 1e-12));
}

TEST_CASE("a welded tube of 40 x 40 x 2 in 6082-T6 under N and two moments is used to 0.755",
          "[truth]") {
  // Worked apart from the program by the formulas of the header (EN 1999-1-1 6.3.1, 6.3.3, MEMORY):
  // A 304 mm2, I 73365 mm4, W 3668 mm3, f_o,haz 125 MPa, L 1 m, N 8 kN, M 100 and 50 N m.
  const Section s = square(40, 2);
  const AluminiumMaterial m = alloy_6082(true);
  const AluminiumColumn c = aluminium_column(s, m, {1, 1});
  truth("40 x 40 x 2, 6082-T6 welded, 1 m: N_cr, N", members, c.N_cr_y, within_abs(50686.1, 0.05));
  truth("40 x 40 x 2, 6082-T6 welded, 1 m: slenderness", members, c.lambda_bar,
        within_abs(0.86586, 5e-6));
  truth("40 x 40 x 2, 6082-T6 welded, 1 m: chi", members, c.chi, within_abs(0.74304, 5e-6));
  truth("40 x 40 x 2, 6082-T6 welded, 1 m: N_b,Rd, N", members, c.N_b_Rd,
        within_abs(25668.8, 0.05));
  truth("40 x 40 x 2 welded, 8 kN push, 100 and 50 N m: utilisation", members,
        used(s, m, 1, -8 * kN, 100, 50), within_abs(0.75508, 5e-6));
  CHECK_THAT(used(s, m, 1, -8 * kN, -50, 100), WithinAbs(0.75508, 5e-6));
  truth("40 x 40 x 2 welded, 1 kN push, 100 and 50 N m: utilisation", members,
        used(s, m, 1, -1 * kN, 100, 50), within_abs(0.43440, 5e-6));  // (6.62) governs
  truth("40 x 40 x 2 welded, 8 kN pull, 100 and 50 N m: utilisation", members,
        used(s, m, 1, 8 * kN, 100, 50), within_abs(0.59142, 5e-6));
  CHECK_THAT(used(s, m, 1, 8 * kN, 0, 0), WithinRel(8000 * 1.1 / (304e-6 * 125e6), 1e-9));
  truth("40 x 40 x 2 not welded, 8 kN push, 100 and 50 N m: utilisation", members,
        used(s, alloy_6082(false), 1, -8 * kN, 100, 50), within_abs(0.48509, 5e-6));
}

TEST_CASE("welded ends count with the weakest of the strengths known") {
  AluminiumMaterial m = alloy_6082(true);
  CHECK(member_strength(m) == 125 * MPa);
  m.heat_affected = HeatAffected{140 * MPa, 150 * MPa};  // f_u,haz 1.10/1.25 = 132
  CHECK_THAT(member_strength(m), WithinRel(132 * MPa, 1e-12));
  m.fo = 80 * MPa;
  CHECK(member_strength(m) == 80 * MPa);
  m.heat_affected = HeatAffected{};
  CHECK(member_strength(m) == 0);
}

TEST_CASE("at its limit a bowed column bent by equal end moments has not yielded yet") {
  // Secant formula, Timoshenko & Gere, Theory of Elastic Stability, 1.13, MEMORY, and the bow that
  // alone yields at N_b,Rd gamma_M1 (Perry): sigma = N/A + N e/(W (1 - N/N_cr)) + M sec(...)/W.
  const Section s = square(40, 2);
  for (bool ends_welded : {false, true}) {
    const AluminiumMaterial m = alloy_6082(ends_welded);
    const double fo = ends_welded ? 125e6 : 250e6;
    for (double L : {0.1, 0.3, 0.6, 1.0, 2.0, 4.0}) {
      for (double M_per_N : {0.0, 1e-4, 1e-3, 1e-2, 0.1, 10.0}) {
        const AluminiumColumn c = aluminium_column(s, m, {L, L});
        const double N = limit(s, m, L, -1, M_per_N, 0), x = N / c.N_cr_y;
        const double bow = (1 / c.chi - 1) * (1 - c.chi * c.lambda_bar * c.lambda_bar);  // e A/W
        const double stress =
            N / s.A * (1 + bow / (1 - x)) + M_per_N * N / s.Wy / std::cos(pi / 2 * std::sqrt(x));
        CHECK(stress <= fo / 1.1 * (1 + 1e-9));
        CHECK(stress > 0.5 * fo / 1.1 * (1 - x));  // nor is the member thrown away
        if (M_per_N == 0) CHECK_THAT(N, WithinRel(c.N_b_Rd, 1e-9));
      }
    }
  }
}

TEST_CASE("what passes also passes the interaction of EN 1999-1-1 6.3.3 for hollow sections") {
  // (6.62): n^0.8 + (m_y^1.7 + m_z^1.7)^0.6 <= 1, psi_c at its least, MEMORY; M_Rd elastic.
  const Section s = square(40, 2);
  const AluminiumMaterial m = alloy_6082(true);
  for (double L : {0.1, 0.5, 1.0, 2.0}) {
    for (double e_y : {0.0, 1e-4, 1e-3, 1e-2, 0.1, 3.0}) {
      for (double e_z : {0.0, 1e-3, 0.1}) {
        const double N = limit(s, m, L, -1, e_y, e_z), M_Rd = s.Wy * 125e6 / 1.1;
        const double n = N / aluminium_column(s, m, {L, L}).N_b_Rd;
        const double bending = std::pow(e_y * N / M_Rd, 1.7) + std::pow(e_z * N / M_Rd, 1.7);
        CHECK(std::pow(n, 0.8) + std::pow(bending, 0.6) <= 1 + 1e-9);
      }
    }
  }
}

TEST_CASE("from Euler's load on a member is used beyond 1 by a finite number") {
  const Section s = square(40, 2);
  for (double L : {0.05, 1.0, 30.0}) {
    const double N_cr = aluminium_column(s, alloy_6082(true), {L, L}).N_cr_y;
    for (double share : {1.0, 1 + 1e-12, 1.5, 1e3, 1e200}) {
      for (double M : {0.0, 1e-9, 100.0, 1e250}) {
        const double u = used(s, alloy_6082(true), L, -share * N_cr, M, 0);
        CHECK(u > 1);
        CHECK(std::isfinite(u));
      }
    }
  }
}

TEST_CASE("more compression never uses a bent member less, on either side of Euler's load") {
  // A law: all second-order effects of compression grow with it.
  const Section s = square(40, 2);
  const double N_cr = aluminium_column(s, alloy_6082(true), {1, 1}).N_cr_y;
  double before = 0;
  for (double share = 0.01; share < 12; share *= 1.02) {
    const double u = used(s, alloy_6082(true), 1, -share * N_cr, 20, 10);
    CHECK(u > before);
    before = u;
  }
}

TEST_CASE("an aluminium member that cannot be checked has a reason") {
  const Section s = square(40, 2);
  const AluminiumMaterial m = alloy_6082(true);
  const auto check = [&](const Section& section, const AluminiumMaterial& material,
                         BucklingLengths lengths, double N, double M) {
    return reason(aluminium_member_check(section, material, lengths, N, M, 0));
  };
  CHECK_THAT(check(s, m, {0, 1}, -1, 0), ContainsSubstring("effective length"));
  CHECK_THAT(check(s, m, {1, 1}, missing, 0), ContainsSubstring("not finite"));
  CHECK_THAT(check(s, m, {1, 1}, 1, infinite), ContainsSubstring("not finite"));
  AluminiumMaterial unknown = m;
  unknown.heat_affected = HeatAffected{};
  CHECK_THAT(check(s, unknown, {1, 1}, 1, 0), ContainsSubstring("beside the welds"));
  unknown.fo = missing;
  CHECK_THAT(check(s, unknown, {1, 1}, 1, 0), ContainsSubstring("no yield strength"));
  AluminiumMaterial soft = m;
  soft.E = 0;
  CHECK_THAT(check(s, soft, {1, 1}, -1, 0), ContainsSubstring("modulus"));
  CHECK_THAT(check(flat_bar(40 * mm, 5 * mm, 0.3), m, {1, 1}, -1, 5),
             ContainsSubstring("sideways"));
  CHECK_THAT(check(round_tube(50 * mm, 1 * mm, 0.3), m, {1, 1}, -1, 0),
             ContainsSubstring("class 4"));
  CHECK_THAT(check(Section{}, m, {1, 1}, 1, 0), ContainsSubstring("no area"));
  Section given = s;
  given.profile = {};
  CHECK_THAT(check(given, m, {1, 1}, -1, 0), ContainsSubstring("properties"));
  // What is only pulled needs neither class nor length.
  CHECK(used(given, m, 0, 1, 0, 0) > 0);
  CHECK(used(round_tube(50 * mm, 1 * mm, 0.3), m, 0, 1, 0, 0) > 0);
}

TEST_CASE("a welded tube of 40 x 40 x 3 in 6082-T6 pulled by 30 kN, worked by hand", "[truth]") {
  // EN 1999-1-1 8.6.3.3, 8.6.3.4, f_w = 210 MPa (6082 with filler 5356, Table 8.8), all MEMORY.
  // sigma_w = 30000/480 = 62.5 MPa; weld sqrt(2) 62.5 1.25/210; leg sqrt(3) 62.5/sqrt(2) 1.25/185;
  // tube 30000/444 1.10/125.
  const HeatAffected haz{125 * MPa, 185 * MPa};
  const AluminiumWeld r = aluminium_weld_check(square(40, 3), 3 * mm, 0, haz, 210 * MPa, pull);
  REQUIRE((r.weld.utilisation && r.fusion.utilisation && r.tube.utilisation));
  truth("40 x 40 x 3, 30 kN: weld", welds, *r.weld.utilisation, within_abs(0.5261, 5e-5));
  truth("40 x 40 x 3, 30 kN: fusion line", welds, *r.fusion.utilisation, within_abs(0.5172, 5e-5));
  truth("40 x 40 x 3, 30 kN: tube beside the weld", welds, *r.tube.utilisation,
        within_abs(0.5946, 5e-5));
  // f_u,haz/gamma_Mw = 148 MPa is below 180/1.10 = 163.6 MPa.
  const AluminiumWeld hard =
      aluminium_weld_check(square(40, 3), 3 * mm, 0, {180 * MPa, 185 * MPa}, 210 * MPa, pull);
  CHECK_THAT(*hard.tube.utilisation, WithinAbs(0.4565, 5e-5));
}

TEST_CASE("torsion shears an aluminium weld along the line") {
  // Bredt: 96 N m/(2 x 40 x 40 x 3 mm3) = 10 MPa along the throat, 10/sqrt(2) on the leg.
  const AluminiumWeld r = aluminium_weld_check(square(40, 3), 3 * mm, 0, {125 * MPa, 185 * MPa},
                                               210 * MPa, {0, 0, 0, 96, 0, 0});
  CHECK_THAT(*r.weld.utilisation, WithinRel(std::sqrt(3.0) * 10 * 1.25 / 210, 1e-9));
  CHECK_THAT(*r.fusion.utilisation, WithinRel(std::sqrt(1.5) * 10 * 1.25 / 185, 1e-9));
  const AluminiumWeld idle =
      aluminium_weld_check(square(40, 3), 3 * mm, 0, {125 * MPa, 185 * MPa}, 210 * MPa, {});
  CHECK(idle.weld.utilisation == 0.0);
  CHECK(idle.fusion.utilisation == 0.0);
  CHECK(idle.tube.utilisation == 0.0);
}

TEST_CASE("an aluminium weld without filler, throat or outline still leaves the tube checked") {
  const HeatAffected haz{125 * MPa, 185 * MPa};
  const Section s = square(40, 3);
  const auto why = [&](const Section& section, double throat, double radius, double f_w) {
    const AluminiumWeld r = aluminium_weld_check(section, throat, radius, haz, f_w, pull);
    CHECK(r.tube.utilisation);
    CHECK(reason(r.fusion) == r.weld.reason);
    return reason(r.weld);
  };
  CHECK_THAT(why(s, 3 * mm, 0, missing), ContainsSubstring("f_w"));
  CHECK_THAT(why(s, 0, 0, 210e6), ContainsSubstring("throat"));
  CHECK_THAT(why(s, 3 * mm, 21 * mm, 210e6), ContainsSubstring("radius"));
  Section given = s;
  given.profile = {};
  CHECK_THAT(why(given, 3 * mm, 0, 210e6), ContainsSubstring("outline"));
  const AluminiumWeld cold = aluminium_weld_check(s, 3 * mm, 0, {}, 210e6, pull);
  CHECK(cold.weld.utilisation);
  CHECK_THAT(reason(cold.fusion), ContainsSubstring("beside the welds"));
  CHECK_THAT(reason(cold.tube), ContainsSubstring("beside the welds"));
}

TEST_CASE("no input of an aluminium check gives a number that is not finite") {
  const auto sound = [](const CheckResult& r) {
    CHECK(r.utilisation.has_value() == r.reason.empty());
    if (r.utilisation) CHECK((std::isfinite(*r.utilisation) && *r.utilisation >= 0));
  };
  struct Inputs {
    Section s = square(40, 2);
    double fo = 250e6, modulus = E, yield = 125e6, ultimate = 185e6, f_w = 210e6;
    double L_y = 1, L_z = 1, throat = 2e-3, radius = 0;
    SectionForces f = {-5e3, 100, 200, 30, 40, 50};
  };
  const auto all = [](Inputs& x) {
    Profile& p = x.s.profile;
    return std::vector<double*>{&x.s.A,      &x.s.Iy,  &x.s.Iz, &x.s.Wy, &x.s.Wz,    &x.s.Wt,
                                &p.height,   &p.width, &p.wall, &x.fo,   &x.modulus, &x.yield,
                                &x.ultimate, &x.f_w,   &x.L_y,  &x.L_z,  &x.f.N,     &x.throat,
                                &x.radius,   &x.f.Vy,  &x.f.Vz, &x.f.T,  &x.f.My,    &x.f.Mz};
  };
  Inputs counted;
  const size_t count = all(counted).size();
  for (ProfileKind kind : {ProfileKind::hollow_rectangle, ProfileKind::solid_rectangle,
                           ProfileKind::round, ProfileKind::unknown}) {
    for (size_t i = 0; i < count; ++i) {
      for (double value : {missing, infinite, -infinite, 0.0, -1.0, 5e-324, 1e-200, 1e200, 1e308}) {
        Inputs x;
        x.s.profile.kind = kind;
        *all(x)[i] = value;
        const HeatAffected haz{x.yield, x.ultimate};
        const AluminiumMaterial m{x.fo, x.modulus, AlloyClass::A, haz};
        CAPTURE(static_cast<int>(kind), i, value);
        for (double N : {x.f.N, -x.f.N}) {
          sound(aluminium_member_check(x.s, m, {x.L_y, x.L_z}, N, x.f.My, x.f.Mz));
        }
        const AluminiumColumn c = aluminium_column(x.s, m, {x.L_y, x.L_z});
        for (double number : {c.N_cr_y, c.N_cr_z, c.lambda_bar, c.chi, c.N_b_Rd}) {
          CHECK((c.reason.empty() ? number > 0 && std::isfinite(number) : number == 0));
        }
        const AluminiumWeld w = aluminium_weld_check(x.s, x.throat, x.radius, haz, x.f_w, x.f);
        for (const CheckResult* r : {&w.weld, &w.fusion, &w.tube}) sound(*r);
      }
    }
  }
}

// 6.3.3.3, 6.3.3.5 (MEMORY): omega_x = omega_0/(chi + (1 - chi) sin(pi x_s/l)).
TEST_CASE(
    "a weld across weakens a column most in its middle, and not by itself at its pinned end") {
  CHECK_THAT(local_weld_factor(0.5, 0.4, 0, 1), WithinRel(1.0, 1e-12));  // 0.5/0.4: chi governs
  CHECK_THAT(local_weld_factor(0.5, 0.8, 0, 1), WithinRel(0.5 / 0.8, 1e-12));
  CHECK_THAT(local_weld_factor(0.5, 0.4, 0.5, 1), WithinRel(0.5, 1e-12));
  CHECK_THAT(local_weld_factor(0.5, 0.4, 0.9, 1), WithinRel(0.5, 1e-12));
  CHECK_THAT(local_weld_factor(0.5, 0.8, 1.0 / 6, 1), WithinRel(0.5 / 0.9, 1e-12));
}

// 6.3.2.2 (MEMORY), written out; beyond the plateau.
TEST_CASE("chi_LT of aluminium by class") {
  const auto chi = [](double lambda, double alpha, double lambda_0) {
    const double Phi = 0.5 * (1 + alpha * (lambda - lambda_0) + lambda * lambda);
    return 1 / (Phi + std::sqrt(Phi * Phi - lambda * lambda));
  };
  CHECK_THAT(aluminium_lateral_factor(1.44, 1, 1), WithinRel(chi(1.2, 0.10, 0.6), 1e-12));
  CHECK_THAT(aluminium_lateral_factor(1.44, 1, 4), WithinRel(chi(1.2, 0.20, 0.4), 1e-12));
  CHECK(aluminium_lateral_factor(0.36, 1, 2) == 1);
  CHECK(aluminium_lateral_factor(0.36, 1, 3) < 1);
  CHECK(aluminium_lateral_factor(1, 0, 1) == 0);
}

TEST_CASE("forces at one place add up against what heat leaves there") {
  const Section s = square(40, 4);
  AluminiumMaterial m;
  m.fo = 250 * MPa;
  m.E = 70e9;
  m.alloy_class = AlloyClass::A;
  const double cold = *aluminium_section_check(s, m, 20e3, 300, 200).utilisation;
  CHECK_THAT(cold, WithinRel((20e3 / s.A + 300 / s.Wy + 200 / s.Wz) / (250e6 / 1.1), 1e-9));
  CHECK(*aluminium_section_check(s, m, -20e3, 300, 200).utilisation == cold);  // not class 4
  m.heat_affected = HeatAffected{125 * MPa, 185 * MPa};
  CHECK_THAT(*aluminium_section_check(s, m, 20e3, 300, 200).utilisation, WithinRel(2 * cold, 1e-9));
}

TEST_CASE("an aluminium flat bar tips over sideways, pulled or not") {
  const Section s = flat_bar(60 * mm, 4 * mm, 0.3);
  AluminiumMaterial m;
  m.fo = 250 * MPa;
  m.E = 70e9;
  m.alloy_class = AlloyClass::A;
  const double M_cr = 60, M = 40, chi = aluminium_lateral_factor(s.Wy * 250e6, M_cr, 1);
  const AluminiumSideEffects tips{M_cr, 1};
  const double bent = *aluminium_member_check(s, m, {1, 1}, 0, M, 0, tips).utilisation;
  CHECK_THAT(bent, WithinRel(M / (chi * s.Wy * 250e6 / 1.1), 1e-9));
  CHECK(*aluminium_member_check(s, m, {1, 1}, 1e3, M, 0, tips).utilisation == bent);
  CHECK(*aluminium_member_check(s, m, {1, 1}, -20, M, 0, tips).utilisation > bent);
  CHECK(*aluminium_member_check(s, m, {1, 1}, 0, M, 1, tips).utilisation > bent);
  CHECK_FALSE(aluminium_member_check(s, m, {1, 1}, 0, M, 0, {0.0, 1}).utilisation);
  CHECK_FALSE(aluminium_member_check(s, m, {1, 1}, 0, M, 0).utilisation);
}

}  // namespace tubewright::aluminium_member_test
