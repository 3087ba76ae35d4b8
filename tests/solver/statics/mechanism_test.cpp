// A model that can move gets no number, but the node and the direction.
#include <algorithm>
#include <random>

#include "solver/model/section_shapes.h"
#include "tests/solver/model_builder.h"

namespace tubewright::mechanism_test {

using namespace tubewright::test;

namespace {

constexpr double E = 210e9, G = 81e9;
const Section tube = hollow_rectangle(0.025, 0.025, 0.002, cold_formed_corners(0.002), 0.3);

/// A space frame of square bays along x, two by one, optionally held.
struct Ladder : ModelBuilder {
  int s;
  std::vector<std::array<int, 4>> frames;

  explicit Ladder(int bays) {
    s = section(tube, E, G);
    for (int i = 0; i <= bays; ++i) {
      const double p = 0.5 * i;
      frames.push_back({node(p, 0, 0), node(p, 0.4, 0), node(p, 0.4, 0.3), node(p, 0, 0.3)});
      for (int k = 0; k < 4; ++k) {
        beam(frames[i][k], frames[i][(k + 1) % 4], s);
        if (i > 0) beam(frames[i - 1][k], frames[i][k], s);
      }
    }
  }
};

bool names(const Mechanism& m, int node, int direction) {
  return std::any_of(m.motions.begin(), m.motions.end(), [&](const FreeMotion& f) {
    return f.node == node && f.direction == direction;
  });
}

}  // namespace

TEST_CASE("a frame that nothing holds has six free motions, all of them rigid") {
  const int bays = GENERATE(1, 30);  // dense and sparse search
  Ladder f(bays);
  const StaticFailure failure = f.fail(f.actions());
  REQUIRE(failure.mechanism.motions.size() == 6);
  for (const FreeMotion& m : failure.mechanism.motions) {
    CHECK(m.rigid_body);
    CHECK(m.moving.size() == f.model.nodes.size());
  }
}

TEST_CASE("tubes torn off one of their nodes hide no free motion, whichever way they point") {
  std::mt19937 random(23);
  std::uniform_real_distribution<double> u(-1, 1);
  for (int draw = 0; draw < 200; ++draw) {
    Ladder f(2);
    f.pin(f.frames[0][0]);
    f.pin(f.frames[0][1]);  // turns about the line through both
    const auto place = [&] { return Eigen::Vector3d(u(random), u(random), u(random)); };
    for (int k = 0; k < 3; ++k) {
      const int end = static_cast<int>(f.model.nodes.size());
      f.model.nodes.push_back(place());
      f.fix(end);
      const int b = f.beam(end, f.frames[2][static_cast<size_t>(k)], f.s);
      f.model.beams[static_cast<size_t>(b)].connection_to = {0, 0, 0, 0, 0, 0};
    }
    CHECK(find_mechanism(f.model, {}).motions.size() == 1);
  }
}

TEST_CASE("a frame held at one node against moving only can turn three ways") {
  const int bays = GENERATE(2, 40);
  Ladder f(bays);
  f.pin(f.frames[0][0]);
  const StaticFailure failure = f.fail(f.actions());
  CHECK(failure.mechanism.motions.size() == 3);
}

TEST_CASE("a frame held just enough is no mechanism") {
  const int bays = GENERATE(1, 10, 60);
  Ladder f(bays);
  f.pin(f.frames[0][0]);
  f.hold(f.frames[0][1], {x, z});
  f.hold(f.frames[bays][0], {z});
  Actions a = f.actions();
  at(a, f.frames[bays][2], z) = -100;
  const StaticSolution s = f.solve(a);
  CHECK(s.residual.force < 1e-8);
}

TEST_CASE("four pin-ended members in a square can lean") {
  ModelBuilder f;
  const int s = f.section(tube, E, G);
  const int a = f.node(0, 0, 0), b = f.node(1, 0, 0), c = f.node(1, 0, 1), d = f.node(0, 0, 1);
  f.bar(a, d, 1e7);
  f.bar(d, c, 1e7);
  f.bar(c, b, 1e7);
  f.fix(a);
  f.fix(b);
  f.hold(c, {y});
  f.hold(d, {y});
  f.beam(a, b, s);
  const StaticFailure failure = f.fail(f.actions());
  REQUIRE(failure.mechanism.motions.size() == 1);
  const FreeMotion& m = failure.mechanism.motions[0];
  CHECK((m.node == c || m.node == d));
  CHECK(m.direction == x);
  CHECK(m.moving.size() == 2);
  f.bar(a, c, 1e7);  // the missing diagonal
  CHECK_NOTHROW(f.solve(f.actions()));
}

TEST_CASE("a node that hangs on one link is named") {
  Ladder f(3);
  for (const int n : f.frames[0]) f.fix(n);
  const int loose = f.node(1, 1, 1);
  f.bar(f.frames[3][2], loose, 1e6);
  const StaticFailure failure = f.fail(f.actions());
  CHECK(failure.mechanism.motions.size() == 2);
  for (const FreeMotion& m : failure.mechanism.motions) {
    CHECK(m.node == loose);
    CHECK(m.direction < 3);
  }
}

TEST_CASE("a part that is joined to nothing is reported as moving in one piece") {
  Ladder f(2);
  for (const int n : f.frames[0]) f.fix(n);
  const int a = f.node(5, 0, 0), b = f.node(6, 0, 0);
  f.beam(a, b, f.s);
  const StaticFailure failure = f.fail(f.actions());
  REQUIRE(failure.mechanism.motions.size() == 6);
  for (const FreeMotion& m : failure.mechanism.motions) {
    CHECK(m.rigid_body);
    CHECK((m.node == a || m.node == b));
    CHECK(m.moving.size() == 2);
  }
}

TEST_CASE("a node where only links meet may turn freely: no mechanism unless a moment acts on it") {
  ModelBuilder f;
  const int a = f.node(0, 0, 0), b = f.node(1, 0, 0), c = f.node(0, 1, 0),
            top = f.node(0.3, 0.3, 1);
  for (const int n : {a, b, c}) {
    f.pin(n);
    f.bar(n, top, 1e6);
  }
  Actions load = f.actions();
  at(load, top, z) = -50;
  const StaticSolution s = f.solve(load);
  CHECK(moved(s, top, rx) == 0);
  CHECK(s.residual.force < 1e-12);
  at(load, top, ry) = 3;
  const StaticFailure failure = f.fail(load);
  CHECK(names(failure.mechanism, top, ry));
}

TEST_CASE("a load on a node that no member is joined to is refused") {
  Ladder f(1);
  for (const int n : f.frames[0]) f.fix(n);
  const int alone = f.node(9, 9, 9);
  CHECK_NOTHROW(f.solve(f.actions()));
  Actions a = f.actions();
  at(a, alone, y) = 1;
  CHECK(names(f.fail(a).mechanism, alone, y));
}

TEST_CASE("a hinge line through a beam is found") {
  ModelBuilder f;
  const int s = f.section(tube, E, G);
  const auto n = f.chain({0, 0, 0}, {2, 0, 0}, 2, s);
  f.hold(n[0], {x, y, z, rx});
  f.hold(n[2], {y, z});
  CHECK_NOTHROW(f.solve(f.actions()));
  f.model.beams[0].connection_to[4] = 0;  // My released at the middle: it folds
  const StaticFailure failure = f.fail(f.actions());
  CHECK(names(failure.mechanism, n[1], z));
}

TEST_CASE("a soft joint spring is stiffness, not a mechanism") {
  ModelBuilder f;
  const int s = f.section(tube, E, G);
  const auto n = f.chain({0, 0, 0}, {2, 0, 0}, 2, s);
  f.hold(n[0], {x, y, z, rx});
  f.hold(n[2], {y, z});
  f.model.beams[0].connection_to[4] = 0.5;  // N m/rad
  Actions a = f.actions();
  at(a, n[1], z) = -1;
  // Each half turns by theta = 2 w/L...: moment P L/4 (L = 2 m) turns the spring by 2 w / (L/2).
  const double w = -moved(f.solve(a), n[1], z);
  const double bending = 1.0 * 8 / (48 * E * tube.Iy) + 2 / (4 * G * tube.Az);
  CHECK_THAT(w, WithinRel(bending + 0.5 / 0.5 / 2, 1e-6));
}

}  // namespace tubewright::mechanism_test
