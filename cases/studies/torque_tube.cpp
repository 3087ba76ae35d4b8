#include "cases/studies/torque_tube.h"

#include <Eigen/Geometry>
#include <array>
#include <cmath>
#include <limits>

#include "cases/frame/wording.h"
#include "cases/joint_stiffness/joint_springs.h"
#include "solver/elements/shear_panel.h"
#include "solver/linear_algebra/dense.h"
#include "solver/statics/determinate_restraint.h"
#include "solver/statics/statics.h"

namespace tubewright {

namespace {

Diagnostic no_torque_tube(const std::string& panel, double gain) {
  return {"panel " + quoted(panel) + " closes no torque tube",
          "it makes the frame " + decimals(gain, 2) +
              " times as stiff in twist there: a sheet pays in torsion where it is the "
              "only open side of a box whose other sides are braced or clad"};
}

/// Forces across a panel at its corners, in balance: the one way to twist four points of a plane.
/// A234 P1 - A134 P2 + A124 P3 - A123 P4 = 0, and the factors sum to zero.
std::array<Eigen::Vector3d, 4> twisting_forces(const Model& model, const Panel& panel) {
  const Eigen::Vector3d normal = panel_geometry(model, panel).normal;
  const auto area = [&](int i, int j, int k) {
    const Eigen::Vector3d &a = model.nodes[panel.corners[i]], &b = model.nodes[panel.corners[j]],
                          &c = model.nodes[panel.corners[k]];
    return (b - a).cross(c - a).dot(normal) / 2;
  };
  const std::array<double, 4> share = {area(1, 2, 3), -area(0, 2, 3), area(0, 1, 3),
                                       -area(0, 1, 2)};
  std::array<Eigen::Vector3d, 4> forces;
  for (int k = 0; k < 4; ++k) forces[k] = share[k] / share[0] * normal;
  return forces;
}

}  // namespace

// Taking a panel away is the same as giving it a misfit e in shear that brings its flow to zero.
// With K = B F^-1 B' + ..., a unit misfit loads the frame with the column of B F^-1 and the panels
// then carry F^-1 (B'u - e).
std::vector<double> twist_gain_of_panels(const Model& model) {
  Model free = model;
  free.supports = determinate_restraint(model);
  std::vector<Actions> cases(2 * model.panels.size(), no_actions(free));  // twist, misfit
  std::vector<double> own_stiffness(model.panels.size());
  for (const PanelGroup& group : panel_groups(free)) {
    const Eigen::MatrixXd identity = Eigen::MatrixXd::Identity(group.F.rows(), group.F.cols());
    const Eigen::MatrixXd inverse = solve_symmetric(group.F, identity);
    const Eigen::MatrixXd loads = group.B * inverse;
    for (size_t i = 0; i < group.panels.size(); ++i) {
      const int p = group.panels[i];
      const auto column = static_cast<Eigen::Index>(i);
      own_stiffness[p] = inverse(column, column);
      for (size_t n = 0; n < group.nodes.size(); ++n) {
        cases[2 * p + 1].nodal.segment<6>(dofs_per_node * group.nodes[n]) =
            loads.col(column).segment<6>(dofs_per_node * static_cast<Eigen::Index>(n));
      }
    }
  }
  for (size_t p = 0; p < model.panels.size(); ++p) {
    const auto forces = twisting_forces(free, free.panels[p]);
    for (int k = 0; k < 4; ++k) {
      cases[2 * p].nodal.segment<3>(dofs_per_node * free.panels[p].corners[k]) += forces[k];
    }
  }
  const StaticResult solved = solve_statics(free, cases);
  if (!solved) return {};
  const auto& solutions = *solved;
  std::vector<double> gains;
  for (size_t p = 0; p < model.panels.size(); ++p) {
    const Eigen::VectorXd& load = cases[2 * p].nodal;
    const double with = load.dot(solutions[2 * p].displacements);
    const double relief = load.dot(solutions[2 * p + 1].displacements);
    const double flow = solutions[2 * p].panel_flows[p];
    const double flow_of_misfit = solutions[2 * p + 1].panel_flows[p] - own_stiffness[p];
    const bool loose_without = std::abs(flow_of_misfit) <= 1e-9 * own_stiffness[p];
    const double without = with - flow / flow_of_misfit * relief;
    gains.push_back(loose_without ? std::numeric_limits<double>::infinity() : without / with);
  }
  return gains;
}

Diagnostics idle_panels(const Frame& frame) {
  Diagnostics diagnostics;
  if (frame.panels.empty()) return diagnostics;
  const std::vector<double> gains = twist_gain_of_panels(jointed_model(frame).model);
  for (size_t p = 0; p < gains.size(); ++p) {
    if (!(gains[p] < least_twist_gain)) continue;
    add_warning(diagnostics, frame.panels[p].place, no_torque_tube(frame.panels[p].name, gains[p]));
  }
  return diagnostics;
}

}  // namespace tubewright
