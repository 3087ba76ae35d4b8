// How exact the numbers of the report are.
#pragma once

#include <cstdio>
#include <cstdlib>

namespace tubewright {

/// `value` to five significant digits; never -0.
inline double five_digits(double value) {
  char text[40];
  std::snprintf(text, sizeof text, "%.5g", value);
  return std::strtod(text, nullptr) + 0.0;
}

}  // namespace tubewright
