// Rigid bodies by elimination, held against hand statics.
#include <Eigen/Geometry>
#include <Eigen/LU>
#include <cmath>

#include "solver/model/section_shapes.h"
#include "solver/statics/mechanism.h"
#include "tests/solver/model_builder.h"
#include "tests/truth.h"

namespace tubewright::rigid_bodies_test {

using namespace tubewright::test;

namespace {

constexpr Source by_hand = rederived("statics worked by hand");

constexpr double E = 210e9, G = 81e9;
const Section tube = hollow_rectangle(0.03, 0.03, 0.002, cold_formed_corners(0.002), 0.3);

/// A body held by links to fixed points; the first node given is its master.
struct HeldBody : ModelBuilder {
  std::vector<int> body(const std::vector<Eigen::Vector3d>& points) {
    std::vector<int> nodes;
    for (const Eigen::Vector3d& p : points) nodes.push_back(node(p.x(), p.y(), p.z()));
    model.bodies.push_back({nodes});
    return nodes;
  }

  int link(int from, const Eigen::Vector3d& to) {
    const int ground = node(to.x(), to.y(), to.z());
    pin(ground);
    return bar(from, ground, 2e7);
  }
};

void put(Actions& a, int node, const Eigen::Vector3d& force) {
  a.nodal.segment<3>(dofs_per_node * node) += force;
}

/// Upright of a double wishbone corner: two legs to each ball joint, a tie rod, a spring.
struct WishboneCorner : HeldBody {
  int low, up, steer, patch;
  std::vector<std::pair<int, Eigen::Vector3d>> lines;

