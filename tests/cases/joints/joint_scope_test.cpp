// Ranges of EN 1993-1-8 7.1.1, Tables 7.8, 7.9 and 7.13, from MEMORY.
#include "cases/joints/joint_scope.h"

#include <limits>

#include "tests/cases/joints/chord_and_brace.h"
#include "tests/catch.h"

namespace tubewright::joint_scope_test {

using testing::chord_in_mm;

namespace {

constexpr double mm = 1e-3;
constexpr double missing = std::numeric_limits<double>::quiet_NaN();

JointBrace brace(double side, double wall, double angle = 90, double fy = 235) {
  JointBrace b = testing::brace_in_mm(side, wall, angle, fy);
  b.N = -1;
  return b;
}

std::string left(const JointChord& c, const JointBrace& b, JointRange range = JointRange::single) {
  RangesLeft ranges;
  note_chord_ranges(ranges, c, range);
  note_brace_ranges(ranges, c, b, range);
  return ranges.text();
}

}  // namespace

TEST_CASE("a joint within the tables has left no range") {
  CHECK(left(chord_in_mm(40, 40, 3), brace(25, 2.5)).empty());
  CHECK(left(chord_in_mm(40, 40, 3), brace(25, 2.5, 30)).empty());
  CHECK(left(chord_in_mm(60, 60, 3), brace(40, 3, 45), JointRange::gap).empty());
}

TEST_CASE("each range that is left is named once") {
  const JointChord c = chord_in_mm(40, 40, 3);
  CHECK(left(c, brace(25, 1.5)) == "walls under 2.5 mm");
  CHECK(left(chord_in_mm(40, 40, 1.5), brace(25, 1.5)) == "walls under 2.5 mm");
  CHECK(left(c, brace(25, 3, 29)) == "an angle under 30 degrees");
  CHECK(left(chord_in_mm(120, 120, 3), brace(60, 3)) == "a chord too thin for its width");
  CHECK(left(chord_in_mm(40, 40, 5), brace(25, 3)) == "a chord with b0/t0 under 10");
  CHECK(left(chord_in_mm(40, 100, 3), brace(25, 3)) == "a chord flatter than 2 to 1");
  CHECK(left(chord_in_mm(100, 100, 4), brace(20, 3)) == "a tube too narrow for the face");
  CHECK(left(c, brace(45, 3)) == "a tube wider than the face it stands on");
  CHECK(left(chord_in_mm(40, 40, 3, 500), brace(25, 3)) == "steel above S460");
  CHECK(left(chord_in_mm(60, 60, 3), brace(20, 2.5), JointRange::gap) ==
        "a tube too narrow for the face");
}

TEST_CASE("slender walls matter only where they are compressed") {
  JointChord c = chord_in_mm(100, 100, 3, 460);  // (100 - 9)/3 = 30.3 above 38 x 0.715
  CHECK(left(c, brace(50, 3)).empty());
  c.stress = 1e6;
  CHECK(left(c, brace(50, 3)) == "compressed walls of class 3 or 4");
}

TEST_CASE("round tubes, bars and plates have ranges of their own") {
  const JointChord c = chord_in_mm(40, 40, 3);
  JointBrace b = brace(25, 2.5);
  b.shape = BraceShape::round;
  CHECK(left(c, b).empty());
  b.b1 = b.h1 = 36 * mm;
  CHECK(left(c, b) == "a round tube not 0.4 to 0.8 of the face");
  b.shape = BraceShape::bar;
  b.t1 = 0;
  CHECK(left(c, b) == "a solid bar on a face");
  b.shape = BraceShape::plate;
  b.b1 = 5 * mm;
  b.h1 = 50 * mm;
  CHECK(left(c, b).empty());
  b.b1 = 10 * mm;
  CHECK(left(c, b) == "a flat bar too thick to be a plate");
}

TEST_CASE("nothing is said where something is not known") {
  const JointChord c = chord_in_mm(40, 40, 3);
  CHECK(joint_obstacle(c).empty());
  CHECK(joint_obstacle(brace(25, 3)).empty());
  CHECK_THAT(joint_obstacle(chord_in_mm(0, 0, 0)), ContainsSubstring("not known"));
  CHECK_THAT(joint_obstacle(chord_in_mm(40, 40, 3, missing)), ContainsSubstring("yield strength"));
  CHECK_THAT(joint_obstacle(brace(25, 3, missing)), ContainsSubstring("angle"));
  JointBrace lost = brace(25, 3);
  lost.M_op = missing;
  CHECK_THAT(joint_obstacle(lost), ContainsSubstring("not finite"));
  JointChord stressed = c;
  stressed.stress = std::numeric_limits<double>::infinity();
  CHECK_THAT(joint_obstacle(stressed), ContainsSubstring("not finite"));
}

}  // namespace tubewright::joint_scope_test
