// The numbered model against its frame part by part, and a cantilever built through it against
// P L^3/(3 E I).
#include "cases/model/build_model.h"

#include <algorithm>
#include <cmath>

#include "cases/validate/validate.h"
#include "solver/statics/statics.h"
#include "tests/cases/clad_frames.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::build_model_test {

namespace {

constexpr Source handbook = rederived("P L3/(3 E I), any handbook");

}  // namespace

using testing::add_member;
using testing::add_node;
using testing::add_panel;
using testing::add_sheet;
using testing::box_vehicle;
using testing::braced_rectangle;
using testing::empty_frame;
using testing::open_box;

namespace {

constexpr double E = 200e9, A = 3e-4, I = 5e-8;

/// `tube` becomes a section of known properties in a material of known stiffness.
void give_properties(Frame& f) {
  MaterialEntry m;
  m.name = "known";
  m.properties = {E, 80e9, 8000, 300e6, 400e6};
  f.materials.push_back(m);
  SectionEntry& s = f.sections[0];
  s.shape = Shape::properties;
  s.given = {A, I, I, 1e-7, 1e-6, 1e-6, 1e-6, 0, 0, rigid, rigid, {}};
  s.material = "known";
}

}  // namespace

TEST_CASE("a member's slot leads to its beam or bar, and that back to the member") {
  Frame f = open_box();
  for (std::size_t i = 0; i < f.members.size(); i += 3) f.members[i].kind = MemberKind::link;
  for (std::size_t i = 1; i < f.members.size(); i += 5) f.members[i].kind = MemberKind::cable;
  const NumberedFrame n = build_model(f);
  REQUIRE(n.slots.size() == f.members.size());
  CHECK(n.model.beams.size() + n.model.bars.size() == f.members.size());
  for (std::size_t i = 0; i < f.members.size(); ++i) {
    const auto [is_beam, index] = n.slots[i];
    CHECK(is_beam == (f.members[i].kind == MemberKind::beam));
    CHECK((is_beam ? n.member_of_beam : n.member_of_bar)[index] == static_cast<int>(i));
    const int from = is_beam ? n.model.beams[index].from : n.model.bars[index].from;
    const int to = is_beam ? n.model.beams[index].to : n.model.bars[index].to;
    CHECK(f.nodes[from].name == f.members[i].from);
    CHECK(f.nodes[to].name == f.members[i].to);
    CHECK_THAT(member_length(n, f.members[i]),
               WithinRel((f.nodes[to].at - f.nodes[from].at).norm(), 1e-12));
  }
}

TEST_CASE("a link and a cable have the stiffness EA over L, a spring its rate") {
  Frame f = braced_rectangle();
  give_properties(f);
  f.members[0].kind = MemberKind::link;   // AB, 0.6 m
  f.members[1].kind = MemberKind::cable;  // BC, 0.4 m
  f.members[2].kind = MemberKind::spring;
  f.members[2].section.clear();
  f.members[2].rate = 12345;
  const NumberedFrame n = build_model(f);
  REQUIRE(n.model.bars.size() == 3);
  CHECK_THAT(n.model.bars[0].stiffness, WithinRel(1e8, 1e-12));  // 200e9 x 3e-4 / 0.6
  CHECK_THAT(n.model.bars[1].stiffness, WithinRel(1.5e8, 1e-12));
  CHECK(n.model.bars[2].stiffness == 12345);
  CHECK_FALSE(n.model.bars[0].tension_only);
  CHECK(n.model.bars[1].tension_only);
  CHECK_FALSE(n.model.bars[2].tension_only);
}

// Handbook: a cantilever's tip goes down by P L^3/(3 E I), here 1000 x 0.6^3/(3 x 200e9 x 5e-8).
TEST_CASE("a cantilever built from names bends as the handbook says", "[truth]") {
  Frame f = empty_frame();
  give_properties(f);
  add_node(f, "tip", 0.6, 0, 0);
  add_node(f, "root", 0, 0, 0);
  add_member(f, "arm", "root", "tip");
  f.supports.push_back({"root", {true, true, true, true, true, true}, {}, {}});
  const NumberedFrame n = build_model(f);
  Actions a = no_actions(n.model);
  const int tip = node_numbers(n, {"tip"}).front();
  a.nodal[dofs_per_node * tip + 2] = -1000;
  const StaticResult r = solve_statics(n.model, {a});
  REQUIRE(r.has_value());
  const Eigen::VectorXd& u = (*r)[0].displacements;
  truth("cantilever of 0.6 m, 1 kN: deflection, m", handbook, u[dofs_per_node * tip + 2],
        within_rel(-7.2e-3, 1e-9));
}