  WishboneCorner() {
    const Eigen::Vector3d low_at(0, 0.40, 0.15), up_at(-0.02, 0.36, 0.38);
    const Eigen::Vector3d steer_at(-0.08, 0.38, 0.20), patch_at(0.01, 0.45, 0);
    const std::vector<int> n = body({low_at, up_at, steer_at, patch_at});
    low = n[0];
    up = n[1];
    steer = n[2];
    patch = n[3];
    lines = {{low, {0.15, 0.12, 0.16}}, {low, {-0.18, 0.12, 0.15}},   {up, {0.10, 0.15, 0.33}},
             {up, {-0.16, 0.15, 0.34}}, {steer, {-0.09, 0.10, 0.19}}, {low, {0.0, 0.22, 0.50}}};
    for (const auto& [from, to] : lines) link(from, to);
  }
};

}  // namespace

TEST_CASE("a rigid arm at the tip of a cantilever turns a force into a force and a moment") {
  // P L^3/3EI + M L^2/2EI and P L^2/2EI + M L/EI, M = P r: any handbook.
  HeldBody f;
  const int s = f.section(properties(tube.A, tube.Iy, tube.Iz, tube.It), E, G);
  const double L = 0.8, r = 0.25, P = 120, EI = E * tube.Iy;
  const int root = f.node(0, 0, 0);
  const std::vector<int> arm = f.body({{L, 0, 0}, {L + r, 0, 0}});
  f.beam(root, arm[0], s);
  f.fix(root);
  Actions a = f.actions();
  at(a, arm[1], z) = -P;
  const StaticSolution u = f.solve(a);
  const double tip = P * L * L * L / (3 * EI) + P * r * L * L / (2 * EI);
  const double turn = P * L * L / (2 * EI) + P * r * L / EI;
  CHECK_THAT(moved(u, arm[0], z), WithinRel(-tip, 1e-9));
  CHECK_THAT(moved(u, arm[1], z), WithinRel(-(tip + turn * r), 1e-9));
  CHECK_THAT(moved(u, arm[1], ry), WithinRel(turn, 1e-9));
  CHECK_THAT(reaction(u, root, ry), WithinRel(-P * (L + r), 1e-9));
  CHECK(u.residual.force < 1e-10);
  CHECK(u.residual.moment < 1e-10);
}

TEST_CASE("six links carry what six equations of equilibrium say they carry") {
  // Each link pulls along its line; the six unknown forces balance the wheel's force and moment.
  WishboneCorner f;
  const Eigen::Vector3d wheel(-240, 400, 613.8);
  Actions a = f.actions();
  put(a, f.patch, wheel);
  const StaticSolution u = f.solve(a);

  Eigen::Matrix<double, 6, 6> A;
  for (int i = 0; i < 6; ++i) {
    const auto& [from, to] = f.lines[static_cast<size_t>(i)];
    const Eigen::Vector3d at = f.model.nodes[static_cast<size_t>(from)];
    const Eigen::Vector3d n = (to - at).normalized();
    A.col(i) << n, at.cross(n);
  }
  Eigen::Matrix<double, 6, 1> load;
  load << wheel, f.model.nodes[static_cast<size_t>(f.patch)].cross(wheel);
  const Eigen::Matrix<double, 6, 1> N = A.partialPivLu().solve(-load);
  for (int i = 0; i < 6; ++i)
    CHECK_THAT(u.bar_forces[static_cast<size_t>(i)], WithinRel(N[i], 1e-8));
}

TEST_CASE(
    "a body does not care which of its nodes carries a load, as long as force and moment agree") {
  WishboneCorner f;
  const Eigen::Vector3d force(-100, 50, 700);
  Actions there = f.actions(), here = f.actions();
  put(there, f.patch, force);
  put(here, f.up, force);
  const Eigen::Vector3d arm =
      f.model.nodes[static_cast<size_t>(f.patch)] - f.model.nodes[static_cast<size_t>(f.up)];
  here.nodal.segment<3>(dofs_per_node * f.up + 3) = arm.cross(force);
  const StaticSolution a = f.solve(there), b = f.solve(here);
  CHECK((a.displacements - b.displacements).norm() < 1e-9 * a.displacements.norm());
}

TEST_CASE("the choice of the master changes nothing") {
  WishboneCorner f, g;
  std::swap(g.model.bodies[0].nodes[0], g.model.bodies[0].nodes[2]);
  Actions a = f.actions();
  put(a, f.patch, {-240, 400, 613.8});
  const StaticSolution one = f.solve(a), other = g.solve(a);
  CHECK((one.displacements - other.displacements).norm() < 1e-9 * one.displacements.norm());
  for (size_t i = 0; i < one.bar_forces.size(); ++i) {
    CHECK_THAT(one.bar_forces[i], WithinRel(other.bar_forces[i], 1e-8));
  }
}

TEST_CASE("a body agrees with the stiff beams it stands for") {
  // The stiff tubes are 1e4 times stiffer, so the answers agree to about that.
  WishboneCorner f;
  HeldBody g;
  g.model = f.model;
  g.model.bodies.clear();
  Section stout = properties(tube.A * 1e4, tube.Iy * 1e4, tube.Iz * 1e4, tube.It * 1e4);
  const int s = g.section(stout, E, G);
  for (const int other : {f.up, f.steer, f.patch}) g.beam(f.low, other, s);
  Actions a = f.actions(), b = g.actions();
  put(a, f.patch, {-240, 400, 613.8});
  put(b, f.patch, {-240, 400, 613.8});
  const StaticSolution u = f.solve(a), v = g.solve(b);
  for (size_t i = 0; i < u.bar_forces.size(); ++i) {
    CHECK_THAT(u.bar_forces[i], WithinRel(v.bar_forces[i], 1e-6));  // determinate: exactly
  }
  CHECK_THAT(moved(u, f.patch, z), WithinRel(moved(v, f.patch, z), 1e-2));
}

TEST_CASE("without its tie rod the upright is a mechanism") {
  WishboneCorner f;
  f.model.bars.erase(f.model.bars.begin() + 4);
  Actions a = f.actions();
  put(a, f.patch, {0, 0, 500});
  const StaticFailure failure = f.fail(a);
  REQUIRE(failure.mechanism.motions.size() == 1);
  CHECK(failure.mechanism.motions[0].moving.size() >= 2);
}

TEST_CASE("a trailing arm: spring and pivot take what moments about the pivot say", "[truth]") {
  // F_s = (N l + B h_p)/l_s; outboard brake: the force acts at the ground. Inboard: at the wheel
  // centre, R higher. Worked by hand: l 0.35, h_p 0.30, l_s 0.25, R 0.25, N 250.155, B 200.124.
  const double l = 0.35, h = 0.30, l_s = 0.25, R = 0.25, N = 250.155, B = 200.124;
  HeldBody f;
  const std::vector<int> arm = f.body({{0, 0, h}, {-l, 0, 0}, {-l, 0, R}, {-l_s, 0, h}});
  f.hold(arm[0], {x, y, z, rx, rz});
  const int spring = f.link(arm[3], {-l_s, 0, h + 0.3});
  Actions outboard = f.actions(), inboard = f.actions(), standing = f.actions();
  put(outboard, arm[1], {-B, 0, N});
  put(inboard, arm[1], {0, 0, N});
  put(inboard, arm[2], {-B, 0, 0});
  put(standing, arm[1], {0, 0, 404.66});
  const StaticSolution out = f.solve(outboard), in = f.solve(inboard);
  truth("trailing arm, outboard brake: spring force, N", by_hand,
        out.bar_forces[static_cast<size_t>(spring)], within_rel(-590.366, 1e-5));
  CHECK_THAT(reaction(out, arm[0], x), WithinRel(200.124, 1e-6));
  truth("trailing arm, outboard brake: pivot force upward, N", by_hand, reaction(out, arm[0], z),
        within_rel(590.366 - N, 1e-5));
  truth("trailing arm, inboard brake: spring force, N", by_hand,
        in.bar_forces[static_cast<size_t>(spring)], within_rel(-390.242, 1e-5));
  truth("trailing arm, inboard brake: pivot force upward, N", by_hand, reaction(in, arm[0], z),
        within_rel(140.087, 1e-5));
  truth("trailing arm, standing: spring force, N", by_hand,
        f.solve(standing).bar_forces[static_cast<size_t>(spring)], within_rel(-566.52, 1e-4));
}

TEST_CASE("the tie rod takes the moment about the steering axis", "[truth]") {
  // Moment e . (p - p0) x F about the axis, worked by hand for caster 8 and kingpin inclination 10
  // degrees, trail 20 mm, scrub 15 mm; a tie rod at 60 mm from the axis.
  const Eigen::Vector3d e =
      Eigen::Vector3d(-std::tan(8 * M_PI / 180), -std::tan(10 * M_PI / 180), 1).normalized();
  CHECK((e - Eigen::Vector3d(-0.137099, -0.172008, 0.975509)).norm() < 2e-6);
  const Eigen::Vector3d p0(0.020, -0.015, 0);
  const double reach = 0.060, R = 0.25;
  const Eigen::Vector3d across = e.unitOrthogonal(), along = e.cross(across);
  const Eigen::Vector3d low = p0 + 0.15 * e, up = p0 + 0.40 * e,
                        steer = p0 + 0.2 * e + reach * across;
  HeldBody f;
  const std::vector<int> n = f.body({low, up, steer, {0, 0, 0}, {0, 0, R}});
  for (const Eigen::Vector3d& d : {e, across, along}) f.link(n[0], low + 0.3 * d);
  f.link(n[1], up + 0.3 * across);
  f.link(n[1], up + 0.3 * along);
  const auto tie = static_cast<size_t>(f.link(n[2], steer - 0.3 * along));
  const auto moment_of = [&](const Eigen::Vector3d& at_patch, const Eigen::Vector3d& at_centre) {
    Actions a = f.actions();
    put(a, n[3], at_patch);
    put(a, n[4], at_centre);
    return f.solve(a).bar_forces[tie] * reach;  // a pull along -along turns the upright backward
  };
  const Eigen::Vector3d none(0, 0, 0);
  truth("steering: moment of outboard braking, N m", by_hand, moment_of({-240, 0, 485.6}, none),
        within_abs(0.8427, 1e-3));
  truth("steering: moment of inboard braking, N m", by_hand, moment_of({0, 0, 485.6}, {-240, 0, 0}),
        within_abs(11.1632, 1e-3));  // inboard brake
  truth("steering: moment of cornering, N m", by_hand, moment_of({0, 400, 613.8}, none),
        within_abs(-11.1779, 1e-3));
  truth("steering: moment of the wheel load, N m", by_hand, moment_of({0, 0, 331}, none),
        within_abs(-1.8194, 1e-3));
}

}  // namespace tubewright::rigid_bodies_test
