#include "cases/checks/weld_check.h"

#include <cmath>
#include <limits>
#include <numbers>
#include <string>

#include "solver/model/section_shapes.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::weld_check_test {

namespace {

constexpr Source en_4_5_3 = from_memory("EN 1993-1-8 4.5.3.2, 4.5.3.3 and Table 4.1 (recomputed)");
constexpr Source guide_3 = from_memory(
    "sqrt(2) beta_w gamma_M2 f_y/f_u; CIDECT Design Guide 3 rounds it to 0.92, 0.96, 1.10 walls "
    "(recomputed)");
constexpr Source by_hand = from_memory("EN 1993-1-8 4.5.3, worked by hand");
constexpr Source bredt = rederived("Bredt: T/(2 x 40 x 40 x 3 mm3)");

constexpr double mm = 1e-3, MPa = 1e6, kN = 1e3, kNm = 1e3;
constexpr double missing = std::numeric_limits<double>::quiet_NaN();

Profile square(double side, double wall) {
  return {ProfileKind::hollow_rectangle, side * mm, side * mm, wall * mm};
}

Profile round(double diameter, double wall) {
  return {ProfileKind::round, diameter * mm, diameter * mm, wall * mm};
}

FilletWeld weld(double fu, double beta_w) {
  FilletWeld w;
  w.fu = fu * MPa;
  w.beta_w = beta_w;
  return w;
}

}  // namespace

TEST_CASE("fillet welds in S235, S275 and S355 have the strengths of EN 1993-1-8 4.5.3",
          "[truth]") {
  // EN 1993-1-8 4.5.3.2, 4.5.3.3 and Table 4.1, from memory; recomputed. MPa, and N/mm at a = 3 mm.
  const struct {
    double fy, fu, beta_w, f_vwd, F_wRd, equivalent, perpendicular;
  } table[] = {
      {235, 360, 0.80, 207.85, 623.5, 360.0, 259.2}, {275, 430, 0.85, 233.66, 701.0, 404.7, 309.6},
      {355, 470, 0.90, 241.20, 723.6, 417.8, 338.4}, {355, 490, 0.90, 251.47, 754.4, 435.6, 352.8},
      {355, 510, 0.90, 261.73, 785.2, 453.3, 367.2},
  };
  for (const auto& row : table) {
    const std::string steel = named("S", row.fy, ", f_u ", row.fu);
    truth(named(steel, ": beta_w"), en_4_5_3, correlation_factor(row.fy * MPa),
          within_abs(row.beta_w, 0));
    const double f_vwd = weld_shear_strength(row.fu * MPa, row.beta_w) / MPa;
    truth(named(steel, ": f_vw,d, MPa"), en_4_5_3, f_vwd, within_abs(row.f_vwd, 5.1e-3));
    truth(named(steel, ": F_w,Rd of a 3 mm throat, N/mm"), en_4_5_3, 3 * f_vwd,
          within_abs(row.F_wRd, 0.051));
    // A pull alone, seen through the check: sigma_perp = tau_perp, so 2 sigma_perp meets the first
    // limit before sigma_perp meets the second.
    const double pull = 1 * kN, A_w = 4 * 40 * 3 * mm * mm;
    const WeldCheck r = weld_check(square(40, 3), weld(row.fu, row.beta_w), {pull, 0, 0, 0, 0, 0});
    truth(named(steel, ": f_u/(beta_w gamma_M2), MPa"), en_4_5_3,
          r.equivalent / *r.directional.utilisation / MPa, within_abs(row.equivalent, 0.051));
    CHECK_THAT(r.equivalent, WithinRel(std::numbers::sqrt2 * pull / A_w, 1e-12));
    CHECK_THAT(0.9 * row.fu / gamma_M2, WithinAbs(row.perpendicular, 1e-9));
  }
  CHECK(correlation_factor(420 * MPa) == 1);
  CHECK(correlation_factor(460 * MPa) == 1);
  CHECK(correlation_factor(missing) == 1);
}

