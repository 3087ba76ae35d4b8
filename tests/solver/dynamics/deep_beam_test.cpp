// A deep simply supported beam that is loaded evenly: suddenly, in a steady swing, at random. L 10
// m, section 2 x 2 m, E 200e9, nu 0.3, rho 8000, 2 % damping in all modes, 1e6 N/m.
#include <array>
#include <complex>

#include "solver/dynamics/modal_recurrence.h"
#include "tests/solver/dynamics/ride_models.h"
#include "tests/truth.h"

namespace tubewright::deep_beam_test {

using namespace tubewright::test;

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double damping = 0.02;

constexpr Source series = rederived("Timoshenko beam, both branches, odd n up to 31, script");

/// Each number of modes: q'' + 2 zeta omega q' + omega^2 q = load p(t), p = 1 for 1e6 N/m; in the
/// middle w = deflection q and the bending stress of the outer fibre is bending q.
struct DeepBeam {
  Eigen::VectorXd omega, load, deflection, bending;
};

DeepBeam deep_beam(double shear_factor) {
  constexpr double L = 10, b = 2, E = 200e9, G = E / 2.6, rho = 8000, even_load = 1e6;
  constexpr double area = b * b, I = b * b * b * b / 12;
  constexpr Eigen::Index modes = 32;
  DeepBeam beam;
  for (Eigen::VectorXd* v : {&beam.omega, &beam.load, &beam.deflection, &beam.bending}) {
    v->resize(modes);
  }
  Eigen::Index mode = 0;
  for (int n = 1; n <= 31; n += 2) {
    const double a = n * pi / L, shear = shear_factor * G * area;
    const Eigen::MatrixXd K =
        (Eigen::Matrix2d() << shear * a * a, -shear * a, -shear * a, shear + E * I * a * a)
            .finished() *
        L / 2;
    const Eigen::MatrixXd M = (Eigen::Matrix2d() << rho * area, 0, 0, rho * I).finished() * L / 2;
    const auto pairs = symmetric_eigensystem(K, M);
    REQUIRE(pairs.has_value());
    const double sign = n % 4 == 1 ? 1 : -1;
    for (Eigen::Index i = 0; i < 2; ++i, ++mode) {
      beam.omega[mode] = std::sqrt(pairs->values[i]);
      beam.load[mode] = even_load * 2 * L / (n * pi) * pairs->vectors(0, i);
      beam.deflection[mode] = sign * pairs->vectors(0, i);
      beam.bending[mode] = sign * E * a * pairs->vectors(1, i) * b / 2;
    }
  }
  REQUIRE(mode == modes);
  return beam;
}

double first_frequency(const DeepBeam& beam) { return beam.omega[0] / (2 * pi); }

/// Where a mode answers most: f sqrt(1 - 2 zeta^2).
double resonance(const DeepBeam& beam) {
  return first_frequency(beam) * std::sqrt(1 - 2 * damping * damping);
}

/// Deflection and stress in the middle.
struct Middle {
  double deflection = 0, stress = 0;
};

/// Steps all modes by the exact recurrence under load(step), and hands over what the middle does.
template <class Load, class See>
void drive(const DeepBeam& beam, double dt, std::int64_t steps, const Load& load, const See& see) {
  std::vector<ModalRecurrence> step;
  for (const double omega : beam.omega) step.push_back(modal_recurrence(omega, damping, dt));
  Eigen::VectorXd q = Eigen::VectorXd::Zero(beam.omega.size()), v = q;
  for (std::int64_t k = 1; k <= steps; ++k) {
    const double before = load(k - 1), now = load(k);
    for (Eigen::Index i = 0; i < q.size(); ++i) {
      const ModalRecurrence& r = step[static_cast<size_t>(i)];
      const double p0 = beam.load[i] * before, p1 = beam.load[i] * now, q0 = q[i];
      q[i] = r.qq * q0 + r.qv * v[i] + r.q0p * p0 + r.q1p * p1;
      v[i] = r.vq * q0 + r.vv * v[i] + r.v0p * p0 + r.v1p * p1;
    }
    see(k, Middle{beam.deflection.dot(q), beam.bending.dot(q)});
  }
}

/// Peaks of the last period under sin(2 pi f t), when what began it has died away to 1e-7.
Middle steady_swing(const DeepBeam& beam, double f) {
  constexpr std::int64_t in_a_period = 4000;
  const double dt = 1 / (f * in_a_period);
  const auto periods = static_cast<std::int64_t>(std::ceil(16 / (damping * beam.omega[0]) * f));
  Middle peak;
  drive(
      beam, dt, periods * in_a_period,
      [](std::int64_t k) { return std::sin(2 * pi * static_cast<double>(k) / in_a_period); },
      [&](std::int64_t k, const Middle& now) {
        if (k <= (periods - 1) * in_a_period) return;
        peak.deflection = std::max(peak.deflection, now.deflection);
        peak.stress = std::max(peak.stress, now.stress);
      });
  return peak;
}

/// Greatest spectral densities near the resonance under an even load of white noise, one
/// (1e6 N/m)^2/Hz: |H|^2, H by Fourier's integral of what follows one push. The push grows and
/// falls within a step each, its integral dt and its spectrum dt (sin(pi f dt)/(pi f dt))^2.
Middle peak_densities(const DeepBeam& beam) {
  constexpr double dt = 2e-5, spacing = 0.002;
  constexpr int each_side = 10;
  const auto steps = static_cast<std::int64_t>(16 / (damping * beam.omega[0]) / dt);
  std::array<std::complex<double>, 2 * each_side + 1> turn, at, w, stress;
  std::array<double, 2 * each_side + 1> frequency{};
  for (size_t j = 0; j < turn.size(); ++j) {
    frequency[j] = resonance(beam) + spacing * (static_cast<double>(j) - each_side);
    turn[j] = std::polar(1.0, -2 * pi * frequency[j] * dt);
    at[j] = 1;
  }
  drive(
      beam, dt, steps, [](std::int64_t k) { return k == 1 ? 1.0 : 0.0; },
      [&](std::int64_t, const Middle& now) {
        for (size_t j = 0; j < turn.size(); ++j) {
          at[j] *= turn[j];
          w[j] += now.deflection * at[j];
          stress[j] += now.stress * at[j];
        }
      });
  Middle most;
  for (size_t j = 0; j < turn.size(); ++j) {
    const double half_turn = pi * frequency[j] * dt, sinc = std::sin(half_turn) / half_turn;
    const double push = std::pow(sinc, 4);
    most.deflection = std::max(most.deflection, std::norm(w[j]) / push);
    most.stress = std::max(most.stress, std::norm(stress[j]) / push);
  }
  return most;
}

/// What the middle does under the load that is there all at once, step by step.
struct Sudden {
  Eigen::VectorXd w, stress;
};

Sudden sudden(const DeepBeam& beam, double dt) {
  RideSystem r;
  r.circular_frequency = beam.omega;
  r.damping_ratio = Eigen::VectorXd::Constant(beam.omega.size(), damping);
  r.weight_modal = beam.load;
  r.modes = Eigen::MatrixXd::Zero(0, beam.omega.size());
  r.residual_flexibility.resize(0, 0);
  r.weight_displacement.resize(0);
  RideOptions o;
  o.time_step = dt;
  o.duration = 0.03;
  o.start = at_rest(r);
  const History h = history(r, level_ground(), o);
  return {h.q.transpose() * beam.deflection, h.q.transpose() * beam.bending};
}

}  // namespace

