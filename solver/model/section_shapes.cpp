#include "solver/model/section_shapes.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "solver/model/shear_coefficient.h"

namespace tubewright {

namespace {

constexpr double pi = std::numbers::pi;

/// What a rounded corner cuts off a square one, EN 10219-2 Annex B.
struct CornerLoss {
  double area;           ///< (1 - pi/4) r^2
  double second_moment;  ///< about its own centroid
  double depth;          ///< centroid below the flat face
};

CornerLoss corner_loss(double r) {
  return {(1 - pi / 4) * r * r, (1.0 / 3 - pi / 16 - 1 / (3 * (12 - 3 * pi))) * std::pow(r, 4),
          (10 - 3 * pi) / (12 - 3 * pi) * r};
}

struct Bending {
  double I;
  double Wpl;
};

/// About the axis parallel to `b`; `h` is the depth across it.
Bending hollow_bending(double h, double b, double t, const CornerLoss& outer,
                       const CornerLoss& inner) {
  const double hg = h / 2 - outer.depth;
  const double hxi = (h - 2 * t) / 2 - inner.depth;
  Bending r;
  r.I = b * std::pow(h, 3) / 12 - (b - 2 * t) * std::pow(h - 2 * t, 3) / 12 -
        4 * (outer.second_moment + outer.area * hg * hg) +
        4 * (inner.second_moment + inner.area * hxi * hxi);
  r.Wpl = b * h * h / 4 - (b - 2 * t) * std::pow(h - 2 * t, 2) / 4 - 4 * outer.area * hg +
          4 * inner.area * hxi;
  return r;
}

Section round_section(double D, double d) {
  Section s;
  s.A = pi * (D * D - d * d) / 4;
  s.Iy = s.Iz = pi * (std::pow(D, 4) - std::pow(d, 4)) / 64;
  s.Wy = s.Wz = 2 * s.Iy / D;
  s.Wply = s.Wplz = (std::pow(D, 3) - std::pow(d, 3)) / 6;
  s.It = 2 * s.Iy;
  s.Wt = 2 * s.Wy;
  s.profile = {ProfileKind::round, D, D, (D - d) / 2};
  return s;
}

/// Sum over odd n; the terms fall so fast that 101 reach the last digit of a double.
template <class Term>
double odd_series(Term term) {
  double sum = 0;
  for (int n = 1; n <= 201; n += 2) sum += term(n);
  return sum;
}

}  // namespace

CornerRadii cold_formed_corners(double wall) {
  constexpr double tolerance = 1e-9;  // so that 6 mm from any unit counts as 6 mm
  if (wall <= 0.006 + tolerance) return {2.0 * wall, 1.0 * wall};
  if (wall <= 0.010 + tolerance) return {2.5 * wall, 1.5 * wall};
  return {3.0 * wall, 2.0 * wall};
}

CornerRadii hot_finished_corners(double wall) { return {1.5 * wall, 1.0 * wall}; }

Section hollow_rectangle(double height, double width, double wall, CornerRadii corners, double nu) {
  const double H = height, B = width, T = wall, ro = corners.outer, ri = corners.inner;
  const CornerLoss outer = corner_loss(ro);
  const CornerLoss inner = corner_loss(ri);
  Section s;
  s.A = 2 * T * (B + H - 2 * T) - (4 - pi) * (ro * ro - ri * ri);
  const Bending about_y = hollow_bending(H, B, T, outer, inner);
  const Bending about_z = hollow_bending(B, H, T, outer, inner);
  s.Iy = about_y.I;
  s.Iz = about_z.I;
  s.Wy = 2 * s.Iy / H;
  s.Wz = 2 * s.Iz / B;
  s.Wply = about_y.Wpl;
  s.Wplz = about_z.Wpl;

  const double Rc = (ro + ri) / 2;
  const double h = 2 * ((B - T) + (H - T)) - 2 * Rc * (4 - pi);  // mean perimeter
  const double Ah = (B - T) * (H - T) - Rc * Rc * (4 - pi);      // enclosed by the mid-line
  const double K = 2 * Ah * T / h;
  s.It = std::pow(T, 3) * h / 3 + 2 * K * Ah;
  s.Wt = s.It / (T + K / T);

  s.Az = shear_coefficient_thin_box(nu, H - T, B - T) * s.A;
  s.Ay = shear_coefficient_thin_box(nu, B - T, H - T) * s.A;
  s.profile = {ProfileKind::hollow_rectangle, H, B, T};
  return s;
}

Section round_tube(double diameter, double wall, double nu) {
  const double inner = diameter - 2 * wall;
  Section s = round_section(diameter, inner);
  s.Ay = s.Az = shear_coefficient_hollow_circle(nu, inner / diameter) * s.A;
  return s;
}

Section round_bar(double diameter, double nu) {
  Section s = round_section(diameter, 0);
  s.Ay = s.Az = shear_coefficient_circle(nu) * s.A;
  s.profile.wall = 0;
  return s;
}

// Torsion of a solid rectangle a >= b: Timoshenko & Goodier, Theory of Elasticity, art. 109.
Section flat_bar(double height, double width, double nu) {
  const double H = height, B = width;
  Section s;
  s.A = H * B;
  s.Iy = B * H * H * H / 12;
  s.Iz = H * B * B * B / 12;
  s.Wy = 2 * s.Iy / H;
  s.Wz = 2 * s.Iz / B;
  s.Wply = B * H * H / 4;
  s.Wplz = H * B * B / 4;
  const double a = std::max(H, B), b = std::min(H, B);
  s.It = a * b * b * b / 3 * (1 - 192 * b / (std::pow(pi, 5) * a) * odd_series([&](int n) {
                                    return std::tanh(n * pi * a / (2 * b)) / std::pow(n, 5);
                                  }));
  // tau_max / (G theta b), at the middle of the long side
  const double peak = 1 - 8 / (pi * pi) * odd_series([&](int n) {
                            return 1 / (std::cosh(n * pi * a / (2 * b)) * n * n);
                          });
  s.Wt = s.It / (b * peak);
  s.Ay = s.Az = shear_coefficient_rectangle(nu) * s.A;
  s.profile = {ProfileKind::solid_rectangle, H, B, 0};
  return s;
}

}  // namespace tubewright