TEST_CASE("a fillet as strong as the tube's wall is about as thick as the wall", "[truth]") {
  // sqrt(2) beta_w gamma_M2 f_y/f_u; the rule a >= 0.92 t, 0.96 t, 1.10 t of CIDECT Design Guide 3,
  // from memory; recomputed.
  truth("full-strength throat, S235, f_u 360: walls", guide_3, full_strength_throat(235, 360, 0.80),
        within_abs(0.923, 5e-4));
  truth("full-strength throat, S275, f_u 430: walls", guide_3, full_strength_throat(275, 430, 0.85),
        within_abs(0.961, 5e-4));
  truth("full-strength throat, S355, f_u 510: walls", guide_3, full_strength_throat(355, 510, 0.90),
        within_abs(1.107, 5.5e-4));
  truth("full-strength throat, S355, f_u 490: walls", guide_3, full_strength_throat(355, 490, 0.90),
        within_abs(1.153, 5.5e-4));
  truth("full-strength throat, S355, f_u 470: walls", guide_3, full_strength_throat(355, 470, 0.90),
        within_abs(1.202, 5.5e-4));
}

TEST_CASE("a weld round a tube of 40 x 40 x 3 on a plate is used to 0.501 or simply to 0.610",
          "[truth]") {
  // Worked by hand with EN 1993-1-8 4.5.3, from memory: S235, a 3 mm, N 30 kN, M 0.40 kNm, V 5 kN.
  const Profile p = square(40, 3);
  const WeldLine line = weld_line(p, 3 * mm, 0);
  truth("40 x 40 x 3, a 3 mm: A_w, mm2", by_hand, line.A_w / (mm * mm), within_rel(480.0, 1e-12));
  truth("40 x 40 x 3, a 3 mm: I_w, mm4", by_hand, line.I_wy / std::pow(mm, 4),
        within_rel(128000.0, 1e-12));

  const WeldCheck without_shear = weld_check(p, weld(360, 0.8), {30 * kN, 0, 0, 0, 0.40 * kNm, 0});
  truth("40 x 40 x 3, N and M: equivalent stress, MPa", by_hand, without_shear.equivalent / MPa,
        within_abs(176.78, 5e-3));
  CHECK_THAT(std::numbers::sqrt2 * without_shear.sigma_perp / MPa, WithinAbs(125.0, 1e-6));

  const WeldCheck r = weld_check(p, weld(360, 0.8), {30 * kN, 0, 5 * kN, 0, 0.40 * kNm, 0});
  truth("40 x 40 x 3, N, V and M: sigma across, MPa", by_hand, r.sigma_perp / MPa,
        within_abs(88.39, 5e-3));
  truth("40 x 40 x 3, N, V and M: tau across, MPa", by_hand, r.tau_perp / MPa,
        within_abs(88.39, 5e-3));
  truth("40 x 40 x 3, N, V and M: tau along, MPa", by_hand, r.tau_par / MPa,
        within_abs(20.83, 5e-3));
  truth("40 x 40 x 3, N, V and M: equivalent stress, MPa", by_hand, r.equivalent / MPa,
        within_abs(180.42, 5e-3));
  truth("40 x 40 x 3, N, V and M: directional method", by_hand, *r.directional.utilisation,
        within_abs(0.501, 5e-4));
  CHECK_THAT(*r.simplified.utilisation * weld_shear_strength(360, 0.8), WithinAbs(126.72, 5e-3));
  truth("40 x 40 x 3, N, V and M: simplified method", by_hand, *r.simplified.utilisation,
        within_abs(0.610, 5e-4));
}

TEST_CASE("the simplified method never gives a weld more strength than the directional one") {
  for (double V : {0.0, 3e3, 30e3}) {
    for (double T : {0.0, 50.0, 500.0}) {
      const WeldCheck r = weld_check(square(40, 4), weld(430, 0.85), {5e3, V, 2e3, T, 100, 50});
      CHECK(*r.simplified.utilisation >= *r.directional.utilisation);
    }
  }
}

TEST_CASE("a line with rounded corners is that of a circle when the radius is half the side") {
  const WeldLine rounded = weld_line(square(40, 3), 3 * mm, 20 * mm);
  const WeldLine circle = weld_line(round(40, 3), 3 * mm, 0);
  CHECK_THAT(rounded.A_w, WithinRel(circle.A_w, 1e-12));
  CHECK_THAT(rounded.I_wy, WithinRel(circle.I_wy, 1e-12));
  CHECK_THAT(rounded.I_wz, WithinRel(circle.I_wz, 1e-12));
  CHECK_THAT(rounded.W_wt, WithinRel(circle.W_wt, 1e-12));
}

