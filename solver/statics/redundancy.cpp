#include "solver/statics/redundancy.h"

#include <algorithm>
#include <map>
#include <numeric>

#include "solver/elements/bar_element.h"
#include "solver/elements/beam_element.h"
#include "solver/elements/rigid_bodies.h"
#include "solver/elements/shear_panel.h"
#include "solver/linear_algebra/dense.h"

namespace tubewright {

namespace {

/// Of the greatest: eigenvalues of an element's stiffness, rotations scaled by its length, below
/// are rounding. A wire of 1 mm across 1 m bends by 1e-7 of its axial stiffness.
constexpr double resists_not = 1e-11;

/// Number of ways in which the element resists: six less its releases.
int rank_of(Matrix12 K, double length) {
  for (const int a : {0, 1}) {
    K.middleRows<3>(dofs_per_node * a + 3) /= length;
    K.middleCols<3>(dofs_per_node * a + 3) /= length;
  }
  const EigenSystem own = symmetric_eigensystem(Eigen::MatrixXd(K));
  const double least = resists_not * own.values.maxCoeff();
  return static_cast<int>((own.values.array() > least).count());
}

/// tr(K^-1 P) of a part of the stiffness, given by its nodes and its matrix there.
double share_of(const Model& model, const BaseStiffness& base, std::span<const int> nodes,
                const Eigen::MatrixXd& part) {
  struct Entry {
    int row, column;
    double value;
  };
  std::vector<Entry> entries;
  std::map<int, int> place;  // of each column of the inverse that is asked for
  visit_entries(model, base.free(), nodes, part, [&](int row, int column, double value) {
    entries.push_back({row, column, value});
    place.emplace(column, 0);
  });
  std::vector<int> columns;
  for (auto& [column, at] : place) {
    at = static_cast<int>(columns.size());
    columns.push_back(column);
  }
  const Eigen::MatrixXd inverse = base.inverse_columns(columns);
  double sum = 0;
  for (const Entry& e : entries) {
    sum += (e.row == e.column ? 1 : 2) * e.value * inverse(e.row, place.at(e.column));
  }
  return sum;
}

/// Of the flows of a group of panels: 1 - diag(F^-1 B' K^-1 B).
void add_group(const Model& model, const BaseStiffness& base, const PanelGroup& group,
               std::vector<double>& panels) {
  const FreeDofs& free = base.free();
  const auto flows = static_cast<Eigen::Index>(group.panels.size());
  Eigen::MatrixXd forces(static_cast<Eigen::Index>(free.unknown.size()), flows);
  for (Eigen::Index p = 0; p < flows; ++p) {
    Eigen::VectorXd all = Eigen::VectorXd::Zero(dof_count(model));
    for (size_t a = 0; a < group.nodes.size(); ++a) {
      all.segment<6>(dofs_per_node * group.nodes[a]) +=
          group.B.block<6, 1>(dofs_per_node * static_cast<Eigen::Index>(a), p);
    }
    gather_on_masters(model, free.masters, all);
    forces.col(p) = all(free.unknown);
  }
  const Eigen::MatrixXd shares =
      solve_symmetric(group.F, Eigen::MatrixXd(forces.transpose() * base.solve(forces)));
  for (Eigen::Index p = 0; p < flows; ++p) {
    panels[static_cast<size_t>(group.panels[static_cast<size_t>(p)])] = 1 - shares(p, p);
  }
}

}  // namespace

Redundancies redundancies(const Model& model, const BaseStiffness& base) {
  Redundancies found;
  for (const Beam& beam : model.beams) {
    const BeamElement e = beam_element(model, beam);
    const Matrix12 R = rotation_12(e.axes), local = condense(e)->K;
    found.beams.push_back(rank_of(local, e.L) - share_of(model, base,
                                                         std::array{beam.from, beam.to},
                                                         R.transpose() * local * R));
  }
  for (const Bar& bar : model.bars) {
    found.bars.push_back(
        1 - share_of(model, base, std::array{bar.from, bar.to}, bar_stiffness(model, bar)));
  }
  found.panels.assign(model.panels.size(), 0);
  for (const PanelGroup& group : panel_groups(model)) add_group(model, base, group, found.panels);
  for (const auto* list : {&found.beams, &found.bars, &found.panels}) {
    found.sum = std::accumulate(list->begin(), list->end(), found.sum);
  }
  return found;
}

}  // namespace tubewright
