#include "cases/joint_stiffness/monotone_curve.h"

#include <algorithm>
#include <cassert>
#include <cstddef>

namespace tubewright {

double monotone_curve(std::span<const double> x, std::span<const double> values, double at) {
  const std::size_t n = x.size();
  assert(n >= 2 && values.size() == n && at >= x.front() && at <= x.back());
  const auto width = [&](std::size_t i) { return x[i + 1] - x[i]; };
  const auto secant = [&](std::size_t i) { return (values[i + 1] - values[i]) / width(i); };
  const auto slope = [&](std::size_t i) {
    if (i == 0) return secant(0);
    if (i == n - 1) return secant(n - 2);
    const double left = secant(i - 1), right = secant(i);
    if (left * right <= 0) return 0.0;
    const double w1 = 2 * width(i) + width(i - 1), w2 = width(i) + 2 * width(i - 1);
    return (w1 + w2) / (w1 / left + w2 / right);
  };
  const auto above = std::upper_bound(x.begin() + 1, x.end() - 1, at);
  const auto i = static_cast<std::size_t>(above - x.begin()) - 1;
  const double h = width(i), s = (at - x[i]) / h;
  // Hermite polynomials of values and slopes
  return values[i] * (1 + 2 * s) * (1 - s) * (1 - s) + values[i + 1] * s * s * (3 - 2 * s) +
         h * slope(i) * s * (1 - s) * (1 - s) - h * slope(i + 1) * s * s * (1 - s);
}

}  // namespace tubewright
