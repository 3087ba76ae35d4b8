#include "io/yaml/quantity.h"

#include <numbers>

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::quantity_test {

namespace {

constexpr Source nist = from_memory("NIST SP 811 (2008), appendix B.8");

double si(const std::string& text, const Measure& measure) {
  const QuantityReading reading = read_quantity(text, false, measure);
  const auto* diagnostic = reading.error();
  INFO(text << ": " << (diagnostic == nullptr ? "" : diagnostic->message));
  REQUIRE(diagnostic == nullptr);
  return *reading;
}

Diagnostic diagnostic(const std::string& text, const Measure& measure, bool in_quotes = false) {
  const QuantityReading reading = read_quantity(text, in_quotes, measure);
  INFO(text);
  REQUIRE(!reading);
  return *reading.error();
}

}  // namespace

TEST_CASE("a bare number is in the workshop unit of its key") {
  CHECK(si("25", measure::length) == 25e-3);
  CHECK(si("-1.5e2", measure::length) == -150e-3);
  CHECK(si("+.5", measure::length) == 0.5e-3);
  CHECK(si("7.", measure::mass) == 7);
  CHECK(si("210000", measure::stress) == 210000e6);
  CHECK_THAT(si("0.25", measure::line_load), WithinRel(250.0, 1e-15));
  CHECK_THAT(si("5", measure::fastener_rate), WithinRel(5e6, 1e-15));
  CHECK_THAT(si("180", measure::angle), WithinRel(std::numbers::pi, 1e-15));
  CHECK_THAT(si("400", measure::turning_rate), WithinRel(400 * 180 / std::numbers::pi, 1e-15));
  CHECK_THAT(si("10", measure::slope), WithinRel(0.1, 1e-15));
}

// NIST Special Publication 811 (2008), appendix B.8, as printed there to seven digits. MEMORY.
TEST_CASE("inch and pound units have the factors of NIST SP 811", "[truth]") {
  const double printed = 5e-7;  // half a unit in the last digit
  CHECK(si("1 in", measure::length) == 0.0254);
  CHECK_THAT(si("1 ft", measure::length), WithinRel(0.3048, 1e-15));
  CHECK(si("1 lb", measure::mass) == 0.45359237);
  truth("1 oz in SI", nist, si("1 oz", measure::mass), within_rel(2.834952e-2, printed));
  truth("1 lbf in SI", nist, si("1 lbf", measure::force), within_rel(4.448222, printed));
  truth("1 kip in SI", nist, si("1 kip", measure::force), within_rel(4.448222e3, printed));
  truth("1 kgf in SI", nist, si("1 kgf", measure::force), within_rel(9.80665, printed));
  truth("1 psi in SI", nist, si("1 psi", measure::stress), within_rel(6.894757e3, printed));
  truth("1 ksi in SI", nist, si("1 ksi", measure::stress), within_rel(6.894757e6, printed));
  truth("1 lbf ft in SI", nist, si("1 lbf ft", measure::moment), within_rel(1.355818, printed));
  truth("1 lbf in in SI", nist, si("1 lbf in", measure::moment), within_rel(1.129848e-1, printed));
  truth("1 lbf/ft in SI", nist, si("1 lbf/ft", measure::line_load),
        within_rel(1.459390e1, printed));
  truth("1 lbf/in in SI", nist, si("1 lbf/in", measure::rate), within_rel(1.751268e2, printed));
  truth("1 in4 in SI", nist, si("1 in4", measure::second_moment), within_rel(4.162314e-7, printed));
  truth("1 lb/ft3 in SI", nist, si("1 lb/ft3", measure::density), within_rel(1.601846e1, printed));
  truth("1 lb ft2 in SI", nist, si("1 lb ft2", measure::inertia), within_rel(4.214011e-2, printed));
}

TEST_CASE("products, quotients and powers of units are worked out") {
  CHECK_THAT(si("3 kip/ft", measure::line_load), WithinRel(3 * 4448.2216152605 / 0.3048, 1e-12));
  CHECK_THAT(si("150 kip ft", measure::moment), WithinRel(150 * 4448.2216152605 * 0.3048, 1e-12));
  CHECK_THAT(si("10 GPa", measure::stress), WithinRel(1e10, 1e-15));
  CHECK_THAT(si("7.85 g/cm3", measure::density), WithinRel(7850.0, 1e-14));
  CHECK_THAT(si("355 N/mm2", measure::stress), WithinRel(355e6, 1e-14));
  CHECK_THAT(si("355 N/mm^2", measure::stress), WithinRel(355e6, 1e-14));
  CHECK_THAT(si("355 N/mm²", measure::stress), WithinRel(355e6, 1e-14));
  CHECK_THAT(si("355 N mm^-2", measure::stress), WithinRel(355e6, 1e-14));
  CHECK_THAT(si("2 kN·m", measure::moment), WithinRel(2000.0, 1e-15));
  CHECK_THAT(si("2kN*m", measure::moment), WithinRel(2000.0, 1e-15));
  CHECK_THAT(si("2 kNm", measure::moment), WithinRel(2000.0, 1e-15));
  CHECK_THAT(si("500 N m/deg", measure::turning_rate),
             WithinRel(500 * 180 / std::numbers::pi, 1e-15));
  CHECK_THAT(si("30°", measure::angle), WithinRel(std::numbers::pi / 6, 1e-15));
  CHECK_THAT(si("0.1 rad", measure::angle), WithinRel(0.1, 1e-15));
  CHECK_THAT(si("9.81 m/s/s", measure::acceleration), WithinRel(9.81, 1e-15));
  CHECK_THAT(si("5000 N / mm", measure::fastener_rate), WithinRel(5e6, 1e-15));
  CHECK_THAT(si("60 %", measure::share), WithinRel(0.6, 1e-15));
  CHECK(si("0.8 g", measure::multiple_of_g) == 0.8);
}

TEST_CASE("a unit of another kind is named, with what was expected") {
  const Diagnostic wall = diagnostic("3 lb", measure::length);
  CHECK(wall.message == "`3 lb` is a mass, not a length");
  CHECK(wall.advice == "write a number in mm, or a length such as `1 in`");
  CHECK(diagnostic("20 lb", measure::force).advice ==
        "write a number in N; pounds of force are `lbf`");
  CHECK(diagnostic("20 lbf", measure::mass).advice ==
        "write a number in kg; pounds of mass are `lb`");
  CHECK(diagnostic("400 N m", measure::turning_rate).message ==
        "`400 N m` is a moment, not a moment per angle");
  CHECK(diagnostic("10 deg", measure::slope).message == "`10 deg` is an angle, not a slope");
  CHECK(diagnostic("3 kg2", measure::mass).message ==
        "`3 kg2` is another kind of quantity, not a mass");
  CHECK(diagnostic("1 m/s2", measure::multiple_of_g).message == "`1 m/s2` is not a multiple of g");
}

TEST_CASE("a unit that cannot be read says why") {
  CHECK(diagnostic("1 inn", measure::length).advice == "did you mean `in`?");
  CHECK(diagnostic("1 furlong", measure::length).message == "unknown unit `furlong`");
  for (const char* text : {"1 mm/", "1 /mm", "1 N/mm m", "1 mm^", "1 mm^0", "1 mm..", "1 (mm)",
                           "1 N**m", "1 mm^-", "1 mm 2", "1 m m m m m m m m m"}) {
    CHECK_THAT(diagnostic(text, measure::length).message,
               ContainsSubstring("cannot read the unit"));
  }
}

TEST_CASE("traps of numbers in text are refused") {
  const auto refused = [](const char* text) { return diagnostic(text, measure::number).message; };
  CHECK(refused("010") == "`010` starts with a zero, which some programs read in another base");
  CHECK_THAT(refused("-00.5"), ContainsSubstring("starts with a zero"));
  CHECK(refused("0x10") == "`0x10` is not a decimal number");
  CHECK(refused("0o17") == "`0o17` is not a decimal number");
  CHECK(refused("12_000") == "`12_000` has a separator between its digits");
  CHECK(refused("1,5") == "`1,5` has a comma in it");
  CHECK(refused(".nan") == "`.nan` is not a finite number");
  CHECK(refused("-.Inf") == "`-.Inf` is not a finite number");
  CHECK(refused("1e999") == "`1e999` is too large");
  CHECK(refused("1e16") == "`1e16` is too large");
  CHECK(refused("yes") == "`yes` is not a number");
  for (const char* text : {"", ".", "-", "e5", "1e", "1.2.3", "--1", "1 2", "1 mm"}) refused(text);
  CHECK(diagnostic("25", measure::length, true).message ==
        "the number `25` stands in quotes, as text");
  CHECK_THAT(diagnostic("9e14 km", measure::length).message, ContainsSubstring("too large"));
}

TEST_CASE("numbers too small for the machine are zero") {
  CHECK(si("1e-999", measure::number) == 0);
  CHECK(si("0." + std::string(400, '0') + "1", measure::number) == 0);
  CHECK(si("-0", measure::number) == 0);
  CHECK_THAT(diagnostic(std::string(400, '9'), measure::number).message,
             ContainsSubstring("is too large"));
}

}  // namespace tubewright::quantity_test
