// Effective widths against the limits of EN 1993-1-5 (from memory) and against sections that are
// summed in thin strips.
#include "cases/checks/effective_section.h"

#include <cmath>
#include <limits>

#include "solver/model/section_shapes.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::effective_section_test {

namespace {

constexpr Source winter =
    from_memory("EN 1993-1-5 4.4, eq. 4.2: (lambda - 0.22)/lambda2, lambda = (c/t)/(56.8 epsilon)");
constexpr Source thin_strips =
    rederived("section summed in thin strips, walls slotted by EN 1993-1-5 4.4");

constexpr double mm = 1e-3, MPa = 1e6;

Section sharp_tube(double height, double width, double wall) {
  return hollow_rectangle(height * mm, width * mm, wall * mm, {0, 0}, 0.3);
}

struct Strips {
  double A = 0;
  double I = 0;  ///< about the middle, across the height
};

/// A sharp-cornered tube with slots in the middle of its walls, in strips along the height. mm.
Strips summed(double height, double width, double wall, double flange_slot, double web_slot) {
  constexpr int strips = 200000;
  Strips sum;
  const double dz = height / strips;
  for (int i = 0; i < strips; ++i) {
    const double z = (i + 0.5) * dz - height / 2;
    double across = std::abs(z) > height / 2 - wall ? width - flange_slot : 2 * wall;
    if (std::abs(z) < web_slot / 2) across = 0;
    sum.A += across * dz;
    sum.I += across * z * z * dz;
  }
  return sum;
}

}  // namespace

TEST_CASE("what stays effective of a wall begins to fall at 0.673 and tends to Winter's 1/lambda",
          "[truth]") {
  // EN 1993-1-5 4.4 and eq. 4.2, from memory: (lambda - 0.22)/lambda^2, lambda = (c/t)/(56.8 eps).
  CHECK(effective_share(0.672 * 56.8, 1) == 1);
  CHECK_THAT(effective_share(0.6731 * 56.8, 1), WithinAbs(1.0, 5e-4));
  truth("wall of slenderness 1: effective share", winter, effective_share(56.8, 1),
        within_rel(0.78, 1e-12));
  truth("wall of slenderness 2: effective share", winter, effective_share(2 * 56.8, 1),
        within_rel(1.78 / 4, 1e-12));
  CHECK_THAT(effective_share(5680, 1), WithinRel(0.01, 3e-3));
  // epsilon only scales the slenderness.
  for (const double c : {20.0, 45.0, 90.0, 300.0}) {
    CHECK_THAT(effective_share(0.7 * c, 0.7), WithinRel(effective_share(c, 1), 1e-12));
  }
}

TEST_CASE("an effective section has the area and moduli of the strips that are left of it",
          "[truth]") {
  const double fy = 355 * MPa, epsilon = std::sqrt(235.0 / 355);
  for (const auto& [h, b, t] :
       {std::tuple{100.0, 60.0, 1.0}, {80.0, 80.0, 1.0}, {60.0, 150.0, 1.5}, {40.0, 100.0, 1.2}}) {
    const auto slot = [epsilon, t = t](double side) {
      const double c = side - 2 * t;  // sharp corners: the wall between the other two
      const double lambda = c / t / (56.8 * epsilon);
      return lambda <= 0.673 ? 0.0 : c * (1 - (lambda - 0.22) / (lambda * lambda));
    };
    const Strips about_y = summed(h, b, t, slot(b), slot(h));
    const Strips about_z = summed(b, h, t, slot(h), slot(b));
    const EffectiveSection e = effective_section(sharp_tube(h, b, t), fy);
    const std::string tube = named(h, " x ", b, " x ", t, ", S355");
    REQUIRE(e.reason.empty());
    truth(named(tube, ": A_eff, mm2"), thin_strips, e.A / (mm * mm), within_rel(about_y.A, 1e-3));
    truth(named(tube, ": W_eff,y, mm3"), thin_strips, e.Wy / std::pow(mm, 3),
          within_rel(about_y.I / (h / 2), 1e-3));
    truth(named(tube, ": W_eff,z, mm3"), thin_strips, e.Wz / std::pow(mm, 3),
          within_rel(about_z.I / (b / 2), 1e-3));
  }
}

TEST_CASE("a section with stout walls is effective as a whole, and more strength leaves less") {
  const Section stout = sharp_tube(40, 30, 2);
  const EffectiveSection whole = effective_section(stout, 235 * MPa);
  CHECK_THAT(whole.A, WithinRel(stout.A, 1e-12));
  CHECK_THAT(whole.Wy, WithinRel(stout.Iy / (20 * mm), 1e-12));
  CHECK_THAT(whole.Wz, WithinRel(stout.Iz / (15 * mm), 1e-12));
  double before = sharp_tube(80, 80, 1).A;
  for (const double fy : {235.0, 275.0, 355.0, 460.0}) {
    const double A = effective_section(sharp_tube(80, 80, 1), fy * MPa).A;
    CHECK(A < before);
    before = A;
  }
}

TEST_CASE("shapes without flat walls have no effective section but a reason") {
  const double missing = std::numeric_limits<double>::quiet_NaN();
  for (const Section& s :
       {round_tube(0.1, 0.001, 0.3), round_bar(0.02, 0.3), flat_bar(0.1, 0.005, 0.3), Section{}}) {
    const EffectiveSection e = effective_section(s, 235 * MPa);
    CHECK_THAT(e.reason, ContainsSubstring("flat walls"));
    CHECK(e.A == 0);
  }
  CHECK_THAT(effective_section(sharp_tube(80, 80, 1), missing).reason,
             ContainsSubstring("yield strength"));
}

}  // namespace tubewright::effective_section_test
