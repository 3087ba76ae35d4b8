#include "cases/changes/tube_edits.h"

#include "cases/analysis/analysis.h"
#include "cases/changes/changed_answer.h"
#include "cases/frame/find_parts.h"
#include "cases/model/build_model.h"
#include "tests/cases/attachments/gusset_frames.h"
#include "tests/cases/changes/ring_box.h"
#include "tests/cases/clad_frames.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::tube_edits_tests {

using namespace tubewright::testing;

namespace {

constexpr Source solver = rederived("an independent force-based frame solver");

/// Twist of station 2 under `tors` and mean sag under `bend`, of a frame changed from the box.
struct Answers {
  double twist = 0;  ///< rad
  double sag = 0;    ///< m
};

Answers answers_of(const Frame& changed, const BaseStiffnesses* bases) {
  const Analysis a = answer_of(analyse(changed, {}, {}, tell_nobody, {bases, nullptr}));
  const NumberedFrame n = build_model(changed);
  const auto up = [&](size_t c, const char* node) {
    return a.cases[c].solution.displacements[dofs_per_node * n.node.at(node) + 2];
  };
  Answers found;
  found.twist = (up(0, "lb2") - up(0, "rb2")) / 0.4;
  for (const char* node : {"lb2", "rb2", "rt2", "lt2"}) found.sag += up(1, node) / 4;
  return found;
}

struct Box {
  Frame frame = ring_box();
  BaseStiffnesses bases = base_stiffnesses(held_models(frame));
  Answers whole = answers_of(frame, nullptr);
};

}  // namespace

TEST_CASE("the box itself twists and sags as an independent solver says", "[truth]") {
  const Box box;
  truth("box of two bays: twist, rad", solver, box.whole.twist, within_rel(2.16118750e-2, 1e-6));
  truth("box of two bays: mean sag, mm", solver, box.whole.sag * 1000, within_rel(-5.356882, 1e-6));
}

TEST_CASE("the box without one of its tubes is as soft as an independent solver says", "[truth]") {
  const Box box;
  struct Loss {
    const char* tube;
    double twist, sag;
  };
  constexpr Loss losses[] = {
      {"lb0-lb1", 1.29971086, 1.66736028}, {"rt0-rt1", 1.29978889, 1.66736028},
      {"lb1-lb2", 1.26269523, 1.31555624}, {"rt1-rt2", 1.26212323, 1.31555624},
      {"lb0-rb0", 1.03609910, 1},          {"rb0-rt0", 1.08593768, 1.24093003},
      {"lb1-rb1", 1.07414789, 1},          {"rb1-rt1", 1.18290200, 1.49649775},
      {"lb2-rb2", 1.10490090, 1},          {"rt2-lt2", 1.10398899, 1},
      {"rb2-rt2", 1.48317223, 1.24314046}};
  for (const auto& [tube, twist, sag] : losses) {
    const Frame less = without_members(box.frame, {member_named(box.frame, tube)});
    const Answers found = answers_of(less, &box.bases);
    const std::string what = std::string("box without ") + tube;
    truth(what + ": twist against whole", solver, found.twist / box.whole.twist,
          within_rel(twist, 1e-6));
    truth(what + ": sag against whole", solver, found.sag / box.whole.sag, within_rel(sag, 1e-6));
  }
}

TEST_CASE("the box with a diagonal more is as stiff as an independent solver says", "[truth]") {
  Box box;
  SectionEntry brace = box.frame.sections.front();
  brace.name = "brace";
  brace.height = brace.width = 0.020;
  brace.wall = 0.0015;
  box.frame.sections.push_back(brace);
  struct More {
    const char *from, *to;
    double welded, pinned;
  };
  constexpr More more[] = {
      {"lt1", "lb2", 0.83468856, 0.84369576}, {"lb1", "lt2", 0.83529161, 0.84428560},
      {"lt0", "lb1", 0.84349884, 0.85309119}, {"lb0", "rb1", 0.89671272, 0.90908388},
      {"lb1", "rb2", 0.90953960, 0.92258000}, {"lb2", "rt2", 0.96892392, 0.97045650},
      {"lb1", "rt1", 0.99616253, 0.99987781}, {"lb0", "rt0", 0.99853722, 1}};
  for (const auto& [from, to, welded, pinned] : more) {
    const std::string what = std::string("box with a diagonal ") + from + "-" + to;
    for (const bool pin : {false, true}) {
      const Answers found = answers_of(with_tube(box.frame, from, to, "brace", pin), &box.bases);
      truth(what + (pin ? ", pinned" : ", welded") + ": twist against whole", solver,
            found.twist / box.whole.twist, within_rel(pin ? pinned : welded, 1e-6));
    }
  }
}

