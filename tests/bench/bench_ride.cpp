// A long ride over a random road, counted: 60 s of class C at 20 km/h, steps of 0.25 ms, two
// tracks, rigid circles of 0.25 m; 26 modes, 4 tyres, 6 dampers; 720 stresses of every fourth step,
// counted by rainflow with every wheel's force.
//
//   build/release/tests/bench/bench_ride [seconds of the ride, default 60]
//
// Prints seconds by the clock: making the road and its paths alone, driving over it, stresses
// beside that, counting beside that; each the best of three runs.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <random>
#include <vector>

#include "solver/dynamics/rainflow.h"
#include "solver/dynamics/ride.h"
#include "solver/road/wheel_path_stream.h"

using namespace tubewright;

namespace {

constexpr int elastic_modes = 20, stresses = 720, every = 4;
constexpr double speed = 20 / 3.6, time_step = 2.5e-4, base = 0.6, half_track = 0.35;

double seconds(const std::function<void()>& work) {
  double best = 1e9;
  for (int run = 0; run < 3; ++run) {
    const auto start = std::chrono::steady_clock::now();
    work();
    best = std::min(
        best, std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
  }
  return best;
}

/// 187 kg, six rigid-body motions and elastic ones from 12 to 250 Hz of random shape.
RideSystem vehicle() {
  constexpr int tyres = 4, dampers = 6, coordinates = 2 * tyres + dampers;
  constexpr int rigid = 6, modes = rigid + elastic_modes;
  std::mt19937 random(3);
  std::uniform_real_distribution<double> any(-0.15, 0.15);
  RideSystem r;
  r.circular_frequency = Eigen::VectorXd::Zero(modes);
  for (int i = 0; i < elastic_modes; ++i) {
    r.circular_frequency[rigid + i] = 2 * 3.14159 * 12 * std::pow(250.0 / 12, i / 19.0);
  }
  r.damping_ratio = Eigen::VectorXd::Constant(modes, 0.015);
  r.modes = Eigen::MatrixXd::NullaryExpr(coordinates, modes, [&]() { return any(random); });
  r.modes.leftCols(rigid).setZero();
  const double m = 1 / std::sqrt(187.0), pitch = 1 / std::sqrt(40.0), roll = 1 / std::sqrt(15.0);
  for (int i = 0; i < tyres; ++i) {
    r.modes(i, 0) = m;
    r.modes(i, 1) = (i < 2 ? -base : base) * pitch;
    r.modes(i, 2) = (i % 2 == 0 ? half_track : -half_track) * roll;
    r.modes(tyres + i, 3) = m;
    r.tyres.push_back({i, tyres + i, 120e3, 300});
  }
  for (int i = 0; i < dampers; ++i) r.dampers.push_back({2 * tyres + i, 200});
  r.residual_flexibility = 1e-8 * Eigen::MatrixXd::Identity(coordinates, coordinates);
  r.weight_modal = Eigen::VectorXd::Zero(modes);
  r.weight_modal[0] = -9.81 * std::sqrt(187.0);
  r.weight_displacement = Eigen::VectorXd::Zero(coordinates);
  return r;
}

/// `count` columns, the first of every four.
auto every_fourth(const Eigen::MatrixXd& m, Eigen::Index count) {
  using Columns = Eigen::Map<const Eigen::MatrixXd, 0, Eigen::OuterStride<>>;
  return Columns(m.data(), m.rows(), count, Eigen::OuterStride<>(every * m.rows()));
}

WheelPathStream paths() {
  RandomRoadOptions options;
  options.tracks = {half_track, -half_track};
  RoadSpectrum spectrum;
  spectrum.level = *class_level('C');
  const WheelContact circle{WheelContact::Kind::circle, 0.25};
  return {Road(random_road(spectrum, options)),
          {{0, 0, circle}, {1, 0, circle}, {0, -2 * base, circle}, {1, -2 * base, circle}},
          speed,
          time_step};
}

}  // namespace

int main(int argc, char** argv) {
  RideOptions options;
  options.time_step = time_step;
  options.speed = speed;
  options.duration = argc > 1 ? std::atof(argv[1]) : 60;
  const RideSystem system = vehicle();
  const Eigen::Index modes = system.modes.cols(), coordinates = system.modes.rows();
  const Eigen::MatrixXd of_modes = Eigen::MatrixXd::Random(modes, stresses);
  const Eigen::MatrixXd of_forces = 1e-6 * Eigen::MatrixXd::Random(coordinates, stresses);

  const double road = seconds([&] {
    WheelPathStream stream = paths();
    Eigen::MatrixXd height(4, options.block), slope(4, options.block);
    for (double step = 0; step * time_step < options.duration; step += options.block) {
      stream(static_cast<std::int64_t>(step), height, slope);
    }
  });
  double greatest = 0, off = 0, steps = 0, sum = 0;
  const auto drive = [&](bool stressed, bool counted) {
    std::vector<RainflowCounter> counters(stresses + 4);
    Eigen::MatrixXd q, f, stress;
    greatest = off = steps = sum = 0;
    const auto end = ride(system, paths(), options, [&](const RideBlock& b) {
      greatest = std::max(greatest, b.tyre_force.maxCoeff());
      off += (b.tyre_force.row(0).array() == 0).cast<double>().sum();
      steps += static_cast<double>(b.tyre_force.cols());
      const auto take = [&](const Cycle& c) { sum += c.range * c.range * c.range; };
      if (stressed) {
        const Eigen::Index n = (b.displacement.cols() + every - 1) / every;
        q = every_fourth(b.displacement, n).transpose();
        f = every_fourth(b.forces, n).transpose();
        stress.noalias() = q * of_modes;
        stress.noalias() += f * of_forces;
        if (counted) {
          for (int i = 0; i < stresses; ++i) {
            counters[static_cast<size_t>(i)].add(stress.col(i).data(), n, 1, take);
          }
          for (int i = 0; i < 4; ++i) {
            counters[stresses + static_cast<size_t>(i)].add(b.tyre_force.data() + i,
                                                            b.tyre_force.cols(), 4, take);
          }
        }
      }
    });
    if (!end || end->diverged) std::puts("did not ride");
  };
  const double driven = seconds([&] { drive(false, false); });
  const double stressed = seconds([&] { drive(true, false); });
  const double counted = seconds([&] { drive(true, true); });
  std::printf("road and paths %.3f s, driven %.3f s, with stresses %.3f s, counted %.3f s\n", road,
              driven, stressed, counted);
  std::printf("%.0f steps, greatest force of a wheel %.2f static, off the ground %.1f %%\n", steps,
              greatest / (187 * 9.81 / 4), 100 * off / steps);
  return 0;
}
