// One step of an oscillator against closed forms and against many small steps of another kind.
#include "solver/dynamics/modal_recurrence.h"

#include <array>
#include <cmath>

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::modal_recurrence_test {

namespace {

constexpr double pi = 3.14159265358979323846;

struct OscillatorState {
  double q, v;
};

OscillatorState step(const ModalRecurrence& r, OscillatorState s, double p0, double p1) {
  return {r.qq * s.q + r.qv * s.v + r.q0p * p0 + r.q1p * p1,
          r.vq * s.q + r.vv * s.v + r.v0p * p0 + r.v1p * p1};
}

/// Runge and Kutta's fourth order in many parts.
OscillatorState by_parts(double omega, double zeta, double h, OscillatorState s, double p0,
                         double p1, int parts) {
  const double dt = h / parts;
  const auto rate = [&](OscillatorState a, double t) {
    return OscillatorState{a.v,
                           p0 + (p1 - p0) * t / h - 2 * zeta * omega * a.v - omega * omega * a.q};
  };
  const auto moved = [](OscillatorState a, OscillatorState b, double f) {
    return OscillatorState{a.q + f * b.q, a.v + f * b.v};
  };
  for (int i = 0; i < parts; ++i) {
    const double t = i * dt;
    const auto k1 = rate(s, t), k2 = rate(moved(s, k1, dt / 2), t + dt / 2),
               k3 = rate(moved(s, k2, dt / 2), t + dt / 2), k4 = rate(moved(s, k3, dt), t + dt);
    s.q += dt / 6 * (k1.q + 2 * k2.q + 2 * k3.q + k4.q);
    s.v += dt / 6 * (k1.v + 2 * k2.v + 2 * k3.v + k4.v);
  }
  return s;
}

}  // namespace

TEST_CASE("a free oscillator keeps its period and its amplitude", "[truth]") {
  constexpr Source exact = rederived("cos(omega t)");
  for (const double share : {0.02, 0.2, 0.9}) {  // of a period
    const ModalRecurrence r = modal_recurrence(2 * pi, 0, share);
    OscillatorState s{1, 0};
    const int steps = static_cast<int>(std::lround(1000 / share));
    for (int i = 0; i < steps; ++i) s = step(r, s, 0, 0);
    truth(named("free oscillator after a thousand periods, step of ", share, " periods"), exact,
          s.q, within_abs(std::cos(2 * pi * share * steps), 1e-8));
    CHECK_THAT(s.v / (2 * pi), WithinAbs(-std::sin(2 * pi * share * steps), 1e-8));
  }
}

TEST_CASE("a step is exact for any damping and a force that is linear over it") {
  for (const double omega : {0.0, 1e-9, 1e-3, 1.0, 30.0}) {
    for (const double zeta : {0.0, 0.01, 0.3, 0.999999, 1.0, 1.000001, 3.0}) {
      for (const double h : {1e-4, 0.02, 0.3}) {
        CAPTURE(omega, zeta, h);
        const OscillatorState start{0.7, -1.3};
        const auto ours = step(modal_recurrence(omega, zeta, h), start, 2, -5);
        const auto theirs = by_parts(omega, zeta, h, start, 2, -5, 4000);
        CHECK_THAT(ours.q, WithinAbs(theirs.q, 1e-10));
        CHECK_THAT(ours.v, WithinAbs(theirs.v, 1e-9));
      }
    }
  }
}

TEST_CASE("a body without stiffness goes by the law of motion") {
  const ModalRecurrence r = modal_recurrence(0, 0.3, 0.5);
  CHECK_THAT(r.qq, WithinAbs(1, 1e-15));
  CHECK_THAT(r.qv, WithinAbs(0.5, 1e-15));
  CHECK_THAT(r.q0p, WithinAbs(0.25 / 3, 1e-15));
  CHECK_THAT(r.q1p, WithinAbs(0.25 / 6, 1e-15));
  CHECK(r.vq == 0);
  CHECK_THAT(r.v0p, WithinAbs(0.25, 1e-15));
  CHECK_THAT(r.v1p, WithinAbs(0.25, 1e-15));
}

TEST_CASE("steps of many periods and of heavy damping stay bounded") {
  for (const double omega : {1e2, 1e5, 1e8}) {
    for (const double zeta : {0.0, 0.01, 1.0, 4.0}) {
      const ModalRecurrence r = modal_recurrence(omega, zeta, 1);
      CAPTURE(omega, zeta);
      CHECK(std::abs(r.qq) <= 1 + 1e-6);
      CHECK(std::abs(r.vv) <= 1 + 1e-6);
      CHECK(std::abs(r.vq) <= omega * (1 + 1e-6));
      // A steady force gives its static displacement in the end.
      if (zeta == 1) CHECK_THAT((r.q0p + r.q1p) * omega * omega, WithinAbs(1, 1e-6));
    }
  }
}

TEST_CASE("two steps are one of twice the length") {
  const ModalRecurrence half = modal_recurrence(7, 0.1, 0.05),
                        whole = modal_recurrence(7, 0.1, 0.1);
  const OscillatorState start{0.2, 1};
  const auto two = step(half, step(half, start, 1, 2), 2, 3);
  const auto one = step(whole, start, 1, 3);
  CHECK_THAT(two.q, WithinAbs(one.q, 1e-14));
  CHECK_THAT(two.v, WithinAbs(one.v, 1e-13));
}

}  // namespace tubewright::modal_recurrence_test
