#include "cases/attachment_checks/bolts.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "cases/checks/section_resistance.h"
#include "cases/checks/weld_check.h"
#include "cases/joints/chord_face.h"

namespace tubewright {
namespace {

constexpr double mm = 1e-3, mm2 = 1e-6, MPa = 1e6;

struct Size {
  double d, A_s, flats, points, washer;  // mm, mm2
};

constexpr std::array<Size, 8> sizes = {{{5, 14.2, 8, 8.79, 10},
                                        {6, 20.1, 10, 11.05, 12},
                                        {8, 36.6, 13, 14.38, 16},
                                        {10, 58.0, 16, 17.77, 20},
                                        {12, 84.3, 18, 20.03, 24},
                                        {14, 115, 21, 23.36, 28},
                                        {16, 157, 24, 26.75, 30},
                                        {20, 245, 30, 32.95, 37}}};

struct Grade {
  const char* name;
  double fyb, fub, alpha_v;  // MPa
};

constexpr std::array<Grade, 6> grades = {{{"4.6", 240, 400, 0.6},
                                          {"5.6", 300, 500, 0.6},
                                          {"5.8", 400, 500, 0.5},
                                          {"6.8", 480, 600, 0.5},
                                          {"8.8", 640, 800, 0.6},
                                          {"10.9", 900, 1000, 0.5}}};

}  // namespace

std::optional<Bolt> bolt_of(double diameter, const std::string& grade) {
  for (const Size& s : sizes) {
    if (std::abs(s.d * mm - diameter) > 1e-6) continue;
    for (const Grade& g : grades) {
      if (grade != g.name) continue;
      constexpr double clearance_to = 14;
      Bolt b;
      b.d = s.d * mm;
      b.A_s = s.A_s * mm2;
      b.d0 = (s.d + (s.d <= clearance_to ? 1 : 2)) * mm;
      b.d_m = (s.flats + s.points) / 2 * mm;
      b.washer = s.washer * mm;
      b.fub = g.fub * MPa;
      b.fyb = g.fyb * MPa;
      b.alpha_v = g.alpha_v;
      return b;
    }
  }
  return std::nullopt;
}

double bolt_shear_resistance(const Bolt& b) { return b.alpha_v * b.fub * b.A_s / gamma_M2; }

double bolt_tension_resistance(const Bolt& b) { return 0.9 * b.fub * b.A_s / gamma_M2; }

double bolt_bending_resistance(const Bolt& b) {
  const double d_s = std::sqrt(4 * b.A_s / std::numbers::pi);
  return 1.5 * std::numbers::pi * std::pow(d_s, 3) / 32 * b.fyb / gamma_M0;
}

double usual_preload(const Bolt& b) { return 0.7 * b.fub * b.A_s; }

double bearing_resistance(const Bolt& b, double fu, double t, double e1, double e2) {
  const double alpha_b = std::min({e1 / (3 * b.d0), b.fub / fu, 1.0});
  const double k1 = std::max(0.0, std::min(2.8 * e2 / b.d0 - 1.7, 2.5));
  return k1 * alpha_b * fu * b.d * t / gamma_M2;
}

double pull_through_resistance(const Bolt& b, double fu, double t) {
  return 0.6 * std::numbers::pi * b.d_m * t * fu / gamma_M2;
}

double face_under_washer(double fy, double t0, double b0, double washer) {
  constexpr double widest = 0.85, no_compression = 1;
  const double beta = std::min(washer / b0, widest);
  return chord_face_resistance(fy, t0, beta, beta, std::numbers::pi / 2, no_compression);
}

double net_tension_resistance(double A, double A_net, double fy, double fu) {
  return std::min(A * fy / gamma_M0, 0.9 * A_net * fu / gamma_M2);
}

double bolt_utilisation(const Bolt& b, double shear, double tension) {
  const double v = std::abs(shear) / bolt_shear_resistance(b);
  const double t = std::max(0.0, tension) / bolt_tension_resistance(b);
  return std::max(t, v + t / 1.4);
}

}  // namespace tubewright
