#include "solver/statics/determinate_restraint.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <random>

#include "solver/model/section_shapes.h"
#include "tests/solver/model_builder.h"

namespace tubewright::determinate_restraint_test {

using namespace tubewright::test;

namespace {

const Section tube = hollow_rectangle(0.025, 0.025, 0.002, cold_formed_corners(0.002), 0.3);

/// A box with some diagonals; free in space.
ModelBuilder box() {
  ModelBuilder f;
  const int s = f.section(tube, 210e9, 81e9);
  std::vector<int> n;
  for (const double px : {0.0, 0.9}) {
    for (const double py : {0.0, 0.5}) {
      for (const double pz : {0.0, 0.4}) n.push_back(f.node(px, py, pz));
    }
  }
  for (const auto& [a, b] : {std::pair{0, 1},
                             {2, 3},
                             {4, 5},
                             {6, 7},
                             {0, 2},
                             {1, 3},
                             {4, 6},
                             {5, 7},
                             {0, 4},
                             {1, 5},
                             {2, 6},
                             {3, 7},
                             {0, 3},
                             {0, 5},
                             {2, 7}}) {
    f.beam(n[static_cast<size_t>(a)], n[static_cast<size_t>(b)], s);
  }
  return f;
}

/// Random nodal loads whose resultant force and moment vanish.
Actions balanced_loads(const ModelBuilder& f) {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> value(-100, 100);
  Actions a = f.actions();
  Eigen::Vector3d force(0, 0, 0), moment(0, 0, 0);
  for (size_t n = 0; n < f.model.nodes.size(); ++n) {
    for (int d = 0; d < 6; ++d) a.nodal[static_cast<Eigen::Index>(6 * n) + d] = value(random);
    const Eigen::Vector3d F = a.nodal.segment<3>(static_cast<Eigen::Index>(6 * n));
    force += F;
    moment += a.nodal.segment<3>(static_cast<Eigen::Index>(6 * n) + 3) + f.model.nodes[n].cross(F);
  }
  a.nodal.segment<3>(0) -= force;
  a.nodal.segment<3>(3) -= moment - f.model.nodes[0].cross(force);
  return a;
}

int held_count(const std::vector<Support>& supports) {
  int count = 0;
  for (const Support& s : supports)
    count += std::count(s.restrained.begin(), s.restrained.end(), true);
  return count;
}

}  // namespace

TEST_CASE("six translations hold a free frame, and balanced loads leave them idle") {
  ModelBuilder f = box();
  f.model.supports = determinate_restraint(f.model);
  CHECK(held_count(f.model.supports) == 6);
  const StaticSolution s = f.solve(balanced_loads(f));
  CHECK(s.reactions.lpNorm<Eigen::Infinity>() < 1e-9);
  CHECK(s.displacements.norm() > 0);
}

TEST_CASE("member forces do not depend on where a free frame is held") {
  ModelBuilder f = box(), g = box();
  const Actions a = balanced_loads(f);
  f.model.supports = determinate_restraint(f.model);
  std::vector<int> used;
  for (const Support& s : f.model.supports) used.push_back(s.node);
  g.model.supports = determinate_restraint(g.model, used);
  CHECK(held_count(g.model.supports) == 6);
  const StaticSolution one = f.solve(a), other = g.solve(a);
  for (size_t b = 0; b < one.beams.size(); ++b) {
    CHECK((one.beams[b].end_forces - other.beams[b].end_forces).norm() <
          1e-9 * one.beams[b].end_forces.norm());
  }
}

TEST_CASE("nodes in a row cannot be kept from spinning about their line") {
  ModelBuilder f;
  f.chain({0, 0, 0}, {1, 0.2, 0.3}, 4, f.section(tube, 210e9, 81e9));
  CHECK(held_count(determinate_restraint(f.model)) == 5);
}

TEST_CASE("a rigid motion moves a solution without loading it") {
  ModelBuilder f = box();
  f.model.supports = determinate_restraint(f.model);
  const StaticSolution before = f.solve(balanced_loads(f));
  StaticSolution after = before;
  const Eigen::Vector3d centre(0.3, 0.1, 0.2), t(1e-3, -2e-3, 3e-3), w(2e-3, 1e-3, -1e-3);
  move_rigidly(f.model, centre, t, w, after);
  for (size_t n = 0; n < f.model.nodes.size(); ++n) {
    const auto i = static_cast<Eigen::Index>(6 * n);
    const Eigen::Vector3d moved = t + w.cross(f.model.nodes[n] - centre);
    CHECK((after.displacements.segment<3>(i) - before.displacements.segment<3>(i) - moved).norm() <
          1e-15);
  }
  for (size_t b = 0; b < after.beams.size(); ++b) {
    const BeamState& s = after.beams[b];
    const Vector12 forces = local_stiffness(s.element) * s.end_displacements;
    CHECK((forces - before.beams[b].end_forces).norm() < 1e-6 * before.beams[b].end_forces.norm());
  }
}

}  // namespace tubewright::determinate_restraint_test
