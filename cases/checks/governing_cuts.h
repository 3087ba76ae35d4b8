// Where along a solved beam the section forces are greatest.
#pragma once

#include <vector>

#include "solver/elements/beam_field.h"

namespace tubewright {

struct SectionCut {
  double s = 0;  ///< fraction of the length from `from`
  SectionForces forces;
};

/// Ascending: the ends, both sides of every point action, and between them where a moment has its
/// extreme and, under a line load, the middle. Every section force is greatest, and every
/// moment has its extremes, at one of these.
std::vector<SectionCut> governing_cuts(const BeamState& beam);

/// All forces times `factor`.
SectionForces scaled(const SectionForces& forces, double factor);

}  // namespace tubewright
