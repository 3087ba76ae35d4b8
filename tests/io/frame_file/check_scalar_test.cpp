// Single values held against their kind: what is taken, what is refused and where.
#include "io/frame_file/check_scalar.h"

#include <random>
#include <regex>

#include "io/keys/frame_kinds.h"
#include "tests/catch.h"

namespace tubewright::check_scalar_test {

namespace {

YamlNode scalar(const std::string& text, bool in_quotes = false) {
  YamlNode node;
  node.form = YamlForm::scalar;
  node.text = text;
  node.in_quotes = in_quotes;
  node.place = {4, 9};
  return node;
}

struct Checked {
  CheckedValue value;
  Diagnostics diagnostics;
};

Checked checked(const SharedKind& kind, const std::string& text, bool in_quotes = false) {
  Checked result;
  check_scalar(*kind, scalar(text, in_quotes), "axle", result.value, result.diagnostics);
  for (const Diagnostic& p : result.diagnostics) {
    CHECK(p.severity == Severity::error);
    CHECK(p.place.line == 4);
    CHECK(p.place.column == 9);
  }
  return result;
}

bool sound(const SharedKind& kind, const std::string& text, bool in_quotes = false) {
  INFO(text);
  return checked(kind, text, in_quotes).diagnostics.empty();
}

}  // namespace

TEST_CASE("a name is letters, digits and three signs, with spaces inside where they are allowed") {
  const std::regex plain("[A-Za-z0-9_.-]+"),
      spaced("[A-Za-z0-9_.-]([A-Za-z0-9_. -]*[A-Za-z0-9_.-])?");
  std::mt19937 random(6);
  const std::string alphabet = "aZ09_-. /`:#ä";
  for (int i = 0; i < 3000; ++i) {
    std::string name;
    for (unsigned n = random() % 6; n > 0; --n) name += alphabet[random() % alphabet.size()];
    INFO(name);
    CHECK(valid_name(name, false) == std::regex_match(name, plain));
    CHECK(valid_name(name, true) == std::regex_match(name, spaced));
  }
}

TEST_CASE("a choice becomes the index of its word, spelt as it is in the table") {
  const SharedKind kind = kinds::choice({"front", "rear", "middle"});
  CHECK(checked(kind, "front").value.index == 0);
  CHECK(checked(kind, "middle").value.index == 2);
  CHECK(checked(kind, "middle").value.text == "middle");
  for (const char* text : {"Front", "fron", "", "0", "front "}) {
    CHECK_FALSE(sound(kind, text));
    CHECK(checked(kind, text).value.index == -1);
  }
}

TEST_CASE("a switch is true or false and no other word, and not in quotes") {
  const SharedKind kind = kinds::flag();
  CHECK(checked(kind, "true").value.index == 1);
  CHECK(checked(kind, "false").value.index == 0);
  CHECK(sound(kind, "true"));
  for (const char* text : {"yes", "no", "on", "True", "FALSE", "1", "0", ""}) {
    CHECK_FALSE(sound(kind, text));
  }
  CHECK_FALSE(sound(kind, "true", true));
}

TEST_CASE("a quantity is kept in SI units and within its bounds, both ends included") {
  const SharedKind slope = kinds::quantity(measure::slope, kinds::zero_to_one);  // in %: 0 to 1
  CHECK_THAT(checked(slope, "0.25").value.number, WithinRel(0.0025, 1e-15));
  for (const char* text : {"0", "1", "1 %", "0.5"}) CHECK(sound(slope, text));
  for (const char* text : {"-0.001", "1.001", "2 %"}) CHECK_FALSE(sound(slope, text));
  const SharedKind size = kinds::quantity(measure::length, kinds::positive);
  for (const char* text : {"1e-9", "0.001", "1 um", "1e6"}) CHECK(sound(size, text));
  for (const char* text : {"0", "-1", "1e-10", "-1 in"}) CHECK_FALSE(sound(size, text));
  CHECK(checked(size, "-1").diagnostics.at(0).message == "`axle` cannot be `-1`");
  CHECK(checked(size, "-1").diagnostics.at(0).advice == "it must be greater than 0");
  const SharedKind poisson = kinds::quantity(measure::number, kinds::poisson);
  CHECK_FALSE(sound(poisson, "-1"));  // excluded
  CHECK(sound(poisson, "-0.999999"));
  CHECK(sound(poisson, "0.5"));
  CHECK_FALSE(sound(poisson, "0.500001"));
}

TEST_CASE("a bound is met by the same number in any unit, although rounding comes between") {
  // 1 mm in other units is 1e-3 m, 0.1 cm, 1000 um, 1/25.4 in: none may fall below 1 mm.
  const Bounds from_one{1, 1, false, "1"};
  const SharedKind kind = kinds::quantity(measure::length, from_one);
  for (const char* text : {"1", "1 mm", "0.001 m", "0.1 cm", "1000 um", "0.01 dm", "0.000001 km"}) {
    CHECK(sound(kind, text));
  }
  for (const char* text : {"1.00001", "0.99999", "0.00100001 m"}) CHECK_FALSE(sound(kind, text));
}

TEST_CASE("a word may stand for a quantity, any other text is a fault of the number") {
  const SharedKind kind = kinds::quantity_or(measure::share, kinds::zero_to_one, "ideal");
  CHECK(checked(kind, "ideal").value.text == "ideal");
  CHECK(sound(kind, "ideal"));
  CHECK(checked(kind, "0.5").value.text.empty());  // not taken for a word
  CHECK(checked(kind, "0.5").value.number == 0.5);
  CHECK_FALSE(sound(kind, "ideally"));
  CHECK_FALSE(sound(kind, "0.5", true));

  CheckedValue component;
  Diagnostics diagnostics;
  check_quantity(*kinds::vector(measure::length), scalar("2 in"), "at", component, diagnostics);
  CHECK(diagnostics.empty());
  CHECK_THAT(component.number, WithinRel(0.0508, 1e-15));
}

TEST_CASE("a line of text is anything that can be seen, a name only what is a name") {
  for (const char* text : {"x", "Träger 1: \"big\"", "#1", "0"}) CHECK(sound(kinds::text(), text));
  for (const char* text : {"", "  ", "\n", " \n "}) CHECK_FALSE(sound(kinds::text(), text));
  CHECK(checked(kinds::text(), " a b").value.text == " a b");
  CHECK(sound(kinds::name("a node name"), "FL-1.b_2"));
  CHECK_FALSE(sound(kinds::name("a node name"), "EN AW"));
  CHECK(sound(kinds::name_with_spaces("a material name"), "EN AW-5754-H22"));
}

}  // namespace tubewright::check_scalar_test
