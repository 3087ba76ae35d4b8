// Builds small models for tests in whatever consistent units a published example uses.
#pragma once

#include <map>
#include <stdexcept>
#include <string>

#include "solver/statics/statics.h"
#include "tests/catch.h"

namespace tubewright::test {

constexpr int x = 0, y = 1, z = 2, rx = 3, ry = 4, rz = 5;

/// Shear-rigid section from its properties alone.
inline Section properties(double A, double Iy, double Iz, double It) {
  Section s;
  s.A = A;
  s.Iy = Iy;
  s.Iz = Iz;
  s.It = It;
  s.Wy = s.Wz = s.Wt = 1;
  s.Ay = s.Az = rigid;
  return s;
}

class ModelBuilder {
 public:
  Model model;

  int node(double px, double py, double pz) {
    model.nodes.emplace_back(px, py, pz);
    return static_cast<int>(model.nodes.size()) - 1;
  }

  /// Sections and materials go together; the index serves both.
  int section(const Section& s, double E, double G, double density = 0) {
    model.sections.push_back(s);
    model.materials.push_back({E, G, density, 0, 0});
    return static_cast<int>(model.sections.size()) - 1;
  }

  int beam(int from, int to, int section, double roll = 0) {
    model.beams.push_back({from, to, section, section, roll, welded, welded});
    return static_cast<int>(model.beams.size()) - 1;
  }

  int bar(int from, int to, double EA, bool tension_only = false) {
    const double L = (model.nodes[to] - model.nodes[from]).norm();
    model.bars.push_back({from, to, EA / L, tension_only});
    return static_cast<int>(model.bars.size()) - 1;
  }

  void hold(int node, std::initializer_list<int> directions) {
    Support s;
    s.node = node;
    for (const int d : directions) s.restrained[d] = true;
    model.supports.push_back(s);
  }

  void fix(int node) { hold(node, {x, y, z, rx, ry, rz}); }
  void pin(int node) { hold(node, {x, y, z}); }

  /// Leaves only motions in the x-y plane.
  void keep_plane_xy() {
    for (size_t n = 0; n < model.nodes.size(); ++n) hold(static_cast<int>(n), {z, rx, ry});
  }

  /// A chain of equal beams; returns its nodes.
  std::vector<int> chain(const Eigen::Vector3d& from, const Eigen::Vector3d& to, int pieces,
                         int section) {
    std::vector<int> nodes;
    for (int i = 0; i <= pieces; ++i) {
      const Eigen::Vector3d p = from + (to - from) * i / pieces;
      nodes.push_back(node(p.x(), p.y(), p.z()));
      if (i > 0) beam(nodes[i - 1], nodes[i], section);
    }
    return nodes;
  }

  Actions actions() const { return no_actions(model); }

  StaticSolution solve(const Actions& a) const {
    const StaticResult r = solve_statics(model, {a});
    if (!r.has_value()) {
      throw std::runtime_error("the model is a mechanism");
    }
    return (*r)[0];
  }

  StaticFailure fail(const Actions& a) const {
    const StaticResult r = solve_statics(model, {a});
    REQUIRE(!r);
    return *r.error();
  }
};

inline double& at(Actions& a, int node, int direction) {
  return a.nodal[dofs_per_node * node + direction];
}

inline double moved(const StaticSolution& s, int node, int direction) {
  return s.displacements[dofs_per_node * node + direction];
}

inline double reaction(const StaticSolution& s, int node, int direction) {
  return s.reactions[dofs_per_node * node + direction];
}

}  // namespace tubewright::test
