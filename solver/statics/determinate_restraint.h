// Just enough supports to hold a free body still without straining it.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/model/model.h"
#include "solver/statics/statics.h"

namespace tubewright {

/// Six translations of nodes that together stop the model's six rigid motions and nothing else,
/// picked one after another: each the one that those before resist least. Loads in equilibrium
/// give no reaction there. Nodes in `avoid`, nodes without a member and nodes that follow another
/// are not used. Fewer than six if the usable nodes all lie on one line.
std::vector<Support> determinate_restraint(const Model& model, const std::vector<int>& avoid = {});

/// Adds a small rigid motion to a solution: u + rotation x (node - centre). Forces do not change.
void move_rigidly(const Model& model, const Eigen::Vector3d& centre,
                  const Eigen::Vector3d& translation, const Eigen::Vector3d& rotation,
                  StaticSolution& solution);

}  // namespace tubewright
