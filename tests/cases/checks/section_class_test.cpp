#include "cases/checks/section_class.h"

#include <array>
#include <limits>

#include "cases/checks/effective_section.h"
#include "solver/model/section_shapes.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::section_class_test {

namespace {

constexpr Source table_5_2 = seen_in("EN 1993-1-1 Table 5.2");
constexpr Source flat_part = seen_in(
    "c = b - 3 t for tables of hollow sections (steel maker's general notes to Eurocode tables)");
constexpr Source gardner =
    from_memory("Gardner & Nethercot, Designers' Guide to EN 1993-1-1 (2005), example 6.7");
constexpr Source plates = from_memory("EN 1993-1-5 4.4 and Table 4.1, by hand");

constexpr double mm = 1e-3, MPa = 1e6, kN = 1e3;
constexpr double missing = std::numeric_limits<double>::quiet_NaN();

Section tube(double height, double width, double wall) {
  return hollow_rectangle(height * mm, width * mm, wall * mm, cold_formed_corners(wall * mm), 0.3);
}

int class_of(const Section& s, double fy, const SectionForces& f) {
  return section_class(s, fy * MPa, f).value;
}

constexpr SectionForces compressed = {-10 * kN, 0, 0, 0, 0, 0};
constexpr SectionForces pulled = {10 * kN, 0, 0, 0, 0, 0};
constexpr SectionForces bent_about_y = {0, 0, 0, 0, 100, 0};
constexpr SectionForces bent_both_ways = {0, 0, 0, 0, 100, 100};

}  // namespace

TEST_CASE("the greatest slenderness of each class is that of EN 1993-1-1 Table 5.2", "[truth]") {
  const auto greatest = [](auto class_of_wall, int class_value) {
    double low = 0, high = 1000;  // by halves
    for (int i = 0; i < 60; ++i) {
      const double middle = (low + high) / 2;
      (class_of_wall(middle, 1.0) <= class_value ? low : high) = middle;
    }
    return low;
  };
  const std::array<std::array<double, 3>, 3> limits = {{{33, 38, 42}, {72, 83, 124}, {50, 70, 90}}};
  for (int i = 0; i < 3; ++i) {
    const auto at = static_cast<size_t>(i);
    truth(named("compressed wall: c/t of class ", i + 1), table_5_2,
          greatest(class_of_compressed_wall, i + 1), within_abs(limits[0][at], 1e-9));
    truth(named("bent wall: c/t of class ", i + 1), table_5_2, greatest(class_of_bent_wall, i + 1),
          within_abs(limits[1][at], 1e-9));
    truth(named("round tube: d/t of class ", i + 1), table_5_2,
          greatest(class_of_round_tube, i + 1), within_abs(limits[2][at], 1e-9));
  }
}

TEST_CASE("walls change class at the limits of EN 1993-1-1 Table 5.2") {
  // EN 1993-1-1 Table 5.2, from memory; epsilon = 1 for 235 MPa.
  CHECK(yield_epsilon(235 * MPa) == 1);
  CHECK(class_of_compressed_wall(33, 1) == 1);
  CHECK(class_of_compressed_wall(33.01, 1) == 2);
  CHECK(class_of_compressed_wall(38.01, 1) == 3);
  CHECK(class_of_compressed_wall(42.01, 1) == 4);
  CHECK(class_of_bent_wall(72, 1) == 1);
  CHECK(class_of_bent_wall(72.01, 1) == 2);
  CHECK(class_of_bent_wall(83.01, 1) == 3);
  CHECK(class_of_bent_wall(124.01, 1) == 4);
  CHECK(class_of_round_tube(50, 1) == 1);
  CHECK(class_of_round_tube(50.01, 1) == 2);
  CHECK(class_of_round_tube(70.01, 1) == 3);
  CHECK(class_of_round_tube(90.01, 1) == 4);
}

TEST_CASE("the flat walls of common square tubes have the slenderness of c = b - 3 t", "[truth]") {
  // EN 1993-1-1 Table 5.2 with c = b - 3 t, from memory; recomputed.
  const auto slenderness = [](double side, double wall) {
    return section_class_compressed(tube(side, side, wall), 235 * MPa).slenderness;
  };
  truth("25 x 25 x 2: c/t", flat_part, slenderness(25, 2), within_rel(9.5, 1e-12));
  truth("40 x 40 x 2: c/t", flat_part, slenderness(40, 2), within_rel(17.0, 1e-12));
  truth("50 x 50 x 1.5: c/t", flat_part, slenderness(50, 1.5), within_abs(30.3, 0.05));
}

TEST_CASE("a tube of 50 x 50 x 1.5 is class 1 in S235 and class 2 in S355", "[truth]") {
  // Limits 33 and 38 epsilon: 33, 26.85 and 30.92; recomputed.
  truth("class 1 limit of a compressed wall in S355", table_5_2, 33 * yield_epsilon(355 * MPa),
        within_abs(26.85, 0.005));
  truth("class 2 limit of a compressed wall in S355", table_5_2, 38 * yield_epsilon(355 * MPa),
        within_abs(30.92, 0.005));
  CHECK(class_of(tube(50, 50, 1.5), 235, compressed) == 1);
  CHECK(class_of(tube(50, 50, 1.5), 355, compressed) == 2);
}

