// Formulas of EN 1993-1-8 Tables 7.10 to 7.14, each against numbers worked by hand (mm, N, MPa).
#include "cases/joints/chord_face.h"

#include <cmath>
#include <numbers>

#include "tests/catch.h"

namespace tubewright::chord_face_test {

namespace {

constexpr double mm = 1e-3, MPa = 1e6, kN = 1e3, kNm = 1e3;
constexpr double degree = std::numbers::pi / 180;
constexpr double right = 90 * degree;

}  // namespace

TEST_CASE("the face of a square chord has the resistances worked by hand") {
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
    CHECK_THAT(chord_face_resistance(row.fy0 * MPa, row.t0 * mm, row.beta, row.beta,
                                     row.angle * degree, row.k_n) /
                   kN,
               WithinAbs(row.N_Rd, 5.1e-4));
  }
  // A rectangular brace 30 across, 50 along at 60 degrees on a face of 60, wall 4, S355
  // (Table 7.11, MEMORY): 62.346 kN by hand.
  CHECK_THAT(chord_face_resistance(355 * MPa, 4 * mm, 0.5, 50.0 / 60, 60 * degree, 1) / kN,
             WithinAbs(62.346, 5e-4));
}

TEST_CASE("a gap joint on a square chord has the resistances worked by hand") {
  // Table 7.10, formula SEEN; worked by hand, kN.
  const auto N = [](double fy, double b0, double t0, double beta, double angle, double k_n) {
    return gap_joint_resistance(fy * MPa, b0 * mm, t0 * mm, beta, angle * degree, k_n) / kN;
  };
  CHECK_THAT(N(235, 60, 3, 40.0 / 60, 45, 1), WithinAbs(56.121, 5.1e-4));
  CHECK_THAT(N(235, 60, 3, 40.0 / 60, 45, 0.94), WithinAbs(52.754, 5.1e-4));
  CHECK_THAT(N(355, 180, 8, 120.0 / 180, 38.7, 0.82), WithinAbs(592.99, 5.1e-3));
  // CIDECT Design Guide 3, 2nd ed. (2009): 14 beta gamma^0.3 f_y0 t_0^2/sin theta (MEMORY).
  const double guide = 14 * (2.0 / 3) * std::pow(10, 0.3) * 235 * 9 / std::sin(45 * degree) / 1e3;
  CHECK_THAT(N(235, 60, 3, 40.0 / 60, 45, 1), WithinRel(guide, 0.01));
}

TEST_CASE("compression in the chord weakens its face, tension does not, and nothing is infinite") {
  // k_n of Table 7.10 (SEEN), k_m of Table 7.13 (MEMORY).
  CHECK(chord_stress_factor(-0.9, 0.5) == 1);
  CHECK(chord_stress_factor(0.1, 0.5) == 1);
  CHECK_THAT(chord_stress_factor(0.8, 0.5), WithinRel(0.66, 1e-12));
  CHECK_THAT(chord_stress_factor(0.8, 2.0 / 3), WithinAbs(0.82, 1e-9));
  CHECK_FALSE(is_spent(chord_stress_factor(0.8, 0.5)));
  CHECK(is_spent(chord_stress_factor(0.85, 0.25)));  // 1.3 - 0.4 x 0.85/0.25 = -0.06
  CHECK(chord_stress_factor(50, 0.25) > 0);
  CHECK_THAT(plate_stress_factor(0.5), WithinRel(0.65, 1e-12));
  CHECK(plate_stress_factor(0.1) == 1);
  CHECK(is_spent(plate_stress_factor(1.2)));
}

TEST_CASE("side walls of 40 x 1.5 buckle at 0.594 of their yield under a push") {
  // Table 7.11 (MEMORY) with EN 1993-1-1 6.3.1.2, curve c, by hand: lambda_bar 0.9088, chi 0.5944.
  CHECK_THAT(side_wall_buckling(235 * MPa, 210e9, 40 / 1.5, right, BucklingCurve::c),
             WithinAbs(0.59444, 5e-6));
  CHECK_THAT(side_wall_resistance(235 * MPa, 1.5 * mm, 40 * mm, right) / kN,
             WithinAbs(33.4875, 1e-6));
  // Stocky walls do not buckle, and a lean weakens them.
  CHECK(side_wall_buckling(235 * MPa, 210e9, 2, right, BucklingCurve::c) == 1);
  CHECK(side_wall_buckling(235 * MPa, 210e9, 30, 45 * degree, BucklingCurve::c) <
        side_wall_buckling(235 * MPa, 210e9, 30, right, BucklingCurve::c));
}

