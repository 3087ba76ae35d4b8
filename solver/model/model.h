// The numbered structural model: what the solver works on.
//
// Everything is in SI units and global axes (ISO 8855: x forward, y left, z up). Each node has six
// DOFs in the order ux uy uz rx ry rz; DOF d of node n has the global number 6 n + d.
// Requires (checked by whoever builds the model): every index is in range, every member has length.
#pragma once

#include <Eigen/Core>
#include <array>
#include <compare>
#include <limits>
#include <vector>

#include "solver/model/material.h"
#include "solver/model/section.h"

namespace tubewright {

constexpr int dofs_per_node = 6;
constexpr double rigid = std::numeric_limits<double>::infinity();

/// How one end of a beam is joined to its node: six stiffnesses along and about the member's local
/// axes in the order Fx Fy Fz Mx My Mz, N/m and N m/rad. `rigid` = welded, 0 = released.
using EndConnection = std::array<double, 6>;
constexpr EndConnection welded = {rigid, rigid, rigid, rigid, rigid, rigid};

/// What a welded joint gives way by at the end of a beam, beside its EndConnection: the wall it
/// stands on. Bending turns about two axes across the beam, by the beam's moment at a distance from
/// its end.
struct JointFlexibility {
  double axial = 0;                    ///< m/N
  std::array<double, 2> bending = {};  ///< rad/(N m), about the first and the second axis
  double turn = 0;  ///< rad, from local y to the first axis by the right hand about local x
  std::array<double, 2> distance = {};  ///< m, from the node: where that moment counts

  bool none() const { return axial == 0 && bending[0] == 0 && bending[1] == 0; }
};

/// A circular arc of constant section between a beam's ends, 0 to 90 degrees, instead of the
/// straight line: their chord. The section keeps its place against the plane of the arc.
struct Arc {
  double curvature = 0;  ///< 1/radius of its centre line, 1/m; 0: straight
  double towards = 0;  ///< rad, from local y to the side its centre is on, right hand about local x
  /// What the walls of a bent tube leave of EI, for bending about local y and z.
  std::array<double, 2> bending = {1, 1};

  bool straight() const { return curvature == 0; }
};

/// A prismatic Timoshenko beam.
struct Beam {
  int from = 0;
  int to = 0;
  int section = 0;
  int material = 0;
  double roll = 0;  ///< rad, turns local y and z about x by the right hand
  EndConnection connection_from = welded;
  EndConnection connection_to = welded;
  JointFlexibility joint_from = {};  ///< between the beam's end and its connection
  JointFlexibility joint_to = {};
  Arc arc = {};
};

/// A member that carries axial force only: a pin-ended link, a cable or a spring.
struct Bar {
  int from = 0;
  int to = 0;
  double stiffness = 0;       ///< N/m: EA/L of a link or cable, the rate of a spring
  bool tension_only = false;  ///< a cable: slack when it would be pushed
};

/// Nodes that move as one rigid body; the first, the master, is the one that may be supported.
/// A node belongs to one body at most.
struct RigidBody {
  std::vector<int> nodes;
};

/// A member, or a piece of a continuous one, along an edge of a panel.
struct EdgePiece {
  bool is_beam = true;  ///< of Model::beams, else of Model::bars
  int index = 0;

  auto operator<=>(const EdgePiece&) const = default;
};

/// A flat sheet fixed to members along the four edges of a bay; see shear_panel.h.
struct Panel {
  std::array<int, 4> corners = {};  ///< nodes in order round the panel
  /// What runs along edge k, from corner k to corner k + 1, end to end and in line.
  std::array<std::vector<EdgePiece>, 4> edges;
  double thickness = 0;
  double G = 0;
  double joint = rigid;  ///< shear stiffness of the joint along the edges, N/m per metre
  double offset = 0;  ///< of the sheet from the members' axes, along the corners' right-hand normal
  double secant_ratio = 1;  ///< secant stiffness ratio: of G, after the sheet has buckled
  /// Panels of one continuous sheet have one number: where two of them share a member, one row of
  /// rivets or bond joins both to it. Below 0: a sheet of its own, with a row of its own all round.
  int piece = -1;
  /// 0 to 1, for such a row: the share of its slip beside one panel that the same flow on its other
  /// side takes back. 1: a row of rivets; a bond has less, since it holds the sheet across a width.
  double carry_over = 1;
};

/// DOFs that are restrained. Their values (zero or a prescribed displacement) come with the
/// actions.
struct Support {
  int node = 0;
  std::array<bool, 6> restrained = {};
};

struct Model {
  std::vector<Eigen::Vector3d> nodes;
  std::vector<Section> sections;
  std::vector<Material> materials;
  std::vector<Beam> beams;
  std::vector<Bar> bars;
  std::vector<Panel> panels;
  std::vector<RigidBody> bodies;
  std::vector<Support> supports;
};

inline int dof_count(const Model& model) {
  return dofs_per_node * static_cast<int>(model.nodes.size());
}

}  // namespace tubewright
