#include "cases/checks/section_resistance.h"

#include <cmath>
#include <limits>
#include <numbers>

#include "solver/elements/stress.h"
#include "solver/model/section_shapes.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::section_resistance_test {

namespace {

constexpr Source by_hand =
    from_memory("EN 1993-1-1 6.2.3 to 6.2.7 (worked by hand and by a separate script)");
constexpr Source interaction = from_memory("EN 1993-1-1 (6.39) to (6.41) (worked by hand)");
constexpr Source elastic = rederived("N/A + M_y/W_y + M_z/W_z, EN 1993-1-1 6.2.1(5)");
constexpr Source gardner =
    from_memory("Gardner & Nethercot, Designers' Guide to EN 1993-1-1 (2005), example 6.7");
constexpr Source shear_rules = from_memory("EN 1993-1-1 6.2.8(2) to (4), 6.2.7(9)");

constexpr double mm = 1e-3, MPa = 1e6, kN = 1e3, kNm = 1e3;
constexpr double missing = std::numeric_limits<double>::quiet_NaN();

Section tube(double height, double width, double wall) {
  return hollow_rectangle(height * mm, width * mm, wall * mm, cold_formed_corners(wall * mm), 0.3);
}

// Two members worked by hand and by a separate script with EN 10219-2 properties and EN 1993-1-1
// 6.2, from memory; gamma_M0 = 1.
const SectionForces forces_A = {-10 * kN, 0, 0, 0, 0.10 * kNm, 0.05 * kNm};
const SectionForces forces_B = {-40 * kN, 0, 0, 0, 0.50 * kNm, 0.30 * kNm};

SectionForces times(double factor, const SectionForces& f) {
  return {factor * f.N, factor * f.Vy, factor * f.Vz, factor * f.T, factor * f.My, factor * f.Mz};
}

double share(const Section& s, double fy, const SectionForces& f) {
  return *section_check(s, fy * MPa, f).load_share.utilisation;
}

double combined(const Section& s, double fy, const SectionForces& f) {
  return *section_check(s, fy * MPa, f).combined.utilisation;
}

}  // namespace

TEST_CASE("resistances of 25 x 25 x 2 in S235 and 40 x 40 x 3 in S355 are those worked by hand",
          "[truth]") {
  // EN 1993-1-1 6.2.3, 6.2.5, 6.2.6, 6.2.7, from memory; recomputed.
  const Section a = tube(25, 25, 2), b = tube(40, 40, 3);
  truth("25 x 25 x 2: A, mm2", by_hand, a.A / (mm * mm), within_abs(173.699, 5e-4));
  truth("25 x 25 x 2: W_pl, mm3", by_hand, a.Wply / (mm * mm * mm), within_abs(1466.11, 5e-3));
  truth("40 x 40 x 3: A, mm2", by_hand, b.A / (mm * mm), within_abs(420.823, 5e-4));
  truth("40 x 40 x 3: W_pl, mm3", by_hand, b.Wply / (mm * mm * mm), within_abs(5723.52, 5e-3));

  const SectionResistance A = section_resistance(a, 235 * MPa, 1);
  truth("25 x 25 x 2, S235: N_pl,Rd, kN", by_hand, A.N_Rd / kN, within_abs(40.819, 5e-4));
  truth("25 x 25 x 2, S235: M_pl,Rd, kN m", by_hand, A.My_Rd / kNm, within_abs(0.34454, 5e-6));
  truth("25 x 25 x 2, S235: V_pl,Rd, kN", by_hand, A.Vz_Rd / kN, within_abs(11.784, 5e-4));
  truth("25 x 25 x 2, S235: T_Rd, kN m", by_hand, A.T_Rd / kNm,
        within_abs(0.24474, 3e-5));  // C_t of 1804.1 mm3 to five digits
  const SectionResistance B = section_resistance(b, 355 * MPa, 1);
  truth("40 x 40 x 3, S355: N_pl,Rd, kN", by_hand, B.N_Rd / kN, within_abs(149.392, 5e-4));
  truth("40 x 40 x 3, S355: M_pl,Rd, kN m", by_hand, B.My_Rd / kNm, within_abs(2.03185, 5e-6));
  truth("40 x 40 x 3, S355: V_pl,Rd, kN", by_hand, B.Vy_Rd / kN, within_abs(43.126, 5e-4));
  truth("40 x 40 x 3, S355: T_Rd, kN m", by_hand, B.T_Rd / kNm, within_abs(1.44988, 5e-5));
}

