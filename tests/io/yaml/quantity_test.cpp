#include "io/yaml/quantity.h"

#include <numbers>

#include "tests/catch.h"

namespace tubewright::quantity_test {

namespace {

double si(const std::string& text, const Measure& measure) {
  const QuantityReading reading = read_quantity(text, false, measure);
  const auto* complaint = std::get_if<Complaint>(&reading);
  INFO(text << ": " << (complaint == nullptr ? "" : complaint->message));
  REQUIRE(complaint == nullptr);
  return std::get<double>(reading);
}

Complaint complaint(const std::string& text, const Measure& measure, bool in_quotes = false) {
  const QuantityReading reading = read_quantity(text, in_quotes, measure);
  INFO(text);
  REQUIRE(std::holds_alternative<Complaint>(reading));
  return std::get<Complaint>(reading);
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
TEST_CASE("inch and pound units have the factors of NIST SP 811") {
  const double printed = 5e-7;  // half a unit in the last digit
  CHECK(si("1 in", measure::length) == 0.0254);
  CHECK_THAT(si("1 ft", measure::length), WithinRel(0.3048, 1e-15));
  CHECK(si("1 lb", measure::mass) == 0.45359237);
  CHECK_THAT(si("1 oz", measure::mass), WithinRel(2.834952e-2, printed));
  CHECK_THAT(si("1 lbf", measure::force), WithinRel(4.448222, printed));
  CHECK_THAT(si("1 kip", measure::force), WithinRel(4.448222e3, printed));
  CHECK_THAT(si("1 kgf", measure::force), WithinRel(9.80665, printed));
  CHECK_THAT(si("1 psi", measure::stress), WithinRel(6.894757e3, printed));
  CHECK_THAT(si("1 ksi", measure::stress), WithinRel(6.894757e6, printed));
  CHECK_THAT(si("1 lbf ft", measure::moment), WithinRel(1.355818, printed));
  CHECK_THAT(si("1 lbf in", measure::moment), WithinRel(1.129848e-1, printed));
  CHECK_THAT(si("1 lbf/ft", measure::line_load), WithinRel(1.459390e1, printed));
  CHECK_THAT(si("1 lbf/in", measure::rate), WithinRel(1.751268e2, printed));
  CHECK_THAT(si("1 in4", measure::second_moment), WithinRel(4.162314e-7, printed));
  CHECK_THAT(si("1 lb/ft3", measure::density), WithinRel(1.601846e1, printed));
  CHECK_THAT(si("1 lb ft2", measure::inertia), WithinRel(4.214011e-2, printed));
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
  const Complaint wall = complaint("3 lb", measure::length);
  CHECK(wall.message == "`3 lb` is a mass, not a length");
  CHECK(wall.advice == "write a number in mm, or a length such as `1 in`");
  CHECK(complaint("20 lb", measure::force).advice ==
        "write a number in N; pounds of force are `lbf`");
  CHECK(complaint("20 lbf", measure::mass).advice ==
        "write a number in kg; pounds of mass are `lb`");
  CHECK(complaint("400 N m", measure::turning_rate).message ==
        "`400 N m` is a moment, not a moment per angle");
  CHECK(complaint("10 deg", measure::slope).message == "`10 deg` is an angle, not a slope");
  CHECK(complaint("3 kg2", measure::mass).message ==
        "`3 kg2` is another kind of quantity, not a mass");
  CHECK(complaint("1 m/s2", measure::multiple_of_g).message == "`1 m/s2` is not a multiple of g");
}

TEST_CASE("a unit that cannot be read says why") {
  CHECK(complaint("1 inn", measure::length).advice == "did you mean `in`?");
  CHECK(complaint("1 furlong", measure::length).message == "unknown unit `furlong`");
  for (const char* text : {"1 mm/", "1 /mm", "1 N/mm m", "1 mm^", "1 mm^0", "1 mm..", "1 (mm)",
                           "1 N**m", "1 mm^-", "1 mm 2", "1 m m m m m m m m m"}) {
    CHECK_THAT(complaint(text, measure::length).message, ContainsSubstring("cannot read the unit"));
  }
}

TEST_CASE("traps of numbers in text are refused") {
  const auto refused = [](const char* text) { return complaint(text, measure::number).message; };
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
  CHECK(complaint("25", measure::length, true).message ==
        "the number `25` stands in quotes, as text");
  CHECK_THAT(complaint("9e14 km", measure::length).message, ContainsSubstring("too large"));
}

TEST_CASE("numbers too small for the machine are zero") {
  CHECK(si("1e-999", measure::number) == 0);
  CHECK(si("0." + std::string(400, '0') + "1", measure::number) == 0);
  CHECK(si("-0", measure::number) == 0);
  CHECK_THAT(complaint(std::string(400, '9'), measure::number).message,
             ContainsSubstring("is too large"));
}

}  // namespace tubewright::quantity_test
