// Which nodes are welded together: counted by hand.
#include "cases/model/weldments.h"

#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::weldments_test {

using namespace tubewright::testing;

namespace {

std::vector<int> weldments_of(const Frame& f) { return weldments(f, build_model(f)); }

}  // namespace

TEST_CASE("beams join, and a release or a link parts") {
  Frame f = rectangle();
  CHECK(weldments_of(f) == std::vector<int>{0, 0, 0, 0});
  f.members[0].release_to[5] = 0;                          // AB swings at B
  CHECK(weldments_of(f) == std::vector<int>{0, 0, 0, 0});  // round by D
  f.members[2].kind = MemberKind::link;                    // CD
  CHECK(weldments_of(f) == std::vector<int>{0, 1, 1, 0});
}

TEST_CASE("an end on a spring of any stiffness is joined, a free one is not") {
  Frame f = empty_frame();
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 1, 0, 0);
  Member& m = add_member(f, "AB", "A", "B");
  m.release_from[4] = 500;
  CHECK(weldments_of(f) == std::vector<int>{0, 0});
  m.release_from[4] = 0;
  CHECK(weldments_of(f) == std::vector<int>{0, 1});
}

TEST_CASE("the largest weldment is the one with most nodes") {
  Frame f = rectangle();
  add_node(f, "lone_1", 0, 0, 1);
  add_node(f, "lone_2", 0.1, 0, 1);
  add_member(f, "arm", "lone_1", "lone_2");
  CHECK(largest_weldment(f, build_model(f)) == std::vector<int>{0, 1, 2, 3});
}

}  // namespace tubewright::weldments_test
