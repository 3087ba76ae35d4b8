// Single obstacles as profiles. Each begins at x = 0 on level ground of height 0.
#pragma once

#include "solver/road/profile.h"

namespace tubewright {

/// A vertical edge up by `height` (m); down if it is negative: a drop.
GroundProfile edge(double height);

/// h sin(pi x/L), 0 <= x <= L. Straight pieces of at most `spacing`, m, whose vertices are on the
/// curve: they miss its height by at most (pi spacing/L)^2/8 of it.
/// Requires: L > 0, spacing > 0, L/spacing below a million.
GroundProfile half_sine(double height, double length, double spacing = 1e-3);

/// h/2 (1 - cos(2 pi x/L)), 0 <= x <= L. Otherwise as half_sine().
GroundProfile versed_sine(double height, double length, double spacing = 1e-3);

/// Down by `depth` over `length`, with vertical edges; up if it is negative: a board.
/// Requires: length > 0.
GroundProfile pothole(double depth, double length);

}  // namespace tubewright
