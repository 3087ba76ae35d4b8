#include "solver/road/road_spectrum.h"

#include <cmath>
#include <numbers>

namespace tubewright {

std::optional<double> class_level(char road_class) {
  if (road_class < 'A' || road_class > 'H') return std::nullopt;
  return std::ldexp(16e-6, 2 * (road_class - 'A'));
}

double displacement_density(const RoadSpectrum& spectrum, double wave_number) {
  if (!(wave_number >= spectrum.least && wave_number <= spectrum.greatest)) return 0;
  return spectrum.level * std::pow(wave_number / reference_wave_number, -spectrum.waviness);
}

double height_variance(const RoadSpectrum& spectrum, double from, double to) {
  const double exponent = 1 - spectrum.waviness;
  const auto part = [&](double n) { return std::pow(n / reference_wave_number, exponent); };
  return spectrum.level * reference_wave_number * (part(to) - part(from)) / exponent;
}

double isotropic_coherence(double waviness, double wave_number, double distance) {
  const double x = 2 * std::numbers::pi * std::abs(wave_number * distance);
  constexpr double far = 500;    // exp(-far) is no number to reckon with, K is below it
  constexpr double near = 1e-9;  // 1 but for its square
  if (x < near) return 1;
  if (x > far) return 0;
  const double order = waviness / 2;
  return 2 * std::pow(x / 2, order) * std::cyl_bessel_k(order, x) / std::tgamma(order);
}

}  // namespace tubewright