TEST_CASE("a round column of 244.5 x 10 in S275 carries 2027 kN by its section alone", "[truth]") {
  // Gardner & Nethercot, Designers' Guide to EN 1993-1-1, example 6.7: 2026.8 kN with A rounded to
  // 7370 mm2, from memory; recomputed.
  const Section s = round_tube(244.5 * mm, 10 * mm, 0.3);
  truth("round 244.5 x 10, S275: N_c,Rd, kN", gardner,
        section_resistance(s, 275 * MPa, 1).N_Rd / kN, within_rel(2026.8, 5e-4));
  CHECK_THAT(shear_area_z(s), WithinRel(2 * s.A / std::numbers::pi, 1e-12));
}

TEST_CASE("moment beside axial force and its exponent follow 6.2.9.1 in the two worked members",
          "[truth]") {
  // EN 1993-1-1 (6.39) to (6.41), from memory; recomputed.
  const double n_A = 10 / 40.819, a_A = (173.699 - 2 * 25 * 2) / 173.699;
  CHECK_THAT(a_A, WithinAbs(0.4243, 5e-5));
  truth("25 x 25 x 2, S235, n 0.245: M_N,Rd, kN m", interaction,
        0.34454 * moment_beside_axial_rectangle(n_A, a_A), within_abs(0.33018, 1e-5));
  truth("25 x 25 x 2, S235, n 0.245: alpha", interaction, biaxial_exponent(n_A),
        within_abs(1.7808, 5e-5));
  const double n_B = 40 / 149.392, a_B = (420.823 - 2 * 40 * 3) / 420.823;
  CHECK_THAT(a_B, WithinAbs(0.4297, 5e-5));
  truth("40 x 40 x 3, S355, n 0.268: M_N,Rd, kN m", interaction,
        2.03185 * moment_beside_axial_rectangle(n_B, a_B), within_abs(1.89494, 1e-5));
  truth("40 x 40 x 3, S355, n 0.268: alpha", interaction, biaxial_exponent(n_B),
        within_abs(1.8063, 5e-5));
}

TEST_CASE("the biaxial exponent stays between 1.66 and 6", "[truth]") {
  CHECK(biaxial_exponent(0) == 1.66);
  truth("alpha at n 0.8", interaction, biaxial_exponent(0.8),
        within_abs(5.997, 5e-4));  // 1.66/(1 - 1.13 x 0.64)
  CHECK(biaxial_exponent(0.85) == 6);
  CHECK(biaxial_exponent(1) == 6);
  CHECK(biaxial_exponent(50) == 6);
}

TEST_CASE("the interaction of the two worked members is that worked by hand", "[truth]") {
  // EN 1993-1-1 (6.41), from memory; recomputed. Where the axial share alone is greater than the
  // value of (6.41), it is the utilisation.
  const Section a = tube(25, 25, 2), b = tube(40, 40, 3);
  const auto eq_6_41 = [](const Section& s, double fy, const SectionForces& f) {
    const SectionResistance r = section_resistance(s, fy * MPa, 1);
    const double n = std::abs(f.N) / r.N_Rd, alpha = biaxial_exponent(n);
    const double w = (s.A - 2 * s.profile.width * s.profile.wall) / s.A;
    const double M_N = r.My_Rd * moment_beside_axial_rectangle(n, w);
    return std::pow(f.My / M_N, alpha) + std::pow(f.Mz / M_N, alpha);
  };
  truth("25 x 25 x 2, S235: (6.41)", interaction, eq_6_41(a, 235, forces_A),
        within_abs(0.1539, 5e-5));
  truth("40 x 40 x 3, S355: (6.41)", interaction, eq_6_41(b, 355, forces_B),
        within_abs(0.1259, 5e-5));
  CHECK_THAT(combined(a, 235, forces_A), WithinAbs(10 / 40.819, 5e-5));
  CHECK_THAT(combined(b, 355, forces_B), WithinAbs(40 / 149.392, 5e-5));
  const SectionForces moments = {0, 0, 0, 0, 0.25 * kNm, 0.15 * kNm};
  CHECK_THAT(combined(a, 235, moments), WithinAbs(eq_6_41(a, 235, moments), 1e-12));
  // The sum of shares, 6.2.1(7): the load share lies below it.
  const double linear_A = 10 / 40.819 + (0.10 + 0.05) / 0.34454;
  const double linear_B = 40 / 149.392 + (0.50 + 0.30) / 2.03185;
  CHECK_THAT(linear_A, WithinAbs(0.6804, 1e-4));
  CHECK_THAT(linear_B, WithinAbs(0.6615, 1e-4));
  CHECK(share(a, 235, forces_A) < linear_A);
  CHECK(share(b, 355, forces_B) < linear_B);
}

TEST_CASE("the elastic stress of the two worked members is that worked by hand", "[truth]") {
  // sigma = N/A + M_y/W_y + M_z/W_z: EN 1993-1-1 6.2.1(5), recomputed.
  truth("25 x 25 x 2, S235: elastic stress, MPa", elastic,
        worst_stress(tube(25, 25, 2), forces_A).von_mises / MPa, within_abs(183.96, 5e-3));
  truth("40 x 40 x 3, S355: elastic stress, MPa", elastic,
        worst_stress(tube(40, 40, 3), forces_B).von_mises / MPa, within_abs(266.66, 5e-3));
}

