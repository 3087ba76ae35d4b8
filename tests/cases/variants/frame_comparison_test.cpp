#include "cases/variants/frame_comparison.h"

#include "cases/workshop/cut_list.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::frame_comparison_test {

using namespace tubewright::testing;

namespace {

/// A cantilever with a wall, in m.
Frame arm(double wall) {
  Frame f = empty_frame();
  f.sections.front().wall = wall;
  add_node(f, "root", 0, 0, 0);
  add_node(f, "tip", 1, 0, 0);
  add_member(f, "arm", "root", "tip");
  f.supports.push_back({"root", {true, true, true, true, true, true}, {}, {}});
  add_case(f, "push").forces.push_back({"tip", {0, 0, -100}, {}});
  return f;
}

StockSize size(double wall, std::optional<double> price) {
  return {Shape::square_tube, 0.025, 0.025, wall, price};
}

}  // namespace

TEST_CASE("each side has the numbers, the cut list and the frequencies of its own frame") {
  const Frame a = arm(0.002), b = arm(0.003);
  const FrameComparison c = compare_frames(a, b);
  for (const auto& [side, frame] : {std::pair(&c.sides[0], &a), std::pair(&c.sides[1], &b)}) {
    const FrameNumbers alone = answer_of(frame_numbers(*frame));
    const CutList cut = cut_list(*frame);
    REQUIRE(side->numbers);
    CHECK(side->numbers->mass == alone.mass);
    CHECK(side->numbers->worst->utilisation == alone.worst->utilisation);
    REQUIRE(side->frequencies.size() == 3);
    CHECK(side->frequencies.front() == *alone.frequency);
    CHECK(side->mass.tubes == alone.mass);
    CHECK(side->pieces == 1);
    CHECK(side->bars == cut.orders.front().nesting.bars_needed);
    CHECK(side->weld_length == cut.weld_length);
    CHECK_FALSE(side->cost);
  }
  CHECK(c.changes.resized_tubes.size() == 1);
  CHECK(comparison_passes(c));
}

TEST_CASE("bars are matched by their size and cost what stock says, if it says all prices") {
  Frame a = arm(0.002), b = arm(0.003);
  for (Frame* f : {&a, &b}) f->stock = Stock{6, 0.002, 0.02, {size(0.002, 12.5)}, {}};
  FrameComparison c = compare_frames(a, b);
  CHECK(c.sides[0].cost == 12.5);
  CHECK_FALSE(c.sides[1].cost);
  REQUIRE(c.bars.size() == 2);
  CHECK(c.bars[0].bars == Pair<int>{1, 0});
  CHECK(c.bars[1].bars == Pair<int>{0, 1});
  CHECK(c.bars[0].cost[0] == 12.5);
  CHECK_FALSE(c.bars[0].cost[1]);
  b.stock->sizes.push_back(size(0.003, 20));
  c = compare_frames(a, b);
  CHECK(c.sides[1].cost == 20);
  CHECK(compare_frames(a, a).bars.size() == 1);
  CHECK(compare_frames(a, a).bars[0].bars == Pair<int>{1, 1});
}

TEST_CASE("cases stand side by side by their names, alone where the other has none") {
  Frame a = arm(0.002), b = arm(0.002);
  add_case(a, "pull").forces.push_back({"tip", {100, 0, 0}, {}});
  add_case(b, "twist").moments.push_back({"tip", {10, 0, 0}, {}});
  const FrameComparison c = compare_frames(a, b);
  REQUIRE(c.cases.size() == 3);
  CHECK(c.cases[0].name == "push");
  CHECK(c.cases[0].worst[0]->utilisation == c.cases[0].worst[1]->utilisation);
  CHECK(c.cases[1].name == "twist");
  CHECK_FALSE(c.cases[1].worst[0]);
  CHECK(c.cases[1].worst[1]);
  CHECK(c.cases[2].name == "pull");
  CHECK_FALSE(c.cases[2].worst[1]);
}

TEST_CASE("a frame without answer is compared in all that needs none") {
  Frame loose = arm(0.003);
  loose.supports.front().restrained = {true, true, true, false, false, false};
  const FrameComparison c = compare_frames(arm(0.002), loose);
  CHECK(c.sides[0].numbers);
  CHECK_FALSE(c.sides[1].numbers);
  CHECK_FALSE(c.sides[1].trouble.empty());
  CHECK(c.sides[1].mass.tubes > c.sides[0].mass.tubes);
  CHECK(c.sides[1].pieces == 1);
  CHECK_FALSE(comparison_passes(c));
  CHECK(comparison_passes(compare_frames(loose, arm(0.002))));
}

}  // namespace tubewright::frame_comparison_test
