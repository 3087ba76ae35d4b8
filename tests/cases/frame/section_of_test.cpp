// Section properties of a frame's sections against the tables of EN 10219-2 and EN 10210-2.
#include "cases/frame/section_of.h"

#include <cmath>
#include <numbers>

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::section_of_test {

namespace {

constexpr Source table_cold = seen_in("EN 10219, 40 x 40 x 3, cold formed (public table of SSAB)");
constexpr Source table_hot = from_memory("EN 10210-2, 40 x 40 x 3, hot finished");
constexpr Source cowper = from_memory("G. R. Cowper, J. Appl. Mech. 33 (1966)");

constexpr double mm = 1e-3, cm = 1e-2, pi = std::numbers::pi;
const Material steel = {210e9, 210e9 / 2.6, 7850, 235e6, 360e6};  // nu = 0.3

SectionEntry entry(Shape shape, double height, double width, double wall) {
  SectionEntry e;
  e.shape = shape;
  e.height = height;
  e.width = width;
  e.wall = wall;
  return e;
}

}  // namespace

// Tables of EN 10219-2 (cold formed) and EN 10210-2 (hot finished), 40 x 40 x 3, from memory: A in
// cm2, I, I_t in cm4, W_el, W_pl in cm3, to the three digits that are printed.
TEST_CASE("a square tube has the table's properties, cold formed or hot finished as it says",
          "[truth]") {
  SectionEntry e = entry(Shape::square_tube, 40 * mm, 40 * mm, 3 * mm);
  const struct {
    Corners corners;
    double A, I, Wel, Wpl, It;
  } table[] = {{Corners::cold_formed, 4.21, 9.32, 4.66, 5.72, 15.8},
               {Corners::hot_finished, 4.34, 9.78, 4.89, 5.97, 15.7}};
  for (const auto& row : table) {
    e.corners = row.corners;
    const bool cold = row.corners == Corners::cold_formed;
    const Source table_source = cold ? table_cold : table_hot;
    const std::string tube = named("40 x 40 x 3 ", cold ? "cold formed" : "hot finished");
    const Section s = section_of(e, steel);
    truth(named(tube, ": A, cm2"), table_source, s.A / std::pow(cm, 2), within_abs(row.A, 0.0051));
    truth(named(tube, ": I, cm4"), table_source, s.Iy / std::pow(cm, 4), within_abs(row.I, 0.0051));
    CHECK_THAT(s.Iz / std::pow(cm, 4), WithinAbs(row.I, 0.0051));
    truth(named(tube, ": W_el, cm3"), table_source, s.Wy / std::pow(cm, 3),
          within_abs(row.Wel, 0.0051));
    truth(named(tube, ": W_pl, cm3"), table_source, s.Wplz / std::pow(cm, 3),
          within_abs(row.Wpl, 0.0051));
    truth(named(tube, ": I_t, cm4"), table_source, s.It / std::pow(cm, 4),
          within_abs(row.It, 0.051));
  }
}

TEST_CASE("a tube with sharp corners is a rectangle less a rectangle, its height along z") {
  SectionEntry e = entry(Shape::rectangular_tube, 60 * mm, 30 * mm, 2 * mm);
  e.corners = Corners::sharp;
  const Section s = section_of(e, steel);
  CHECK_THAT(s.A, WithinRel((60 * 30 - 56 * 26) * mm * mm, 1e-12));
  CHECK_THAT(s.Iy, WithinRel((30 * std::pow(60, 3) - 26 * std::pow(56, 3)) / 12 * 1e-12, 1e-12));
  CHECK_THAT(s.Iz, WithinRel((60 * std::pow(30, 3) - 56 * std::pow(26, 3)) / 12 * 1e-12, 1e-12));
}

// pi/4 (D^2 - d^2), pi/64 (D^4 - d^4), polar twice that; bar and flat as in any handbook.
TEST_CASE("round tubes, round bars and flats have the areas and second moments of a handbook") {
  const Section tube = section_of(entry(Shape::round_tube, 30 * mm, 30 * mm, 2 * mm), steel);
  CHECK_THAT(tube.A, WithinRel(pi / 4 * (900 - 676) * mm * mm, 1e-12));
  CHECK_THAT(tube.Iy, WithinRel(pi / 64 * (std::pow(30, 4) - std::pow(26, 4)) * 1e-12, 1e-12));
  CHECK_THAT(tube.It, WithinRel(tube.Iy + tube.Iz, 1e-12));
  const Section bar = section_of(entry(Shape::round_bar, 12 * mm, 12 * mm, 0), steel);
  CHECK_THAT(bar.A, WithinRel(pi * 36 * mm * mm, 1e-12));
  CHECK_THAT(bar.Iz, WithinRel(pi / 64 * std::pow(12, 4) * 1e-12, 1e-12));
  const Section flat = section_of(entry(Shape::flat_bar, 40 * mm, 5 * mm, 0), steel);
  CHECK_THAT(flat.A, WithinRel(200 * mm * mm, 1e-12));
  CHECK_THAT(flat.Iy, WithinRel(5 * std::pow(40, 3) / 12 * 1e-12, 1e-12));
  CHECK_THAT(flat.Iz, WithinRel(40 * std::pow(5, 3) / 12 * 1e-12, 1e-12));
}

// G. R. Cowper, J. Appl. Mech. 33 (1966): 10 (1 + nu)/(12 + 11 nu) of a rectangle,
// 6 (1 + nu)/(7 + 6 nu) of a circle, from memory.
TEST_CASE("shear areas follow the material's Poisson ratio, and are infinite without shear",
          "[truth]") {
  for (const double nu : {0.0, 0.3, 0.4}) {
    const Material material = {70e9, 70e9 / (2 * (1 + nu)), 2700, 1, 1};
    SectionEntry flat = entry(Shape::flat_bar, 40 * mm, 5 * mm, 0);
    const Section s = section_of(flat, material);
    truth(named("flat bar, nu ", nu, ": shear coefficient"), cowper, s.Az / s.A,
          within_rel(10 * (1 + nu) / (12 + 11 * nu), 1e-9));
    SectionEntry round = entry(Shape::round_bar, 12 * mm, 12 * mm, 0);
    const Section r = section_of(round, material);
    truth(named("round bar, nu ", nu, ": shear coefficient"), cowper, r.Ay / r.A,
          within_rel(6 * (1 + nu) / (7 + 6 * nu), 1e-9));
    flat.shear = false;
    CHECK(section_of(flat, material).Ay == rigid);
    CHECK(section_of(flat, material).Az == rigid);
    CHECK(section_of(flat, material).Iy == s.Iy);
  }
}

TEST_CASE("given properties are taken as they are") {
  SectionEntry e = entry(Shape::properties, 0, 0, 0);
  e.given = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, {}};
  const Section s = section_of(e, steel);
  CHECK(s.A + 10 * s.Iy + 100 * s.Iz + 1000 * s.It == 4321);
  CHECK((s.Ay == 10 && s.Az == 11));
  e.shear = false;
  CHECK(section_of(e, steel).Az == rigid);
}

}  // namespace tubewright::section_of_test
