// Free tube ends and small kinks, counted by hand.
#include <cmath>

#include "cases/lint/lint_parts.h"
#include "solver/model/angle.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::lint_ends_test {

using namespace tubewright::testing;

namespace {

std::string doubts(const Frame& f) { return text_of(lint_ends(f, layout_of(f))); }

/// A tube from A by B to C that turns by `angle` at B.
Frame bent(double angle) {
  Frame f = empty_frame();
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 0.5, 0, 0);
  add_node(f, "C", 0.5 + 0.5 * std::cos(angle), 0.5 * std::sin(angle), 0);
  add_member(f, "rail.1", "A", "B").tube = "rail";
  add_member(f, "rail.2", "B", "C").tube = "rail";
  return f;
}

}  // namespace

TEST_CASE("a tube end that nothing needs is told") {
  Frame f = braced_rectangle();
  CHECK(doubts(f).empty());
  add_node(f, "out", 1, 0, 0);
  add_member(f, "stub", "B", "out");
  CHECK_THAT(doubts(f), ContainsSubstring("member `stub` ends free at node `out`"));
}

TEST_CASE("a tube end that is held, loaded, weighted or measured is no free end") {
  Frame f = braced_rectangle();
  add_node(f, "out", 1, 0, 0);
  add_member(f, "stub", "B", "out");
  Frame held = f;
  held.supports.push_back({"out", {true, true, true, false, false, false}, {}, {}});
  CHECK(doubts(held).empty());
  Frame loaded = f;
  add_case(loaded, "hand").forces.push_back({"out", {0, 0, -1}, {}});
  CHECK(doubts(loaded).empty());
  Frame weighted = f;
  weighted.masses.emplace_back().on = {"out"};
  CHECK(doubts(weighted).empty());
  Frame measured = f;
  measured.torsion = TorsionTest{{"out", "A"}, {"C", "D"}, 1, {}};
  CHECK(doubts(measured).empty());
}

TEST_CASE("a path that turns by hardly anything is doubted, one that turns on purpose is not") {
  CHECK_THAT(doubts(bent(1 * degree)), ContainsSubstring("tube `rail` turns by 1.0 degrees"));
  for (const double degrees : {0.0, 0.01, 10.0, 90.0}) {
    CHECK_THAT(doubts(bent(degrees * degree)), !ContainsSubstring("turns by"));
  }
}

}  // namespace tubewright::lint_ends_test
