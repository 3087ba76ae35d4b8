// Bounds of quantities: everyday values lie within, slips of unit beyond.
#include "cases/frame/sensible_ranges.h"

#include <cmath>
#include <limits>

#include "tests/catch.h"

namespace tubewright::sensible_ranges_test {

TEST_CASE("bounds belong to their range, the next number beyond and NaN do not") {
  for (const Range& r : {sensible::size, sensible::coordinate, sensible::jack_share,
                         Range{-0.25, 3, "any"}, sensible::rotation}) {
    CHECK(within(r.least, r));
    CHECK(within(r.most, r));
    CHECK(within((r.least + r.most) / 2, r));
    const double infinite = std::numeric_limits<double>::infinity();
    CHECK_FALSE(within(std::nextafter(r.least, -infinite), r));
    CHECK_FALSE(within(std::nextafter(r.most, infinite), r));
    CHECK_FALSE(within(infinite, r));
    CHECK_FALSE(within(std::nan(""), r));
  }
}

TEST_CASE("a value out of range is reported with what is wanted, one within is not") {
  const Range eggs{0, 12, "at most a dozen"};
  Diagnostics diagnostics;
  CHECK(check_range(12, eggs, "basket `b`", "eggs", {4, 2}, diagnostics));
  CHECK(diagnostics.empty());
  CHECK_FALSE(check_range(13, eggs, "basket `b`", "eggs", {4, 2}, diagnostics));
  REQUIRE(diagnostics.size() == 1);
  CHECK(diagnostics[0].severity == Severity::error);
  CHECK(diagnostics[0].message == "basket `b` has an impossible `eggs`");
  CHECK(diagnostics[0].advice == "give at most a dozen");
  CHECK((diagnostics[0].place.line == 4 && diagnostics[0].place.column == 2));
}

// Values of any handbook of materials and sections, from memory; slips are a thousandfold or more.
TEST_CASE("what is welded and driven lies within the bounds, a slip of the unit does not") {
  const struct {
    Range range;
    double lightest, heaviest, slip;
  } rows[] = {
      {sensible::coordinate, -0.01, 12, 1200},         // mm as m
      {sensible::size, 0.0005, 0.3, 25},               // 25 mm as m
      {sensible::area, 1e-6, 0.02, 421},               // mm2 as m2
      {sensible::second_moment, 1e-12, 1e-3, 93200},   // mm4 as m4
      {sensible::modulus, 1e-9, 1e-2, 4660},           // mm3 as m3
      {sensible::elasticity, 1e6, 1e12, 210e9 * 1e6},  // rubber, diamond; Pa as MPa
      {sensible::strength, 5e6, 3e9, 235e6 * 1e6},     // plastics, wire; Pa as MPa
      {sensible::density, 30, 22600, 7850e3},          // foam, osmium; g/m3
      {sensible::stiffness, 1e3, 1e9, 1e9 * 1e9},      // a soft spring, a stiff joint
      {sensible::mass, 0.001, 2000, 80e3 * 1e3},       // mg as kg
      {sensible::gravity, 1.62, 24.8, 9806.65},        // the Moon, Jupiter; mm/s2
      {sensible::rotation, -0.1, 0.1, 5},              // 5 degrees as rad
      {sensible::share, 0, 1, 60},                     // per cent
      {sensible::multiple_of_g, -5, 20, 9806.65},      // mm/s2
  };
  for (const auto& row : rows) {
    INFO(row.range.words);
    CHECK(within(row.lightest, row.range));
    CHECK(within(row.heaviest, row.range));
    CHECK_FALSE(within(row.slip, row.range));
    CHECK(std::isfinite(row.range.most * row.range.most));
  }
}

}  // namespace tubewright::sensible_ranges_test
