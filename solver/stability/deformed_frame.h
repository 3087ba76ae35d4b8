// A frame in a displaced position, however far: what its members answer, and how that changes.
//
// Rotations. A node without held rotations has a rotation matrix; its three rotational DOFs are
// a spin, the small turn that follows (rotations.h). A node with a held rotation is described by
// its rotation vector, whose held components have their prescribed values: so a support is the same
// whichever way the node came there. The moment belonging to it is T^T m.
//
// Bars stay straight between their nodes and pull with stiffness times true elongation; a cable
// shorter than when unloaded is slack. Nodes of a rigid body follow its first, the master, with the
// master's finite rotation. Loads are dead: their directions and, for those along beams, their
// equivalent forces and moments on the joints stay as they are on the undeformed frame.
//
// The tangent is the exact derivative of the forces on the DOFs, bars and bodies included. It
// is symmetric where a frame is in equilibrium without applied moments; a moment of fixed direction
// has no potential, and leaves half of itself as a skew part.
// Source: M. A. Crisfield, Non-linear Finite Element Analysis of Solids and Structures 1 and 2
// (from memory, re-derived).
#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "solver/elements/corotational_beam.h"
#include "solver/linear_algebra/sparse_matrix.h"
#include "solver/model/model.h"
#include "solver/model/outcome.h"
#include "solver/statics/assembly.h"

namespace tubewright {

/// Rotations of a node that no member resists although it resists others, such as about the common
/// pin of hinges. They are left as they are: nothing depends on them.
struct ZeroStiffnessRotations {
  int node = 0;
  int count = 0;         ///< 1 or 2 axes, those with the least stiffness
  double stiffness = 0;  ///< N m/rad, of the node as a whole: pins them in the tangent
};

/// A model and what acts on it, with everything that does not change as it deforms. Keeps a pointer
/// to the model.
struct DeformableFrame {
  const Model* model = nullptr;
  FreeDofs free;  ///< rotations that no member resists at all have no number
  std::vector<CorotationalBeam> beams;
  std::vector<bool> by_vector;  ///< one a node: its rotation is a vector, else a matrix and spins
  std::vector<ZeroStiffnessRotations> zero_stiffness;
  std::vector<Vector12>
      beam_loads;                ///< what each beam hands to its joints at load factor 1, global
  std::vector<Matrix12> bowing;  ///< what each beam bowing under a unit of tension adds; local axes
  Eigen::VectorXd loads;         ///< 6 a node, joint loads at load factor 1
  Eigen::VectorXd prescribed;    ///< 6 a node, at load factor 1; zero where not held
  double size = 0;               ///< diagonal of the box round the nodes, m
  double force_rounding = 0;     ///< out-of-balance that is no more than rounding, N
  double moment_rounding = 0;    ///< the same, N m
};

/// The frame, or why it cannot be had: sheets, beams with released forces or loose by their
/// releases, loads that nothing resists.
Outcome<DeformableFrame, std::string> deformable_frame(const Model& model, const Actions& actions);

struct Configuration {
  Eigen::VectorXd displacements;  ///< 6 a node: translation, rotation vector (counts whole turns)
  std::vector<Eigen::Matrix3d> rotations;  ///< one a node
};

/// Undeformed.
Configuration reference_configuration(const DeformableFrame& frame);

/// Moves the free DOFs on by `step` and the held ones to their values at `load_factor`.
void update_configuration(const DeformableFrame& frame, const Eigen::VectorXd& step,
                          double load_factor, Configuration& configuration);

struct InternalForces {
  bool valid = false;  ///< false if a member has no state there
  std::vector<CorotationalBeamState> beams;
  std::vector<double> bar_forces;  ///< tension positive, N; 0 for a slack cable
  std::vector<bool> slack;         ///< one a bar
  double energy = 0;               ///< strain energy, J
  /// 6 a node: what the outside still has to supply, N and N m about the node (not about the
  /// vector); rigid bodies' nodes are gathered on their masters. At supports the reaction.
  Eigen::VectorXd residual;
  Eigen::VectorXd out_of_balance;  ///< members' forces less loads, on the free DOFs
  double greatest_force = 0;       ///< of members' ends and loads, any one component
  double greatest_moment = 0;
  double zero_stiffness_moment =
      0;                 ///< greatest moment about an idle rotation, left out of balance
  SparseMatrix tangent;  ///< d out_of_balance / d free DOFs; if wanted
  Eigen::VectorXd rate;  ///< - d out_of_balance / d load factor, restrained DOFs moving; if wanted
};

InternalForces internal_forces(const DeformableFrame& frame, const Configuration& configuration,
                               double load_factor, bool with_tangent);

/// The tangent by which stability is judged: less what compressed beams lose by bowing between
/// their joints. Corotational beams leave that out and buckle too late (corotational_beam.h); with
/// it a strut finds its Euler load as in buckling.h. Requires: `r` is of there, with its tangent.
SparseMatrix tangent_with_bowing(const DeformableFrame& frame, const Configuration& configuration,
                                 const InternalForces& r);

/// Lower triangle of the tangent's symmetric part: the second change of the energy.
SparseMatrix symmetric_lower(const SparseMatrix& tangent);

}  // namespace tubewright
