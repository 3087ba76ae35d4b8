// How nearly rigid the ends of a beam are, as one number each: for drawings and words.
#pragma once

#include <array>

#include "solver/model/model.h"

namespace tubewright {

/// r = 1/(1 + 3 E I c/L), c what the end gives way by in bending: 1 rigid, 0 a pin; the end turns
/// by (1 - r) of what a pinned end would under a load on the beam (the end-fixity factor of G. R.
/// Monforton and T. S. Wu, J. Struct. Div. ASCE 89 (1963), from memory). The lesser of both planes,
/// joint and release together.
std::array<double, 2> end_fixity(const Model& model, const Beam& beam);

}  // namespace tubewright
