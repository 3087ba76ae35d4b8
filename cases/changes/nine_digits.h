// Numbers to be put in order by: what differs by rounding alone is equal, so that left and right
// come in the order of the file on every machine.
#pragma once

#include <cmath>

namespace tubewright {

/// `value` to nine significant digits; 0 for what is next to nothing beside 1.
inline double nine_digits(double value) {
  constexpr double nothing = 1e-12;
  if (!std::isfinite(value)) return value;
  if (std::abs(value) < nothing) return 0;
  const double scale = std::pow(10, 8 - std::floor(std::log10(std::abs(value))));
  return std::round(value * scale) / scale;
}

}  // namespace tubewright
