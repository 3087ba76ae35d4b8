// Heights of the ground along a line of travel, as a polyline.
#pragma once

#include <cstddef>
#include <vector>

namespace tubewright {

/// Vertices (x, z), m: x forward, z up, joined by straight lines. x does not decrease; two vertices
/// at one x are a vertical edge. Before the first vertex and behind the last the ground goes on
/// level at their heights; without any vertex it is level at 0.
struct GroundProfile {
  std::vector<double> x, z;  ///< of one length
};

/// True if the lengths agree, all numbers are finite and x does not decrease. The functions of this
/// room require it.
bool is_ground_profile(const GroundProfile& profile);

/// Height at x; at a vertical edge that behind it.
double height(const GroundProfile& profile, double x);

/// Slope dz/dx at x; at a vertex that behind it, at a vertical edge that of the ground behind it.
double slope(const GroundProfile& profile, double x);

/// The same road with all of it shifted forward by `distance`, m.
GroundProfile shifted(GroundProfile profile, double distance);

}  // namespace tubewright
