// Geometrically non-linear statics: equilibrium on the deformed frame, with finite rotations.
//
// Members stay elastic and their strains small; displacements and rotations of joints may be of any
// size. See corotational_beam.h for the members (divide those that bend far) and deformed_frame.h
// for bars, cables, rigid bodies, supports and what a dead load is. Sheets are refused.
//
// All loads and prescribed displacements grow together, by one load factor.
// solve_large_displacement takes it from 0 to 1 in steps, by Newton's method with the exact tangent
// (LU, as the tangent has a skew part while moments act), or, where such a step fails, by the
// length of the path. It goes on only along the path (path_step.h) and only while the frame is
// stable, and ends where stability is lost: at a limit point, or where a straight member or the
// frame may buckle. trace_path goes on past limit points, the load factor then falling again.
// Sources: M. A. Crisfield, "A fast incremental/iterative solution procedure that handles
// snap-through", Computers & Structures 13 (1981), and Non-linear Finite Element Analysis of Solids
// and Structures 1, ch. 9; sense of the path: Y. T. Feng, D. Peric, D. R. J. Owen, "Determination
// of travel directions in path-following methods", Math. Comput. Modelling 21 (1995) (all from
// memory).
#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <vector>

#include "solver/elements/beam_field.h"
#include "solver/model/actions.h"
#include "solver/model/model.h"
#include "solver/statics/recovery.h"

namespace tubewright {

/// Ends a path once a displacement (direction 0..5 of a node) has passed a value.
struct PathEnd {
  int node = 0;
  int direction = 0;
  double value = 0;  ///< m or rad, not zero: passed when as large and of the same sign
};

struct LargeDisplacementOptions {
  double first_step = 0.1;      ///< of the load factor; for a path it sets the first length too
  double greatest_step = 0.25;  ///< of the load factor
  double least_step = 1e-7;     ///< of the load factor, and of a path's first length
  int most_steps = 1000;        ///< tried, successful or not
  int most_iterations = 25;     ///< of one step
  double greatest_turn = 1;     ///< of a joint in one iteration, rad; more cuts the step
  double residual = 1e-8;       ///< out-of-balance against the greatest force and moment
  double energy = 1e-12;        ///< work of the last correction against the strain energy

  // For a path only.
  double path_load_factor = 1;  ///< ends where the load factor reaches this, up or down
  double greatest_length = 4;   ///< of a step, against the first
  int path_points = 500;        ///< most points
  std::optional<PathEnd> end;   ///< an earlier end
};

struct EquilibriumPoint {
  double load_factor = 0;
  Eigen::VectorXd displacements;  ///< 6 a node: translation, rotation vector; m and rad, global
  /// Energy rises in every direction: no negative pivot in the symmetric part of
  /// tangent_with_bowing().
  bool stable = true;
  int negative_pivots = 0;  ///< directions in which it falls
};

/// Why the load factor could not be raised any more.
enum class PathStop {
  none,           ///< it was, or no step was made
  buckles,        ///< stability is lost although the load still rises along the path
  snaps_through,  ///< a limit point: no equilibrium near by carries more
  unknown         ///< no equilibrium was found
};

struct LargeDisplacementSolution {
  /// The wanted load factor, or a path's end, was reached; else `reason` says why not, and all the
  /// rest describes the last equilibrium found.
  bool converged = false;
  std::string reason;
  std::vector<EquilibriumPoint> path;  ///< from the unloaded frame on
  std::vector<size_t> limit_points;    ///< of a path: points where the load factor turned round
  /// Load factor of the first limit point; without a path the last one that could be reached, where
  /// the load could not be raised any more, to 2e-4 of itself.
  std::optional<double> limit_load_factor;
  PathStop stop = PathStop::none;  ///< not of trace_path

  // The last point.
  double load_factor = 0;
  Eigen::VectorXd displacements;  ///< as in EquilibriumPoint
  /// 6 a node, global axes: forces of held translations; where a rotation is held the whole moment.
  Eigen::VectorXd reactions;
  /// Axes, forces and displacements in the deformed members' own axes; element.axes is theirs now,
  /// so beam_field.h and stress.h apply. Displacements are measured from the deformed chord.
  std::vector<BeamState> beams;
  std::vector<double> bar_forces;  ///< tension positive, N; 0 for a slack cable
  std::vector<bool> slack;         ///< one a bar
  Residual residual;               ///< worst free DOF
  double strain_energy = 0;        ///< J
  /// Of a joint against its member's chord, hinges left out, rad: the theory is good to a few
  /// percent at 0.3, and dividing members makes it smaller.
  double greatest_local_rotation = 0;
  int iterations = 0;  ///< in all
};

/// From load factor 0 to 1. Requires: actions are sized for the model.
LargeDisplacementSolution solve_large_displacement(const Model& model, const Actions& actions,
                                                   const LargeDisplacementOptions& options = {});

/// The equilibrium path from the unloaded frame, past limit points, to `path_load_factor` or `end`.
LargeDisplacementSolution trace_path(const Model& model, const Actions& actions,
                                     const LargeDisplacementOptions& options = {});

}  // namespace tubewright
