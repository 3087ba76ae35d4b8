// The limits of a file, each held against what the command of its own says.
#include "cases/verdict/limit_checks.h"

#include "tests/cases/clad_frames.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::limit_checks_test {

using namespace tubewright::testing;

namespace {

constexpr Source blevins =
    from_memory("R. D. Blevins, Formulas for Natural Frequency and Mode Shape, Table 8-1");

/// A cantilever of 1 m.
Frame arm() {
  Frame f = empty_frame();
  add_node(f, "root", 0, 0, 0);
  add_node(f, "tip", 1, 0, 0);
  add_member(f, "arm", "root", "tip");
  f.supports.push_back({"root", {true, true, true, true, true, true}, {}, {}});
  add_case(f, "load").forces.push_back({"tip", {0, 0, -10}, {}});
  return f;
}

std::vector<LimitCheck> limits_of(const Frame& f) { return limit_checks(answer_of(analyse(f))); }

}  // namespace

TEST_CASE("a file without limits has none to keep") { CHECK(limits_of(arm()).empty()); }

TEST_CASE("the frequency asked for is held against the first bending of the cantilever",
          "[truth]") {
  // 1.8751^2/(2 pi) sqrt(EI/(rho A L^4)) (R. D. Blevins, Formulas for Natural Frequency and Mode
  // Shape, Table 8-1, from memory).
  Frame f = arm();
  f.sections[0].corners = Corners::sharp;
  const double A = 4 * 0.023 * 0.002, I = (std::pow(0.025, 4) - std::pow(0.021, 4)) / 12;
  const double first = 1.8751 * 1.8751 / (2 * 3.14159265) * std::sqrt(210e9 * I / (7850 * A));
  f.limits.frequency = first / 2;
  const std::vector<LimitCheck> limits = limits_of(f);
  REQUIRE(limits.size() == 1);
  CHECK(limits[0].name == "frequency");
  truth("cantilever of 1 m, limit at half its first frequency: utilisation", blevins,
        *limits[0].result.utilisation, within_rel(0.5, 5e-3));
}

TEST_CASE("the mass allowed is held against tubes and sheets") {
  Frame f = arm();
  f.limits.mass = 1;
  const Analysis a = answer_of(analyse(f));
  CHECK_THAT(*limit_checks(a)[0].result.utilisation, WithinRel(a.mass.tubes, 1e-12));
}

TEST_CASE("torsional stiffness without a torsion test has no number and says what is missing") {
  Frame f = arm();
  f.limits.torsional_stiffness = 100;
  const LimitCheck limit = limits_of(f)[0];
  CHECK(lacks_number(limit.result));
  CHECK_THAT(limit.result.reason, ContainsSubstring("`torsion`"));
}

}  // namespace tubewright::limit_checks_test
