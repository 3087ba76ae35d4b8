#include <cmath>
#include <optional>

#include "cases/validate/validate.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::validate_panels_test {

using testing::add_member;
using testing::add_node;
using testing::rectangle;
using testing::text_of;

namespace {

Frame covered_rectangle(const std::vector<std::string>& corners = {"A", "B", "C", "D"}) {
  Frame f = rectangle();
  Sheet s;
  s.name = "floor";
  s.material = "EN AW-5754-H22";
  s.thickness = 0.0012;
  f.sheets.push_back(s);
  PanelEntry p;
  p.name = "floor_1";
  p.corners = corners;
  p.sheet = "floor";
  f.panels.push_back(p);
  return f;
}

std::string faults(const std::vector<std::string>& corners) {
  return text_of(validate(covered_rectangle(corners)));
}

}  // namespace

TEST_CASE("a panel over four tubes is sound, whichever way round") {
  CHECK(faults({"A", "B", "C", "D"}).empty());
  CHECK(faults({"C", "B", "A", "D"}).empty());
}

TEST_CASE("a panel has four different corners in order") {
  CHECK_THAT(faults({"A", "B", "C"}), ContainsSubstring("panel `floor_1` has 3 corners"));
  CHECK_THAT(faults({"A", "B", "C", "A"}), ContainsSubstring("uses a corner twice"));
  CHECK_THAT(faults({"A", "C", "B", "D"}), ContainsSubstring("order round the panel"));
  CHECK_THAT(faults({"A", "B", "C", "E"}), ContainsSubstring("names node `E`"));
}

TEST_CASE("a panel is convex and flat") {
  Frame f = covered_rectangle();
  f.nodes[2].at = {0.2, 0.1, 0};  // C drawn in behind the line B-D
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("does not bulge outward at its corner `C`"));
  f = covered_rectangle();
  f.nodes[2].at.z() = 0.1;
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("is not flat"));
  f.nodes[2].at.z() = 0.002;  // a workshop's accuracy
  CHECK(text_of(validate(f)).empty());
}

TEST_CASE("every edge of a panel has a tube, which may be of several pieces") {
  Frame f = covered_rectangle();
  f.members.erase(f.members.begin());  // AB
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("no tube along its edge from `A` to `B`"));
  add_node(f, "M", 0.25, 0, 0);
  add_member(f, "AM", "A", "M");
  CHECK_FALSE(validate(f).empty());
  add_member(f, "MB", "M", "B");
  CHECK(text_of(validate(f)).empty());
  f.members.back().kind = MemberKind::cable;
  CHECK_FALSE(validate(f).empty());
}

TEST_CASE("an offset away from the side that is named is refused, 0 or none is not") {
  Frame f = covered_rectangle();
  f.sheets[0].offset = -0.01;
  CHECK(validate(f).empty());
  for (const SheetSide side : {SheetSide::top, SheetSide::bottom}) {
    f.sheets[0].side = side;
    f.sheets[0].offset = -0.01;
    CHECK_THAT(text_of(validate(f)), ContainsSubstring("a `side` and an `offset` below 0"));
    for (const std::optional<double> offset : {std::optional(0.01), {0.0}, {}}) {
      f.sheets[0].offset = offset;
      CHECK(validate(f).empty());
    }
  }
}

TEST_CASE("a panel within 10 degrees of upright has no top, one that slopes more has") {
  Frame f = covered_rectangle();
  f.sheets[0].side = SheetSide::top;
  for (const double degrees : {0.0, 45.0, 79.0, 81.0, 90.0, 99.0, 101.0}) {
    const double slope = degrees * M_PI / 180;
    f.nodes[2].at = {0.6, 0.4 * std::cos(slope), 0.4 * std::sin(slope)};
    f.nodes[3].at = {0.0, 0.4 * std::cos(slope), 0.4 * std::sin(slope)};
    INFO(degrees << " degrees");
    CHECK(validate(f).empty() == (std::abs(degrees - 90) > 10));
    Frame by_corners = f;
    by_corners.sheets[0].side = SheetSide::by_corners;
    CHECK(validate(by_corners).empty());
  }
  f.panels[0].place = {7, 3};
  f.nodes[2].at = {0.6, 0, 0.4};
  f.nodes[3].at = {0, 0, 0.4};
  const Diagnostics told = validate(f);
  REQUIRE(told.size() == 1);
  CHECK_THAT(told[0].message, ContainsSubstring("panel `floor_1` stands upright"));
  CHECK(told[0].place.line == 7);
}

TEST_CASE("a sheet is of a known material and its joint of possible size") {
  Frame f = covered_rectangle();
  f.sheets[0].material = "EN AW-5754-H23";
  f.sheets[0].thickness = 0;
  f.sheets[0].rivet = RivetJoint{0.004, 0.003, -1.0, 0.0};
  f.sheets[0].bond = BondJoint{0, 0, 0, 0.0};
  f.panels[0].sheet = "flor";
  const std::string text = text_of(validate(f));
  for (const char* part :
       {"did you mean `EN AW-5754-H22`?", "impossible `thickness`",
        "closer than their own diameter", "`rivet.stiffness`", "`rivet.shear_strength`",
        "`bond.width`", "`bond.thickness`", "`bond.shear_modulus`", "`bond.shear_strength`",
        "did you mean `floor`?"}) {
    CHECK_THAT(text, ContainsSubstring(part));
  }
}

}  // namespace tubewright::validate_panels_test
