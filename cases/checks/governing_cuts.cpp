#include "cases/checks/governing_cuts.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace tubewright {

namespace {

/// Fraction between `a` and `b` where a force that is linear there passes zero; none: `a`.
double zero_between(double a, double b, double at_a, double at_b) {
  return at_a * at_b < 0 ? a + (b - a) * at_a / (at_a - at_b) : a;
}

/// Fraction between `a` and `b` where a moment that is quadratic there has its extreme, from its
/// values at a, in the middle and at b; none: `a`. Under couples along the beam that is not where a
/// transverse force passes zero.
double extreme_between(double a, double b, double at_a, double middle, double at_b) {
  const double slope = 4 * middle - 3 * at_a - at_b, bend = 2 * (at_a + at_b) - 4 * middle;
  constexpr double straight = 1e-9;
  const double size = std::max({std::abs(at_a), std::abs(middle), std::abs(at_b)});
  if (std::abs(bend) <= straight * size) return a;
  const double t = -slope / (2 * bend);
  return t > 0 && t < 1 ? a + (b - a) * t : a;
}

}  // namespace

std::vector<SectionCut> governing_cuts(const BeamState& beam) {
  std::vector<SectionCut> cuts;
  const std::vector<double> at = smooth_intervals(beam);
  const bool loaded = !beam.actions.line.isZero(0), coupled = !beam.actions.couple.isZero(0);
  for (size_t i = 0; i + 1 < at.size(); ++i) {
    const double a = at[i], b = at[i + 1];
    const SectionForces first = section_forces(beam, a), last = section_forces(beam, b, true);
    std::array<double, 3> between = {zero_between(a, b, first.Vy, last.Vy),
                                     zero_between(a, b, first.Vz, last.Vz),
                                     loaded ? (a + b) / 2 : a};
    if (coupled) {
      const SectionForces middle = section_forces(beam, (a + b) / 2);
      between[0] = extreme_between(a, b, first.Mz, middle.Mz, last.Mz);
      between[1] = extreme_between(a, b, first.My, middle.My, last.My);
    }
    std::sort(between.begin(), between.end());
    cuts.push_back({a, first});
    for (const double s : between) {
      if (s > a && s < b) cuts.push_back({s, section_forces(beam, s)});
    }
    cuts.push_back({b, last});
  }
  return cuts;
}

SectionForces scaled(const SectionForces& f, double factor) {
  return {factor * f.N, factor * f.Vy, factor * f.Vz, factor * f.T, factor * f.My, factor * f.Mz};
}

}  // namespace tubewright
