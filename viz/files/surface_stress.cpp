#include "viz/files/surface_stress.h"

#include <cmath>
#include <numbers>

namespace tubewright {

namespace {

/// A thin-walled square tube of side b has I = A b^2 / 6 about either axis.
double drawn_side(const Section& s) {
  const double side = std::sqrt(6 * (s.Iy + s.Iz) / 2 / s.A);
  return std::isfinite(side) ? side : 0;
}

std::vector<StressPoint> square_ring(double side) {
  Section square;
  square.A = square.Iy = square.Iz = square.Wt = 1;
  square.profile = {ProfileKind::solid_rectangle, side, side, 0};
  return outline(square);
}

/// The point of a round outline at `angle` from the one that `at_y`, on +y, and `at_z`, on +z,
/// make: all its parts but torsion go with the cosine or the sine.
StressPoint round_point(const StressPoint& at_y, const StressPoint& at_z, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  StressPoint point;
  point.y = c * at_y.y + s * at_z.y;
  point.z = c * at_y.z + s * at_z.z;
  point.shear_per_Vy = c * at_y.shear_per_Vy + s * at_z.shear_per_Vy;
  point.shear_per_Vz = c * at_y.shear_per_Vz + s * at_z.shear_per_Vz;
  point.shear_per_T = at_y.shear_per_T;
  return point;
}

std::vector<StressPoint> turned_ring(const std::vector<StressPoint>& ring, const SectionForces& f) {
  const double step = 2 * std::numbers::pi / static_cast<double>(ring.size());
  const double steepest = std::atan2(f.My, -f.Mz);  // sigma ~ My sin - Mz cos
  const double turn = std::remainder(steepest, step);
  std::vector<StressPoint> turned;
  for (std::size_t i = 0; i < ring.size(); ++i)
    turned.push_back(
        round_point(ring[0], ring[ring.size() / 4], static_cast<double>(i) * step + turn));
  return turned;
}

}  // namespace

std::vector<StressPoint> surface_ring(const Section& section, const SectionForces& f) {
  if (section.profile.kind == ProfileKind::unknown) return square_ring(drawn_side(section));
  const std::vector<StressPoint> ring = outline(section);
  const bool bent = f.My != 0 || f.Mz != 0;
  return section.profile.kind == ProfileKind::round && bent ? turned_ring(ring, f) : ring;
}

PointStress surface_stress(const Section& section, const StressPoint& point,
                           const SectionForces& f) {
  if (section.profile.kind != ProfileKind::unknown) return stress_at(section, point, f);
  const Stress worst = worst_stress(section, f);
  return {std::copysign(std::abs(worst.axial) + worst.bending, worst.axial), worst.shear,
          worst.von_mises};
}

double greatest_normal_stress(const Section& section, const SectionForces& f) {
  double greatest = 0;
  for (const StressPoint& point : surface_ring(section, f)) {
    const double normal = surface_stress(section, point, f).normal;
    const bool greater = std::abs(normal) > std::abs(greatest);
    if (greater || (normal == -greatest && normal > 0)) greatest = normal;
  }
  return greatest;
}

}  // namespace tubewright
