// The least value of a function of one variable.
#pragma once

namespace tubewright {

/// Where f, which has one minimum between a and b, is least: golden section, 40 steps, which narrow
/// the bracket to 0.618^40 = 4e-9 of its width. A minimum is flat: f itself is far nearer than
/// that.
template <class Function>
double golden_section_minimum(double a, double b, const Function& f) {
  constexpr double ratio = 0.6180339887498949;  // (sqrt(5) - 1)/2
  constexpr int steps = 40;
  double c = b - ratio * (b - a), d = a + ratio * (b - a);
  double fc = f(c), fd = f(d);
  for (int i = 0; i < steps; ++i) {
    if (fc < fd) {
      b = d;
      d = c;
      fd = fc;
      c = b - ratio * (b - a);
      fc = f(c);
    } else {
      a = c;
      c = d;
      fc = fd;
      d = a + ratio * (b - a);
      fd = f(d);
    }
  }
  return (a + b) / 2;
}

}  // namespace tubewright
