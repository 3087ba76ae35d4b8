#include "cases/checks/effective_section.h"

#include <cmath>

#include "cases/checks/section_class.h"

namespace tubewright {

double effective_share(double c_over_t, double epsilon) {
  constexpr double k_sigma = 4;      // Table 4.1, psi = 1
  constexpr double no_loss = 0.673;  // 0.5 + sqrt(0.085 - 0.055 psi), eq. 4.2
  const double lambda_p = c_over_t / (28.4 * epsilon * std::sqrt(k_sigma));
  if (lambda_p <= no_loss) return 1;
  return (lambda_p - 0.22) / (lambda_p * lambda_p);
}

EffectiveSection effective_section(const Section& s, double fy) {
  EffectiveSection r;
  const Profile& p = s.profile;
  if (!(fy > 0)) {
    r.reason = "the material has no yield strength";
    return r;
  }
  if (p.kind != ProfileKind::hollow_rectangle) {
    r.reason = "outside the scope: effective widths are for flat walls (EN 1993-1-5)";
    return r;
  }
  const double epsilon = yield_epsilon(fy);
  const auto gap = [&](double side) {  // cut out of the middle of one wall
    const double c = flat_width(s, side);
    return (1 - effective_share(c / p.wall, epsilon)) * c;
  };
  const double t = p.wall, gap_h = gap(p.height), gap_b = gap(p.width);
  const auto loss = [t](double depth, double flange_gap, double web_gap) {
    const double arm = (depth - t) / 2;
    return 2 * (flange_gap * t * arm * arm + flange_gap * t * t * t / 12 +
                t * web_gap * web_gap * web_gap / 12);
  };
  r.A = s.A - 2 * t * (gap_h + gap_b);
  r.Wy = (s.Iy - loss(p.height, gap_b, gap_h)) / (p.height / 2);
  r.Wz = (s.Iz - loss(p.width, gap_h, gap_b)) / (p.width / 2);
  return r;
}

}  // namespace tubewright
