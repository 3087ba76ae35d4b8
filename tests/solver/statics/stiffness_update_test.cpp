#include "solver/statics/stiffness_update.h"

#include <algorithm>
#include <random>
#include <set>

#include "solver/model/section_shapes.h"
#include "tests/solver/statics/ten_bars.h"
#include "tests/truth.h"

namespace tubewright::stiffness_update_tests {

using namespace tubewright::test;

namespace {

Section tube_of(double side, double wall) {
  return hollow_rectangle(side, side, wall, cold_formed_corners(wall), 0.3);
}

/// A box of beams, links, springs at ends, a sheet and a rigid body, drawn at random.
struct RandomBox : ModelBuilder {
  Actions loads;

  explicit RandomBox(std::mt19937& random) {
    std::uniform_real_distribution<double> u(-1, 1);
    const int tube = section(tube_of(0.03, 0.002), 210e9, 81e9);
    section(tube_of(0.04, 0.0015), 210e9, 81e9);
    for (int i = 0; i < 12; ++i) {
      const int layer = i / 4, row = i / 2 % 2;
      node(0.6 * layer + 0.1 * u(random), 0.4 * row, 0.3 * (i % 2));
    }
    // The lower bay between nodes 0, 2, 6, 4 stays flat for its sheet.
    for (const int n : {0, 2, 4, 6}) model.nodes[static_cast<size_t>(n)].z() = 0;
    for (const auto& [a, b] : {std::pair{0, 2}, {2, 6}, {6, 4}, {4, 0}}) beam(a, b, tube);
    for (int a = 0; a < 12; ++a) {
      for (int b = a + 1; b < std::min(12, a + 6); ++b) {
        const bool edge = std::pair(a, b) == std::pair(0, 2) ||
                          std::pair(a, b) == std::pair(2, 6) ||
                          std::pair(a, b) == std::pair(4, 6) || std::pair(a, b) == std::pair(0, 4);
        const double choice = u(random);
        if (edge || choice < -0.4) continue;
        if (choice < -0.2) {
          bar(a, b, 3e7);
          continue;
        }
        const int m = beam(a, b, tube, u(random));
        Beam& added = model.beams[static_cast<size_t>(m)];
        if (choice > 0.6) added.connection_from = {rigid, rigid, rigid, rigid, 0, 200};
        if (choice > 0.8) added.connection_to = {rigid, 1e6, rigid, 0, rigid, rigid};
        if (choice < 0.2) added.joint_from = {1e-9, {1e-5, 3e-5}, 0.4, {0.01, 0.02}};
      }
    }
    Panel sheet;
    sheet.corners = {0, 2, 6, 4};
    for (int k = 0; k < 4; ++k) sheet.edges[static_cast<size_t>(k)] = {{true, k}};
    sheet.thickness = 0.0012;
    sheet.G = 26e9;
    model.panels.push_back(sheet);
    model.bodies.push_back({{9, 11}});
    for (const int n : {0, 4, 8}) fix(n);
    loads = actions();
    for (const int n : {1, 3, 5, 7, 10}) {
      for (int d = 0; d < 6; ++d)
        loads.nodal[dofs_per_node * n + d] = (d < 3 ? 100 : 10) * u(random);
    }
    for (BeamActions& b : loads.beams) b.line = {0, 10 * u(random), -20};
  }

