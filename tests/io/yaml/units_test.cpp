// Unit expressions against the definitions of the units by each other: the prefixes and derived
// units of the SI Brochure (9th edition, tables 4 and 7, from memory), NIST SP 811 B.8.
#include "io/yaml/units.h"

#include <cmath>
#include <numbers>

#include "tests/catch.h"

namespace tubewright::units_test {

namespace {

Unit unit(const std::string& text) {
  const auto reading = read_unit(text);
  INFO(text);
  REQUIRE(reading.has_value());
  return *reading;
}

Diagnostic fault(const std::string& text) {
  const auto reading = read_unit(text);
  INFO(text);
  REQUIRE(!reading);
  return *reading.error();
}

Dimension times(const Dimension& d, int power) {
  return {d.length * power, d.mass * power, d.time * power, d.angle * power};
}

Dimension sum(const Dimension& a, const Dimension& b) {
  return {a.length + b.length, a.mass + b.mass, a.time + b.time, a.angle + b.angle};
}

}  // namespace

TEST_CASE("units equal what defines them, in value and in dimension") {
  const struct {
    const char* unit;
    double number;
    const char* definition;
  } table[] = {
      {"mm", 1e-3, "m"},
      {"cm", 1e-2, "m"},
      {"dm", 1e-1, "m"},
      {"km", 1e3, "m"},
      {"um", 1e-6, "m"},
      {"g", 1e-3, "kg"},
      {"t", 1e3, "kg"},
      {"N", 1, "kg m/s2"},
      {"daN", 10, "N"},
      {"kN", 1e3, "N"},
      {"MN", 1e6, "N"},
      {"Nm", 1, "N m"},
      {"kNm", 1, "kN m"},
      {"Nmm", 1, "N mm"},
      {"Pa", 1, "N/m2"},
      {"kPa", 1e3, "Pa"},
      {"MPa", 1, "N/mm2"},
      {"GPa", 1, "kN/mm2"},
      {"bar", 1e5, "Pa"},
      {"mrad", 1e-3, "rad"},
      {"ms", 1e-3, "s"},
      {"h", 3600, "s"},
      {"km/h", 1 / 3.6, "m/s"},
      {"Hz", 1, "s^-1"},
      {"kHz", 1e3, "Hz"},
      {"in", 25.4, "mm"},
      {"ft", 12, "in"},
      {"lb", 16, "oz"},
      {"lb", 0.45359237, "kg"},
      {"lbf", 9.80665, "lb m/s2"},
      {"kgf", 9.80665, "kg m/s2"},
      {"kip", 1000, "lbf"},
      {"psi", 1, "lbf/in2"},
      {"ksi", 1, "kip/in2"},
      {"deg", std::numbers::pi / 180, "rad"},
  };
  for (const auto& row : table) {
    INFO(row.unit);
    const Unit one = unit(row.unit), other = unit(row.definition);
    CHECK(one.dimension == other.dimension);
    CHECK_THAT(one.to_si, WithinRel(row.number * other.to_si, 1e-14));
  }
  CHECK(unit("m").to_si == 1);
  CHECK(unit("%").to_si == 0.01);
  CHECK(unit("%").dimension == Dimension{});
}

TEST_CASE("products, quotients and powers of any two units multiply values and add dimensions") {
  for (const std::string& a : unit_symbols()) {
    for (const std::string& b : unit_symbols()) {
      const Unit x = unit(a), y = unit(b);
      for (const std::string& product : {a + " " + b, a + "*" + b, a + "·" + b, a + " ⋅ " + b}) {
        CHECK(unit(product).dimension == sum(x.dimension, y.dimension));
        CHECK_THAT(unit(product).to_si, WithinRel(x.to_si * y.to_si, 1e-14));
      }
      const Unit quotient = unit(a + " / " + b + "3");
      CHECK(quotient.dimension == sum(x.dimension, times(y.dimension, -3)));
      CHECK_THAT(quotient.to_si, WithinRel(x.to_si / std::pow(y.to_si, 3), 1e-13));
      CHECK(unit(a + "/" + b + "/" + b + "2").dimension == quotient.dimension);
    }
  }
}

TEST_CASE("every way to write a power or a sign means the same") {
  for (const char* text : {"mm2", "mm^2", "mm²", "mm mm", "mm3/mm", "mm4*mm^-2"}) {
    INFO(text);
    CHECK(unit(text).dimension == Dimension{2, 0, 0, 0});
    CHECK_THAT(unit(text).to_si, WithinRel(1e-6, 1e-14));
  }
  CHECK_THAT(unit("mm⁴").to_si, WithinRel(1e-12, 1e-14));
  CHECK_THAT(unit("m³").to_si, WithinRel(1.0, 1e-14));
  CHECK(unit("°").to_si == unit("deg").to_si);
  CHECK(unit("µm").to_si == unit("um").to_si);  // U+00B5
  CHECK(unit("μm").to_si == unit("um").to_si);  // U+03BC
}

TEST_CASE("an angle is a dimension of its own, so a moment per degree is no moment") {
  CHECK_FALSE(unit("N m/deg").dimension == unit("N m").dimension);
  CHECK(unit("N m/deg").dimension == unit("kNm/rad").dimension);
  CHECK_THAT(unit("N m/deg").to_si, WithinRel(180 / std::numbers::pi, 1e-14));
}

TEST_CASE("what could be read in two ways or not at all is refused") {
  // ISO 80000-1, 7.2.2 (from memory): no product after a solidus without brackets.
  for (const char* text : {"", " ", "N/mm m", "N/mm*m", "mm/", "/mm", "mm^", "mm^0", "mm0", "mm22",
                           "m^-", "N**m", "N//m", "(mm)", "N m)", "mm;", "m m m m m m m m m"}) {
    CHECK_THAT(fault(text).message, ContainsSubstring("cannot read the unit"));
  }
  CHECK(unit("m m m m m m m m").dimension.length == 8);
}

TEST_CASE("an unknown unit is named, with the one that was meant") {
  for (const char* text : {"inch", "inches"}) {
    CHECK(fault(text).message == "unknown unit `" + std::string(text) + "`");
    CHECK(fault(text).advice == "did you mean `in`?");
  }
  CHECK(fault("N/meter").advice == "did you mean `m`?");
  CHECK(fault("lbs").advice == "did you mean `lb`?");
  CHECK(fault("feet").advice == "did you mean `ft`?");
  CHECK(fault("MPA").advice == "did you mean `MPa`?");
  CHECK_THAT(fault("furlongs").advice, ContainsSubstring("units are mm"));
  for (const std::string& symbol : unit_symbols()) CHECK(unit(symbol).to_si > 0);
}

}  // namespace tubewright::units_test
