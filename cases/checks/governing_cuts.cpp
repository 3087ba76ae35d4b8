#include "cases/checks/governing_cuts.h"

#include <algorithm>
#include <array>

namespace tubewright {

namespace {

/// Fraction between `a` and `b` where a force that is linear there passes zero; none: `a`.
double zero_between(double a, double b, double at_a, double at_b) {
  return at_a * at_b < 0 ? a + (b - a) * at_a / (at_a - at_b) : a;
}

}  // namespace

std::vector<SectionCut> governing_cuts(const BeamState& beam) {
  std::vector<SectionCut> cuts;
  const std::vector<double> at = smooth_intervals(beam);
  const bool loaded = !beam.actions.line.isZero(0);
  for (size_t i = 0; i + 1 < at.size(); ++i) {
    const double a = at[i], b = at[i + 1];
    const SectionForces first = section_forces(beam, a), last = section_forces(beam, b, true);
    std::array<double, 3> between = {zero_between(a, b, first.Vy, last.Vy),
                                     zero_between(a, b, first.Vz, last.Vz),
                                     loaded ? (a + b) / 2 : a};
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
