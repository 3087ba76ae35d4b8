// References between the parts of a frame: their look-up and the wording where one leads nowhere.
#include "cases/frame/frame_names.h"

#include "cases/frame/built_in_materials.h"
#include "tests/cases/clad_frames.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"

namespace tubewright::frame_names_test {

using testing::add_member;
using testing::add_node;
using testing::box_vehicle;
using testing::clad_box;
using testing::empty_frame;
using testing::rectangle;
using testing::text_of;

namespace {

std::string advice_among(const std::vector<std::string>& names, const std::string& sought) {
  NameIndex index("node", "nodes");
  for (const std::string& n : names) index.add(n, 0);
  Diagnostics diagnostics;
  CHECK(index.find(sought, "member `m`", {7, 3}, diagnostics) == -1);
  REQUIRE(diagnostics.size() == 1);
  CHECK(diagnostics[0].message ==
        "member `m` names node " + quoted(sought) + ", which does not exist");
  CHECK(diagnostics[0].place.line == 7);
  return diagnostics[0].advice;
}

}  // namespace

TEST_CASE("of two parts of one name the first is found") {
  NameIndex index("sheet", "sheets");
  CHECK(index.add("floor", 3));
  CHECK_FALSE(index.add("floor", 4));
  CHECK(index.find("floor") == 3);
  CHECK(index.find("roof") == -1);
  Diagnostics diagnostics;
  CHECK(index.find("floor", "panel `p`", {}, diagnostics) == 3);
  CHECK(diagnostics.empty());
  CHECK(index.kind() == "sheet");
}

TEST_CASE(
    "a name that leads nowhere is answered with a near one, a short list, or where to give it") {
  CHECK(advice_among({"front_left", "front_right"}, "front_lift") == "did you mean `front_left`?");
  CHECK(advice_among({"A", "B", "C"}, "somewhere") ==
        "define it under `nodes` or use one of `A`, `B` and `C`");
  CHECK(advice_among({}, "somewhere") == "there is no node; define it under `nodes`");
  std::vector<std::string> many;
  for (const char c : std::string("ABCDEFGH")) many.emplace_back(1, c);
  CHECK_THAT(advice_among(many, "somewhere"), ContainsSubstring("`G` and `H`"));
  many.emplace_back("I");
  CHECK(advice_among(many, "somewhere") == "define it under `nodes`");
}

TEST_CASE("every part of a frame is found at its place in its own list") {
  Frame f = clad_box();
  f.vehicle = box_vehicle().vehicle;
  testing::add_case(f, "push");
  Diagnostics diagnostics;
  const FrameNames names = names_of(f, diagnostics);
  INFO(text_of(diagnostics));
  CHECK(diagnostics.empty());
  const auto holds = [](const NameIndex& index, const auto& parts) {
    for (std::size_t i = 0; i < parts.size(); ++i) {
      CHECK(index.find(parts[i].name) == static_cast<int>(i));
    }
  };
  holds(names.nodes, f.nodes);
  holds(names.sections, f.sections);
  holds(names.members, f.members);
  holds(names.sheets, f.sheets);
  holds(names.panels, f.panels);
  holds(names.wheels, f.vehicle->wheels);
  holds(names.cases, f.cases);
  holds(names.materials, built_in_materials());  // the file has none of its own
}

TEST_CASE("a frame's own material goes before the built-in ones, which count on behind it") {
  Frame f = rectangle();
  MaterialEntry own;
  own.name = built_in_materials()[1].name;
  f.materials.push_back(own);
  Diagnostics diagnostics;
  const FrameNames names = names_of(f, diagnostics);
  CHECK(diagnostics.empty());
  CHECK(names.materials.find(own.name) == 0);
  CHECK(names.materials.find(built_in_materials()[0].name) == 1);
  CHECK(names.materials.find(built_in_materials()[2].name) == 3);
}

TEST_CASE("a load may name a whole tube, which stands for its first piece, a member may not") {
  Frame f = empty_frame();
  add_member(f, "post", "A", "B");
  add_member(f, "rail.1", "A", "B").tube = "rail";
  add_member(f, "rail.2", "B", "C").tube = "rail";
  Diagnostics diagnostics;
  const FrameNames names = names_of(f, diagnostics);
  CHECK(names.loadable.find("rail") == 1);
  CHECK(names.loadable.find("rail.2") == 2);
  CHECK(names.members.find("rail") == -1);
}

TEST_CASE("a name that is given twice is reported once for each time too many, at its place") {
  Frame f = rectangle();
  add_node(f, "A", 1, 1, 1);
  add_node(f, "A", 2, 2, 2);
  add_member(f, "AB", "A", "C");
  Diagnostics diagnostics;
  names_of(f, diagnostics);
  REQUIRE(diagnostics.size() == 3);
  CHECK(diagnostics[0].message == "node `A` is given twice");
  CHECK(diagnostics[1].place.line == f.nodes[5].place.line);
  CHECK(diagnostics[2].message == "member `AB` is given twice");
}

TEST_CASE("a node counts as joined by a member or by a rigid upright that a member holds") {
  Frame f = box_vehicle();
  add_node(f, "hub_1", 0, 0.4, 0.2);
  add_node(f, "hub_2", 0, 0.4, 0.3);
  add_node(f, "idle", 9, 9, 9);
  Wheel& wheel = f.vehicle->wheels[0];
  wheel.carrier = {"hub_1", "hub_2"};
  wheel.hold = WheelHold::rigid_upright;
  const auto joined = [&](const std::string& node) {
    Diagnostics diagnostics;
    const FrameNames names = names_of(f, diagnostics);
    const bool yes = joined_node(names, node, "case `c`", {}, diagnostics) >= 0;
    CHECK(diagnostics.empty() == yes);
    if (!yes) {
      CHECK(diagnostics[0].message ==
            "case `c` names node " + quoted(node) + ", which no member joins");
    }
    return yes;
  };
  CHECK_FALSE(joined("idle"));
  CHECK_FALSE(joined("hub_1"));
  add_member(f, "leg", "fl0", "hub_1").kind = MemberKind::link;
  CHECK(joined("fl0"));
  CHECK(joined("hub_1"));
  CHECK(joined("hub_2"));
  wheel.hold = WheelHold::spread;
  CHECK_FALSE(joined("hub_2"));
}

}  // namespace tubewright::frame_names_test