  /// Loads for a model with a beam more or less.
  Actions loads_for(const Model& changed) const {
    Actions a = loads;
    a.beams.resize(changed.beams.size());
    return a;
  }
};

double largest_difference(const StaticSolution& a, const StaticSolution& b) {
  return (a.displacements - b.displacements).lpNorm<Eigen::Infinity>() /
         b.displacements.lpNorm<Eigen::Infinity>();
}

}  // namespace

TEST_CASE("a changed model solved from another's stiffness agrees with itself solved afresh") {
  std::mt19937 random(17);
  int updated = 0, refused = 0;
  for (int draw = 0; draw < 60; ++draw) {
    const RandomBox box(random);
    BaseStiffnesses bases;
    bases.add(box.model);
    std::uniform_int_distribution<size_t> any(4, box.model.beams.size() - 1);
    std::vector<Model> changes(6, box.model);
    changes[0].beams[any(random)].section = 1;
    changes[1].beams.erase(changes[1].beams.begin() + static_cast<std::ptrdiff_t>(any(random)));
    changes[2].beams[any(random)].connection_to = {0, 0, 0, 0, 0, 0};
    changes[3].beams.push_back({1, 6, 1, 1, 0.3, welded, welded});
    changes[4].panels.clear();
    changes[5].beams[any(random)].joint_to = {2e-9, {5e-5, 1e-5}, 0, {0.02, 0.02}};
    if (!box.model.bars.empty()) {
      changes.push_back(box.model);
      changes.back().bars.front().stiffness *= 0.2;
    }
    for (const Model& changed : changes) {
      const bool loose = std::any_of(changed.beams.begin(), changed.beams.end(), [](const Beam& b) {
        return loose_direction(b.connection_from, b.connection_to) >= 0;
      });
      if (loose) continue;
      const Actions loads = box.loads_for(changed);
      const StaticResult fresh = solve_statics(changed, {loads});
      const StaticResult from_base = solve_statics(changed, {loads}, &bases);
      REQUIRE(static_cast<bool>(fresh) == static_cast<bool>(from_base));
      if (!fresh) {
        ++refused;
        continue;
      }
      // Next to a mechanism neither answer has nine digits.
      if (fresh->front().displacements.lpNorm<Eigen::Infinity>() > 1) continue;
      ++updated;
      CHECK(largest_difference(from_base->front(), fresh->front()) < 1e-9);
    }
  }
  CHECK(updated > 250);
}

TEST_CASE("an update is of rank six for a welded tube, of one for a bar, of none for no change") {
  std::mt19937 random(5);
  const RandomBox box(random);
  const BaseStiffness base(box.model);
  REQUIRE(base.sound());
  const auto update_to = [&](const Model& changed) {
    SparseMatrix K =
        assemble_stiffness(changed, base.free(), std::vector<bool>(changed.bars.size(), false));
    return StiffnessUpdate::between(base, K);
  };
  CHECK(update_to(box.model)->rank() == 0);
  CHECK(update_to(box.model)->share_left() == 1);
  Model more = box.model;
  more.beams.push_back({1, 6, 1, 1, 0.3, welded, welded});
  CHECK(update_to(more)->rank() == 6);
  CHECK(update_to(more)->share_left() == 1);
  Model link = box.model;
  link.bars.push_back({1, 6, 1e7, false});
  CHECK(update_to(link)->rank() == 1);
}

TEST_CASE("what is left of two springs side by side is the other's share") {
  ModelBuilder f;
  const int a = f.node(0, 0, 0), b = f.node(1, 0, 0);
  f.bar(a, b, 3e6);
  f.bar(a, b, 1e6);
  f.fix(a);
  f.hold(b, {y, z});
  const BaseStiffness base(f.model);
  Model less = f.model;
  less.bars.erase(less.bars.begin());
  const auto update = StiffnessUpdate::between(base, [&] {
    SparseMatrix K = assemble_stiffness(less, base.free(), {false});
    for (int i = 1; i < K.rows(); ++i) K.coeffRef(i, i) = base.K().coeff(i, i);
    return K;
  }());
  REQUIRE(update);
  CHECK_THAT(update->share_left(), WithinRel(0.25, 1e-12));
}

TEST_CASE("a spring put under the tip of a cantilever leaves d/(1 + k d/P) of its sag", "[truth]") {
  ModelBuilder f;
  const int s = f.section(tube_of(0.03, 0.002), 210e9, 81e9);
  const int foot = f.node(0, 0, 0), tip = f.node(0.8, 0, 0), ground = f.node(0.8, 0, -1);
  f.beam(foot, tip, s);
  f.bar(tip, ground, 1);  // next to nothing: the DOFs are there
  f.fix(foot);
  f.fix(ground);
  Actions loads = f.actions();
  loads.nodal[dofs_per_node * tip + 2] = -50;
  const double d = -solve_statics(f.model, {loads})->front().displacements[dofs_per_node * tip + 2];
  BaseStiffnesses bases;
  bases.add(f.model);
  Model sprung = f.model;
  sprung.bars.front().stiffness += 4000;
  const double less =
      -solve_statics(sprung, {loads}, &bases)->front().displacements[dofs_per_node * tip + 2];
  truth("cantilever with a spring under its tip: sag, m",
        rederived("d' = d/(1 + k d/P), statics of two springs"), less,
        within_rel(d / (1 + 4000 * d / 50), 1e-10));
}

TEST_CASE("ten bars with one of them gone sag as an independent truss solver says", "[truth]") {
  constexpr Source solver = rederived("an independent truss solver, units inch and pound");
  const TenBars truss;
  BaseStiffnesses bases;
  bases.add(truss.model);
  // Bar gone, sag of node 2 in inches. Without 2 nothing changes that is not also without 6 or 10.
  constexpr std::pair<int, double> losses[] = {
      {1, -17.653280}, {2, -2.016546}, {3, -9.985067}, {4, -13.306072}, {5, -1.924862},
      {6, -2.016546},  {7, -2.486545}, {8, -5.912672}, {9, -13.306072}, {10, -2.016546}};
  for (const auto& [gone, sag] : losses) {
    Model less = truss.model;
    less.bars.erase(less.bars.begin() + gone - 1);
    const StaticResult solved = solve_statics(less, {truss.loads}, &bases);
    REQUIRE(solved);
    truth("ten bars without bar " + std::to_string(gone) + ": u_y of node 2, in", solver,
          solved->front().displacements[dofs_per_node * 1 + 1], within_rel(sag, 1e-6));
  }
}

TEST_CASE("two bars whose loss makes a mechanism are named as a mechanism, not answered",
          "[truth]") {
  // Pairs of the ten, by the same solver: 16 of 45.
  const std::set<std::pair<int, int>> mechanisms = {
      {1, 3}, {1, 7}, {1, 8}, {2, 4},  {2, 6}, {2, 9},  {2, 10}, {3, 7},
      {3, 8}, {4, 6}, {4, 9}, {4, 10}, {6, 9}, {6, 10}, {7, 8},  {9, 10}};
  const TenBars truss;
  BaseStiffnesses bases;
  bases.add(truss.model);
  int found = 0;
  for (int i = 1; i <= 10; ++i) {
    for (int j = i + 1; j <= 10; ++j) {
      Model less = truss.model;
      less.bars.erase(less.bars.begin() + j - 1);
      less.bars.erase(less.bars.begin() + i - 1);
      const StaticResult solved = solve_statics(less, {truss.loads}, &bases);
      INFO("without " << i << " and " << j);
      CHECK(!solved == mechanisms.contains({i, j}));
      if (solved) continue;
      CHECK(solved.error()->why == StaticFailure::Why::mechanism);
      ++found;
    }
  }
  truth("ten bars: pairs whose loss makes a mechanism", rederived("an independent truss solver"),
        found, within_abs(16, 0));
}

}  // namespace tubewright::stiffness_update_tests
