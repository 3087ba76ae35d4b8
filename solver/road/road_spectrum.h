// Spectra of road heights after ISO 8608, and how two tracks of a road go together.
//
// Gd(n) = Gd(n0) (n/n0)^-w, one-sided, m3 (m2 a cycle/m); n in cycle/m, n0 = 0.1, w = 2: law,
// classes and n0 from memory of ISO 8608, the upper limits as quoted in public code after
// Agostinacchio et al. (2014).
#pragma once

#include <optional>

namespace tubewright {

constexpr double reference_wave_number = 0.1;  ///< n0, cycle/m

struct RoadSpectrum {
  double level = 0;     ///< Gd(n0), m3, not negative
  double waviness = 2;  ///< w, above 1
  /// The band, cycle/m, 0 < least < greatest. Longer waves than 50 m move a slow vehicle as one
  /// piece; shorter ones than 100 mm a tyre covers: 10 cycle/m is the limit that the notes of ISO
  /// 8608:2016 recommend for vibration.
  double least = 0.02, greatest = 10;
};

/// Gd(n0) of the class 'A' to 'H': the geometric mean of its limits, 16e-6 4^k m3. No value for
/// other letters. (A short form in use, 2^k 1e-3 n0/n as amplitude factor with k = 3 for A, gives
/// 32e-6: the border between A and B.)
std::optional<double> class_level(char road_class);

/// Gd(n), m3; 0 outside the band.
double displacement_density(const RoadSpectrum& spectrum, double wave_number);

/// Variance of the heights between two wave numbers, m2, whatever the band; for w = 2
/// Gd(n0) n0^2 (1/from - 1/to). Requires: 0 < from <= to.
double height_variance(const RoadSpectrum& spectrum, double from, double to);

/// Ratio of cross to direct spectrum of two tracks `distance` (m) apart on an isotropic surface:
/// 2 (x/2)^(w/2) K_(w/2)(x)/Gamma(w/2), x = 2 pi n distance; for w = 2 x K_1(x). 1 for one track,
/// 0 for far ones; its square is the coherence. Derived from the Fourier integral of the isotropic
/// spectrum; the idea is in Kamash and Robson, J. Sound Vib. 57 (1978).
double isotropic_coherence(double waviness, double wave_number, double distance);

}  // namespace tubewright
