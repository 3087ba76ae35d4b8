// Bends that tools do not make; radii by the trade's rule (common practice, no source).
#include "cases/bends/expand_bends.h"
#include "cases/lint/lint_parts.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::lint_bends_test {

using namespace tubewright::testing;

namespace {

/// A tube of 25 bent once, flat on the ground, and a tube that stands on the bend.
std::string doubts(double radius, double roll, const std::vector<double>& dies, bool stands) {
  Frame f = empty_frame();
  add_node(f, "a", 0, 0, 0);
  add_node(f, "b", 0.6, 0, 0);
  add_node(f, "c", 0.6, 0.6, 0);
  for (const auto& [name, from, to] :
       {std::tuple{"hoop.1", "a", "b"}, std::tuple{"hoop.2", "b", "c"}}) {
    Member& m = add_member(f, name, from, to);
    m.tube = "hoop";
    m.roll = roll;
  }
  f.members[0].bend = radius;
  if (stands) {
    add_node(f, "d", 0.6, 0, 0.5);
    add_member(f, "post", "d", "b");
  }
  if (!dies.empty()) f.stock = Stock{};
  if (!dies.empty()) f.stock->dies = dies;
  REQUIRE(expand_bends(f).empty());
  return text_of(lint_bends(f));
}

}  // namespace

TEST_CASE("a bend within reach of the tools is no doubt") {
  CHECK(doubts(0.075, 0, {}, false).empty());
  CHECK(doubts(0.075, 0, {0.050, 0.0745}, false).empty());
}

TEST_CASE("a bend tighter than tools bend is told with what they do") {
  CHECK_THAT(doubts(0.050, 0, {}, false),
             ContainsSubstring("radius of 50 mm, less than the 75 mm"));
}

TEST_CASE("a bend to no die of the shop is told with the nearest") {
  CHECK_THAT(doubts(0.090, 0, {0.060, 0.100}, false),
             ContainsSubstring("bends `hoop` at `b` to 90 mm | the nearest has 100 mm"));
}

TEST_CASE("a square tube bent over its corner is told") {
  CHECK_THAT(
      doubts(0.1, EIGEN_PI / 4, {}, false),
      ContainsSubstring("none of the tube's faces | a square tube is not bent over its corner: "
                        "turn it with `roll: 0.0`"));
}

TEST_CASE("a tube that stands on a bend is told") {
  CHECK_THAT(doubts(0.1, 0, {}, true),
             ContainsSubstring("`post` stands on the bend of `hoop` at `b`"));
}

}  // namespace tubewright::lint_bends_test