TEST_CASE("the box twists less with thicker walls at the rate an independent solver says",
          "[truth]") {
  const Box box;
  constexpr std::pair<const char*, double> rates[] = {{"lb0-lb1", -6.63478257e-4},
                                                      {"lb0-rb0", -7.74491568e-5},
                                                      {"lt0-lb0", -1.21957723e-4},
                                                      {"lb2-rb2", -1.77179725e-4},
                                                      {"lt2-lb2", -1.28159185e-4}};
  for (const auto& [tube, rate] : rates) {
    constexpr double step = 1e-3;  // mm
    double twist[2];
    for (const int i : {0, 1}) {
      SectionEntry section = box.frame.sections.front();
      section.wall += (2 * i - 1) * step * 1e-3;
      const Frame changed = with_section(box.frame, {member_named(box.frame, tube)}, section);
      twist[i] = answers_of(changed, &box.bases).twist;
    }
    truth(std::string("box: twist per wall of ") + tube + ", rad/mm", solver,
          (twist[1] - twist[0]) / (2 * step), within_rel(rate, 1e-5));
  }
}

TEST_CASE("a beam torn off one wall becomes a cantilever: six times the moment", "[truth]") {
  Frame f = empty_frame();
  add_node(f, "A", 0, 0, 0);
  add_node(f, "B", 1, 0, 0);
  add_member(f, "beam", "A", "B");
  for (const char* node : {"A", "B"})
    f.supports.push_back({node, {true, true, true, true, true, true}, {}, {}});
  add_case(f, "load").line_loads.push_back({"beam", {0, 0, -60}, {}});
  const double L = 1, w = 60;
  const auto moment_at_A = [&](const Frame& frame) {
    return std::abs(answer_of(analyse(frame)).cases[0].members[0].from[4]);
  };
  truth("beam between walls: end moment, N m", rederived("w L2/12"), moment_at_A(f),
        within_rel(w * L * L / 12, 1e-9));
  truth("the same torn off one wall: end moment, N m", rederived("w L2/2"),
        moment_at_A(with_broken_end(f, 0, 1)), within_rel(w * L * L / 2, 1e-9));
}

TEST_CASE("a tube that hangs on a pin after its weld breaks is lost, and so is a link") {
  Frame f = ring_box();
  f.members[3].release_from = {rigid, rigid, rigid, rigid, 0, 0};
  CHECK(with_broken_end(f, 3, 1).members.size() == f.members.size() - 1);
  CHECK(with_broken_end(f, 3, 0).members.size() == f.members.size());
  f.members[5].kind = MemberKind::link;
  CHECK(with_broken_end(f, 5, 0).members.size() == f.members.size() - 1);
}

TEST_CASE("a lost tube takes its panels and its loads with it, and leaves the others'") {
  Frame f = ring_box();
  add_sheet(f, "skin");
  add_panel(f, "floor_0", "skin", {"lb0", "rb0", "rb1", "lb1"});
  add_panel(f, "roof_0", "skin", {"lt0", "rt0", "rt1", "lt1"});
  f.cases[1].line_loads.push_back({"lb0-lb1", {0, 0, -10}, {}});
  f.cases[1].line_loads.push_back({"rb0-rb1", {0, 0, -10}, {}});
  f.cases[1].point_loads.push_back({"lb0-lb1", 0.5, {0, 0, -5}, {0, 0, 0}, {}});
  const Frame less = without_members(f, {member_named(f, "lb0-lb1")});
  REQUIRE(less.panels.size() == 1);
  CHECK(less.panels[0].name == "roof_0");
  REQUIRE(less.cases[1].line_loads.size() == 1);
  CHECK(less.cases[1].line_loads[0].member == "rb0-rb1");
  CHECK(less.cases[1].point_loads.empty());
  CHECK(less.cases[1].forces.size() == 4);
}

