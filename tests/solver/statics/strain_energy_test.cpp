// Strain energy of single members in closed form (S. P. Timoshenko, Strength of Materials; from
// memory), of their sum against the work of the loads (Clapeyron's theorem).
#include "solver/statics/strain_energy.h"

#include "solver/model/section_shapes.h"
#include "tests/solver/model_builder.h"

namespace tubewright::strain_energy_test {

using namespace tubewright::test;

namespace {

constexpr double E = 210e9, G = 81e9, L = 0.7;
const Section tube = hollow_rectangle(0.04, 0.03, 0.002, cold_formed_corners(0.002), 0.3);

struct Cantilever : ModelBuilder {
  int root, tip;

  Cantilever() {
    root = node(0, 0, 0);
    tip = node(L, 0, 0);
    beam(root, tip, section(tube, E, G));
    fix(root);
  }
};

}  // namespace

TEST_CASE("a cantilever stores F2 L/2 EA, T2 L/2 GI, and P2 L3/6 EI with P2 L/2 GA") {
  const Cantilever f;
  const auto stored = [&](int direction, double size) {
    Actions a = f.actions();
    at(a, f.tip, direction) = size;
    return strain_energy(f.model, f.solve(a)).beams[0];
  };
  CHECK_THAT(stored(x, 800), WithinRel(800.0 * 800 * L / (2 * E * tube.A), 1e-9));
  CHECK_THAT(stored(rx, 30), WithinRel(30.0 * 30 * L / (2 * G * tube.It), 1e-9));
  CHECK_THAT(stored(rz, 30), WithinRel(30.0 * 30 * L / (2 * E * tube.Iz), 1e-9));
  CHECK_THAT(stored(z, 90), WithinRel(90.0 * 90 * L * L * L / (6 * E * tube.Iy) +
                                          90.0 * 90 * L / (2 * G * tube.Az),
                                      1e-9));
}

TEST_CASE("a built-in beam under a line load stores q2 L5/1440 EI and q2 L3/24 GA") {
  Cantilever f;
  f.fix(f.tip);
  Actions a = f.actions();
  a.beams[0].line = {0, 300, 0};
  const double L3 = L * L * L;
  CHECK_THAT(
      strain_energy(f.model, f.solve(a)).beams[0],
      WithinRel(300.0 * 300 * (L3 * L * L / (1440 * E * tube.Iz) + L3 / (24 * G * tube.Ay)), 1e-9));
}

TEST_CASE("what a spring at a member's end stores counts for the member, M2/2k") {
  Cantilever f;
  Actions a = f.actions();
  at(a, f.tip, ry) = 25;
  const double welded_energy = strain_energy(f.model, f.solve(a)).beams[0];
  f.model.beams[0].connection_from[4] = 4e3;
  f.model.beams[0].connection_to[5] = 0;  // a release that stores nothing
  CHECK_THAT(strain_energy(f.model, f.solve(a)).beams[0],
             WithinRel(welded_energy + 25.0 * 25 / (2 * 4e3), 1e-9));
}

TEST_CASE("half the work of the loads is the energy of tubes, links and springs together") {
  ModelBuilder b;
  const int s = b.section(tube, E, G);
  const int root = b.node(0, 0, 0), knee = b.node(0.7, 0, 0.1), tip = b.node(0.7, 0.5, 0);
  b.beam(root, knee, s);
  b.beam(knee, tip, s, 0.4);
  b.model.beams[1].connection_from[4] = 2e4;
  b.model.beams[0].joint_from = {2e-8, {3e-5, 1e-5}, 0.3, {0.05, 0.02}};
  b.model.beams[1].joint_to = {0, {4e-5, 0}, -1.1, {0.04, 0}};
  b.bar(root, tip, 3e6);
  b.bar(tip, b.node(1.5, 0.5, -0.4), 1e6);
  b.bar(knee, b.node(0, 0.4, 0.5), 1e6, true);
  b.fix(root);
  b.fix(3);
  b.fix(4);
  Actions a = b.actions();
  a.nodal.segment<6>(6 * tip) << 50, 20, -300, 7, -5, 9;
  a.nodal.segment<6>(6 * knee) << 80, -120, 30, -7, 2, 1;
  const StaticSolution r = b.solve(a);
  const StrainEnergy energy = strain_energy(b.model, r);
  CHECK_THAT(energy.total(), WithinRel(a.nodal.dot(r.displacements) / 2, 1e-10));
  for (size_t i = 0; i < b.model.bars.size(); ++i) {
    const double N = r.bar_forces[i];
    CHECK_THAT(energy.bars[i], WithinAbs(N * N / (2 * b.model.bars[i].stiffness), 1e-15));
  }
  CHECK(r.slack[2]);  // the cable is shortened and stores nothing
  CHECK(energy.bars[2] == 0);
}

// The flow of a sheet lets the force of a link along its edge grow from end to end.
TEST_CASE("half the work of the loads is the energy of a sheet and the links along its edges") {
  ModelBuilder b;
  for (const auto& [px, py] : {std::pair{0.0, 0.0}, {0.8, 0.0}, {0.8, 0.5}, {0.0, 0.5}}) {
    b.node(px, py, 0);
  }
  Panel panel;
  panel.corners = {0, 1, 2, 3};
  panel.thickness = 1e-3;
  panel.G = 26e9;
  for (int k = 0; k < 4; ++k) panel.edges[k] = {{false, b.bar(k, (k + 1) % 4, 2e6)}};
  b.model.panels.push_back(panel);
  b.hold(0, {x, y, z});
  b.hold(1, {y, z});
  b.hold(2, {z});
  b.hold(3, {z});
  Actions a = b.actions();
  at(a, 2, x) = 900;
  at(a, 3, y) = -300;
  const StaticSolution r = b.solve(a);
  const StrainEnergy energy = strain_energy(b.model, r);
  REQUIRE(energy.panels.size() == 1);
  CHECK(energy.panels[0] > 0);
  CHECK(r.bar_lines[2].norm() > 100);
  CHECK_THAT(energy.total(), WithinRel(a.nodal.dot(r.displacements) / 2, 1e-10));
}

}  // namespace tubewright::strain_energy_test
