// Soft welded joints, told from the geometry; counted by hand.
#include <tuple>

#include "cases/lint/lint_parts.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::lint_joints_test {

using namespace tubewright::testing;

namespace {

std::string doubts(const Frame& f) { return text_of(lint_joints(f)); }

/// A rail A B C of 40 x 20 lying flat, a cross tube of 20 from B and one from its end C.
Frame rail_and_crosses(double roll) {
  Frame f = empty_frame();
  f.joint_flexibility = 1;
  SectionEntry rail = f.sections[0];
  rail.name = "rail";
  rail.shape = Shape::rectangular_tube;
  rail.width = 0.04;
  rail.height = 0.02;
  f.sections.push_back(rail);
  f.sections[0].width = f.sections[0].height = 0.02;
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 0.5, 0, 0);
  add_node(f, "C", 1, 0, 0);
  add_node(f, "b", 0.5, 0.5, 0);
  add_node(f, "c", 1, 0.5, 0);
  for (const auto& [name, from, to] :
       {std::tuple{"rail.1", "A", "B"}, std::tuple{"rail.2", "B", "C"}}) {
    Member& m = add_member(f, name, from, to);
    m.tube = "rail";
    m.section = "rail";
    m.roll = roll;
  }
  add_member(f, "cross", "B", "b");
  add_member(f, "last", "C", "c");
  f.supports = {{"A", {true, true, true, true, true, true}, {}, {}}};
  return f;
}

}  // namespace

TEST_CASE("a tube much narrower than the face it stands on is told, with both widths") {
  CHECK_THAT(doubts(rail_and_crosses(EIGEN_PI / 2)),
             ContainsSubstring("tube `cross` and 1 more, 20 mm wide, on the 40 mm face of `rail`"));
  CHECK_THAT(doubts(rail_and_crosses(0)), !ContainsSubstring("40 mm face"));
}

TEST_CASE("a rail that ends open under a tube is told until it is capped") {
  Frame f = rail_and_crosses(0);
  CHECK_THAT(doubts(f), ContainsSubstring("tube `rail` ends open at node `C` under `last`"));
  f.members[1].capped = {false, true};
  CHECK(doubts(f).empty());
}

}  // namespace tubewright::lint_joints_test