TEST_CASE("a tall web is judged by bending unless the member is compressed or bent both ways") {
  const Section tall = tube(100, 50, 2);  // webs c/t 47, flanges 22
  CHECK(class_of(tall, 235, bent_about_y) == 1);
  CHECK(class_of(tall, 235, compressed) == 4);
  CHECK(class_of(tall, 235, bent_both_ways) == 4);
  CHECK(section_class(tall, 235 * MPa, compressed).part == "wall along the height");
  CHECK(section_class(tall, 235 * MPa, bent_both_ways).slenderness == Approx(47));
  CHECK(class_of(tall, 235, {0, 0, 0, 0, 0, 100}) == 4);  // the tall wall is the flange
}

TEST_CASE("what is nowhere compressed is class 1") {
  const Section thin = tube(100, 100, 1);
  CHECK(class_of(thin, 235, compressed) == 4);
  CHECK(class_of(thin, 235, pulled) == 1);
  CHECK(class_of(thin, 235, {}) == 1);
  CHECK(class_of(thin, 235, {10 * kN, 0, 0, 0, 1, 1}) == 1);    // tension everywhere
  CHECK(class_of(thin, 235, {10 * kN, 0, 0, 0, 900, 0}) == 4);  // a flange compressed
}

TEST_CASE("a compression that is only rounding does not change the class") {
  const Section tall = tube(100, 50, 2);
  CHECK(class_of(tall, 235, {-1e-6, 0, 0, 0, 100, 0}) == class_of(tall, 235, bent_about_y));
}

TEST_CASE("sharp corners leave wider flat walls than rounded ones") {
  const Section sharp = hollow_rectangle(50 * mm, 50 * mm, 2 * mm, {}, 0.3);
  CHECK_THAT(flat_width(sharp, 50 * mm), WithinRel(46 * mm, 1e-12));
  CHECK_THAT(flat_width(tube(50, 50, 2), 50 * mm), WithinRel(44 * mm, 1e-12));
}

TEST_CASE("round tubes go by diameter over wall, solid bars are class 1", "[truth]") {
  // 244.5 x 10 in S275: d/t 24.45 below 50 epsilon2 = 42.7, class 1 (Gardner & Nethercot,
  // Designers' Guide to EN 1993-1-1, example 6.7, from memory; recomputed).
  const Section column = round_tube(244.5 * mm, 10 * mm, 0.3);
  CHECK(class_of(column, 275, compressed) == 1);
  truth("round 244.5 x 10: d/t", gardner, section_class(column, 275 * MPa, compressed).slenderness,
        within_rel(24.45, 1e-12));
  CHECK(class_of(round_tube(100 * mm, 1 * mm, 0.3), 235, compressed) == 4);
  CHECK(class_of(round_tube(100 * mm, 1 * mm, 0.3), 235, pulled) == 1);
  CHECK(class_of(round_bar(10 * mm, 0.3), 235, compressed) == 1);
  CHECK(class_of(flat_bar(40 * mm, 5 * mm, 0.3), 235, compressed) == 1);
}

TEST_CASE("without yield strength or outline there is no class but a reason") {
  const SectionClass no_yield = section_class(tube(50, 50, 2), missing, compressed);
  CHECK(no_yield.value == 0);
  CHECK_THAT(no_yield.reason, ContainsSubstring("yield strength"));
  Section given;
  given.A = 1e-4;
  const SectionClass no_outline = section_class(given, 235 * MPa, compressed);
  CHECK(no_outline.value == 0);
  CHECK_THAT(no_outline.reason, ContainsSubstring("properties"));
}

TEST_CASE("a wall of slenderness 60 keeps three quarters of its width in compression", "[truth]") {
  // EN 1993-1-5 4.4 and Table 4.1, from memory; by hand: lambda_p 60/56.8 = 1.0563, rho 0.7495.
  truth("wall of c/t 60: effective share", plates, effective_share(60, 1),
        within_abs(0.7495, 5e-5));
  CHECK(effective_share(38, 1) == 1);
  CHECK(effective_share(0, 1) == 1);
}

TEST_CASE("the effective section cuts the middle out of each wall") {
  // By hand for 63 x 63 x 1, c = 60: gap 15.03 mm a wall; A less 4 x 15.03 mm2; W by parts.
  const Section s = tube(63, 63, 1);
  const EffectiveSection e = effective_section(s, 235 * MPa);
  const double gap = (1 - 0.74952) * 60;
  CHECK_THAT((s.A - e.A) / (mm * mm), WithinAbs(4 * gap, 5e-3));
  const double lost = 2 * gap * 31 * 31 + 2 * gap / 12 + 2 * gap * gap * gap / 12;
  CHECK_THAT((s.Wy - e.Wy) / (mm * mm * mm), WithinRel(lost / 31.5, 1e-3));
  CHECK(e.Wy == e.Wz);
}

TEST_CASE("the effective modulus is below the one with only the compressed wall cut") {
  // One flange cut by g: the centre moves by e = g t d/A', d = (h - t)/2; worked here from statics.
  for (double side : {50.0, 63.0, 80.0}) {
    const Section s = tube(side, side, 1);
    const double c = (side - 3) * mm, t = 1 * mm, d = (side - 1) * mm / 2;
    const double cut = (1 - effective_share(c / t, 1)) * c * t;
    const double left = s.A - cut, shift = cut * d / left;
    const double I = s.Iy - cut * d * d - left * shift * shift;
    CHECK(effective_section(s, 235 * MPa).Wy <= I / (side * mm / 2 + shift));
  }
}

TEST_CASE("an effective section is refused for round tubes and without yield strength") {
  CHECK_FALSE(effective_section(round_tube(100 * mm, 1 * mm, 0.3), 235 * MPa).reason.empty());
  CHECK_FALSE(effective_section(tube(63, 63, 1), missing).reason.empty());
}

}  // namespace tubewright::section_class_test