TEST_CASE("a weld round a circle has the properties of a thin ring") {
  // Thin ring of radius R: A = 2 pi R a, I = pi R3 a, torsion 2 pi R2 a, greatest shear 2 V/A.
  constexpr double pi = std::numbers::pi, R = 20 * mm, a = 3 * mm;
  const WeldLine w = weld_line(round(40, 3), a, 0);
  CHECK_THAT(w.A_w, WithinRel(2 * pi * R * a, 1e-12));
  CHECK_THAT(w.I_wy, WithinRel(pi * R * R * R * a, 1e-12));
  CHECK_THAT(w.W_wt, WithinRel(2 * pi * R * R * a, 1e-12));
  const auto used = [](double angle) {
    return *weld_check(round(40, 3), weld(360, 0.8),
                       {1e3, 800 * std::sin(angle), 800 * std::cos(angle), 20, 90 * std::cos(angle),
                        90 * std::sin(angle)})
                .directional.utilisation;
  };
  CHECK_THAT(used(1.1), WithinRel(used(0), 1e-12));  // whichever way it is bent
}

TEST_CASE("torsion runs round a square weld as a shear flow over twice the area enclosed",
          "[truth]") {
  // Bredt: tau = T/(2 x 40 x 40 x 3 mm3); 96 N m give 10 MPa.
  const WeldCheck r = weld_check(square(40, 3), weld(360, 0.8), {0, 0, 0, 96, 0, 0});
  truth("40 x 40 x 3, 96 N m of torsion: tau along, MPa", bredt, r.tau_par / MPa,
        within_rel(10.0, 1e-12));
  CHECK(r.sigma_perp == 0);
  CHECK_THAT(*r.directional.utilisation, WithinRel(std::sqrt(3.0) * 10 / 360, 1e-12));
}

TEST_CASE("the signs of forces do not matter to a weld and its throat is the wall by default") {
  const SectionForces f = {3e3, 1e3, -2e3, 40, 100, -50};
  const SectionForces g = {-3e3, -1e3, 2e3, -40, 100, 50};
  FilletWeld w = weld(360, 0.8);
  const double by_default = *weld_check(square(40, 3), w, f).directional.utilisation;
  CHECK(*weld_check(square(40, 3), w, g).directional.utilisation == by_default);
  w.throat = 3 * mm;
  CHECK(*weld_check(square(40, 3), w, f).directional.utilisation == by_default);
  w.throat = 6 * mm;
  CHECK_THAT(*weld_check(square(40, 3), w, f).directional.utilisation,
             WithinRel(by_default / 2, 1e-12));
}

TEST_CASE("a weld on thin tube is checked with a remark on the scope of the clause") {
  // EN 1993-1-8 4.1(1): material of 4 mm and more; 4.5.2(2): throat of 3 mm or more; from memory.
  CHECK_THAT(weld_check(square(40, 2), weld(360, 0.8), {}).remark, ContainsSubstring("4 mm"));
  CHECK(weld_check(square(40, 4), weld(360, 0.8), {}).remark.empty());
  FilletWeld thin = weld(360, 0.8);
  thin.throat = 2 * mm;
  CHECK_THAT(weld_check(square(40, 4), thin, {}).remark, ContainsSubstring("throat"));
}

TEST_CASE(
    "without load a weld is not used, and without strength, throat or outline it has a reason") {
  const WeldCheck idle = weld_check(square(40, 3), weld(360, 0.8), {});
  CHECK(idle.directional.utilisation == 0.0);
  CHECK(idle.simplified.utilisation == 0.0);
  const auto reason = [](const Profile& p, const FilletWeld& w, const SectionForces& f) {
    const WeldCheck r = weld_check(p, w, f);
    CHECK_FALSE(r.directional.utilisation);
    CHECK_FALSE(r.simplified.utilisation);
    return r.directional.reason;
  };
  CHECK_THAT(reason(square(40, 3), weld(missing, 0.8), {}), ContainsSubstring("ultimate strength"));
  CHECK_THAT(reason(square(40, 0), weld(360, 0.8), {}), ContainsSubstring("no throat"));
  CHECK_THAT(reason({}, weld(360, 0.8), {}), ContainsSubstring("outline"));
  CHECK_THAT(reason(square(40, 3), weld(360, 0), {}), ContainsSubstring("beta_w"));
  CHECK_THAT(reason(square(40, 3), weld(360, 0.8), {missing, 0, 0, 0, 0, 0}),
             ContainsSubstring("not finite"));
}

}  // namespace tubewright::weld_check_test