TEST_CASE("loads along a path that loses a piece stay where they are on the other pieces") {
  Frame f = empty_frame();
  const char* nodes[] = {"A", "B", "C", "D"};
  for (int i = 0; i < 4; ++i) add_node(f, nodes[i], 0.5 * i, 0, 0);
  for (int i = 0; i < 3; ++i) {
    add_member(f, "rail." + std::to_string(i + 1), nodes[i], nodes[i + 1]).tube = "rail";
  }
  Case& c = add_case(f, "load");
  c.line_loads.push_back({"rail", {0, 0, -10}, {}});
  c.point_loads.push_back({"rail", 0.25, {0, 0, -5}, {0, 0, 0}, {}});  // half-way along rail.1
  c.point_loads.push_back({"rail", 0.9, {0, 0, -5}, {0, 0, 0}, {}});
  const Frame less = without_members(f, {2});
  REQUIRE(less.cases[0].line_loads.size() == 2);
  CHECK(less.cases[0].line_loads[0].member == "rail.1");
  CHECK(less.cases[0].line_loads[1].member == "rail.2");
  REQUIRE(less.cases[0].point_loads.size() == 1);
  CHECK(less.cases[0].point_loads[0].member == "rail.1");
  CHECK_THAT(less.cases[0].point_loads[0].at, Catch::Matchers::WithinAbs(0.75, 1e-12));
}

TEST_CASE("what stands on a tube's outside moves with it when the tube grows") {
  Frame f = ring_box();
  Attachment tab;
  tab.name = "tab";
  tab.on = "lb0-lb1";
  tab.axis_node = "lb1";
  tab.face_node = "tab.face";
  tab.section = "tube";
  tab.out = {0, 0, 1};
  f.attachments.push_back(tab);
  add_node(f, "tab.face", 0.6, 0.2, 0.0125);
  add_node(f, "tab", 0.6, 0.2, 0.05);
  SectionEntry bigger = f.sections.front();
  bigger.height = bigger.width = 0.035;
  const Frame grown = with_section(f, {member_named(f, "lb0-lb1")}, bigger);
  CHECK(grown.attachments[0].section == "tube/changed");
  const auto height_of = [&](const char* name) {
    return grown.nodes[static_cast<size_t>(numbers_of_nodes(grown).at(name))].at.z();
  };
  CHECK_THAT(height_of("tab.face"), Catch::Matchers::WithinAbs(0.0175, 1e-12));
  CHECK_THAT(height_of("tab"), Catch::Matchers::WithinAbs(0.055, 1e-12));
  const Frame other = with_section(f, {member_named(f, "rt0-rt1")}, bigger);
  CHECK(other.attachments[0].section == "tube");
}

TEST_CASE("a sheet without its rivets is held by its bond, and the other way round") {
  Frame f = ring_box();
  Sheet& skin = add_sheet(f, "skin");
  skin.rivet = rivets(0.004, 0.04, 5e6);
  skin.bond = BondJoint{0.02, 0.0003, 1e9, {}};
  add_panel(f, "floor_0", "skin", {"lb0", "rb0", "rb1", "lb1"});
  CHECK(!without_fastening(f, "skin", SheetFastening::rivets).sheets[0].rivet);
  CHECK(without_fastening(f, "skin", SheetFastening::rivets).sheets[0].bond);
  CHECK(!without_fastening(f, "skin", SheetFastening::bond).sheets[0].bond);
  CHECK(without_panel(f, 0).panels.empty());
}

TEST_CASE("a gusset goes on standing on its tube where that grows, as a fresh frame has it") {
  const Frame f = testing::expanded(testing::gusset_frame({}));
  SectionEntry larger = f.sections[0];
  larger.height = larger.width = 0.050;
  const Frame grown = with_section(f, {0, 1}, larger);  // both pieces of the arm
  CHECK(grown.gussets[0].legs[0].section == "tube/changed");
  CHECK(grown.gussets[0].legs[1].section == "tube");
  for (const Node& n : grown.nodes) {
    if (n.name == "g.2") CHECK_THAT(n.at.z(), WithinRel(0.085, 1e-12));  // 25 + 60
    if (n.name == "g.1") CHECK_THAT(n.at.x(), WithinRel(0.080, 1e-12));
  }
}

TEST_CASE("without its tube a gusset does nothing") {
  const Frame f = testing::expanded(testing::gusset_frame({}));
  const NumberedFrame whole = build_model(f), less = build_model(without_members(f, {0, 1}));
  CHECK(whole.gussets == std::vector<int>{0});
  CHECK(less.gussets == std::vector<int>{-1});
  CHECK(less.model.bars.empty());
}

}  // namespace tubewright::tube_edits_tests
