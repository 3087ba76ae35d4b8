// The 3D Timoshenko beam: stiffness, equivalent loads and recovery, with end releases condensed.
//
// Local axes: x from node `from` to node `to`; z is the global +z made perpendicular to x (for a
// member within 0.5 degrees of vertical: the global +x); y = z x x; `roll` turns y and z about x.
// Element DOFs and end forces, local axes: u v w rx ry rz at `from`, then the same at `to`.
// Forces are those that the joint puts on the member end.
//
// Stiffness: J. S. Przemieniecki, Theory of Matrix Structural Analysis (1968), eq. 5.116; the same
// in any textbook, with Phi = 12 EI/(G A_s L^2). The shape functions belonging to it solve the
// beam's equations exactly, so there is no locking and no mesh error for the loads allowed here.
#pragma once

#include <Eigen/Core>
#include <array>
#include <optional>
#include <vector>

#include "solver/model/actions.h"
#include "solver/model/model.h"

namespace tubewright {

using Vector6 = Eigen::Matrix<double, 6, 1>;
using Vector12 = Eigen::Matrix<double, 12, 1>;
using Matrix12 = Eigen::Matrix<double, 12, 12>;

/// Rows are the local x, y, z axes in global components. Requires: the ends differ.
Eigen::Matrix3d member_axes(const Eigen::Vector3d& from, const Eigen::Vector3d& to, double roll);

/// A beam with everything looked up: what its formulas need.
struct BeamElement {
  double L = 0;
  Eigen::Matrix3d axes = Eigen::Matrix3d::Identity();
  Section section;
  Material material;
  Vector12 connection = Vector12::Constant(rigid);  ///< joint stiffness at both ends
  std::array<JointFlexibility, 2> joints;           ///< in series with it
  Arc arc;                                          ///< L and axes are of its chord

  /// Its ends move as its nodes do.
  bool rigidly_joined() const;
};

/// A spring in series with an end: `along` (12 entries, local axes) dotted with the end forces is
/// the force in it.
struct EndSpring {
  Vector12 along;
  double flexibility = 0;  ///< m/N or rad/(N m)
};

/// Those of `joints` that give way, at most six.
std::vector<EndSpring> joint_springs(const BeamElement& e);

BeamElement beam_element(const Model& model, const Beam& beam);

/// Phi = 12 E I/(G A_s L^2), 0 for a shear-rigid beam: bending against shear flexibility.
double shear_ratio(const Material& m, double I, double shear_area, double L);

/// 12 by 12, local axes, both ends welded. Of an arc exact (curved_stiffness()); loads along it,
/// forces and displacements between its ends are those of its chord.
Matrix12 local_stiffness(const BeamElement& e);

/// Equivalent joint forces of loads along the member, local axes, both ends welded: the forces that
/// the member, held at both ends, hands to its joints.
Vector12 local_equivalent_loads(const BeamElement& e, const BeamActions& actions);

/// Stiffness and equivalent loads seen from the joints, after the connections' springs and releases
/// are condensed out; `recovery` gives the member-end displacements back.
struct CondensedBeam {
  Matrix12 K;           ///< local axes, on joint displacements
  Matrix12 from_joint;  ///< member-end displacements = from_joint * joint + from_load * loads
  Matrix12 from_load;
};

/// Nothing if the releases let the member move by itself; loose_direction() says how.
std::optional<CondensedBeam> condense(const BeamElement& e);

/// The first of Fx Fy Fz Mx My Mz (0..5) in which a member with such connections is loose, or -1.
/// Depends only on which connections are zero.
int loose_direction(const EndConnection& from, const EndConnection& to);

/// Block-diagonal rotation of 12 element DOFs from global to local axes.
Matrix12 rotation_12(const Eigen::Matrix3d& axes);

}  // namespace tubewright
