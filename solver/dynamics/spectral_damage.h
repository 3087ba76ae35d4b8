// Fatigue damage of a stationary Gaussian stress from its spectrum alone. For linear rides, to hold
// counted cycles against; wheels that leave the ground make stress neither linear nor Gaussian.
#pragma once

#include <functional>

namespace tubewright {

/// lambda_k = integral of f^k G(f) df, G one-sided, f in Hz.
struct SpectralMoments {
  double l0 = 0, l1 = 0, l2 = 0, l4 = 0;  ///< above 0 for the functions below
};

/// By Simpson's rule over `pieces` equal pieces (even) of least .. greatest, Hz.
SpectralMoments spectral_moments(const std::function<double(double)>& density, double least,
                                 double greatest, int pieces);

/// Sums of two spectra that do not overlap, or of independent stresses.
SpectralMoments operator+(const SpectralMoments& a, const SpectralMoments& b);

double upcrossing_rate(const SpectralMoments& moments);  ///< nu_0 = sqrt(l2/l0), 1/s
double peak_rate(const SpectralMoments& moments);        ///< nu_p = sqrt(l4/l2), 1/s

/// Expected sum of range^m per second.
/// nu_0 (2 sqrt(2 l0))^m Gamma(1 + m/2): on the safe side.
double narrow_band_damage(const SpectralMoments& moments, double m);
/// P. H. Wirsching, M. C. Light, J. Struct. Div. ASCE 106 (1980), from memory.
double wirsching_light_damage(const SpectralMoments& moments, double m);
/// T. Dirlik (1985), from memory; reviewed in Dirlik and Benasciutti, Metals 11 (2021) 1333.
double dirlik_damage(const SpectralMoments& moments, double m);

}  // namespace tubewright
