// The beam of beam_element.h in a frame that moves with it: large displacements and rotations of
// its ends, small strains and small rotations against its own chord.
//
// Frame: x along the chord; y is kept near what the ends' own y axes have become, both alike, or
// the one of an end without a release. Local deformation: stretch of the chord and the ends'
// rotation vectors against the frame; forces on it by the linear stiffness with its connections
// condensed. The rest is geometry: the tangent is the exact derivative of the forces on spins,
// symmetric but for a skew part of half the end moments.
// Sources: J.-M. Battini & C. Pacoste, "Co-rotational beam elements with warping effects in
// instability problems", CMAME 191 (2002); M. A. Crisfield, Non-linear Finite Element Analysis of
// Solids and Structures 2, ch. 17 (both from memory, re-derived).
//
// An element does not bow under its own axial force, so a member that buckles or bends far needs
// several of them. Measured, on the unsafe side: the Euler load of a pinned strut of 2, 4, 8 and 16
// comes out 22, 5.2, 1.3 and 0.3 % high.
//
// Releases. A single released moment makes a hinge whose pin turns with the joint, exact at any
// angle of it; three make a ball, exact too. With two released moments the third follows the
// rotation vector: good while the joint turns little against the member (some 0.3 rad).
#pragma once

#include <Eigen/Core>
#include <array>
#include <string>

#include "solver/elements/beam_element.h"

namespace tubewright {

/// How the rotation of a joint reaches the member's end.
enum class EndRotation {
  vector,  ///< all of it, through springs or not
  hinge,   ///< all but the turn about one axis
  ball     ///< nothing of it
};

/// A beam with everything that does not change. Its working axes are the member's local axes, or
/// those turned about x by a right angle where the frame must not follow local y.
struct CorotationalBeam {
  double L = 0;
  Eigen::Vector3d along = Eigen::Vector3d::Zero();            ///< from `from` to `to`, unloaded, m
  Eigen::Matrix3d axes = Eigen::Matrix3d::Identity();         ///< working axes, unloaded: columns
  Eigen::Matrix3d from_member = Eigen::Matrix3d::Identity();  ///< member's to working components
  Matrix12 K = Matrix12::Zero();          ///< condensed, working axes, on joint displacements
  std::array<double, 2> roll_share = {};  ///< of each end in the frame's y axis
  std::array<EndRotation, 2> ends = {};
  std::array<Eigen::Vector3d, 2> pin = {};  ///< of a hinge, unit vector, working axes
};

/// Why such a beam cannot be had with large displacements, or empty: a transverse or axial release
/// lets the joint slide away from the member.
std::string corotational_obstacle(const Beam& beam);

/// Requires: no obstacle, and connections that do not leave the member loose.
CorotationalBeam corotational_beam(const BeamElement& e);

/// Where a joint has gone: displacement (global, m) and rotation.
struct JointMotion {
  Eigen::Vector3d displacement = Eigen::Vector3d::Zero();
  Eigen::Matrix3d rotation = Eigen::Matrix3d::Identity();
};

struct CorotationalBeamState {
  /// False if the beam has no frame any more: its ends met, or an end stands square to the chord.
  bool valid = false;
  Eigen::Matrix3d axes = Eigen::Matrix3d::Identity();  ///< member's local axes now: rows, global
  Vector12 displacements = Vector12::Zero();  ///< of the joints in the frame, member's local axes
  Vector12 local_forces = Vector12::Zero();   ///< joint on member, member's local axes now
  Vector12 forces = Vector12::Zero();         ///< the same, global axes
  double energy = 0;                          ///< strain energy, J
  Matrix12 tangent = Matrix12::Zero();  ///< d forces by displacements and spins, global; if wanted
};

CorotationalBeamState corotational_state(const CorotationalBeam& beam, const JointMotion& from,
                                         const JointMotion& to, bool with_tangent);

}  // namespace tubewright
