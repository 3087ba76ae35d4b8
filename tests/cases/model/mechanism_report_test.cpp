// What a builder is told about a frame that can move, against counts of freedoms and restraints
// (Maxwell's rule).
#include "cases/model/mechanism_report.h"

#include <set>

#include "tests/cases/clad_frames.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"

namespace tubewright::mechanism_report_test {

using testing::add_member;
using testing::add_node;
using testing::box_vehicle;
using testing::braced_rectangle;
using testing::empty_frame;
using testing::rectangle;
using testing::text_of;

namespace {

void pin(Frame& f, const std::string& node) {
  f.supports.push_back({node, {true, true, true}, {}, {}});
}

void weld(Frame& f, const std::string& node) {
  f.supports.push_back({node, {true, true, true, true, true, true}, {}, {}});
}

/// What is said of a frame that cannot take this force and moment on a node in case `c`.
Diagnostics failure(const Frame& f, const std::string& node, const Eigen::Vector3d& force,
                    const Eigen::Vector3d& moment = Eigen::Vector3d::Zero()) {
  const NumberedFrame n = build_model(f);
  Actions a = no_actions(n.model);
  a.nodal.segment<3>(dofs_per_node * n.node.at(node)) = force;
  a.nodal.segment<3>(dofs_per_node * n.node.at(node) + 3) = moment;
  const StaticResult r = solve_statics(n.model, {a});
  REQUIRE(!r);
  Diagnostics diagnostics = failure_diagnostics(f, n, *r.error(), "c");
  std::set<std::string> messages;
  for (const Diagnostic& p : diagnostics) {
    CHECK(p.severity == Severity::error);
    messages.insert(p.message);
  }
  CHECK(messages.size() == diagnostics.size());  // each motion has a node and direction of its own
  return diagnostics;
}

const Eigen::Vector3d down(0, 0, -100);

/// The front left wheel of a box on a rigid upright of its own, and the box held.
Frame vehicle_with_upright() {
  Frame f = box_vehicle();
  for (const char* node : {"fl0", "fr0", "rl0"}) weld(f, node);
  add_node(f, "low", 0, 0.40, 0.15);
  add_node(f, "up", 0, 0.38, 0.40);
  add_node(f, "arm", -0.1, 0.39, 0.2);
  f.vehicle->wheels[0].carrier = {"low", "up", "arm"};
  f.vehicle->wheels[0].hold = WheelHold::rigid_upright;
  f.vehicle->wheels[0].place = {61, 5};
  return f;
}

void add_link(Frame& f, const std::string& from, const std::string& to) {
  add_member(f, from + "_" + to, from, to).kind = MemberKind::link;
}

}  // namespace

TEST_CASE("a frame that nothing holds moves as one piece in six ways") {
  const Frame f = braced_rectangle();
  const Diagnostics diagnostics = failure(f, "A", down);
  CHECK(diagnostics.size() == 6);
  for (const Diagnostic& p : diagnostics) {
    INFO(p.message);
    CHECK(p.advice ==
          "the whole frame moves as one piece: add a support that holds it in this direction");
    CHECK_THAT(p.message, ContainsSubstring(" without resistance"));
    CHECK(p.place.line >= f.nodes.front().place.line);
  }
}

TEST_CASE("a part that nothing joins to the rest is listed, five of its nodes by name") {
  Frame f = braced_rectangle();
  for (const char* node : {"A", "B", "C"}) pin(f, node);
  for (int i = 0; i < 7; ++i) {
    add_node(f, "p" + std::to_string(i), 0.1 * i, 2, 0.02 * i * i);
    if (i > 0) {
      add_member(f, "q" + std::to_string(i), "p" + std::to_string(i - 1), "p" + std::to_string(i));
    }
  }
  const Diagnostics diagnostics = failure(f, "p3", down);
  CHECK(diagnostics.size() == 6);
  for (const Diagnostic& p : diagnostics) {
    CHECK_THAT(p.advice, ContainsSubstring("this part moves as one piece: `p"));
    CHECK_THAT(p.advice, ContainsSubstring(" and 2 more; join it to the rest or support it"));
    CHECK(p.advice.find("`A`") == p.advice.npos);
  }
}

// Three freedoms less the one direction of two links in line.
TEST_CASE("a node between two links in line can move in two ways, a third link leaves it one") {
  Frame f = empty_frame();
  add_node(f, "lamp", 0, 0, 0);
  for (const auto& [post, x, z] : {std::tuple{"left", -1, 0}, {"right", 1, 0}, {"roof", 0, 1}}) {
    add_node(f, post, x, 0, z);
    weld(f, post);
    if (z == 0) add_link(f, post, "lamp");
  }
  const Diagnostics two = failure(f, "lamp", {0, 100, 100});
  std::set<std::string> messages;
  for (const Diagnostic& p : two) {
    CHECK(p.advice == "add a member or a support that holds it in this direction");
    CHECK(p.place.line == f.nodes[0].place.line);
    messages.insert(p.message);
  }
  CHECK(messages == std::set<std::string>{"node `lamp` can move along y without resistance",
                                          "node `lamp` can move along z without resistance"});
  add_link(f, "roof", "lamp");
  const Diagnostics one = failure(f, "lamp", {0, 100, 0});
  REQUIRE(one.size() == 1);
  CHECK(one[0].message == "node `lamp` can move along y without resistance");
}

TEST_CASE("a moment on a node that only links meet is refused with a way out") {
  Frame f = empty_frame();
  add_node(f, "P", 0, 0, 0);
  for (int axis = 0; axis < 3; ++axis) {
    const Eigen::Vector3d p = Eigen::Vector3d::Unit(axis);
    const std::string name = direction_names[axis];
    add_node(f, name, p.x(), p.y(), p.z());
    weld(f, name);
    add_link(f, "P", name);
  }
  const Diagnostics diagnostics = failure(f, "P", down, {0, 7, 0});
  REQUIRE(diagnostics.size() == 1);
  CHECK(diagnostics[0].message == "node `P` can turn about y without resistance");
  CHECK_THAT(diagnostics[0].advice, ContainsSubstring("nothing joined here resists turning"));
}

// Four nodes in a plane, 8 freedoms, 4 bars and 3 restraints: one motion.
TEST_CASE("a pinned rectangle without a diagonal has one motion, and all that moves is named") {
  Frame f = rectangle();
  for (Member& m : f.members) m.kind = MemberKind::link;
  for (const char* node : {"A", "B"}) pin(f, node);
  for (const char* node : {"C", "D"}) f.supports.push_back({node, {false, false, true}, {}, {}});
  const Diagnostics diagnostics = failure(f, "C", {100, 0, 0});
  REQUIRE(diagnostics.size() == 1);
  CHECK_THAT(diagnostics[0].message, ContainsSubstring("can move along x without resistance"));
  CHECK_THAT(diagnostics[0].advice, ContainsSubstring("moving with it: "));
  CHECK_THAT(diagnostics[0].advice, ContainsSubstring("`C`"));
  CHECK_THAT(diagnostics[0].advice, ContainsSubstring("`D`"));
  CHECK_THAT(diagnostics[0].advice, ContainsSubstring("; add a diagonal or a support"));
}

TEST_CASE("a node that only slack cables would hold is told with the case and the cables") {
  Frame f = empty_frame();
  add_node(f, "A", 0, 0, 0);
  add_node(f, "P", 1, 0, 0);
  weld(f, "A");
  f.supports.push_back({"P", {false, true, true, true, true, true}, {}, {}});
  add_member(f, "rope", "A", "P").kind = MemberKind::cable;
  const Diagnostics diagnostics = failure(f, "P", {-100, 0, 0});  // it pushes the rope
  REQUIRE(diagnostics.size() == 1);
  CHECK(diagnostics[0].message ==
        "node `P` can move along x without resistance in case `c`, where slack are the cables "
        "`rope`");

  StaticFailure endless;
  endless.why = StaticFailure::Why::cables;
  endless.slack = {true};
  const Diagnostics unknown = failure_diagnostics(f, build_model(f), endless, "c");
  REQUIRE(unknown.size() == 1);
  CHECK(unknown[0].message == "case `c`: which cables are slack could not be found");
  CHECK(unknown[0].advice == "cables that went slack last: `rope`");
}

// A force whose line meets an axis has no moment about it: links that all end on the line from
// `low` to `up` leave the turning about that line free, however many they are.
TEST_CASE("a loose upright is told what it lacks: restraints, or one that is placed otherwise") {
  Frame f = vehicle_with_upright();
  for (const char* to : {"fl0", "rl0", "fr0"}) add_link(f, "low", to);
  for (const char* to : {"fl1", "rl1"}) add_link(f, "up", to);
  const Diagnostics five = failure(f, "low", down);
  REQUIRE(five.size() == 1);
  CHECK_THAT(five[0].message, ContainsSubstring("the upright of wheel `front_left` is loose: its"));
  CHECK_THAT(five[0].advice, ContainsSubstring("needs six restraints and has 5"));
  CHECK(five[0].place.line == 61);
  add_link(f, "up", "fr1");
  const Diagnostics six = failure(f, "low", down);
  REQUIRE(six.size() == 1);
  CHECK_THAT(six[0].advice, ContainsSubstring("its 6 links and springs all leave this motion"));
  add_link(f, "arm", "fl1");  // a tie rod
  const NumberedFrame n = build_model(f);
  CHECK(solve_statics(n.model, {no_actions(n.model)}).has_value());
}

}  // namespace tubewright::mechanism_report_test
