// SI to the units that the files are in.
#pragma once

namespace tubewright {

constexpr double mm_per_m = 1e3;
constexpr double MPa_per_Pa = 1e-6;

}  // namespace tubewright
