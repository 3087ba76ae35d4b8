// Where the strain energy of a solved case sits. J.
#pragma once

#include <vector>

#include "solver/model/model.h"
#include "solver/statics/recovery.h"

namespace tubewright {

/// Of a member: its own, with what its end springs store. Of a panel: sheet and joint; what a
/// panel's line loads do to a tube counts for the tube.
struct StrainEnergy {
  std::vector<double> beams;
  std::vector<double> bars;
  std::vector<double> panels;

  double total() const;
};

/// Of beams without loads along them other than uniform ones and those of panels.
/// Requires: `solution` is one of `model`.
StrainEnergy strain_energy(const Model& model, const StaticSolution& solution);

}  // namespace tubewright
