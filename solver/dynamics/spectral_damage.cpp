#include "solver/dynamics/spectral_damage.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace tubewright {

SpectralMoments spectral_moments(const std::function<double(double)>& density, double least,
                                 double greatest, int pieces) {
  assert(pieces > 0 && pieces % 2 == 0 && greatest >= least);
  const double step = (greatest - least) / pieces;
  SpectralMoments m;
  for (int i = 0; i <= pieces; ++i) {
    const double f = least + i * step;
    const int ordinates = i == 0 || i == pieces ? 1 : i % 2 == 1 ? 4 : 2;
    const double g = ordinates * step / 3 * density(f);
    m.l0 += g;
    m.l1 += g * f;
    m.l2 += g * f * f;
    m.l4 += g * f * f * f * f;
  }
  return m;
}

SpectralMoments operator+(const SpectralMoments& a, const SpectralMoments& b) {
  return {a.l0 + b.l0, a.l1 + b.l1, a.l2 + b.l2, a.l4 + b.l4};
}

double upcrossing_rate(const SpectralMoments& moments) {
  return std::sqrt(moments.l2 / moments.l0);
}

double peak_rate(const SpectralMoments& moments) { return std::sqrt(moments.l4 / moments.l2); }

double narrow_band_damage(const SpectralMoments& moments, double m) {
  return upcrossing_rate(moments) * std::pow(2 * std::sqrt(2 * moments.l0), m) *
         std::tgamma(1 + m / 2);
}

double wirsching_light_damage(const SpectralMoments& moments, double m) {
  const double irregularity = upcrossing_rate(moments) / peak_rate(moments);
  const double width = std::sqrt(std::max(0.0, 1 - irregularity * irregularity));
  const double a = 0.926 - 0.033 * m, b = 1.587 * m - 2.323;
  return narrow_band_damage(moments, m) * (a + (1 - a) * std::pow(1 - width, b));
}

double dirlik_damage(const SpectralMoments& moments, double m) {
  const double a2 = upcrossing_rate(moments) / peak_rate(moments);
  const double xm = moments.l1 / moments.l0 * std::sqrt(moments.l2 / moments.l4);
  constexpr double line = 1e-6;  // the formula has no value for a single frequency
  if (1 - a2 < line) return narrow_band_damage(moments, m);
  const double D1 = 2 * (xm - a2 * a2) / (1 + a2 * a2);
  const double R = (a2 - xm - D1 * D1) / (1 - a2 - D1 + D1 * D1);
  const double D2 = (1 - a2 - D1 + D1 * D1) / (1 - R);
  const double D3 = 1 - D1 - D2;
  const double Q = 1.25 * (a2 - D3 - D2 * R) / D1;
  return peak_rate(moments) * std::pow(2 * std::sqrt(moments.l0), m) *
         (D1 * std::pow(Q, m) * std::tgamma(1 + m) +
          std::pow(2, m / 2) * std::tgamma(1 + m / 2) * (D2 * std::pow(std::abs(R), m) + D3));
}

}  // namespace tubewright
