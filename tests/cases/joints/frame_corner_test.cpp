// Corners: the rule of CIDECT Design Guide 3, 2nd ed. (2009). The conditions N/N_pl + M/M_pl <=
// alpha, V/V_pl <= 0.5, N/N_pl <= 0.2 SEEN in words, alpha from MEMORY; numbers by hand.
#include "cases/joints/frame_corner.h"

#include <cmath>
#include <limits>
#include <numbers>

#include "solver/model/section_shapes.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::frame_corner_test {

namespace {

constexpr Source alpha = seen_in("CIDECT Design Guide 3, 2nd ed. (2009): alpha, worked by hand");
constexpr Source limits = seen_in(
    "CIDECT Design Guide 3, 2nd ed. (2009): N/N_pl + M/M_pl <= alpha, N/N_pl <= 0.2 (rule in "
    "words)");

constexpr double degree = std::numbers::pi / 180;

CornerTube tube(double height, double width, double wall, double angle = 90) {
  CornerTube c;
  c.section = hollow_rectangle(height, width, wall, cold_formed_corners(wall), 0.3);
  c.fy = 235e6;
  c.angle = angle * degree;
  return c;
}

double use(const CornerTube& c, const SectionForces& f) {
  const CheckResult r = corner_check(c, f);
  REQUIRE(r.utilisation);
  return *r.utilisation;
}

SectionForces bending(double My) {
  SectionForces f;
  f.My = My;
  return f;
}

}  // namespace

TEST_CASE("a mitred corner keeps the share of its moment worked by hand", "[truth]") {
  // 3/26.67^0.8 + 1/3 = 0.5503; 20 x 1.5: 0.7111; 60 across, 40 deep, wall 3: 0.5845, the other way
  // 0.7370. At 135 and 120 degrees 0.7566 and 0.6820.
  truth("mitre of 40 x 40 x 1.5 at 90 degrees: alpha", alpha,
        corner_efficiency(40, 40, 1.5, 90 * degree), within_abs(0.55028, 5e-6));
  truth("mitre of 20 x 20 x 1.5 at 90 degrees: alpha", alpha,
        corner_efficiency(20, 20, 1.5, 90 * degree), within_abs(0.71105, 5e-6));
  truth("mitre of 60 wide, 40 deep, wall 3: alpha", alpha,
        corner_efficiency(60, 40, 3, 90 * degree), within_abs(0.58446, 5e-6));
  truth("mitre of 40 wide, 60 deep, wall 3: alpha", alpha,
        corner_efficiency(40, 60, 3, 90 * degree), within_abs(0.73698, 5e-6));
  truth("mitre of 40 x 40 x 1.5 at 135 degrees: alpha", alpha,
        corner_efficiency(40, 40, 1.5, 135 * degree), within_abs(0.75661, 5e-6));
  truth("mitre of 40 x 40 x 1.5 at 120 degrees: alpha", alpha,
        corner_efficiency(40, 40, 1.5, 120 * degree), within_abs(0.68200, 5e-6));
  CHECK_THAT(corner_efficiency(40, 40, 1.5, 180 * degree), WithinAbs(1, 1e-12));
  CHECK(corner_efficiency(40, 40, 1.5, 40 * degree) == corner_efficiency(40, 40, 1.5, 90 * degree));
  CHECK(corner_efficiency(20, 20, 8, 90 * degree) == 1);
}

TEST_CASE("a corner at 0.66 of the plastic moment is used to 1.2", "[truth]") {
  const CornerTube c = tube(0.040, 0.040, 0.0015);
  const double M_pl = 235e6 * c.section.Wply;
  truth("mitre of 40 x 40 x 1.5 at 0.66 M_pl: utilisation", alpha, use(c, bending(0.66 * M_pl)),
        within_rel(0.66 / 0.550277, 1e-5));
  CHECK_THAT(use(c, bending(-0.66 * M_pl)), WithinRel(0.66 / 0.550277, 1e-5));
}