TEST_CASE("roll and releases of a member reach its own end of the beam") {
  Frame f = braced_rectangle();
  f.members[4].roll = 0.3;
  f.members[4].release_from[4] = 0;
  f.members[4].release_to[5] = 700;
  const NumberedFrame n = build_model(f);
  CHECK(n.model.beams[4].roll == 0.3);
  CHECK(n.model.beams[4].connection_from[4] == 0);
  CHECK(n.model.beams[4].connection_to[5] == 700);
  CHECK(n.model.beams[4].connection_to[4] == rigid);
}

TEST_CASE("the name of a path stands for its pieces in order, the name of a piece for itself") {
  Frame f = empty_frame();
  for (int i = 0; i < 4; ++i) {
    add_node(f, "n" + std::to_string(i), 0.1 * i, 0, 0);
    if (i == 0) continue;
    add_member(f, "rail." + std::to_string(i), "n" + std::to_string(i - 1), "n" + std::to_string(i))
        .tube = "rail";
    if (i == 2) add_member(f, "post", "n0", "n2");
  }
  const NumberedFrame n = build_model(f);
  CHECK(n.members.at("rail") == std::vector<int>{0, 1, 3});
  CHECK(n.members.at("rail.3") == std::vector<int>{3});
  CHECK(n.members.at("post") == std::vector<int>{2});
  CHECK(node_numbers(n, {"n3", "n0", "n3"}) == std::vector<int>{3, 0, 3});
}

TEST_CASE("each edge of a panel is made of the pieces along it, from its corner to the next") {
  Frame f = braced_rectangle();
  f.members[2].kind = MemberKind::link;  // CD
  f.members.erase(f.members.begin());    // AB, now of two pieces
  add_node(f, "M", 0.2, 0, 0);
  add_member(f, "MB", "M", "B");
  add_member(f, "MA", "M", "A");
  add_sheet(f, "floor").offset = 0.01;
  add_panel(f, "p", "floor", {"C", "B", "A", "D"});
  REQUIRE(validate(f).empty());
  const NumberedFrame n = build_model(f);
  const Panel& p = n.model.panels.at(0);
  const std::vector<std::vector<std::string>> along = {{"BC"}, {"MB", "MA"}, {"DA"}, {"CD"}};
  for (int k = 0; k < 4; ++k) {
    std::vector<std::string> names;
    for (const EdgePiece& e : p.edges[k]) {
      names.push_back(f.members[(e.is_beam ? n.member_of_beam : n.member_of_bar)[e.index]].name);
    }
    CHECK(names == along[k]);
  }
  CHECK(p.edges[3][0].is_beam == false);
  CHECK((p.offset == 0.01 && p.thickness == 0.0012 && p.joint == rigid));
  const std::vector<int> round = members_round(n, p);
  CHECK(round.size() == 5);  // all but the diagonal
  CHECK(std::is_sorted(round.begin(), round.end()));
  CHECK(std::none_of(round.begin(), round.end(), [&](int m) { return f.members[m].name == "AC"; }));
}

TEST_CASE("a rigid upright becomes a body that begins with the node a support holds") {
  Frame f = box_vehicle();
  f.vehicle->wheels[1].hold = WheelHold::rigid_upright;
  CHECK(build_model(f).model.bodies.size() == 1);
  for (const std::string& held : f.vehicle->wheels[1].carrier) {
    f.supports = {{held, {true, true, true}, {}, {}}};
    const NumberedFrame n = build_model(f);
    std::vector<int> body = n.model.bodies.at(0).nodes;
    CHECK(body.front() == n.node.at(held));
    CHECK(n.model.supports.at(0).node == n.node.at(held));
    std::vector<int> carriers = node_numbers(n, f.vehicle->wheels[1].carrier);
    std::sort(body.begin(), body.end());
    std::sort(carriers.begin(), carriers.end());
    CHECK(body == carriers);
  }
}

}  // namespace tubewright::build_model_test
