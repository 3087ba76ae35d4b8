// Angles: radians inside, degrees where people read or write them.
#pragma once

#include <numbers>

namespace tubewright {

constexpr double degree = std::numbers::pi / 180;  ///< rad

}  // namespace tubewright
