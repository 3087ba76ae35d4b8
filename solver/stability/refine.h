// The same model with every beam cut into equal pieces, and how many a vibration needs.
#pragma once

#include <vector>

#include "solver/model/actions.h"
#include "solver/model/model.h"
#include "solver/stability/buckling.h"

namespace tubewright {

struct RefinedModel {
  Model model;  ///< first the nodes of the coarse one, then those inside its beams
  std::vector<std::vector<int>> pieces;  ///< of each beam, from `from` to `to`
  std::vector<std::vector<int>> nodes;   ///< of each beam: from, those inside, to
};

/// Requires: pieces >= 1. Connections stay at the ends, panels keep their edges, arcs stay whole.
RefinedModel refine(const Model& model, int pieces);

/// The same with a number of its own for each beam.
RefinedModel refine(const Model& model, const std::vector<int>& pieces);

/// Pieces of each beam, at least `least`, with which modes up to `frequency` (Hz) come out at most
/// 0.5 % too high. A wave of bending has the length 2 pi/beta, beta^4 = omega^2 rho A/(E I), one
/// along the beam or in torsion 2 pi/k, k = omega sqrt(rho/E) and omega sqrt(rho (I_y + I_z)/(G
/// I_t)). A piece with consistent mass and cubic shapes finds half a wave of its own length 11 %
/// too high (R. W. Clough, J. Penzien, Dynamics of Structures, from memory) and the error goes
/// with its length to the fourth power, one with linear shapes finds (k L)^2/24 too much.
std::vector<int> pieces_for_modes(const Model& model, double frequency, int least);

/// The actions of the coarse model on the refined one.
Actions refine_actions(const RefinedModel& refined, const Actions& actions);

/// Axial forces of the pieces from a solution of the coarse model, at their ends.
AxialForces refine_axial_forces(const RefinedModel& refined, const StaticSolution& coarse);

}  // namespace tubewright
