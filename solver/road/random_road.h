// Random roads as sums of harmonics: one or several tracks of one surface.
//
//   z_t(x) = Re sum_i c_ti exp(2 pi i n_i x),  c_ti = a_i sum_s L_ts(n_i) exp(i phi_si)
//
// with the amplitudes a_i = sqrt(2 variance of line i), independent phases phi_si of as many waves
// as there are tracks and the Cholesky factor L of the tracks' cross to direct spectra.
// Phases: Park and Miller's s <- 16807 s mod (2^31 - 1), phi = 2 pi s/(2^31 - 1), all of the first
// wave, then all of the second and so on; the same road for the same seed on any machine.
#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <vector>

#include "solver/road/road_spectrum.h"

namespace tubewright {

/// How tracks go together: as on an isotropic surface, all the same (no roll), or independent (the
/// most roll). What is measured lies between.
enum class TrackCoherence { isotropic, full, none };

struct RandomRoad {
  Eigen::VectorXd wave_number;   ///< n_i, cycle/m
  Eigen::MatrixXcd coefficient;  ///< c_ti, m: tracks x lines
  double ramp = 0;               ///< heights are 0 before x = 0 and grow over this length, m
};

struct RandomRoadOptions {
  std::vector<double> tracks = {0};  ///< lateral positions, m; one at least
  TrackCoherence coherence = TrackCoherence::isotropic;
  int lines = 2500;        ///< above 0
  std::uint32_t seed = 1;  ///< 1 to 2^31 - 2
  double ramp = 5;         ///< factor (1 - cos(pi x/ramp))/2 on 0 < x < ramp; 0: none
};

/// Lines at the middles of equal bins, a_i = sqrt(2 Gd(n_i) dn). Such a sum repeats after 1/dn, but
/// for its sign: for tests and for roads shorter than half of that.
RandomRoad evenly_spaced_road(const RoadSpectrum& spectrum, const RandomRoadOptions& options);

/// Lines in bins of equal ratio, so that every resonance meets as many, each at a random place of
/// its bin: their ratios are irrational for all purposes, and the sum does not repeat, however long
/// the road. Averaged over the place in its bin each line gives the spectrum itself. The variance
/// of a line is that of its bin, so that the heights have that of the band.
RandomRoad random_road(const RoadSpectrum& spectrum, const RandomRoadOptions& options);

/// Height of a track at x, m, by the sum; slow.
double height(const RandomRoad& road, int track, double x);

/// Slope dz/dx, by the sum.
double slope(const RandomRoad& road, int track, double x);

/// Heights of all tracks at evenly spaced x = index * spacing, in blocks. Sums by matrix products:
/// exp(2 pi i n x) of the start of a piece times that of a place in the piece.
class RoadSampler {
 public:
  static constexpr int block = 1024;  ///< samples

  /// Requires: spacing > 0.
  RoadSampler(RandomRoad road, double spacing);

  double spacing() const { return spacing_; }
  int tracks() const { return static_cast<int>(road_.coefficient.rows()); }

  /// Samples block * number .. block * (number + 1) - 1, one column a track: the same bits whatever
  /// was asked before. Blocks before x = 0 have negative numbers.
  void sample(std::int64_t number, Eigen::Ref<Eigen::MatrixXd> heights);

 private:
  RandomRoad road_;
  double spacing_;
  Eigen::MatrixXd within_;  ///< cosines and sines of the places in a piece: 2 lines x piece
  Eigen::VectorXcd piece_;  ///< exp(2 pi i n piece)
  Eigen::MatrixXd starts_;  ///< 2 lines x (pieces * tracks)
  Eigen::MatrixXd product_;
};

}  // namespace tubewright
