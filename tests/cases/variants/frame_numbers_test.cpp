#include "cases/variants/frame_numbers.h"

#include <numbers>

#include "cases/studies/frame_modes.h"
#include "cases/studies/torsion.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::frame_numbers_test {

using namespace tubewright::testing;

namespace {

constexpr double degree = std::numbers::pi / 180;

/// On four legs of which none gives: pinned at its corners, pushed down in the middle of a side.
Frame table_top() {
  Frame f = braced_rectangle();
  for (const char* node : {"A", "B", "C", "D"}) {
    f.supports.push_back({node, {true, true, true, false, false, false}, {}, {}});
  }
  LineLoad load;
  load.member = "AB";
  load.load = {0, 0, -300};
  add_case(f, "books").line_loads.push_back(load);
  f.torsion = TorsionTest{{"B", "C"}, {"A", "D"}, 10, {}};
  return f;
}

}  // namespace

TEST_CASE("a frame's numbers are those that check, twist and modes find each for itself") {
  Frame f = table_top();
  const FrameNumbers n = answer_of(frame_numbers(f));
  const Analysis analysis = answer_of(analyse(f));
  CHECK(n.mass == analysis.mass.tubes);
  REQUIRE(n.stiffness);
  CHECK(*n.stiffness == *torsional_stiffness(f));
  REQUIRE(n.frequency);
  CHECK(*n.frequency == lowest_elastic(answer_of(frame_modes(f, 3)))->frequency);
  REQUIRE(n.worst);
  CHECK(n.worst->utilisation == worst_of_all(analysis)->utilisation);
  CHECK(n.worst->item == "AB");
}

TEST_CASE("what a limit was held against is not another number for that") {
  Frame f = table_top();
  const FrameNumbers without = answer_of(frame_numbers(f));
  f.limits.torsional_stiffness = 1 / degree;
  f.limits.frequency = 1;
  const FrameNumbers with = answer_of(frame_numbers(f));
  CHECK(with.stiffness == without.stiffness);
  CHECK(with.frequency == without.frequency);
}

TEST_CASE("a limit that the frame misses makes it fail, whatever is used of its tubes") {
  Frame f = table_top();
  f.limits.mass = 0.1;
  const FrameNumbers n = answer_of(frame_numbers(f));
  CHECK(n.verdict == Verdict::Answer::fail);
  CHECK(n.worst->utilisation < 1);
}

TEST_CASE("without a torsion test there is no stiffness, and all else is as it was") {
  Frame f = table_top();
  const FrameNumbers with = answer_of(frame_numbers(f));
  f.torsion.reset();
  const FrameNumbers without = answer_of(frame_numbers(f));
  CHECK_FALSE(without.stiffness);
  CHECK(without.mass == with.mass);
  CHECK(without.frequency == with.frequency);
}

TEST_CASE("a mechanism has no numbers but a reason") {
  Frame f = table_top();
  f.supports.resize(1);
  const auto outcome = frame_numbers(f);
  REQUIRE(outcome.error() != nullptr);
  CHECK_FALSE(outcome.error()->empty());
}

}  // namespace tubewright::frame_numbers_test
