// The path of a wheel over a profile.
#pragma once

#include <cstddef>

#include "solver/road/profile.h"

namespace tubewright {

/// How a wheel touches the ground.
struct WheelContact {
  enum class Kind {
    point,   ///< follows every height, edges too: not for a tyre with a damper over an edge, whose
             ///< force would be infinite
    circle,  ///< a rigid circle that rolls over the ground; length: its radius R
    patch    ///< the mean height under a contact patch; length: that of the patch
  };
  Kind kind = Kind::point;
  double length = 0;  ///< m; above 0 but for a point
};

/// Slopes of a circle's path are cut off here: nearer to the vertical it is only just before an
/// edge of more than 99 % of the radius. No wheel climbs an edge as high as its radius: its path
/// jumps there.
constexpr double steepest_path = 100;

/// Heights z_c of a wheel centre above its height on level ground of 0 (m), and slopes dz_c/dx,
/// at `count` places x, which do not decrease.
///
/// circle: z_c(x) = max over |s| <= R of z(x + s) + sqrt(R^2 - s^2) - R, exactly: over the ends of
/// each straight piece and the point where the circle is tangent to it. The place of the contact
/// does not go back as x goes on, as sqrt(R^2 - s^2) is concave, so half of the places need only
/// the ground on one side of that of their middle.
/// patch: z_c(x) = integral of z over x - L/2 .. x + L/2, by L, exactly. Waves of n cycle/m are
/// reduced by sin(pi n L)/(pi n L).
/// Where a path has a corner, the slope is that of one of its sides.
void wheel_path(const GroundProfile& profile, const WheelContact& contact, const double* x,
                std::ptrdiff_t count, double* height, double* slope);

}  // namespace tubewright