TEST_CASE("what the walls across a brace and the face around it hold") {
  // 37 x 1.5 on 40 x 1.5, S235: b_eff = 10/26.67 x 37 = 13.875; punching (MEMORY) 20.708 kN by
  // hand.
  CHECK_THAT(effective_width(235, 40, 1.5, 235, 1.5, 37), WithinRel(13.875, 1e-12));
  CHECK(effective_width(235, 40, 4, 235, 1.5, 37) == 37);
  CHECK_THAT(punching_resistance(235 * MPa, 1.5 * mm, 37 * mm,
                                 2 * punching_width(40 * mm, 1.5 * mm, 37 * mm), right) /
                 kN,
             WithinAbs(20.7077, 5e-5));
  // Table 7.12 (MEMORY), 80 x 40 x 4 with a gap of 20: A_v = 374.61 mm2, 108.584 kN at 45 degrees.
  CHECK_THAT(gap_shear_area(80, 40, 4, 20, false), WithinAbs(374.612, 5e-4));
  CHECK(gap_shear_area(80, 40, 4, 20, true) == 320);
  CHECK_THAT(chord_shear_resistance(355 * MPa, gap_shear_area(80, 40, 4, 20, false) * mm * mm,
                                    45 * degree) /
                 kN,
             WithinAbs(108.5838, 5e-4));
}

TEST_CASE("moments that a face and its side walls hold") {
  // Table 7.14 (MEMORY), by hand: 40 x 3 with 30, S235: 0.48645 and 0.49621 kN m.
  const double fy = 235 * MPa, t0 = 3 * mm, b0 = 40 * mm, h1 = 30 * mm;
  CHECK_THAT(in_plane_moment_resistance(fy, t0, h1, 0.75, 0.75, 1) / kNm,
             WithinAbs(0.48645, 5.1e-6));
  CHECK_THAT(out_of_plane_moment_resistance(fy, t0, b0, h1, 0.75, 1) / kNm,
             WithinAbs(0.49621, 5.1e-6));
  // 20 on 40 x 1.5: 51.06 N m in plane.
  CHECK_THAT(in_plane_moment_resistance(fy, 1.5 * mm, 20 * mm, 0.5, 0.5, 1),
             WithinAbs(51.0606, 5e-5));
  // Distortion of the chord: 2 x 235 x 3 (30 x 3 + sqrt(40 x 40 x 3 x 80)) N mm.
  CHECK_THAT(chord_distortion_resistance(fy, b0, b0, t0, h1) / kNm,
             WithinRel(1410 * (90 + std::sqrt(384000.0)) / 1e6, 1e-12));
  // beta = 1, 40 on 40 x 3: 0.5 x 235 x 3 x 55^2 and 235 x 3 x 37 x 55 N mm.
  CHECK_THAT(in_plane_side_wall_moment(fy, t0, 40 * mm) / kNm, WithinAbs(1.0663125, 1e-7));
  CHECK_THAT(out_of_plane_side_wall_moment(fy, b0, t0, 40 * mm) / kNm, WithinAbs(1.434675, 1e-7));
}

TEST_CASE("the gap of two braces follows from where their axes meet") {
  // Geometry at 45 degrees, axes meeting on the chord's: 60 - 40 sqrt(2) mm; at 45 degrees 1 mm of
  // eccentricity opens the gap by 2 mm.
  const auto gap = [](double e) {
    return joint_gap(60 * mm, 40 * mm, 40 * mm, 45 * degree, 45 * degree, e * mm) / mm;
  };
  CHECK_THAT(gap(0), WithinAbs(60 - 40 * std::numbers::sqrt2, 1e-9));
  CHECK_THAT(gap(1) - gap(0), WithinAbs(2, 1e-9));
}

}  // namespace tubewright::chord_face_test
