// Linear buckling of a frame whose beams are cut as finely as each case needs, and no finer.
#pragma once

#include <vector>

#include "solver/model/model.h"
#include "solver/stability/buckling.h"
#include "solver/stability/refine.h"
#include "solver/statics/recovery.h"

namespace tubewright {

struct FineBuckling {
  RefinedModel fine;
  AxialForces forces;  ///< of the pieces
  Buckling buckling;   ///< of fine.model
};

/// The lowest `count` factors, at most 0.2 % too high where `most` pieces a beam allow it: first
/// roughly, then with the pieces that what was found asks for. `solution`: of `model`, which is
/// stable without loads.
FineBuckling fine_buckling(const Model& model, const StaticSolution& solution, int count, int most);

/// Pieces of each beam, at most `most`, no longer than `length` times sqrt(E I/(factor |N|)), I the
/// lesser and N the greater of its ends' forces. In a wave of w'''' + k^2 w'' = 0 the best cubic
/// pieces of length h miss (k h)^4/720 of the bending energy (from w''s part that is no straight
/// line in a piece), and the factor is too high by as much. Even numbers above one, so that the
/// middle of a beam is a node.
std::vector<int> pieces_for_buckling(const Model& model, const AxialForces& forces, double factor,
                                     double length, int most);

/// The `count`-th lowest of the factors at which beams would buckle alone, clamped at both ends,
/// 4 pi^2 E I/(L^2 |N|) about either axis. Such shapes move nothing but their own beam, so that
/// count-th factor of the frame lies below (Courant and Fischer's minimum-maximum principle).
/// Infinite if fewer beams are compressed.
double clamped_factor(const Model& model, const AxialForces& forces, int count);

}  // namespace tubewright
