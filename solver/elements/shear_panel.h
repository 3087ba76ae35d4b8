// The shear panel: a flat four-sided sheet joined to the members round it, carrying shear only.
//
// One generalised flow q0 a panel. Statics alone fix the flow along each edge (S. J. Garvey, "The
// quadrilateral shear panel", Aircraft Engineering 23, 1951; from memory, re-derived):
//   q_k = r_k q0,  r ~ A134 A234 : A134 A124 : A123 A124 : A123 A234,  geometric mean of r = 1,
// A_ijk the corners' triangles. The sheet pushes its edges with uniform line loads s_k r_k q0,
// s = + - + -: a system in equilibrium with itself, which gives the element its one vector b.
//
// Flexibility, by complementary energy with this flow, hence a lower bound of stiffness:
//   F_jl = delta_jl (A / (G t) + sum_k r_k^2 L_k / kappa_k) + sum over shared members f(load_j,
//   load_l)
// with f what the held member itself gives way under the panels' line loads (r^2 L^3 / (12 E A) for
// one straight tube). Panels that share members are coupled: K = B F^-1 B^T. Loads of other origin
// along those members act on the panels too: g_j = sum f(load_j, others), q0 = F^-1 (B^T u - g).
//
// Where a sheet goes on over a member, one row joins it there and takes the difference of the flows
// on its two sides: with p the flows along the member, its energy is
//   L / (2 kappa) (p_j^2 + p_l^2 + 2 c p_j p_l),
// c (`carry_over`) = 1 for rivets, whose p_j + p_l is what they take. Both diagonal terms are those
// of panels apart; F_jl gets c p_j p_l L / kappa. F stays positive definite since c <= 1.
//
// Sheet and members must be in one plane within a little; the sheet may lie off the members' axes
// by `offset`, which puts the couple q x offset along them.
#pragma once

#include <Eigen/Core>
#include <array>
#include <span>
#include <vector>

#include "solver/model/actions.h"
#include "solver/model/model.h"

namespace tubewright {

/// A panel projected on its mean plane.
struct PanelGeometry {
  double area = 0;
  Eigen::Vector3d normal = Eigen::Vector3d::Zero();  ///< unit vector, right hand round the corners
  std::array<Eigen::Vector3d, 4> direction;          ///< unit vectors, corner k to corner k + 1
  std::array<double, 4> length = {};                 ///< of the edges
  std::array<double, 4> flow_ratio = {};             ///< r_k
  std::array<double, 4> stretch = {};                ///< projected length over true length, near 1
};

/// Sense in which a positive flow runs along each edge; q0 > 0 closes the second and fourth corner.
constexpr std::array<double, 4> flow_sense = {1, -1, 1, -1};

/// Requires: corners of a convex quadrilateral in order.
PanelGeometry panel_geometry(const std::array<Eigen::Vector3d, 4>& corners);
PanelGeometry panel_geometry(const Model& model, const Panel& panel);

/// A/(G t) + sum r^2 L/kappa, m/N times m2: what sheet and joint give way, members rigid and no
/// other panel beside it.
double panel_flexibility(const PanelGeometry& geometry, const Panel& panel);

/// Flexibility by Garvey's field of straight rays through the edges' meeting points, over A/(G t):
/// at least 1. Lower in stiffness than the panel used here, since shear flow does not redistribute.
double ray_field_ratio(const std::array<Eigen::Vector3d, 4>& corners, double nu);

/// What a panel puts on one of its members, global axes, per metre of the member.
struct EdgeLoad {
  EdgePiece piece;
  Eigen::Vector3d line = Eigen::Vector3d::Zero();    ///< N/m
  Eigen::Vector3d couple = Eigen::Vector3d::Zero();  ///< N m/m
};

/// On the members, from flow `q0` (N/m) and from an even inward pull on all edges (N/m). The pull
/// acts in the plane of the sheet, or, where a bar runs along an edge, in that of the axes: bars
/// take no torque.
std::vector<EdgeLoad> edge_loads(const Model& model, const Panel& panel, double q0, double pull);

/// Adds edge loads to the actions of beams and, for bars, of their end nodes: there a couple
/// becomes a pair of forces across the bar.
void add_edge_loads(const Model& model, const std::vector<EdgeLoad>& loads,
                    std::vector<BeamActions>& beams, Eigen::VectorXd& nodal);

/// The row that joins a panel to one of the members along its edges.
struct PanelRow {
  EdgePiece member;
  double length = 0;      ///< of the member, m
  double flow = 0;        ///< along the member from its start, of unit q0: what the row takes
  int other = -1;         ///< the panel that the sheet goes on to over this row, if it does
  double other_flow = 0;  ///< of unit q0 of that panel
};

/// In the order of the edges and their pieces.
std::vector<PanelRow> panel_rows(const Model& model, int panel);

/// Strain energy of each sheet and its joint under flows q0; a row between two panels counts half
/// with either. N m.
std::vector<double> panel_energies(const Model& model, const std::vector<double>& flows);

/// Panels that share members, as one element.
struct PanelGroup {
  std::vector<int> panels;
  std::vector<int> nodes;  ///< ascending
  Eigen::MatrixXd B;       ///< 6 a node by panels: the forces on the sheet for unit flows
  Eigen::MatrixXd F;       ///< panels by panels
};

std::vector<PanelGroup> panel_groups(const Model& model);

/// B F^-1 B^T.
Eigen::MatrixXd group_stiffness(const PanelGroup& group);

/// What loads along the members open or close the group's panels by while all joints stay: the work
/// of the panels' unit flows on the held members' displacements. `beams`: all loads on beams, one a
/// beam.
Eigen::VectorXd group_misfit(const Model& model, const PanelGroup& group,
                             const std::vector<BeamActions>& beams);

/// Flows q0 of the group's panels under displacements `u` (six a node of the model) and a misfit g:
/// F^-1 (B^T u - g).
Eigen::VectorXd group_flows(const PanelGroup& group, const Eigen::VectorXd& u,
                            const Eigen::VectorXd& misfit);

/// Adds what a misfit does to the joints, B F^-1 g, to loads of six a node.
void add_misfit_loads(const PanelGroup& group, const Eigen::VectorXd& misfit,
                      Eigen::VectorXd& loads);

}  // namespace tubewright
