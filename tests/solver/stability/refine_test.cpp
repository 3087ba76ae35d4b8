// A model with its beams cut into pieces: the same places, the same answer at the joints and inside
// the members (exact elements: cutting changes nothing), the same resultants.
#include "solver/stability/refine.h"

#include <algorithm>

#include "solver/model/section_shapes.h"
#include "tests/solver/model_builder.h"

namespace tubewright::refine_test {

using namespace tubewright::test;

namespace {

/// A bent cantilever propped by a link, one member hinged and sprung, loads of every kind.
struct Bent : ModelBuilder {
  Actions loads;

  Bent() {
    const int s =
        section(hollow_rectangle(0.04, 0.03, 0.002, cold_formed_corners(0.002), 0.3), 210e9, 81e9);
    const int root = node(0, 0, 0), knee = node(0.7, 0.1, 0), tip = node(0.7, 0.5, 0.3);
    beam(root, knee, s, 0.3);
    beam(knee, tip, s);
    model.beams[1].connection_from[4] = 2e3;
    model.beams[1].connection_to[5] = 0;
    model.beams[0].joint_to = {1e-8, {2e-5, 5e-5}, 0.4, {0.03, 0.01}};
    bar(node(1.4, 0.3, 0), tip, 3e6);
    fix(root);
    fix(3);
    hold(tip, {rz});
    loads = actions();
    at(loads, tip, z) = -300;
    loads.beams[0] = {{10, -20, 300}, {{0.6, {50, 60, 7}, {1, 2, 3}}}, {4, -5, 6}};
    loads.beams[1] = {
        {-200, 0, -150}, {{0, {5, 0, 9}, {0, 0, 0}}, {1, {9, 9, 9}, {0, 1, 0}}}, {0, 0, 2}};
  }
};

}  // namespace

TEST_CASE("the pieces of a beam lie end to end in equal lengths and keep its ends") {
  const Bent f;
  const RefinedModel fine = refine(f.model, 4);
  REQUIRE(fine.model.beams.size() == 8);
  REQUIRE(fine.model.nodes.size() == 4 + 2 * 3);
  for (size_t b = 0; b < 2; ++b) {
    const Beam& whole = f.model.beams[b];
    const std::vector<int>&pieces = fine.pieces[b], &nodes = fine.nodes[b];
    REQUIRE(pieces.size() == 4);
    REQUIRE(nodes.size() == 5);
    CHECK(nodes.front() == whole.from);
    CHECK(nodes.back() == whole.to);
    const Eigen::Vector3d from = f.model.nodes[whole.from], to = f.model.nodes[whole.to];
    for (size_t i = 0; i < 4; ++i) {
      const Beam& piece = fine.model.beams[pieces[i]];
      CHECK(piece.from == nodes[i]);
      CHECK(piece.to == nodes[i + 1]);
      CHECK(piece.roll == whole.roll);
      CHECK((fine.model.nodes[nodes[i]] - from - (to - from) * i / 4.0).norm() < 1e-15);
      CHECK(piece.connection_from == (i == 0 ? whole.connection_from : welded));
      CHECK(piece.connection_to == (i == 3 ? whole.connection_to : welded));
    }
  }
  CHECK(fine.model.bars.size() == 1);
  CHECK(refine(f.model, 1).model.nodes.size() == f.model.nodes.size());
}

TEST_CASE("pieces answer like the whole, at the joints and inside, loads at their borders too") {
  const Bent f;
  const int pieces = GENERATE(1, 2, 5, 10);  // at 5 and 10 the load at 0.6 falls on a border
  const RefinedModel fine = refine(f.model, pieces);
  ModelBuilder cut;
  cut.model = fine.model;
  const StaticSolution a = f.solve(f.loads), b = cut.solve(refine_actions(fine, f.loads));
  CHECK((a.displacements - b.displacements.head(24)).norm() < 1e-9 * a.displacements.norm());
  CHECK((a.reactions - b.reactions.head(24)).norm() < 1e-8 * a.reactions.norm());
  for (size_t beam = 0; beam < 2; ++beam) {
    for (int i = 1; i < pieces; ++i) {
      const Eigen::Vector3d inside =
          beam_displacement(a.beams[beam], static_cast<double>(i) / pieces).displacement;
      const int n = fine.nodes[beam][static_cast<size_t>(i)];
      CHECK((inside - b.displacements.segment<3>(6 * n)).norm() < 1e-9 * a.displacements.norm());
    }
  }
}

TEST_CASE("each piece takes the axial force at its ends") {
  const Bent f;
  constexpr int pieces = 6;
  const RefinedModel fine = refine(f.model, pieces);
  const StaticSolution coarse = f.solve(f.loads);
  const AxialForces N = refine_axial_forces(fine, coarse);
  ModelBuilder cut;
  cut.model = fine.model;
  const StaticSolution b = cut.solve(refine_actions(fine, f.loads));
  REQUIRE(N.beams.size() == fine.model.beams.size());
  for (const int piece : fine.pieces[1]) {  // no point action inside
    const double mean =
        (section_forces(b.beams[piece], 0).N + section_forces(b.beams[piece], 1, true).N) / 2;
    CHECK_THAT(N.beams[piece], WithinRel(mean, 1e-8));
    const double growth =
        section_forces(b.beams[piece], 1, true).N - section_forces(b.beams[piece], 0).N;
    CHECK_THAT(N.growth[piece], WithinAbs(growth, 1e-8 * (1 + std::abs(mean))));
  }
  CHECK(N.bars == coarse.bar_forces);
  CHECK(N.slack == coarse.slack);
}

TEST_CASE("the edges of a sheet run along the pieces, end to end as before") {
  Bent f;
  Panel panel;
  panel.edges[0] = {{true, 1}, {false, 0}, {true, 0}};
  f.model.panels.push_back(panel);
  const RefinedModel fine = refine(f.model, 3);
  std::vector<EdgePiece> expected;
  for (const int piece : fine.pieces[1]) expected.push_back({true, piece});
  expected.push_back({false, 0});
  for (const int piece : fine.pieces[0]) expected.push_back({true, piece});
  CHECK(fine.model.panels[0].edges[0] == expected);
  CHECK(fine.model.panels[0].edges[1].empty());
  Actions a = f.actions();
  a.tension_fields = {7};
  CHECK(refine_actions(fine, a).tension_fields == std::vector<double>{7});
}

}  // namespace tubewright::refine_test
