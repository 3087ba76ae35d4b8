// Formulas of EN 1993-1-8 Tables 7.10 to 7.14, each against numbers worked by hand (mm, N, MPa).
#include "cases/joints/chord_face.h"

#include <cmath>
#include <numbers>

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::chord_face_test {

namespace {

constexpr Source table_7_10 =
    seen_in("EN 1993-1-8 Table 7.10 (formula in an extract), worked by hand");
constexpr Source table_7_11 = from_memory("EN 1993-1-8 Table 7.11, worked by hand");
constexpr Source table_7_12 = from_memory("EN 1993-1-8 Table 7.12, worked by hand");
constexpr Source table_7_13 = from_memory("EN 1993-1-8 Table 7.13: k_m = 1.3 (1 - n)");
constexpr Source table_7_14 = from_memory("EN 1993-1-8 Table 7.14, worked by hand");
constexpr Source table_7_14_out = seen_in("EN 1993-1-8 Table 7.14, M_op, worked by hand");
constexpr Source guide_3 =
    from_memory("CIDECT Design Guide 3, 2nd ed. (2009): 14 beta gamma^0.3 f_y0 t_0^2/sin theta");
constexpr Source geometry = rederived("plane geometry by hand");

constexpr double mm = 1e-3, MPa = 1e6, kN = 1e3, kNm = 1e3;
constexpr double degree = std::numbers::pi / 180;
constexpr double right = 90 * degree;

}  // namespace

TEST_CASE("the face of a square chord has the resistances worked by hand", "[truth]") {
  // Table 7.10, formula SEEN; worked by hand, kN.
  const struct {
    double t0, beta, angle, fy0, k_n, N_Rd;
  } table[] = {
      {3, 0.500, 90, 235, 1, 16.194},
      {3, 0.625, 45, 235, 1, 33.638},
      {3, 0.750, 90, 355, 1, 44.730},
      {5, 0.600, 90, 355, 1, 82.755},
  };
  for (const auto& row : table) {
    truth(named("square chord, wall ", row.t0, ", beta ", row.beta, ", ", row.angle,
                " degrees, f_y0 ", row.fy0, ": N_Rd, kN"),
          table_7_10,
          chord_face_resistance(row.fy0 * MPa, row.t0 * mm, row.beta, row.beta, row.angle * degree,
                                row.k_n) /
              kN,
          within_abs(row.N_Rd, 5.1e-4));
  }
  // A rectangular brace 30 across, 50 along at 60 degrees on a face of 60, wall 4, S355
  // (Table 7.11, MEMORY): 62.346 kN by hand.
  truth("brace 30 x 50 at 60 degrees on a face of 60, wall 4, S355: N_Rd, kN", table_7_11,
        chord_face_resistance(355 * MPa, 4 * mm, 0.5, 50.0 / 60, 60 * degree, 1) / kN,
        within_abs(62.346, 5e-4));
}

TEST_CASE("a gap joint on a square chord has the resistances worked by hand", "[truth]") {
  // Table 7.10, formula SEEN; worked by hand, kN.
  const auto N = [](double fy, double b0, double t0, double beta, double angle, double k_n) {
    return gap_joint_resistance(fy * MPa, b0 * mm, t0 * mm, beta, angle * degree, k_n) / kN;
  };
  truth("K gap, 60 x 3 with 40 at 45 degrees, S235: N_Rd, kN", table_7_10,
        N(235, 60, 3, 40.0 / 60, 45, 1), within_abs(56.121, 5.1e-4));
  truth("K gap, 60 x 3 with 40 at 45 degrees, S235, k_n 0.94: N_Rd, kN", table_7_10,
        N(235, 60, 3, 40.0 / 60, 45, 0.94), within_abs(52.754, 5.1e-4));
  truth("K gap, 180 x 8 with 120 at 38.7 degrees, S355, k_n 0.82: N_Rd, kN", table_7_10,
        N(355, 180, 8, 120.0 / 180, 38.7, 0.82), within_abs(592.99, 5.1e-3));
  // CIDECT Design Guide 3, 2nd ed. (2009): 14 beta gamma^0.3 f_y0 t_0^2/sin theta (MEMORY).
  const double guide = 14 * (2.0 / 3) * std::pow(10, 0.3) * 235 * 9 / std::sin(45 * degree) / 1e3;
  truth("K gap, 60 x 3 with 40 at 45 degrees, S235: N_Rd, kN", guide_3,
        N(235, 60, 3, 40.0 / 60, 45, 1), within_rel(guide, 0.01));
}

TEST_CASE("compression in the chord weakens its face, tension does not, and nothing is infinite",
          "[truth]") {
  // k_n of Table 7.10 (SEEN), k_m of Table 7.13 (MEMORY).
  CHECK(chord_stress_factor(-0.9, 0.5) == 1);
  CHECK(chord_stress_factor(0.1, 0.5) == 1);
  truth("k_n at n 0.8, beta 0.5", table_7_10, chord_stress_factor(0.8, 0.5),
        within_rel(0.66, 1e-12));
  truth("k_n at n 0.8, beta 2/3", table_7_10, chord_stress_factor(0.8, 2.0 / 3),
        within_abs(0.82, 1e-9));
  CHECK_FALSE(is_spent(chord_stress_factor(0.8, 0.5)));
  CHECK(is_spent(chord_stress_factor(0.85, 0.25)));  // 1.3 - 0.4 x 0.85/0.25 = -0.06
  CHECK(chord_stress_factor(50, 0.25) > 0);
  truth("k_m at n 0.5", table_7_13, plate_stress_factor(0.5), within_rel(0.65, 1e-12));
  CHECK(plate_stress_factor(0.1) == 1);
  CHECK(is_spent(plate_stress_factor(1.2)));
}

TEST_CASE("side walls of 40 x 1.5 buckle at 0.594 of their yield under a push", "[truth]") {
  // Table 7.11 (MEMORY) with EN 1993-1-1 6.3.1.2, curve c, by hand: lambda_bar 0.9088, chi 0.5944.
  truth("side walls of 40 x 1.5, S235: chi", table_7_11,
        side_wall_buckling(235 * MPa, 210e9, 40 / 1.5, right, BucklingCurve::c),
        within_abs(0.59444, 5e-6));
  truth("side walls of 40 x 1.5, S235: N_Rd, kN", table_7_11,
        side_wall_resistance(235 * MPa, 1.5 * mm, 40 * mm, right) / kN, within_abs(33.4875, 1e-6));
  // Stocky walls do not buckle, and a lean weakens them.
  CHECK(side_wall_buckling(235 * MPa, 210e9, 2, right, BucklingCurve::c) == 1);
  CHECK(side_wall_buckling(235 * MPa, 210e9, 30, 45 * degree, BucklingCurve::c) <
        side_wall_buckling(235 * MPa, 210e9, 30, right, BucklingCurve::c));
}

TEST_CASE("what the walls across a brace and the face around it hold", "[truth]") {
  // 37 x 1.5 on 40 x 1.5, S235: b_eff = 10/26.67 x 37 = 13.875; punching (MEMORY) 20.708 kN by
  // hand.
  truth("37 x 1.5 on 40 x 1.5: b_eff, mm", table_7_11, effective_width(235, 40, 1.5, 235, 1.5, 37),
        within_rel(13.875, 1e-12));
  CHECK(effective_width(235, 40, 4, 235, 1.5, 37) == 37);
  truth("37 x 1.5 on 40 x 1.5, S235: punching, kN", table_7_11,
        punching_resistance(235 * MPa, 1.5 * mm, 37 * mm,
                            2 * punching_width(40 * mm, 1.5 * mm, 37 * mm), right) /
            kN,
        within_abs(20.7077, 5e-5));
  // Table 7.12 (MEMORY), 80 x 40 x 4 with a gap of 20: A_v = 374.61 mm2, 108.584 kN at 45 degrees.
  truth("80 x 40 x 4 with a gap of 20: A_v, mm2", table_7_12, gap_shear_area(80, 40, 4, 20, false),
        within_abs(374.612, 5e-4));
  CHECK(gap_shear_area(80, 40, 4, 20, true) == 320);
  truth("80 x 40 x 4 with a gap of 20, S355, 45 degrees: N_Rd by shear, kN", table_7_12,
        chord_shear_resistance(355 * MPa, gap_shear_area(80, 40, 4, 20, false) * mm * mm,
                               45 * degree) /
            kN,
        within_abs(108.5838, 5e-4));
}

TEST_CASE("moments that a face and its side walls hold", "[truth]") {
  // Table 7.14 (MEMORY), by hand: 40 x 3 with 30, S235: 0.48645 and 0.49621 kN m.
  const double fy = 235 * MPa, t0 = 3 * mm, b0 = 40 * mm, h1 = 30 * mm;
  truth("30 on 40 x 3, S235: M_ip,Rd, kN m", table_7_14,
        in_plane_moment_resistance(fy, t0, h1, 0.75, 0.75, 1) / kNm, within_abs(0.48645, 5.1e-6));
  truth("30 on 40 x 3, S235: M_op,Rd, kN m", table_7_14_out,
        out_of_plane_moment_resistance(fy, t0, b0, h1, 0.75, 1) / kNm, within_abs(0.49621, 5.1e-6));
  // 20 on 40 x 1.5: 51.06 N m in plane.
  truth("20 on 40 x 1.5, S235: M_ip,Rd, N m", table_7_14,
        in_plane_moment_resistance(fy, 1.5 * mm, 20 * mm, 0.5, 0.5, 1), within_abs(51.0606, 5e-5));
  // Distortion of the chord: 2 x 235 x 3 (30 x 3 + sqrt(40 x 40 x 3 x 80)) N mm.
  truth("30 on 40 x 3, S235: M_op,Rd by distortion, kN m", table_7_14_out,
        chord_distortion_resistance(fy, b0, b0, t0, h1) / kNm,
        within_rel(1410 * (90 + std::sqrt(384000.0)) / 1e6, 1e-12));
  // beta = 1, 40 on 40 x 3: 0.5 x 235 x 3 x 55^2 and 235 x 3 x 37 x 55 N mm.
  truth("40 on 40 x 3, S235: M_ip,Rd of side walls, kN m", table_7_14,
        in_plane_side_wall_moment(fy, t0, 40 * mm) / kNm, within_abs(1.0663125, 1e-7));
  truth("40 on 40 x 3, S235: M_op,Rd of side walls, kN m", table_7_14_out,
        out_of_plane_side_wall_moment(fy, b0, t0, 40 * mm) / kNm, within_abs(1.434675, 1e-7));
}

TEST_CASE("the gap of two braces follows from where their axes meet", "[truth]") {
  // Geometry at 45 degrees, axes meeting on the chord's: 60 - 40 sqrt(2) mm; at 45 degrees 1 mm of
  // eccentricity opens the gap by 2 mm.
  const auto gap = [](double e) {
    return joint_gap(60 * mm, 40 * mm, 40 * mm, 45 * degree, 45 * degree, e * mm) / mm;
  };
  truth("60 chord, 40 braces at 45 degrees, axes meeting: gap, mm", geometry, gap(0),
        within_abs(60 - 40 * std::numbers::sqrt2, 1e-9));
  CHECK_THAT(gap(1) - gap(0), WithinAbs(2, 1e-9));
}

}  // namespace tubewright::chord_face_test
