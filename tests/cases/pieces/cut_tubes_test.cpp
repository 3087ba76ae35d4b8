// Frames into straight tubes: counts and lengths are the judges.
#include "cases/pieces/cut_tubes.h"

#include <cmath>
#include <numbers>
#include <set>

#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::cut_tubes_test {

using namespace tubewright::testing;

namespace {

/// A path of five nodes along x that turns by an angle at the third.
Frame bent_path(double turn) {
  Frame f = empty_frame();
  for (int i = 0; i < 5; ++i) {
    const double beyond = std::max(0.0, 0.2 * (i - 2));
    const double x = 0.2 * std::min(i, 2) + beyond * std::cos(turn);
    add_node(f, "n" + std::to_string(i), x, beyond * std::sin(turn), 0);
    if (i > 0) {
      add_member(f, "p." + std::to_string(i), "n" + std::to_string(i - 1), "n" + std::to_string(i))
          .tube = "p";
    }
  }
  return f;
}

}  // namespace

TEST_CASE("a path that turns by more than half a degree is two tubes, by less one") {
  for (const double degrees : {0.0, 0.4, 0.6, 30.0, 170.0}) {
    const Frame f = bent_path(degrees * std::numbers::pi / 180);
    const std::vector<CutTube> tubes = cut_tubes(f, build_model(f));
    INFO(degrees);
    REQUIRE(tubes.size() == (degrees < 0.5 ? 1u : 2u));
    CHECK(tubes[0].name == (degrees < 0.5 ? "p" : "p.1-2"));
    CHECK(tubes.back().name == (degrees < 0.5 ? "p" : "p.3-4"));
    double length = 0;
    for (const CutTube& t : tubes) length += t.length;
    CHECK_THAT(length, WithinRel(0.8, 1e-9));
  }
}

TEST_CASE("every beam and link is in one tube, cables and springs in none") {
  Frame f = rectangle();
  add_member(f, "link", "A", "C").kind = MemberKind::link;
  add_member(f, "cable", "B", "D").kind = MemberKind::cable;
  std::multiset<int> seen;
  for (const CutTube& t : cut_tubes(f, build_model(f))) {
    seen.insert(t.members.begin(), t.members.end());
  }
  CHECK(seen == std::multiset<int>{0, 1, 2, 3, 4});
}

TEST_CASE("members of two paths end to end are two tubes, as are members without a path") {
  Frame f = bent_path(0);
  f.members[2].tube = f.members[3].tube = "q";
  CHECK(cut_tubes(f, build_model(f)).size() == 2);
  for (Member& m : f.members) m.tube.clear();
  CHECK(cut_tubes(f, build_model(f)).size() == 4);
}

TEST_CASE("a tube runs through the nodes between its ends") {
  const Frame f = bent_path(0);
  const NumberedFrame n = build_model(f);
  const CutTube t = cut_tubes(f, n).front();
  CHECK(inner_nodes(f, n, t) == std::vector<int>{1, 2, 3});
  CHECK(t.nodes == std::array<int, 2>{0, 4});
}

TEST_CASE("of two paths that cross the bigger is whole, of equal ones the first") {
  for (const double side : {0.020, 0.025, 0.030}) {
    Frame f = bent_path(0);
    SectionEntry other = f.sections.front();
    other.name = "other";
    other.height = other.width = side;
    f.sections.push_back(other);
    add_node(f, "l", 0.4, 0.3, 0);
    add_node(f, "r", 0.4, -0.3, 0);
    for (const auto& [name, from, to] : {std::tuple{"c.1", "l", "n2"}, {"c.2", "n2", "r"}}) {
      Member& m = add_member(f, name, from, to);
      m.tube = "c";
      m.section = "other";
    }
    std::set<std::string> names;
    for (const CutTube& t : cut_tubes(f, build_model(f))) names.insert(t.name);
    CHECK(names == (side > 0.025 ? std::set<std::string>{"p.1-2", "p.3-4", "c"}
                                 : std::set<std::string>{"p", "c.1", "c.2"}));
  }
}

TEST_CASE("drawn tubes of one outer size share a number, whatever their wall and name") {
  Frame f = rectangle();
  SectionEntry thick = f.sections.front();
  thick.name = "thick";
  thick.wall = 0.003;
  f.sections.push_back(thick);
  thick.name = "wide";
  thick.width = 0.030;
  f.sections.push_back(thick);
  f.members[1].section = "thick";
  f.members[2].section = "wide";
  const NumberedFrame n = build_model(f);
  const std::vector<DrawnTube> drawn = drawn_tubes(f, n, cut_tubes(f, n));
  CHECK(drawn[0].size == drawn[1].size);
  CHECK(drawn[0].size != drawn[2].size);
}

}  // namespace tubewright::cut_tubes_test
