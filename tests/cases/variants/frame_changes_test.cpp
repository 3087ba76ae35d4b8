#include "cases/variants/frame_changes.h"

#include <algorithm>

#include "tests/cases/attachments/gusset_frames.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::frame_changes_test {

using namespace tubewright::testing;

namespace {

using Parts = std::vector<NamedPart>;

CarriedMass crate(double kg, double x) {
  CarriedMass mass;
  mass.name = "crate";
  mass.mass = kg;
  mass.at = {x, 0, 0.1};
  mass.on = {"A"};
  return mass;
}

}  // namespace

TEST_CASE("a frame beside itself has no changes") {
  Frame f = braced_rectangle();
  f.masses.push_back(crate(5, 0));
  const FrameChanges c = frame_changes(f, f);
  CHECK(c.empty());
  CHECK(c.members[0] == std::vector<MemberChange>(5, MemberChange::none));
}

TEST_CASE("what the second has alone was added, what the first has alone removed") {
  const Frame a = rectangle();
  Frame b = rectangle();
  b.members.pop_back();
  add_node(b, "E", 0.3, 0.2, 0.1);
  add_member(b, "AE", "A", "E");
  b.masses.push_back(crate(5, 0));
  const FrameChanges c = frame_changes(a, b);
  CHECK(c.added == Parts{{PartKind::tube, "AE"}, {PartKind::node, "E"}, {PartKind::mass, "crate"}});
  CHECK(c.removed == Parts{{PartKind::tube, "DA"}});
  CHECK(c.members[0].back() == MemberChange::other);
  CHECK(c.members[1].back() == MemberChange::other);
  CHECK(std::count(c.members[1].begin(), c.members[1].end(), MemberChange::none) == 3);
  const FrameChanges back = frame_changes(b, a);
  CHECK(back.added == c.removed);
  CHECK(back.removed == c.added);
}

TEST_CASE("a tube is resized if its size or material is another, whatever its section is called") {
  const Frame a = braced_rectangle();
  Frame b = braced_rectangle();
  SectionEntry copy = b.sections.front();
  copy.name = "copy";
  b.sections.push_back(copy);
  b.members[0].section = "copy";
  CHECK(frame_changes(a, b).empty());
  b.sections.back().wall = 0.003;
  const FrameChanges thicker = frame_changes(a, b);
  REQUIRE(thicker.resized_tubes.size() == 1);
  CHECK(thicker.resized_tubes[0].name == "AB");
  CHECK(thicker.resized_tubes[0].section[0].wall == 0.002);
  CHECK(thicker.resized_tubes[0].section[1].wall == 0.003);
  CHECK(thicker.members[1][0] == MemberChange::resized);
  CHECK(thicker.members[0][0] == MemberChange::resized);
  b.sections.back() = copy;
  b.sections.back().material = "S355";
  CHECK(frame_changes(a, b).resized_tubes.size() == 1);
}

TEST_CASE("a moved node moves the tubes at it, a tube led elsewhere only itself") {
  const Frame a = braced_rectangle();
  Frame b = braced_rectangle();
  b.nodes[1].at.z() += 0.01;  // B
  const FrameChanges moved = frame_changes(a, b);
  REQUIRE(moved.moved.size() == 1);
  CHECK(moved.moved[0].part == NamedPart{PartKind::node, "B"});
  CHECK(moved.moved[0].at[1].z() == 0.01);
  CHECK(moved.members[1] == std::vector<MemberChange>{MemberChange::moved, MemberChange::moved,
                                                      MemberChange::none, MemberChange::none,
                                                      MemberChange::none});
  b = braced_rectangle();
  b.members[4].from = "D";
  b.members[4].to = "B";
  const FrameChanges led = frame_changes(a, b);
  REQUIRE(led.rejoined.size() == 1);
  CHECK(led.rejoined[0].ends == Pair<Pair<std::string>>{{{"A", "C"}, {"D", "B"}}});
  CHECK(led.moved.empty());
  CHECK(led.members[1][4] == MemberChange::moved);
  CHECK(led.members[1][0] == MemberChange::none);
  b = braced_rectangle();
  b.nodes[1].at.z() += 1e-12;  // rounding
  CHECK(frame_changes(a, b).empty());
}

