#include "solver/statics/assembly.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>

#include "solver/elements/bar_element.h"
#include "solver/elements/beam_element.h"
#include "solver/elements/rigid_bodies.h"
#include "solver/elements/shear_panel.h"

namespace tubewright {

namespace {

Matrix12 global_beam_stiffness(const Model& model, const Beam& beam) {
  const BeamElement e = beam_element(model, beam);
  const Matrix12 R = rotation_12(e.axes);
  return R.transpose() * condense(e)->K * R;
}

/// For each master the masters of the same or a higher number that it shares an element with,
/// ascending.
std::vector<std::vector<int>> upward_neighbours(const Model& model,
                                                const std::vector<int>& masters) {
  std::vector<std::vector<int>> up(model.nodes.size());
  const auto join = [&](int from, int to) {
    const int a = masters[from], b = masters[to];
    up[a].push_back(a);
    up[b].push_back(b);
    up[std::min(a, b)].push_back(std::max(a, b));
  };
  for (const Beam& b : model.beams) join(b.from, b.to);
  for (const Bar& b : model.bars) join(b.from, b.to);
  for (const PanelGroup& group : panel_groups(model)) {
    for (const int a : group.nodes) {
      for (const int b : group.nodes) {
        if (a < b) join(a, b);
      }
    }
  }
  for (std::vector<int>& list : up) {
    std::sort(list.begin(), list.end());
    list.erase(std::unique(list.begin(), list.end()), list.end());
  }
  return up;
}

/// An all-zero lower triangle with the pattern of the node graph.
SparseMatrix empty_pattern(const FreeDofs& free, const std::vector<std::vector<int>>& up) {
  const int n = static_cast<int>(free.unknown.size());
  SparseMatrix K(n, n);
  std::vector<int> rows;
  std::vector<int> column_start(n + 1, 0);
  for (int column = 0; column < n; ++column) {
    column_start[column] = static_cast<int>(rows.size());
    for (const int node : up[free.node_of[column]]) {
      for (int d = 0; d < dofs_per_node; ++d) {
        const int row = free.number[dofs_per_node * node + d];
        if (row >= column) rows.push_back(row);
      }
    }
  }
  column_start[n] = static_cast<int>(rows.size());
  K.resizeNonZeros(static_cast<Eigen::Index>(rows.size()));
  std::copy(column_start.begin(), column_start.end(), K.outerIndexPtr());
  std::copy(rows.begin(), rows.end(), K.innerIndexPtr());
  std::fill(K.valuePtr(), K.valuePtr() + rows.size(), 0.0);
  return K;
}

}  // namespace

FreeDofs number_free_dofs(const Model& model) {
  FreeDofs free;
  free.masters = masters_of(model);
  std::vector<bool> movable(dof_count(model), false);
  const auto join = [&](int node) {
    std::fill_n(movable.begin() + dofs_per_node * free.masters[node], dofs_per_node, true);
  };
  for (const Beam& b : model.beams) {
    join(b.from);
    join(b.to);
  }
  for (const Bar& b : model.bars) {
    join(b.from);
    join(b.to);
  }
  for (const Support& s : model.supports) {
    for (int d = 0; d < dofs_per_node; ++d) {
      if (s.restrained[d]) movable[dofs_per_node * s.node + d] = false;
    }
  }
  free.number.assign(movable.size(), -1);
  for (int i = 0; i < static_cast<int>(movable.size()); ++i) {
    if (!movable[i]) continue;
    free.number[i] = static_cast<int>(free.unknown.size());
    free.unknown.push_back(i);
    free.node_of.push_back(i / dofs_per_node);
  }
  return free;
}

namespace {

void for_each_member(const Model& model, const std::vector<bool>& slack,
                     const ElementVisitor& visit) {
  for (const Beam& beam : model.beams) {
    visit(std::array{beam.from, beam.to}, global_beam_stiffness(model, beam));
  }
  for (size_t i = 0; i < model.bars.size(); ++i) {
    if (slack[i]) continue;
    const Bar& bar = model.bars[i];
    visit(std::array{bar.from, bar.to}, bar_stiffness(model, bar));
  }
}

}  // namespace

void for_each_element(const Model& model, const std::vector<bool>& slack,
                      const ElementVisitor& visit) {
  for_each_member(model, slack, visit);
  for (const PanelGroup& group : panel_groups(model)) visit(group.nodes, group_stiffness(group));
}

namespace {

/// An element whose node `a` lies at `arm` from its master, seen from the master: columns and rows
/// of the rotations take in what they do to the translations.
void refer_to_master(Eigen::MatrixXd& K, Eigen::Index a, const Eigen::Vector3d& arm) {
  for (int j = 0; j < 3; ++j) {
    const Eigen::Vector3d w = Eigen::Vector3d::Unit(j).cross(arm);
    for (int k = 0; k < 3; ++k) K.col(6 * a + 3 + j) += w[k] * K.col(6 * a + k);
  }
  for (int j = 0; j < 3; ++j) {
    const Eigen::Vector3d w = Eigen::Vector3d::Unit(j).cross(arm);
    for (int k = 0; k < 3; ++k) K.row(6 * a + 3 + j) += w[k] * K.row(6 * a + k);
  }
}

/// Hands the lower-triangle entries of a part, on the free DOFs, to `add`.
template <class Add>
void add_part(const Model& model, const FreeDofs& free, std::span<const int> nodes,
              const Eigen::Ref<const Eigen::MatrixXd>& part, const Add& add) {
  const auto add_all = [&](const Eigen::Ref<const Eigen::MatrixXd>& P) {
    const auto number = [&](Eigen::Index i) {
      const int master = free.masters[nodes[i / dofs_per_node]];
      return free.number[dofs_per_node * master + i % dofs_per_node];
    };
    for (Eigen::Index j = 0; j < P.cols(); ++j) {
      const int column = number(j);
      if (column < 0) continue;
      for (Eigen::Index i = 0; i < P.rows(); ++i) {
        const int row = number(i);
        if (row >= column) add(row, column, P(i, j));
      }
    }
  };
  const auto follows = [&](int node) { return free.masters[node] != node; };
  if (std::none_of(nodes.begin(), nodes.end(), follows)) return add_all(part);
  Eigen::MatrixXd referred = part;
  for (size_t a = 0; a < nodes.size(); ++a) {
    if (!follows(nodes[a])) continue;
    refer_to_master(referred, static_cast<Eigen::Index>(a),
                    model.nodes[nodes[a]] - model.nodes[free.masters[nodes[a]]]);
  }
  add_all(referred);
}

}  // namespace

void visit_entries(const Model& model, const FreeDofs& free, std::span<const int> nodes,
                   const Eigen::Ref<const Eigen::MatrixXd>& part,
                   const std::function<void(int row, int column, double value)>& visit) {
  add_part(model, free, nodes, part, visit);
}

SparseMatrix assemble_stiffness(const Model& model, const FreeDofs& free,
                                const std::vector<bool>& slack) {
  SparseMatrix K = empty_pattern(free, upward_neighbours(model, free.masters));
  const auto add = [&](int row, int column, double value) {
    const int* begin = K.innerIndexPtr() + K.outerIndexPtr()[column];
    const int* end = K.innerIndexPtr() + K.outerIndexPtr()[column + 1];
    K.valuePtr()[std::lower_bound(begin, end, row) - K.innerIndexPtr()] += value;
  };
  for_each_element(model, slack, [&](std::span<const int> nodes, const auto& Ke) {
    add_part(model, free, nodes, Ke, add);
  });
  return K;
}

SparseMatrix stiffness_with_flows(const Model& model, const FreeDofs& free,
                                  const std::vector<bool>& slack) {
  std::vector<Eigen::Triplet<double>> entries;
  const auto add = [&](int row, int column, double value) {
    if (value != 0) entries.emplace_back(row, column, value);
  };
  for_each_member(model, slack, [&](std::span<const int> nodes, const auto& Ke) {
    add_part(model, free, nodes, Ke, add);
  });
  const auto dofs = static_cast<int>(free.unknown.size());
  int first = dofs;  // flow of the group
  Eigen::VectorXd forces(dof_count(model));
  for (const PanelGroup& group : panel_groups(model)) {
    const auto flows = static_cast<int>(group.panels.size());
    for (int p = 0; p < flows; ++p) {
      forces.setZero();
      for (size_t a = 0; a < group.nodes.size(); ++a) {
        forces.segment<6>(dofs_per_node * group.nodes[a]) =
            group.B.block<6, 1>(dofs_per_node * static_cast<Eigen::Index>(a), p);
      }
      gather_on_masters(model, free.masters, forces);
      for (int i = 0; i < dofs; ++i) add(first + p, i, forces[free.unknown[i]]);
      for (int q = 0; q <= p; ++q) add(first + p, first + q, -group.F(p, q));
    }
    first += flows;
  }
  SparseMatrix sum(first, first);
  sum.setFromTriplets(entries.begin(), entries.end());
  return sum;
}

SparseMatrix assemble_parts(const Model& model, const FreeDofs& free,
                            const std::function<void(const ElementVisitor&)>& each) {
  std::vector<Eigen::Triplet<double>> entries;
  each([&](std::span<const int> nodes, const auto& part) {
    add_part(model, free, nodes, part,
             [&](int row, int column, double value) { entries.emplace_back(row, column, value); });
  });
  const auto n = static_cast<Eigen::Index>(free.unknown.size());
  SparseMatrix sum(n, n);
  sum.setFromTriplets(entries.begin(), entries.end());
  return sum;
}

void add_product(std::span<const int> nodes, const Eigen::Ref<const Eigen::MatrixXd>& part,
                 const Eigen::VectorXd& u, Eigen::VectorXd& f) {
  for (size_t a = 0; a < nodes.size(); ++a) {
    for (size_t b = 0; b < nodes.size(); ++b) {
      f.segment<6>(dofs_per_node * nodes[a]) +=
          part.block<6, 6>(static_cast<Eigen::Index>(6 * a), static_cast<Eigen::Index>(6 * b)) *
          u.segment<6>(dofs_per_node * nodes[b]);
    }
  }
}

Eigen::VectorXd apply_stiffness(const Model& model, const std::vector<bool>& slack,
                                const Eigen::VectorXd& u) {
  Eigen::VectorXd f = Eigen::VectorXd::Zero(u.size());
  for_each_element(model, slack,
                   [&](std::span<const int> nodes, const auto& K) { add_product(nodes, K, u, f); });
  return f;
}

Actions with_tension_fields(const Model& model, const Actions& actions) {
  Actions all = actions;
  for (size_t p = 0; p < model.panels.size(); ++p) {
    if (actions.tension_fields[p] == 0) continue;
    add_edge_loads(model, edge_loads(model, model.panels[p], 0, actions.tension_fields[p]),
                   all.beams, all.nodal);
  }
  return all;
}

Eigen::MatrixXd joint_loads(const Model& model, std::span<const Actions> cases) {
  const auto count = static_cast<Eigen::Index>(cases.size());
  std::vector<Actions> all;
  Eigen::MatrixXd f(dof_count(model), count);
  for (const Actions& actions : cases) all.push_back(with_tension_fields(model, actions));
  for (Eigen::Index c = 0; c < count; ++c) f.col(c) = all[static_cast<size_t>(c)].nodal;
  for (size_t i = 0; i < model.beams.size(); ++i) {
    const bool loaded =
        std::any_of(all.begin(), all.end(), [&](const Actions& a) { return !a.beams[i].empty(); });
    if (!loaded) continue;
    const Beam& beam = model.beams[i];
    const BeamElement e = beam_element(model, beam);
    const Matrix12 to_joints =
        rotation_12(e.axes).transpose() * condense(e)->from_joint.transpose();
    for (Eigen::Index c = 0; c < count; ++c) {
      const BeamActions& actions = all[static_cast<size_t>(c)].beams[i];
      if (actions.empty()) continue;
      const Vector12 global = to_joints * local_equivalent_loads(e, actions);
      f.col(c).segment<6>(dofs_per_node * beam.from) += global.head<6>();
      f.col(c).segment<6>(dofs_per_node * beam.to) += global.tail<6>();
    }
  }
  for (const PanelGroup& group : panel_groups(model)) {
    for (Eigen::Index c = 0; c < count; ++c) {
      Eigen::VectorXd one = f.col(c);
      add_misfit_loads(group, group_misfit(model, group, all[static_cast<size_t>(c)].beams), one);
      f.col(c) = one;
    }
  }
  return f;
}

Eigen::VectorXd joint_loads(const Model& model, const Actions& actions) {
  return joint_loads(model, std::span(&actions, 1));
}

}  // namespace tubewright
