#include "cases/checks/lateral_torsional.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

namespace tubewright {

namespace {

/// Whether the bar still stands when its moments are multiplied by `factor`: all pivots of the
/// discrete G I_t phi'' + M^2/(E I) phi are positive. `spring`: G I_t over a step; `push`: step
/// M^2/(E I) at each station, half at the ends.
bool stands(double factor, double spring, const std::vector<double>& push,
            std::array<bool, 2> held) {
  const size_t n = push.size();
  double pivot = 0;
  for (size_t i = held[0] ? 1 : 0; i < (held[1] ? n - 1 : n); ++i) {
    double k = (i > 0 ? spring : 0) + (i + 1 < n ? spring : 0) - factor * factor * push[i];
    if (pivot > 0) k -= spring * spring / pivot;
    if (!(k > 0)) return false;
    pivot = k;
  }
  return true;
}

}  // namespace

bool strong_about_y(const Profile& p) { return p.height > p.width; }

bool may_tip_over(const Section& s, double fy, double E, double length) {
  const Profile& p = s.profile;
  if (p.height == p.width || !(fy > 0)) return false;
  if (p.kind == ProfileKind::solid_rectangle) return true;
  if (p.kind != ProfileKind::hollow_rectangle) return false;
  const double slenderness = std::sqrt(s.A * fy / euler_load(E, std::min(s.Iy, s.Iz), length));
  return std::max(p.height, p.width) / std::min(p.height, p.width) * slenderness > 10;
}

double tipping_factor(const Section& s, const Material& m, double length, std::array<bool, 2> held,
                      const std::vector<double>& moments) {
  if (!held[0] && !held[1]) return 0;
  double greatest = 0;
  for (const double M : moments) greatest = std::max(greatest, std::abs(M));
  const double stiffness = std::sqrt(m.E * std::min(s.Iy, s.Iz) * m.G * s.It);
  // Even with the greatest moment all along it stands at the first.
  double enough = 0.99 * std::numbers::pi / 2 * stiffness / (length * greatest);
  if (!std::isfinite(enough)) return std::numeric_limits<double>::infinity();
  const double step = length / static_cast<double>(moments.size() - 1);
  std::vector<double> push;
  for (const double M : moments) push.push_back(step * M * M / (m.E * std::min(s.Iy, s.Iz)));
  push.front() /= 2;
  push.back() /= 2;
  const double spring = m.G * s.It / step;
  double too_much = 2 * enough;
  constexpr double never = 1e9;
  while (stands(too_much, spring, push, held)) {
    if (too_much > never) return std::numeric_limits<double>::infinity();
    enough = std::exchange(too_much, 2 * too_much);
  }
  constexpr int halvings = 50;
  for (int i = 0; i < halvings; ++i) {
    const double middle = (enough + too_much) / 2;
    (stands(middle, spring, push, held) ? enough : too_much) = middle;
  }
  return enough;
}

double lateral_torsional_factor(double M_Rk, double M_cr) {
  if (!(M_cr > 0)) return 0;
  return reduction_factor(std::sqrt(M_Rk / M_cr), BucklingCurve::d);
}

}  // namespace tubewright
