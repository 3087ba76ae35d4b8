#include "cases/attachments/expand_attachments.h"

#include <algorithm>
#include <cmath>

#include "cases/frame/mirror.h"
#include "cases/validate/validate.h"
#include "tests/cases/attachments/attachment_frames.h"

namespace tubewright::expand_attachments_test {

using testing::add_member;
using testing::add_node;
using testing::cantilever_40;
using testing::expanded;
using testing::tab;
using testing::text_of;

namespace {

const Node* node_of(const Frame& f, const std::string& name) {
  const auto found =
      std::find_if(f.nodes.begin(), f.nodes.end(), [&](const Node& n) { return n.name == name; });
  return found == f.nodes.end() ? nullptr : &*found;
}

Eigen::Vector3d at(const Frame& f, const std::string& name) {
  const Node* node = node_of(f, name);
  REQUIRE(node != nullptr);
  return node->at;
}

std::vector<std::string> names_of_members(const Frame& f) {
  std::vector<std::string> names;
  for (const Member& m : f.members) names.push_back(m.name);
  return names;
}

void check_place(const Eigen::Vector3d& found, double x, double y, double z) {
  CHECK_THAT(found.x(), WithinAbs(x, 1e-12));
  CHECK_THAT(found.y(), WithinAbs(y, 1e-12));
  CHECK_THAT(found.z(), WithinAbs(z, 1e-12));
}

std::string told(Frame f) { return text_of(expand_attachments(f)); }

Frame with(Attachment a) {
  Frame f = cantilever_40();
  f.attachments.push_back(std::move(a));
  return f;
}

}  // namespace

TEST_CASE("a tab makes its three nodes: on the axis, on the outside, at the hole") {
  const Frame f = expanded(with(tab("ear", "rail", 0.35, Face::bottom)));
  check_place(at(f, "ear.axis"), 0.35, 0, 0);
  check_place(at(f, "ear.face"), 0.35, 0, -0.020);
  check_place(at(f, "ear"), 0.35, 0, -0.045);
  CHECK(validate(f).empty());
}

TEST_CASE("a hole beside the middle of its attachment stands along the tube, and to the left") {
  Attachment a = tab("ear", "rail", 0.5, Face::top);
  a.along = 0.010;
  a.aside = 0.004;
  const Frame f = expanded(with(a));
  check_place(at(f, "ear"), 0.510, 0.004, 0.045);
}

TEST_CASE("each word for a face names the way that it looks") {
  const std::pair<Face, Eigen::Vector3d> ways[] = {{Face::top, {0, 0, 1}},
                                                   {Face::bottom, {0, 0, -1}},
                                                   {Face::left, {0, 1, 0}},
                                                   {Face::right, {0, -1, 0}}};
  for (const auto& [face, way] : ways) {
    const Frame f = expanded(with(tab("ear", "rail", 0.5, face)));
    CHECK((f.attachments[0].out - way).norm() < 1e-12);
  }
}

TEST_CASE("a member is parted where something stands on it, and stays one tube") {
  Frame f = cantilever_40();
  f.members[0].capped = {false, true};
  f.members[0].release_to[4] = 0;
  f.attachments = {tab("far", "rail", 0.8, Face::top), tab("near", "rail", 0.2, Face::left)};
  f = expanded(f);
  CHECK(names_of_members(f) == std::vector<std::string>{"rail.1", "rail.2", "rail.3"});
  for (const Member& m : f.members) {
    CHECK(m.tube == "rail");
    CHECK_THAT(m.parted_from, WithinRel(1.0, 1e-12));
  }
  CHECK(f.members[0].to == "near.axis");
  CHECK(f.members[1].to == "far.axis");
  // What holds for its ends is at its ends.
  CHECK(f.members[0].release_to == welded);
  CHECK(f.members[2].release_to[4] == 0);
  CHECK(!f.members[0].capped[1]);
  CHECK(f.members[2].capped[1]);
}

TEST_CASE("a piece of a path is parted into pieces of the same path, and its loads go with it") {
  Frame f = cantilever_40();
  add_node(f, "C", 2, 0, 0);
  f.members[0].name = "rail.1";
  f.members[0].tube = "rail";
  Member second = f.members[0];
  second.name = "rail.2";
  second.from = "B";
  second.to = "C";
  f.members.push_back(second);
  f.attachments = {tab("ear", "rail", 0.75, Face::top)};  // in the middle of rail.2
  Case c;
  c.name = "load";
  c.line_loads.push_back({"rail.2", {0, 0, -100}, {}});
  c.point_loads.push_back({"rail.2", 0.75, {0, 0, -7}, {0, 0, 0}, {}});
  c.point_loads.push_back({"rail", 0.75, {0, 0, -7}, {0, 0, 0}, {}});
  f.cases.push_back(c);
  f.groups = {{"far", {"rail.2"}, {}}};
  f.keep.members = {"rail.1"};
  f = expanded(f);
  CHECK(f.groups[0].members == std::vector<std::string>{"rail.2a", "rail.2b"});
  CHECK(f.keep.members == std::vector<std::string>{"rail.1"});
  CHECK(names_of_members(f) == std::vector<std::string>{"rail.1", "rail.2a", "rail.2b"});
  check_place(at(f, "ear.axis"), 1.5, 0, 0);
  REQUIRE(f.cases[0].line_loads.size() == 2);
  CHECK(f.cases[0].line_loads[0].member == "rail.2a");
  CHECK(f.cases[0].line_loads[1].member == "rail.2b");
  CHECK(f.cases[0].point_loads[0].member == "rail.2b");
  CHECK_THAT(f.cases[0].point_loads[0].at, WithinRel(0.5, 1e-12));
  CHECK(f.cases[0].point_loads[1].member == "rail");
  CHECK(validate(f).empty());
}

TEST_CASE("at a node, or within a millimetre of one, nothing is parted") {
  Attachment a = tab("ear", "rail", 0.9992, Face::top);
  CHECK(expanded(with(a)).attachments[0].axis_node == "B");
  a.at.reset();
  a.on.clear();
  a.node = "B";
  const Frame f = expanded(with(a));
  CHECK(f.attachments[0].axis_node == "B");
  CHECK(f.attachments[0].on == "rail");
  CHECK(f.members.size() == 1);
}

TEST_CASE("two at one place share the node on the axis") {
  Frame f = cantilever_40();
  f.attachments = {tab("up", "rail", 0.5, Face::top), tab("down", "rail", 0.5, Face::bottom)};
  f = expanded(f);
  CHECK(f.members.size() == 2);
  CHECK(f.attachments[1].axis_node == "up.axis");
}

TEST_CASE("what stands nowhere, on no tube or on no face that looks that way says so") {
  CHECK_THAT(told(with(tab("ear", "rial", 0.5, Face::top))),
             ContainsSubstring("did you mean `rail`"));
  CHECK_THAT(told(with(tab("ear", "rail", 0.5, Face::front))),
             ContainsSubstring("`top`, `bottom`, `left` and `right`"));
  CHECK_THAT(told(with(tab("ear", "rail", 1.5, Face::top))), ContainsSubstring("beyond the ends"));
  Attachment both = tab("ear", "rail", 0.5, Face::top);
  both.node = "B";
  CHECK_THAT(told(with(both)), ContainsSubstring("both `at` and `node`"));
  Attachment nowhere = tab("ear", "rail", 0.5, Face::top);
  nowhere.at.reset();
  CHECK_THAT(told(with(nowhere)), ContainsSubstring("is nowhere"));
  nowhere.node = "Q";
  CHECK_THAT(told(with(nowhere)), ContainsSubstring("node `Q`"));
  Frame round = with(tab("ear", "rail", 0.5, Face::top));
  round.sections[0].shape = Shape::round_tube;
  CHECK_THAT(told(round), ContainsSubstring("no square or rectangular tube"));
}

TEST_CASE("an edge that looks that way is no face") {
  Frame f = with(tab("ear", "rail", 0.5, Face::top));
  f.members[0].roll = std::atan(1.0);
  CHECK_THAT(told(f), ContainsSubstring("`top` face"));
}

TEST_CASE("the mirror rule copies attachments: left becomes right, what is aside stays outside") {
  Frame f = testing::empty_frame();
  f.mirror = MirrorRule{"_l", "_r", {}};
  add_node(f, "A_l", 0, 0.3, 0);
  add_node(f, "B_l", 1, 0.3, 0);
  add_member(f, "rail_l", "A_l", "B_l");
  add_member(f, "cross", "A_l", "A_r");
  Attachment ear = tab("ear_l", "rail_l", 0.25, Face::bottom);
  ear.aside = 0.006;
  Attachment boss = tab("boss_l", "cross", 0.2, Face::rear);
  boss.along = 0.005;
  f.attachments = {ear, boss, tab("side_l", "rail_l", 0.5, Face::left)};
  add_node(f, "G_l", 0.25, 0.3, -0.5);
  add_member(f, "rod_l", "ear_l", "G_l").kind = MemberKind::link;
  REQUIRE(expand_mirror(f).empty());
  f = expanded(f);
  for (const std::string name : {"ear", "boss", "side"}) {
    const Eigen::Vector3d left = at(f, name + "_l"), right = at(f, name + "_r");
    INFO(name);
    check_place(right, left.x(), -left.y(), left.z());
  }
  CHECK(f.attachments.size() == 6);
  CHECK(f.members.back().name == "rod_r");
  CHECK(f.members.back().from == "ear_r");
  CHECK(validate(f).empty());
}

TEST_CASE("an attachment on the plane that would be mirrored onto itself says so") {
  Frame f = testing::empty_frame();
  f.mirror = MirrorRule{"_l", "_r", {}};
  add_node(f, "A_l", 0, 0.3, 0);
  add_node(f, "B_l", 1, 0.3, 0);
  add_member(f, "rail_l", "A_l", "B_l");
  add_member(f, "cross", "A_l", "A_r");
  f.attachments = {tab("ear_l", "cross", 0.5, Face::bottom)};
  CHECK_THAT(text_of(expand_mirror(f)), ContainsSubstring("its own image"));
}

TEST_CASE("a frame without attachments is left as it is") {
  Frame f = cantilever_40();
  CHECK(expand_attachments(f).empty());
  CHECK(f.members.size() == 1);
  CHECK(f.nodes.size() == 2);
}

}  // namespace tubewright::expand_attachments_test
