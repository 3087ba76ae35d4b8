// Which pieces are welded in one: counted by hand.
#include "cases/workshop/cut_weldments.h"

#include <algorithm>

#include "cases/workshop/cut_list.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::cut_weldments_test {

using namespace tubewright::testing;

namespace {

/// A rectangle A B C D with an arm of three tubes outside of BC: two legs that swing at B and C and
/// a tie between their ends.
Frame rectangle_with_arm() {
  Frame f = rectangle();
  add_node(f, "P", 0.9, 0.1, 0);
  add_node(f, "Q", 0.9, 0.3, 0);
  add_member(f, "leg_b", "B", "P").release_from[4] = 0;
  add_member(f, "leg_c", "C", "Q").release_from[4] = 0;
  add_member(f, "tie", "P", "Q");
  return f;
}

std::vector<CutWeldment> weldments_of(const Frame& f) {
  const NumberedFrame n = build_model(f);
  return cut_weldments(f, n, cut_pieces(f, n));
}

std::vector<std::string> names_of(const std::vector<CutWeldment>& list) {
  std::vector<std::string> names;
  for (const CutWeldment& w : list) names.push_back(w.name);
  return names;
}

CutPiece piece_of(const Frame& f, const std::string& name) {
  for (const CutPiece& p : cut_pieces(f, build_model(f))) {
    if (p.tube.name == name) return p;
  }
  FAIL("no piece " + name);
  return {};
}

using Names = std::vector<std::string>;

}  // namespace

TEST_CASE("a frame without releases is one weldment") {
  CHECK(names_of(weldments_of(braced_rectangle())) == Names{"frame"});
}

TEST_CASE("an arm that swings is a weldment of its own, named by its first tube") {
  const std::vector<CutWeldment> list = weldments_of(rectangle_with_arm());
  CHECK(names_of(list) == Names{"frame", "leg_b"});
  CHECK(list[0].pieces == std::vector<size_t>{0, 1, 2, 3});
  CHECK(list[1].pieces == std::vector<size_t>{4, 5, 6});
  CHECK(list[1].nodes == std::vector<int>{1, 2, 4, 5});
}

TEST_CASE("the frame proper is first wherever it stands in the file") {
  Frame f = rectangle_with_arm();
  std::rotate(f.members.begin(), f.members.begin() + 4, f.members.end());
  CHECK(names_of(weldments_of(f)) == Names{"frame", "leg_b"});
}

TEST_CASE("a tube released at one end belongs to what its other end is welded to") {
  Frame f = rectangle();
  add_member(f, "strut", "A", "C").release_to[3] = 0;
  CHECK(names_of(weldments_of(f)) == Names{"frame"});
  f.members.back().release_from[0] = 0;
  CHECK(names_of(weldments_of(f)) == Names{"frame", "strut"});
}

TEST_CASE("a spring in a release is a bush and no weld; a link is a rod by itself") {
  Frame f = rectangle();
  Member& bushed = add_member(f, "bushed", "A", "C");
  bushed.release_from[4] = bushed.release_to[4] = 500;
  add_member(f, "rod", "B", "D").kind = MemberKind::link;
  const std::vector<CutWeldment> list = weldments_of(f);
  CHECK(names_of(list) == Names{"frame", "bushed", "rod"});
  CHECK(is_single(list[1]));
  CHECK(is_single(list[2]));
}

TEST_CASE("every piece is in one weldment") {
  Frame f = rectangle_with_arm();
  add_member(f, "rod", "A", "P").kind = MemberKind::link;
  std::vector<size_t> pieces;
  for (const CutWeldment& w : weldments_of(f)) {
    pieces.insert(pieces.end(), w.pieces.begin(), w.pieces.end());
  }
  std::sort(pieces.begin(), pieces.end());
  for (size_t i = 0; i < pieces.size(); ++i) CHECK(pieces[i] == i);
  CHECK(pieces.size() == f.members.size());
}

TEST_CASE("a released end is square at its node and has no weld, and nobody is cut for it") {
  const Frame with = rectangle_with_arm(), without = rectangle();
  for (const char* name : {"leg_b", "leg_c"}) {
    const TubeEnd e = piece_of(with, name).ends[0];
    CHECK(e.kind == EndKind::joint);
    CHECK(e.begin(0.0125, -0.0125) == 0);
    CHECK(e.weld_length == 0);
  }
  for (const char* name : {"AB", "BC", "CD", "DA"}) {
    const CutPiece a = piece_of(with, name), b = piece_of(without, name);
    CHECK(a.long_point == b.long_point);
    CHECK(a.short_point == b.short_point);
    CHECK(a.weld_length == b.weld_length);
  }
}

TEST_CASE("the plans of the weldments add up to the list, and each has its own jig and order") {
  const CutList list = cut_list(rectangle_with_arm());
  REQUIRE(list.weldments.size() == 2);
  double mass = 0, length = 0;
  int welds = 0;
  size_t steps = 0, names = 0;
  for (const WeldmentPlan& w : list.weldments) {
    mass += w.mass;
    length += w.weld_length;
    welds += w.welds;
    steps += w.weld_order.size();
    for (const auto& share : w.shares) names += share.names.size();
  }
  CHECK_THAT(mass, WithinRel(list.mass, 1e-12));
  CHECK_THAT(length, WithinRel(list.weld_length, 1e-12));
  CHECK(welds == list.welds);
  CHECK(steps == list.weld_order.size());
  CHECK(names == 7);
  CHECK(list.weldments[0].welds == 8);   // four mitres of two
  CHECK(list.weldments[1].welds == 4);   // the tie on both legs, a corner each
  CHECK(list.weldments[1].joints == 2);  // at B and C
  // B P Q C is a bay of the arm's nodes, and A B C D of the frame's.
  CHECK(list.weldments[0].jig.size() == 1);
  CHECK(list.weldments[1].jig.size() == 1);
}

TEST_CASE("pieces of one length with and without a joint are not one group") {
  Frame f = empty_frame();
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 1, 0, 0);
  add_node(f, "C", 0, 0, 1);
  add_node(f, "D", 1, 0, 1);
  add_member(f, "plain", "A", "B");
  add_member(f, "swinging", "C", "D").release_from[4] = 0;
  CHECK(cut_list(f).groups.size() == 2);
}

}  // namespace tubewright::cut_weldments_test
