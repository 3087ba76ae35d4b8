// Pick-up forces against statics: what links, springs and cables put on a frame balances its loads.
#include "cases/analysis/pick_ups.h"

#include <Eigen/Geometry>

#include "tests/cases/attachments/attachment_frames.h"
#include "tests/solver/model_builder.h"

namespace tubewright::pick_ups_test {

using namespace tubewright::test;

namespace {

/// A tube from `left` to `right`, and bars from it to fixed points.
struct Hung : ModelBuilder {
  int left, right;
  Hung() {
    const int s = section(properties(1e-3, 1e-6, 1e-6, 1e-6), 210e9, 81e9);
    right = node(1, 0, 0);  // the lower number is at the far end
    left = node(0, 0, 0);
    beam(left, right, s);
  }
  void hang(int from, double px, double py, double pz, bool turned) {
    const int peg = node(px, py, pz);
    pin(peg);
    turned ? bar(peg, from, 1e6) : bar(from, peg, 1e6);
  }
};

/// Six bars, not all towards one line: the tube hangs by them alone.
Hung hung_tube(bool turned) {
  Hung h;
  h.hang(h.left, 0, 0, 1, turned);
  h.hang(h.left, 0, 1, 0.5, turned);
  h.hang(h.left, -1, 0, 0.3, turned);
  h.hang(h.right, 1, 0, 1, turned);
  h.hang(h.right, 1, 1, 0.4, turned);
  h.hold(h.left, {rx});
  return h;
}

Actions loads(const Hung& h) {
  Actions a = h.actions();
  at(a, h.left, z) = -300;
  at(a, h.right, x) = 120;
  at(a, h.right, y) = -50;
  a.beams[0].line = {0, 0, -80};
  return a;
}

}  // namespace

TEST_CASE("what bars put on a tube that hangs by them is the opposite of its loads") {
  const bool turned = GENERATE(false, true);
  const Hung h = hung_tube(turned);
  const std::vector<PickUp> found = pick_ups(h.model, h.solve(loads(h)));
  REQUIRE(found.size() == 2);
  CHECK(found[0].node == h.right);  // in the order of the nodes
  CHECK(found[1].node == h.left);
  const Eigen::Vector3d sum = found[0].force + found[1].force;
  CHECK((sum - Eigen::Vector3d(-120, 50, 380)).norm() < 1e-6);
  // Moments about `left`: the load on `right` and half of the line load are at 1 m.
  const Eigen::Vector3d M = Eigen::Vector3d::UnitX().cross(found[0].force);
  CHECK_THAT(M.y(), WithinRel(-40.0, 1e-6));
  CHECK_THAT(M.z(), WithinRel(50.0, 1e-6));
}

TEST_CASE("a single bar in tension pulls the frame towards its other end") {
  ModelBuilder b;
  const int s = b.section(properties(1e-3, 1e-6, 1e-6, 1e-6), 210e9, 81e9);
  const int root = b.node(0, 0, 0), tip = b.node(1, 0, 0), peg = b.node(1, 3, 4);
  b.beam(root, tip, s);
  b.bar(tip, peg, 1e6);
  b.fix(root);
  b.pin(peg);
  StaticSolution r = b.solve(b.actions());
  r.bar_forces[0] = 50;
  const std::vector<PickUp> found = pick_ups(b.model, r);
  REQUIRE(found.size() == 1);
  CHECK(found[0].node == tip);
  CHECK((found[0].force - Eigen::Vector3d(0, 30, 40)).norm() < 1e-9);
}

TEST_CASE("nodes where only bars meet and nodes of rigid uprights are no pick-ups") {
  ModelBuilder b;
  const int s = b.section(properties(1e-3, 1e-6, 1e-6, 1e-6), 210e9, 81e9);
  const int root = b.node(0, 0, 0), tip = b.node(1, 0, 0), between = b.node(1, 0, 1);
  const int hub = b.node(2, 0, 0), axle = b.node(2, 0, 0.5);
  b.beam(root, tip, s);
  b.beam(hub, axle, s);
  b.bar(tip, between, 1e6);
  b.bar(between, hub, 1e6);
  b.bar(axle, tip, 1e6);
  b.model.bodies.push_back({{hub, axle}});
  StaticSolution r;
  r.bar_forces = {10, 20, 30};
  const std::vector<PickUp> found = pick_ups(b.model, r);
  REQUIRE(found.size() == 1);
  CHECK(found[0].node == tip);
  // 10 N up along the first, 30 N along the third, which rises 0.5 in 1.
  const Eigen::Vector3d third = 30 * Eigen::Vector3d(1, 0, 0.5).normalized();
  CHECK((found[0].force - Eigen::Vector3d(0, 0, 10) - third).norm() < 1e-9);
}

TEST_CASE("a pick-up that is no attachment is named, one that is is not") {
  Frame f = testing::cantilever_40();
  f.attachments = {testing::tab("ear", "rail", 0.5, Face::bottom)};
  testing::add_node(f, "G", 0.5, 0, -0.5);
  testing::add_member(f, "rod", "ear", "G").kind = MemberKind::link;
  testing::add_member(f, "stay", "B", "G").kind = MemberKind::cable;
  f = testing::expanded(f);
  CHECK(pick_ups_without_attachment(f) == std::vector<std::string>{"B"});
}

}  // namespace tubewright::pick_ups_test