TEST_CASE("a deep beam under a sudden load has the peaks of its series", "[truth]") {
  constexpr Source recalled =
      from_memory("benchmark 5T of the deep simply supported beam, reference values");
  constexpr double dt = 1e-5;
  const DeepBeam beam = deep_beam(.8497), common = deep_beam(5 / 6.0);
  const double sag =
      (beam.load.array() * beam.deflection.array() / beam.omega.array().square()).sum();
  const auto [w, stress] = sudden(beam, dt);
  truth("deep beam: first frequency, Hz", series, first_frequency(beam), within_abs(42.645, 6e-4));
  truth("deep beam: static deflection, mm", series, 1e3 * sag, within_abs(.5361, 6e-5));
  Eigen::Index at = 0;
  truth("deep beam: greatest deflection, mm", series, 1e3 * w.maxCoeff(&at),
        within_abs(1.0419, 6e-5));
  truth("deep beam: its time, s", series, static_cast<double>(at) * dt, within_abs(.01157, 2e-5));
  truth("deep beam: greatest stress, MPa", series, 1e-6 * stress.maxCoeff(&at),
        within_abs(18.564, 6e-3));
  truth("deep beam: its time, of the stress, s", series, static_cast<double>(at) * dt,
        within_abs(.01115, 2e-5));
  truth("deep beam: greatest deflection, reference, mm", recalled, 1e3 * w.maxCoeff(),
        within_rel(1.043, 2e-3));
  truth("deep beam: greatest stress, reference, MPa", recalled, 1e-6 * stress.maxCoeff(),
        within_rel(18.76, 0.012));
  const auto [w56, stress56] = sudden(common, dt);
  truth("deep beam, shear factor 5/6: first frequency, Hz", series, first_frequency(common),
        within_abs(42.609, 6e-4));
  truth("deep beam, shear factor 5/6: greatest deflection, mm", series, 1e3 * w56.maxCoeff(),
        within_abs(1.0440, 6e-5));
  truth("deep beam, shear factor 5/6: greatest stress, MPa", series, 1e-6 * stress56.maxCoeff(),
        within_abs(18.576, 6e-3));
}

