// The same model with every beam cut into equal pieces.
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

/// Requires: pieces >= 1. Connections stay at the ends, panels keep their edges.
RefinedModel refine(const Model& model, int pieces);

/// The actions of the coarse model on the refined one.
Actions refine_actions(const RefinedModel& refined, const Actions& actions);

/// Axial forces of the pieces from a solution of the coarse model: at the middle of each piece.
AxialForces refine_axial_forces(const RefinedModel& refined, const StaticSolution& coarse);

}  // namespace tubewright
