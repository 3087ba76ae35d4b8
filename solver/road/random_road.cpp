#include "solver/road/random_road.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <complex>
#include <numbers>
#include <random>

namespace tubewright {

namespace {

constexpr double full_turn = 2 * std::numbers::pi;
constexpr int piece_samples = 64;
constexpr int block_pieces = RoadSampler::block / piece_samples;

/// Numbers between 0 and 1, neither included.
class ParkMiller {
 public:
  explicit ParkMiller(std::uint32_t seed) : random_(seed) {}
  double operator()() {
    return static_cast<double>(random_()) / static_cast<double>(std::minstd_rand0::modulus);
  }

 private:
  std::minstd_rand0 random_;
};

/// Phase factors, waves x lines.
Eigen::MatrixXcd unit_waves(ParkMiller& random, Eigen::Index waves, Eigen::Index lines) {
  Eigen::MatrixXcd unit(waves, lines);
  for (Eigen::Index s = 0; s < waves; ++s) {
    for (Eigen::Index i = 0; i < lines; ++i) unit(s, i) = std::polar(1.0, full_turn * random());
  }
  return unit;
}

double cross_ratio(const RoadSpectrum& spectrum, TrackCoherence coherence, double n,
                   double distance) {
  switch (coherence) {
    case TrackCoherence::full:
      return 1;
    case TrackCoherence::none:
      return distance == 0 ? 1 : 0;
    case TrackCoherence::isotropic:
      break;
  }
  return isotropic_coherence(spectrum.waviness, n, distance);
}

/// Lower triangular L, L L' = C, a correlation matrix that may be singular: where a track follows
/// from those before it, rounding may leave its pivot a little below 0.
Eigen::MatrixXd correlation_factor(const Eigen::MatrixXd& C) {
  constexpr double nothing = 1e-14;
  Eigen::MatrixXd L = Eigen::MatrixXd::Zero(C.rows(), C.cols());
  for (Eigen::Index j = 0; j < C.cols(); ++j) {
    const double pivot = C(j, j) - L.row(j).head(j).squaredNorm();
    if (pivot < nothing) continue;
    L(j, j) = std::sqrt(pivot);
    for (Eigen::Index i = j + 1; i < C.rows(); ++i) {
      L(i, j) = (C(i, j) - L.row(i).head(j).dot(L.row(j).head(j))) / L(j, j);
    }
  }
  return L;
}

/// Coefficients of all tracks from amplitudes.
Eigen::MatrixXcd coefficients(const RoadSpectrum& spectrum, const RandomRoadOptions& options,
                              const Eigen::VectorXd& wave_number, const Eigen::VectorXd& amplitude,
                              ParkMiller& random) {
  const auto tracks = static_cast<Eigen::Index>(options.tracks.size());
  const Eigen::Index lines = wave_number.size();
  Eigen::MatrixXcd c = unit_waves(random, tracks, lines);
  Eigen::MatrixXd C(tracks, tracks);
  for (Eigen::Index i = 0; i < lines; ++i) {
    for (Eigen::Index j = 0; j < tracks; ++j) {
      for (Eigen::Index k = 0; k < tracks; ++k) {
        const double distance =
            options.tracks[static_cast<size_t>(j)] - options.tracks[static_cast<size_t>(k)];
        C(j, k) = j == k ? 1 : cross_ratio(spectrum, options.coherence, wave_number[i], distance);
      }
    }
    c.col(i) = (amplitude[i] * (correlation_factor(C) * c.col(i))).eval();
  }
  return c;
}

/// 0 before the start, 1 behind the ramp.
double ramp_factor(const RandomRoad& road, double x) {
  if (road.ramp <= 0 || x >= road.ramp) return 1;
  return x <= 0 ? 0 : (1 - std::cos(std::numbers::pi * x / road.ramp)) / 2;
}

double ramp_slope(const RandomRoad& road, double x) {
  if (road.ramp <= 0 || x >= road.ramp || x <= 0) return 0;
  const double k = std::numbers::pi / road.ramp;
  return k * std::sin(k * x) / 2;
}

struct WaveSum {
  double value = 0, derivative = 0;
};

WaveSum wave_sum(const RandomRoad& road, int track, double x) {
  WaveSum sum;
  for (Eigen::Index i = 0; i < road.wave_number.size(); ++i) {
    const double k = full_turn * road.wave_number[i];
    const std::complex<double> wave = road.coefficient(track, i) * std::polar(1.0, k * x);
    sum.value += wave.real();
    sum.derivative -= k * wave.imag();
  }
  return sum;
}

void assert_options([[maybe_unused]] const RoadSpectrum& spectrum,
                    [[maybe_unused]] const RandomRoadOptions& options) {
  assert(spectrum.level >= 0 && spectrum.waviness > 1 && spectrum.least > 0 &&
         spectrum.greatest > spectrum.least);
  assert(!options.tracks.empty() && options.lines > 0 && options.seed > 0 && options.ramp >= 0);
}

}  // namespace

RandomRoad evenly_spaced_road(const RoadSpectrum& spectrum, const RandomRoadOptions& options) {
  assert_options(spectrum, options);
  const double width = (spectrum.greatest - spectrum.least) / options.lines;
  RandomRoad road;
  road.ramp = options.ramp;
  road.wave_number.resize(options.lines);
  Eigen::VectorXd amplitude(options.lines);
  for (int i = 0; i < options.lines; ++i) {
    road.wave_number[i] = spectrum.least + (i + 0.5) * width;
    amplitude[i] = std::sqrt(2 * displacement_density(spectrum, road.wave_number[i]) * width);
  }
  ParkMiller random(options.seed);
  road.coefficient = coefficients(spectrum, options, road.wave_number, amplitude, random);
  return road;
}

RandomRoad random_road(const RoadSpectrum& spectrum, const RandomRoadOptions& options) {
  assert_options(spectrum, options);
  const double ratio = spectrum.greatest / spectrum.least;
  const auto border = [&](double i) { return spectrum.least * std::pow(ratio, i / options.lines); };
  ParkMiller random(options.seed);
  RandomRoad road;
  road.ramp = options.ramp;
  road.wave_number.resize(options.lines);
  Eigen::VectorXd amplitude(options.lines);
  for (int i = 0; i < options.lines; ++i) {
    const double from = border(i), to = border(i + 1.0);
    road.wave_number[i] = from + random() * (to - from);
    amplitude[i] = std::sqrt(2 * height_variance(spectrum, from, to));
  }
  road.coefficient = coefficients(spectrum, options, road.wave_number, amplitude, random);
  return road;
}

double height(const RandomRoad& road, int track, double x) {
  return ramp_factor(road, x) * wave_sum(road, track, x).value;
}

double slope(const RandomRoad& road, int track, double x) {
  const WaveSum sum = wave_sum(road, track, x);
  return ramp_factor(road, x) * sum.derivative + ramp_slope(road, x) * sum.value;
}

RoadSampler::RoadSampler(RandomRoad road, double spacing)
    : road_(std::move(road)), spacing_(spacing) {
  assert(spacing > 0);
  const Eigen::Index lines = road_.wave_number.size();
  within_.resize(2 * lines, piece_samples);
  for (int s = 0; s < piece_samples; ++s) {
    const Eigen::ArrayXd angle = full_turn * s * spacing_ * road_.wave_number.array();
    within_.col(s) << angle.cos(), angle.sin();
  }
  piece_ = Eigen::VectorXcd::NullaryExpr(lines, [&](Eigen::Index i) {
    return std::polar(1.0, full_turn * piece_samples * spacing_ * road_.wave_number[i]);
  });
  starts_.resize(2 * lines, Eigen::Index{block_pieces} * tracks());
}

void RoadSampler::sample(std::int64_t number, Eigen::Ref<Eigen::MatrixXd> heights) {
  assert(heights.rows() == block && heights.cols() == tracks());
  const Eigen::Index lines = road_.wave_number.size();
  const double start = static_cast<double>(number) * block * spacing_;
  Eigen::VectorXcd wave = Eigen::VectorXcd::NullaryExpr(lines, [&](Eigen::Index i) {
    return std::polar(1.0, full_turn * start * road_.wave_number[i]);
  });
  for (int b = 0; b < block_pieces; ++b) {
    for (int t = 0; t < tracks(); ++t) {
      const Eigen::VectorXcd c = road_.coefficient.row(t).transpose().cwiseProduct(wave);
      starts_.col(Eigen::Index{t} * block_pieces + b) << c.real(), -c.imag();
    }
    wave = wave.cwiseProduct(piece_);
  }
  product_.noalias() = within_.transpose() * starts_;
  for (int t = 0; t < tracks(); ++t) {
    for (int s = 0; s < block; ++s) {
      const double x = start + s * spacing_;
      heights(s, t) =
          ramp_factor(road_, x) *
          product_(s % piece_samples, Eigen::Index{t} * block_pieces + s / piece_samples);
    }
  }
}

}  // namespace tubewright
