// Shrinkage against 0.1 A_w/t (Blodgett, from memory) and sums by hand.
#include "cases/workshop/weld_shrinkage.h"

#include <numbers>

#include "tests/cases/small_frames.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::weld_shrinkage_test {

using namespace tubewright::testing;

namespace {

constexpr Source blodgett =
    from_memory("O. W. Blodgett: 0.1 A_w/t across a weld, a rule for plate");

constexpr double mm = 1e-3;

WeldShrinkage shrinkage_of(const Frame& f) {
  const NumberedFrame n = build_model(f);
  return weld_shrinkage(f, n, cut_pieces(f, n));
}

/// A rail along x with a post every 0.3 m between its ends.
Frame row_of_posts(int posts, double wall) {
  Frame f = empty_frame();
  f.sections[0].wall = wall;
  SectionEntry thin = f.sections[0];
  thin.name = "thin";
  thin.height = thin.width = 0.020;
  f.sections.push_back(thin);
  for (int i = 0; i <= posts + 1; ++i) add_node(f, "N" + std::to_string(i), 0.3 * i, 0, 0);
  for (int i = 0; i <= posts; ++i) {
    add_member(f, "rail." + std::to_string(i + 1), "N" + std::to_string(i),
               "N" + std::to_string(i + 1))
        .tube = "rail";
  }
  for (int i = 1; i <= posts; ++i) {
    const std::string n = std::to_string(i);
    add_node(f, "T" + n, 0.3 * i, 0, 0.4);
    add_member(f, "post_" + n, "N" + n, "T" + n).section = "thin";
  }
  return f;
}

}  // namespace

TEST_CASE("a fillet of 3 mm leg on a wall of 1.5 mm draws in 0.3 mm", "[truth]") {
  // A_w = 3 x 3 / 2 = 4.5 mm2; 0.1 x 4.5 / 1.5.
  truth("fillet of 3 mm leg on a wall of 1.5 mm: shrinkage, m", blodgett,
        transverse_shrinkage(3 * mm / std::numbers::sqrt2, 1.5 * mm), within_rel(0.3 * mm, 1e-12));
}

TEST_CASE(
    "a throat as thick as the wall draws in a tenth of the wall, below TWI's 0.8 mm a fillet") {
  for (const double wall : {1.0 * mm, 1.5 * mm, 3.0 * mm}) {
    CHECK_THAT(transverse_shrinkage(wall, wall), WithinRel(0.1 * wall, 1e-12));
    CHECK(transverse_shrinkage(wall, wall) < 0.8 * mm);
  }
}

TEST_CASE("twenty joints in a row of 0.3 mm each draw in 6 mm", "[truth]") {
  Frame f = row_of_posts(20, 1.5 * mm);
  for (Member& m : f.members) m.weld_throat = 3 * mm / std::numbers::sqrt2;
  const WeldShrinkage s = shrinkage_of(f);
  REQUIRE(s.along.size() == 2);  // along x by the rail, along z by a post
  CHECK(s.along[0].axis == 0);
  truth("twenty such joints in a row: shrinkage, m", blodgett, s.along[0].amount,
        within_rel(6 * mm, 1e-9));
  CHECK(s.along[0].welds == 20);
  CHECK(s.along[0].row == std::vector<std::string>{"rail"});
  CHECK(s.along[1].axis == 2);
  CHECK_THAT(s.along[1].amount, WithinRel(0.3 * mm, 1e-9));
}

TEST_CASE("two posts at one node draw the rail in once, not twice") {
  Frame f = row_of_posts(1, 2 * mm);
  add_node(f, "below", 0.3, 0, -0.4);
  add_member(f, "below", "N1", "below").section = "thin";
  const WeldShrinkage s = shrinkage_of(f);
  CHECK_THAT(s.along[0].amount, WithinRel(0.2 * mm, 1e-9));
  CHECK_THAT(s.along[1].amount, WithinRel(0.4 * mm, 1e-9));  // both posts, end to end
  CHECK(s.along[1].row == std::vector<std::string>{"below", "post_1"});
}

TEST_CASE("a mitre is one weld: half for each of its tubes") {
  const WeldShrinkage s = shrinkage_of(rectangle());  // walls of 2 mm
  for (const EndShrinkage& ends : s.pieces) {
    CHECK_THAT(ends[0].value(), WithinRel(0.1 * mm, 1e-9));
    CHECK_THAT(ends[1].value(), WithinRel(0.1 * mm, 1e-9));
  }
  REQUIRE(s.along.size() == 2);
  CHECK_THAT(s.along[0].amount, WithinRel(0.2 * mm, 1e-9));
  CHECK_THAT(s.along[1].amount, WithinRel(0.2 * mm, 1e-9));
}

TEST_CASE("tubes in line through a bigger one make one row") {
  // Two halves of a cross member on both sides of a rail, and their far ends on rails too.
  Frame f = empty_frame();
  SectionEntry thin = f.sections[0];
  thin.name = "thin";
  thin.height = thin.width = 0.020;
  f.sections.push_back(thin);
  for (const auto& [name, y] : {std::pair{"l", 0.3}, {"m", 0.0}, {"r", -0.3}}) {
    const std::string s = name;
    for (int i = 0; i < 3; ++i) add_node(f, s + std::to_string(i), 0.5 * i, y, 0);
    for (int i = 0; i < 2; ++i) {
      add_member(f, "rail_" + s + "." + std::to_string(i + 1), s + std::to_string(i),
                 s + std::to_string(i + 1))
          .tube = "rail_" + s;
    }
  }
  add_member(f, "half_1", "l1", "m1").section = "thin";
  add_member(f, "half_2", "m1", "r1").section = "thin";
  const WeldShrinkage s = shrinkage_of(f);
  REQUIRE(s.along.size() == 2);
  CHECK(s.along[1].axis == 1);
  CHECK(s.along[1].welds == 4);
  CHECK_THAT(s.along[1].amount, WithinRel(4 * 0.2 * mm, 1e-9));
  CHECK(s.along[1].row == std::vector<std::string>{"half_2", "half_1"});
}

TEST_CASE("for aluminium no shrinkage is made up, and it is counted") {
  Frame f = row_of_posts(3, 2 * mm);
  for (SectionEntry& s : f.sections) s.material = "EN AW-5754-H22";
  const WeldShrinkage s = shrinkage_of(f);
  CHECK(s.unknown == 3);
  CHECK(s.along.empty());
}

}  // namespace tubewright::weld_shrinkage_test