TEST_CASE("axial force and moments add up; shear and axial force have limits of their own",
          "[truth]") {
  CornerTube c = tube(0.060, 0.040, 0.003);
  const double fy = 235e6;
  SectionForces f;
  f.My = 0.2 * fy * c.section.Wply;
  f.Mz = 0.1 * fy * c.section.Wplz;
  f.N = 0.1 * fy * c.section.A;
  CHECK_THAT(use(c, f), WithinRel(0.4 / 0.736979, 1e-5));  // 40 across, 60 deep
  c.bends_about_y = false;
  CHECK_THAT(use(c, f), WithinRel(0.4 / 0.584459, 1e-5));
  SectionForces axial;
  axial.N = 0.25 * fy * c.section.A;
  truth("mitre at 0.25 N_pl: utilisation", limits, use(c, axial), within_rel(1.25, 1e-9));
  SectionForces shear;
  shear.Vz = 0.3 * c.section.A * 0.6 * fy / std::numbers::sqrt3;  // A_v = A h/(b + h)
  CHECK_THAT(use(c, shear), WithinRel(0.6, 1e-9));
  SectionForces torsion;
  torsion.T = 0.2 * c.section.Wt * fy / std::numbers::sqrt3;
  CHECK_THAT(use(c, torsion), WithinRel(0.2 / 0.584459, 1e-5));
}

TEST_CASE("the limit of the axial force grows only where the corner is nearly straight") {
  CHECK(corner_axial_limit(60 * degree) == 0.2);
  CHECK(corner_axial_limit(150 * degree) == 0.2);
  CHECK_THAT(corner_axial_limit(180 * degree), WithinRel(1, 1e-12));
  for (double angle = 90; angle < 180; angle += 1) {
    // Never more across the kink than 0.2 N_pl make at 90 degrees.
    CHECK(2 * corner_axial_limit(angle * degree) * std::cos(angle * degree / 2) <=
          0.2 * std::numbers::sqrt2 * (1 + 1e-12));
  }
}

TEST_CASE("the use of a corner is proportional to its load") {
  const CornerTube c = tube(0.040, 0.040, 0.003);
  SectionForces f{-2000, 100, 300, 20, 150, -60};
  const double once = use(c, f);
  for (double* x : {&f.N, &f.Vy, &f.Vz, &f.T, &f.My, &f.Mz}) *x *= 2;
  CHECK_THAT(use(c, f), WithinRel(2 * once, 1e-12));
  CHECK(use(c, {}) == 0);
}

TEST_CASE("a corner says which ranges it has left") {
  const auto reason = [](const CornerTube& c, const SectionForces& f) {
    const CheckResult r = corner_check(c, f);
    CHECK(r.utilisation);
    CHECK(r.comparison == !r.reason.empty());
    return r.reason;
  };
  CHECK(reason(tube(0.040, 0.040, 0.003), bending(10)).empty());
  CHECK(reason(tube(0.040, 0.040, 0.0015), bending(10)) == "walls under 2.5 mm");
  CHECK_THAT(reason(tube(0.040, 0.040, 0.003, 60), bending(10)), ContainsSubstring("sharper"));
  SectionForces across;
  across.Mz = 200;
  CHECK_THAT(reason(tube(0.040, 0.040, 0.003), across), ContainsSubstring("out of its plane"));
  CHECK_THAT(reason(tube(0.150, 0.150, 0.003), {-1000, 0, 0, 0, 0, 0}),
             ContainsSubstring("class 3 or 4"));
}

TEST_CASE("a corner without strength or with forces that are not finite has no number") {
  CornerTube c = tube(0.040, 0.040, 0.003);
  CHECK_FALSE(
      corner_check(c, {std::numeric_limits<double>::infinity(), 0, 0, 0, 0, 0}).utilisation);
  c.fy = std::numeric_limits<double>::quiet_NaN();
  const CheckResult r = corner_check(c, bending(10));
  CHECK(lacks_number(r));
  CHECK_THAT(r.reason, ContainsSubstring("yield strength"));
  CornerTube bar;
  bar.section = round_bar(0.030, 0.3);
  bar.fy = 235e6;
  CHECK_FALSE(corner_check(bar, bending(10)).needed);
}

}  // namespace tubewright::frame_corner_test