TEST_CASE("the pieces of a path are one tube, from its first to its last node") {
  Frame a = rectangle();
  a.members[0].tube = a.members[1].tube = "edge";
  Frame b = a;
  b.sections.push_back(b.sections.front());
  b.sections.back().name = "thin";
  b.sections.back().wall = 0.001;
  b.members[0].section = b.members[1].section = "thin";
  const FrameChanges c = frame_changes(a, b);
  REQUIRE(c.resized_tubes.size() == 1);
  CHECK(c.resized_tubes[0].name == "edge");
  CHECK(c.members[1][1] == MemberChange::resized);
  b = a;
  b.members[1].to = "D";
  REQUIRE(frame_changes(a, b).rejoined.size() == 1);
  CHECK(frame_changes(a, b).rejoined[0].ends[1] == Pair<std::string>{"A", "D"});
}

TEST_CASE("a tube bent to another radius is told with both") {
  Frame a = rectangle();
  a.members[0].tube = a.members[1].tube = "edge";
  Frame b = a;
  a.members[1].arc = MemberArc{0.09, {}, "B"};
  b.members[1].arc = MemberArc{0.06, {}, "B"};
  const FrameChanges c = frame_changes(a, b);
  REQUIRE(c.rebent.size() == 1);
  CHECK(c.rebent[0].name == "edge");
  CHECK(c.rebent[0].radius == Pair<double>{0.09, 0.06});
  CHECK(c.members[1][0] == MemberChange::resized);
  CHECK_FALSE(c.empty());
  CHECK(frame_changes(a, a).empty());
}

TEST_CASE("masses and sheets are resized, masses moved") {
  Frame a = rectangle(), b = rectangle();
  a.masses.push_back(crate(5, 0));
  b.masses.push_back(crate(6, 0.2));
  Sheet sheet;
  sheet.name = "deck";
  sheet.thickness = 0.001;
  sheet.material = "S235";
  a.sheets.push_back(sheet);
  sheet.thickness = 0.0015;
  b.sheets.push_back(sheet);
  const FrameChanges c = frame_changes(a, b);
  REQUIRE(c.resized_parts.size() == 2);
  CHECK(c.resized_parts[0].part == NamedPart{PartKind::sheet, "deck"});
  CHECK(c.resized_parts[0].size == Pair<double>{0.001, 0.0015});
  CHECK(c.resized_parts[1].size == Pair<double>{5, 6});
  REQUIRE(c.moved.size() == 1);
  CHECK(c.moved[0].part == NamedPart{PartKind::mass, "crate"});
}

TEST_CASE("nodes within bends and at attachments follow their tubes and are not told") {
  const Frame a = rectangle();
  Frame b = rectangle();
  add_node(b, "bend", 0.3, 0, 0);
  b.members.front().to = "bend";
  b.members.front().arc = MemberArc{};
  Attachment tab;
  tab.name = "tab";
  tab.axis_node = "D";
  b.attachments.push_back(tab);
  add_node(b, "tab", 0, 0.2, 0.1);
  const FrameChanges c = frame_changes(a, b);
  CHECK(c.added == Parts{{PartKind::attachment, "tab"}});
}

TEST_CASE("gussets are told by their names, and of one that stays its thickness") {
  const Frame a = testing::expanded(testing::gusset_frame({}));
  testing::GussetCorner thicker;
  thicker.thickness = 5;
  Frame b = testing::expanded(testing::gusset_frame(thicker));
  const FrameChanges c = frame_changes(a, b);
  REQUIRE(c.resized_parts.size() == 1);
  CHECK(c.resized_parts[0].part == NamedPart{PartKind::gusset, "g"});
  CHECK(c.resized_parts[0].size[1] == 0.005);
  CHECK(c.added.empty());
  b.gussets.clear();
  CHECK(frame_changes(a, b).removed == std::vector<NamedPart>{{PartKind::gusset, "g"}});
}

}  // namespace tubewright::frame_changes_test
