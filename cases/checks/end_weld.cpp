#include "cases/checks/end_weld.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "cases/frame/wording.h"

namespace tubewright {

namespace {

constexpr double thin = 4e-3;          // m, EN 1993-1-8 4.1(1) and EN 1993-1-3 8.5.1
constexpr double least_fillet = 3e-3;  // m, EN 1993-1-8 4.5.2(2)
constexpr double rounded = 0.99;       // the throats of 7.3.1(4) are told to two places

/// Why a number below 1 proves nothing; empty if it does.
std::string throat_fault(const Profile& p, const FilletWeld& weld) {
  if (!weld.throat) return "";
  const double a = *weld.throat;
  const auto mm = [](double x) { return decimals(x * 1e3, 2) + " mm"; };
  if (a < rounded * weld.least_throat) {
    return "not as strong as the wall: EN 1993-1-8 7.3.1(4) asks for a throat of " +
           mm(weld.least_throat) + " on a tube, it has " + mm(a);
  }
  if (p.wall >= thin && a < rounded * least_fillet) {
    return "EN 1993-1-8 4.5.2(2) asks for a throat of 3 mm or more, it has " + mm(a);
  }
  return "";
}

}  // namespace

double thin_weld_utilisation(double across, double along, double wall, double throat, double fu) {
  const double strength = std::min(wall, throat) * fu / gamma_M2;
  return std::hypot(across / (0.7 * strength), along / (0.45 * strength));
}

CheckResult end_weld_check(const Profile& p, const FilletWeld& weld, const SectionForces& forces) {
  const bool solid = p.kind != ProfileKind::unknown && p.wall == 0;
  CheckResult r;
  if (solid && !weld.throat) {
    r.clause = "EN 1993-1-8 4.5.3.2";
    r.reason = "a solid bar has no wall: give `weld_throat`";
    return r;
  }
  const WeldCheck check = weld_check(p, weld, forces);
  r = check.directional;
  if (!r.utilisation) return r;
  if (p.wall > 0 && p.wall < thin) {
    const double a = weld.throat.value_or(p.wall);
    const double beside = thin_weld_utilisation(std::numbers::sqrt2 * check.sigma_perp * a,
                                                check.tau_par * a, p.wall, a, weld.fu);
    if (beside > *r.utilisation) {
      r.utilisation = beside;
      r.clause = "EN 1993-1-3 8.5.2";
    }
    r.comparison = true;
    r.reason =
        "made by rules for walls of 4 mm and more (EN 1993-1-8 4.1), so on thinner tube a "
        "comparison, no proof";
  }
  const std::string fault = throat_fault(p, weld);
  if (!fault.empty() && passes(*r.utilisation)) {
    r.utilisation.reset();
    r.comparison = false;
    r.reason = fault;
  }
  return r;
}

}  // namespace tubewright
