#include "cases/validate/validate.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"

namespace tubewright::validate_cases_test {

using testing::add_case;
using testing::box_vehicle;
using testing::braced_rectangle;
using testing::text_of;

namespace {

/// Combination `name` of the cases `of`, each once.
void combine(Frame& f, const std::string& name, const std::vector<std::string>& of) {
  Case& c = add_case(f, name, CaseKind::combine);
  for (const std::string& term : of) c.of.push_back({term, 1, {}});
}

}  // namespace

TEST_CASE("a combination that comes back to itself is named with the way round") {
  Frame f = braced_rectangle();
  add_case(f, "plain");
  combine(f, "a", {"plain", "b"});
  combine(f, "b", {"c"});
  combine(f, "c", {"plain", "a"});
  const Problems problems = validate(f);
  INFO(text_of(problems));
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].message == "combinations go in a circle: `a` -> `b` -> `c` -> `a`");
  CHECK(problems[0].place.line == f.cases[1].place.line);
}

TEST_CASE("a combination of itself is a circle") {
  Frame f = braced_rectangle();
  combine(f, "a", {"a"});
  const Problems problems = validate(f);
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].message == "combinations go in a circle: `a` -> `a`");
}

TEST_CASE("two combinations of one case are no circle") {
  Frame f = braced_rectangle();
  add_case(f, "plain");
  combine(f, "a", {"plain"});
  combine(f, "b", {"plain"});
  combine(f, "sum", {"a", "b", "plain"});
  CHECK(text_of(validate(f)).empty());
}

TEST_CASE("what supports hold and what nothing holds cannot be added up") {
  Frame f = box_vehicle();
  add_case(f, "hand");
  add_case(f, "braking", CaseKind::vehicle).brake = 0.3;
  combine(f, "sum", {"hand", "braking"});
  combine(f, "sum_of_sum", {"sum", "braking"});
  const Problems problems = validate(f);
  INFO(text_of(problems));
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].message == "case `sum` combines `kind: static` with `kind: vehicle`");
}

TEST_CASE("a tower of combinations is refused, even one as high as the file is long") {
  Frame f = braced_rectangle();
  add_case(f, "c0");
  for (int i = 1; i <= 8; ++i) combine(f, "c" + std::to_string(i), {"c" + std::to_string(i - 1)});
  CHECK(validate(f).empty());
  for (int i = 9; i < 100000; ++i) {
    combine(f, "c" + std::to_string(i), {"c" + std::to_string(i - 1)});
  }
  const Problems problems = validate(f);
  REQUIRE(problems.size() == 1);
  CHECK(problems[0].message == "case `c9` combines combinations too deeply");
}

TEST_CASE("a circle of a hundred thousand combinations is reported in one line") {
  Frame f = braced_rectangle();
  for (int i = 0; i < 100000; ++i) {
    combine(f, "c" + std::to_string(i), {"c" + std::to_string((i + 1) % 100000)});
  }
  const std::string text = text_of(validate(f));
  CHECK_THAT(text, ContainsSubstring("`c0` -> ... -> `c99991`"));
  CHECK(text.size() < 10000);
}

TEST_CASE("a combination combines something, by a factor that can be multiplied") {
  Frame f = braced_rectangle();
  add_case(f, "plain");
  combine(f, "none", {});
  combine(f, "wild", {"plain"});
  f.cases[2].of[0].factor = 1e300;
  const std::string text = text_of(validate(f));
  CHECK_THAT(text, ContainsSubstring("case `none` combines nothing"));
  CHECK_THAT(text, ContainsSubstring("case `wild` has an impossible `of`"));
}

TEST_CASE("a driving case needs a vehicle") {
  Frame f = braced_rectangle();
  add_case(f, "brake", CaseKind::vehicle);
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("but there is no `vehicle`"));
}

}  // namespace tubewright::validate_cases_test