TEST_CASE("forces divided by the load share are at the limit of the interaction") {
  const Section sections[] = {tube(25, 25, 2), tube(50, 30, 3),
                              round_tube(33.7 * mm, 2.6 * mm, 0.3), round_bar(20 * mm, 0.3),
                              flat_bar(40 * mm, 8 * mm, 0.3)};
  const SectionForces loads[] = {forces_A,
                                 {-3e3, 5e3, 2e3, 40, 120, -60},
                                 {9e3, 0, 15e3, 0, 0, 30},
                                 {0, 0, 0, 0, 100, 0},
                                 {0, 0, 9e3, 90, 5, 0}};
  for (const Section& s : sections) {
    for (const SectionForces& f : loads) {
      const double u = share(s, 235, f);
      CHECK(combined(s, 235, times((1 + 1e-6) / u, f)) > 1);
      CHECK(combined(s, 235, times((1 - 1e-6) / u, f)) < 1);
      CHECK_THAT(share(s, 235, times(3, f)), WithinRel(3 * u, 1e-9));  // in proportion to the load
    }
  }
}

TEST_CASE("on the way from no load to failure the interaction crosses its limit once") {
  const Section s = tube(40, 20, 2);
  for (double N : {-20e3, -5e3, 0.0, 20e3}) {
    for (double V : {0.0, 4e3, 12e3}) {
      for (double T : {0.0, 60.0}) {
        bool beyond = false;
        for (int i = 1; i <= 300; ++i) {
          const double value = combined(s, 235, times(i * 0.01, {N, V / 2, V, T, 200, 80}));
          if (beyond) CHECK(value > 1);
          beyond = beyond || value > 1;
        }
      }
    }
  }
}

TEST_CASE("a round tube's moment beside axial force stays close to that of a thin ring") {
  // Thin ring, fully plastic: M_N = M_pl cos(pi n/2) (statics).
  for (double n = 0; n <= 1; n += 0.05) {
    CHECK_THAT(moment_beside_axial_round(n), WithinAbs(std::cos(std::numbers::pi * n / 2), 0.03));
  }
  CHECK(moment_beside_axial_round(1) == 0);
  CHECK(moment_beside_axial_round(3) == 0);
}

TEST_CASE("a round tube resists bending and shear alike whichever way they act") {
  const Section s = round_tube(33.7 * mm, 2.6 * mm, 0.3);
  const SectionResistance r = section_resistance(s, 235 * MPa, 1);
  const double M = 300;
  const double straight = combined(s, 235, {-9e3, 0, 0, 0, M, 0});
  for (double angle = 0; angle < 6; angle += 0.5) {
    const SectionForces f = {-9e3, 0, 0, 0, M * std::cos(angle), M * std::sin(angle)};
    CHECK_THAT(combined(s, 235, f), WithinRel(straight, 1e-9));
    const SectionForces shear = {0, 20e3 * std::cos(angle), 20e3 * std::sin(angle), 0, 0, 0};
    CHECK_THAT(share(s, 235, shear), WithinRel(20e3 / r.Vz_Rd, 1e-9));
  }
}

TEST_CASE("height and width of a rectangular tube change places with the axes") {
  const Section upright = tube(60, 40, 3), flat = tube(40, 60, 3);
  const SectionForces f = {-30e3, 3e3, 25e3, 100, 900, 300};
  const SectionForces turned = {-30e3, 25e3, 3e3, 100, 300, 900};
  CHECK_THAT(combined(flat, 235, turned), WithinRel(combined(upright, 235, f), 1e-9));
  CHECK_THAT(shear_area_y(flat), WithinRel(shear_area_z(upright), 1e-12));
}

TEST_CASE("shear counts in bending from half its resistance on, and torsion brings it nearer",
          "[truth]") {
  // EN 1993-1-1 6.2.8(2), (3), (4) and 6.2.7(9), from memory; by hand.
  CHECK(shear_reduction(0, 0) == 0);
  CHECK(shear_reduction(0.5, 0) == 0);
  truth("reduction rho at V/V_pl 0.75", shear_rules, shear_reduction(0.75, 0),
        within_rel(0.25, 1e-12));
  truth("reduction rho at V/V_pl 0.6 beside T/T_Rd 0.2", shear_rules, shear_reduction(0.6, 0.2),
        within_rel(0.25, 1e-12));  // 0.6/0.8 = 0.75
  CHECK(shear_reduction(1, 0) == 1);
  CHECK(shear_reduction(7, 0.5) == 1);
  CHECK(shear_reduction(0, 7) == 0);

  const Section s = tube(40, 40, 3);
  const SectionResistance r = section_resistance(s, 235 * MPa, 1);
  const SectionForces bent = {0, 0, 0, 0, 0.7 * r.My_Rd, 0};
  SectionForces sheared = bent;
  sheared.Vz = 0.3 * r.Vz_Rd;  // 0.43 where the moment is at its limit
  CHECK(share(s, 235, sheared) == Approx(share(s, 235, bent)));
  sheared.T = 0.3 * r.T_Rd;
  CHECK_THAT(*section_check(s, 235 * MPa, sheared).shear.utilisation, WithinRel(0.3 / 0.7, 1e-9));
  CHECK(share(s, 235, sheared) > share(s, 235, bent));
}

