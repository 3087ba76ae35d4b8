// SI inside, workshop units in everything that is printed.
#pragma once

#include <numbers>

namespace tubewright {

constexpr double mm_per_m = 1e3;
constexpr double MPa_per_Pa = 1e-6;
constexpr double N_mm_per_N_m = 1e-3;   // line loads, shear flow, spring rates
constexpr double kN_mm_per_N_m = 1e-6;  // stiffness of a fastener
constexpr double degrees_per_radian = 180 / std::numbers::pi;
constexpr double per_degree = std::numbers::pi / 180;  // N m/rad -> N m/deg

}  // namespace tubewright