TEST_CASE("a deep beam that is shaken evenly swings as its series at resonance", "[truth]") {
  constexpr Source recalled =
      from_memory("benchmark 5H of the deep simply supported beam, reference values at 42.65 Hz");
  const DeepBeam beam = deep_beam(.8497), common = deep_beam(5 / 6.0);
  const Middle peak = steady_swing(beam, resonance(beam));
  truth("deep beam, shaken: greatest deflection, mm", series, 1e3 * peak.deflection,
        within_abs(13.489, 6e-4));
  truth("deep beam, shaken: greatest stress, MPa", series, 1e-6 * peak.stress,
        within_abs(242.55, 6e-3));
  const Middle there = steady_swing(beam, 42.65);
  truth("deep beam, shaken at 42.65 Hz: deflection, reference, mm", recalled,
        1e3 * there.deflection, within_rel(13.45, 3e-3));
  truth("deep beam, shaken at 42.65 Hz: stress, reference, MPa", recalled, 1e-6 * there.stress,
        within_rel(241.9, 3e-3));
  CHECK(there.deflection < peak.deflection);
  const Middle peak56 = steady_swing(common, resonance(common));
  truth("deep beam, shaken, shear factor 5/6: greatest deflection, mm", series,
        1e3 * peak56.deflection, within_abs(13.514, 6e-4));
  truth("deep beam, shaken, shear factor 5/6: greatest stress, MPa", series, 1e-6 * peak56.stress,
        within_abs(242.57, 6e-3));
}

TEST_CASE("a deep beam under an even noise has the peak densities of its series", "[truth]") {
  constexpr Source recalled =
      from_memory("benchmark 5R of the deep simply supported beam, reference values");
  const Middle peak = peak_densities(deep_beam(.8497));
  const double mm2 = 1e6 * peak.deflection, MPa2 = 1e-12 * peak.stress;
  truth("deep beam, noise: greatest density of deflection, mm2/Hz", series, mm2,
        within_abs(181.96, 6e-3));
  truth("deep beam, noise: greatest density of stress, MPa2/Hz", series, MPa2,
        within_abs(58833, 0.6));
  truth("deep beam, noise: density of deflection, reference, mm2/Hz", recalled, mm2,
        within_rel(180.90, 7e-3));
  truth("deep beam, noise: density of stress, reference, MPa2/Hz", recalled, MPa2,
        within_rel(58516, 7e-3));
  const Middle peak56 = peak_densities(deep_beam(5 / 6.0));
  truth("deep beam, noise, shear factor 5/6: greatest density of deflection, mm2/Hz", series,
        1e6 * peak56.deflection, within_abs(182.62, 6e-3));
  truth("deep beam, noise, shear factor 5/6: greatest density of stress, MPa2/Hz", series,
        1e-12 * peak56.stress, within_abs(58838, 0.6));
}

}  // namespace tubewright::deep_beam_test
