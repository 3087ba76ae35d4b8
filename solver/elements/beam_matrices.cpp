#include "solver/elements/beam_matrices.h"

#include <array>

#include "solver/elements/beam_shapes.h"
#include "solver/elements/curved_beam.h"

namespace tubewright {

namespace {

// DOFs of one bending plane: deflection and rotation at both ends, and the sign that turns the
// rotation about the axis into the sense of dv/dx.
struct Plane {
  std::array<int, 4> unknowns;
  double turn;
};
constexpr Plane plane_xy = {{1, 5, 7, 11}, +1};
constexpr Plane plane_xz = {{2, 4, 8, 10}, -1};

// Gauss points and weights on 0..1, exact to degree 7: the shapes' squares, times a force that
// changes evenly.
constexpr std::array<double, 4> gauss_at = {0.069431844202974, 0.330009478207572, 0.669990521792428,
                                            0.930568155797026};
constexpr std::array<double, 4> gauss_weight = {0.173927422568727, 0.326072577431273,
                                                0.326072577431273, 0.173927422568727};

void add_square(Matrix12& M, const Plane& plane, const Eigen::Vector4d& shape, double factor) {
  Eigen::Vector4d signed_shape = shape;
  signed_shape[1] *= plane.turn;
  signed_shape[3] *= plane.turn;
  for (int i = 0; i < 4; ++i) {
    for (int j = 0; j < 4; ++j) {
      M(plane.unknowns[i], plane.unknowns[j]) += factor * signed_shape[i] * signed_shape[j];
    }
  }
}

}  // namespace

Matrix12 local_mass(const BeamElement& e) {
  const Section& s = e.section;
  const Material& m = e.material;
  const double length = developed_length(e);
  const double along = m.density * s.A * length / 6,
               turning = m.density * (s.Iy + s.Iz) * length / 6;
  Matrix12 M = Matrix12::Zero();
  for (const auto& [d, factor] : {std::pair{0, along}, {3, turning}}) {
    M(d, d) = M(6 + d, 6 + d) = 2 * factor;
    M(d, 6 + d) = M(6 + d, d) = factor;
  }
  for (int g = 0; g < 4; ++g) {
    const double dx = gauss_weight[g] * length;
    for (const auto& [plane, I, As] :
         {std::tuple{plane_xy, s.Iz, s.Ay}, std::tuple{plane_xz, s.Iy, s.Az}}) {
      const BendingShapes n = bending_shapes(gauss_at[g], e.L, shear_ratio(m, I, As, e.L));
      add_square(M, plane, n.deflection, m.density * s.A * dx);
      add_square(M, plane, n.rotation, m.density * I * dx);
    }
  }
  return M;
}

Matrix12 local_stress_stiffness(const BeamElement& e, double N, double growth) {
  const Section& s = e.section;
  Matrix12 K = Matrix12::Zero();
  const double torsion = N * (s.Iy + s.Iz) / s.A / e.L;
  K(3, 3) = K(9, 9) = torsion;
  K(3, 9) = K(9, 3) = -torsion;
  for (int g = 0; g < 4; ++g) {
    const double dx = gauss_weight[g] * e.L;
    for (const auto& [plane, I, As] :
         {std::tuple{plane_xy, s.Iz, s.Ay}, std::tuple{plane_xz, s.Iy, s.Az}}) {
      const BendingShapes n = bending_shapes(gauss_at[g], e.L, shear_ratio(e.material, I, As, e.L));
      add_square(K, plane, n.slope, (N + growth * (gauss_at[g] - 0.5)) * dx);
    }
  }
  return K;
}

Matrix12 seen_from_joints(const BeamElement& e, const Matrix12& on_ends) {
  const Matrix12 R = rotation_12(e.axes);
  if (e.rigidly_joined()) return R.transpose() * on_ends * R;
  const Matrix12 T = condense(e)->from_joint * R;
  return T.transpose() * on_ends * T;
}

}  // namespace tubewright
