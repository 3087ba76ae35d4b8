// A smooth curve through given points that turns nowhere between them.
#pragma once

#include <span>

namespace tubewright {

/// Piecewise cubic Hermite interpolation with slopes limited so that the curve rises and falls only
/// where the points do (F. N. Fritsch, J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300, from
/// memory: weighted harmonic mean of the neighbouring slopes, 0 at a turn). One-sided slopes at the
/// ends. Requires: `x` ascending, as many values as x, at least two, x[0] <= at <= x[last].
double monotone_curve(std::span<const double> x, std::span<const double> values, double at);

}  // namespace tubewright
