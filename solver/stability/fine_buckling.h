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

/// Pieces of each beam, at most `most`, with which factors up to `factor` come out at most `error`
/// of themselves too high. In a wave of bending, w'''' + k^2 w'' = 0 with k^2 = factor |N|/(E I),
/// the best cubic pieces of length h miss (k h)^4/720 of the bending energy, from what of w'' is no
/// straight line in a piece. Shear has factor |N|/(G A_s) of it, and pieces of constant shear angle
/// miss (k h)^2/12 of that. The factor is too high by as much. I and A_s are the lesser of both
/// axes, N the greater of both ends. Even numbers above one, so that the middle of a beam is a
/// node.
std::vector<int> pieces_for_buckling(const Model& model, const AxialForces& forces, double factor,
                                     double error, int most);

/// The `count`-th lowest of the factors at which beams would buckle alone, clamped at both ends,
/// 4 pi^2 E I/(L^2 |N|) about either axis. Such shapes move nothing but their own beam, so that
/// count-th factor of the frame lies below (Courant and Fischer's minimum-maximum principle).
/// Infinite if fewer beams are compressed.
double clamped_factor(const Model& model, const AxialForces& forces, int count);

}  // namespace tubewright