TEST_CASE("no force uses nothing, and one force at its resistance uses all") {
  const Section s = tube(40, 40, 3);
  const SectionCheck idle = section_check(s, 235 * MPa, {});
  for (const CheckResult& c :
       {idle.axial, idle.bending, idle.shear, idle.torsion, idle.combined, idle.load_share}) {
    CHECK(c.utilisation == 0.0);
  }
  const SectionResistance r = section_resistance(s, 235 * MPa, 1);
  for (const SectionForces& f : {SectionForces{r.N_Rd, 0, 0, 0, 0, 0},
                                 {0, r.Vy_Rd, 0, 0, 0, 0},
                                 {0, 0, r.Vz_Rd, 0, 0, 0},
                                 {0, 0, 0, r.T_Rd, 0, 0},
                                 {0, 0, 0, 0, r.My_Rd, 0},
                                 {0, 0, 0, 0, 0, r.Mz_Rd}}) {
    CHECK_THAT(share(s, 235, f), WithinRel(1, 1e-9));
    CHECK_THAT(combined(s, 235, f), WithinRel(1, 1e-9));
  }
}

TEST_CASE("forces far beyond the resistance give a finite number beyond one") {
  const Section s = tube(40, 40, 3);
  for (double size : {1e6, 1e12}) {
    const SectionCheck r = section_check(s, 235 * MPa, {-size, size, size, size, size, -size});
    for (const CheckResult& c :
         {r.axial, r.bending, r.shear, r.torsion, r.combined, r.load_share}) {
      REQUIRE(c.utilisation);
      CHECK(std::isfinite(*c.utilisation));
      CHECK(*c.utilisation > 1);
    }
  }
}

TEST_CASE("a class 3 section is checked elastically and a class 4 one on its effective section") {
  const Section s = tube(60, 60, 1.4);  // c/t 39.9 in S235
  const SectionForces f = {-20e3, 0, 3e3, 20, 300, 100};
  const SectionCheck three = section_check(s, 235 * MPa, f);
  CHECK(three.section_class.value == 3);
  CHECK_THAT(*three.combined.utilisation,
             WithinRel(worst_stress(s, f).von_mises / (235 * MPa), 1e-12));

  const Section thin = tube(63, 63, 1);
  const SectionCheck four = section_check(thin, 235 * MPa, {-20e3, 0, 0, 0, 0, 0});
  CHECK(four.section_class.value == 4);
  // By hand: A_eff = A - 4 x 15.03 mm2.
  CHECK_THAT(*four.axial.utilisation, WithinRel(20e3 / ((thin.A / (mm * mm) - 60.12) * 235), 1e-3));
  CHECK(*four.combined.utilisation > worst_stress(thin, {-20e3, 0, 0, 0, 0, 0}).von_mises / 235e6);
}

TEST_CASE("there is a reason where the section cannot be checked") {
  const SectionForces f = {-20e3, 0, 0, 0, 300, 100};
  const auto reason = [&](const Section& s, double fy, const SectionForces& load) {
    const SectionCheck r = section_check(s, fy, load);
    CHECK_FALSE(r.combined.utilisation);
    CHECK_FALSE(r.axial.utilisation);
    CHECK_FALSE(r.load_share.utilisation);
    CHECK(r.shear.reason == r.combined.reason);
    return r.combined.reason;
  };
  CHECK_THAT(reason(tube(40, 40, 3), missing, f), ContainsSubstring("no yield strength"));
  Section given;
  given.A = 1e-4;
  CHECK_THAT(reason(given, 235 * MPa, f), ContainsSubstring("properties"));
  CHECK_THAT(reason(round_tube(100 * mm, 1 * mm, 0.3), 235 * MPa, f),
             ContainsSubstring("class 4: effective section needed"));
  CHECK_THAT(reason(tube(100, 100, 1.2), 235 * MPa, f), ContainsSubstring("buckle in shear"));
  CHECK_THAT(reason(tube(40, 40, 3), 235 * MPa, {missing, 0, 0, 0, 0, 0}),
             ContainsSubstring("not finite"));
}

}  // namespace tubewright::section_resistance_test
