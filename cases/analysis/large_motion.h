// One load case with displacements of any size: solver/stability/large_displacement.h on beams cut
// into pieces, and what the reports need of it.
#pragma once

#include <string>
#include <vector>

#include "cases/checks/governing_cuts.h"
#include "solver/elements/beam_field.h"
#include "solver/elements/stress.h"
#include "solver/model/actions.h"
#include "solver/model/model.h"
#include "solver/model/outcome.h"
#include "solver/stability/large_displacement.h"
#include "solver/statics/recovery.h"

namespace tubewright {

/// Loads that could not be raised to their full size.
struct StopsShort {
  double share = 1;  ///< of them that the frame stands under, stable
  PathStop how = PathStop::unknown;
  bool design = false;  ///< of the loads times the safety factor
};

struct LargeMotion {
  /// Of each beam, from `from` to `to`; axes, forces and displacements are those of the deformed
  /// piece.
  std::vector<std::vector<BeamState>> pieces;
  /// Of each beam at the ends of its pieces, one more than those: displacement and rotation vector.
  std::vector<std::vector<Vector6>> moved;
  double reached = 1;  ///< share of the loads it is for; below 1 nothing stable is beyond
  PathStop stop = PathStop::none;
};

struct LargeAnswer {
  LargeMotion motion;
  /// Displacements (rotation vectors), reactions, bars and residuals; `beams` only hold the end
  /// forces, in the axes of their deformed ends.
  StaticSolution solution;
};

/// `model`: held by something. The reason where it cannot be solved: sheets, beams whose ends
/// slide.
Outcome<LargeAnswer, std::string> solve_large(const Model& model, const Actions& actions);

/// The pieces of one beam as one member: fractions are those of the whole.
std::vector<SectionCut> governing_cuts(const std::vector<BeamState>& pieces);
MemberStress worst_along(const std::vector<BeamState>& pieces);

}  // namespace tubewright
