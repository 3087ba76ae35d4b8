// SI to the units that the files are in.
#pragma once

namespace tubewright {

constexpr double mm_per_m = 1e3;
constexpr double MPa_per_Pa = 1e-6;
constexpr double N_mm_per_N_m = 1e-3;

}  // namespace tubewright
