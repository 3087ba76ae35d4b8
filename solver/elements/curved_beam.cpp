#include "solver/elements/curved_beam.h"

#include <Eigen/Cholesky>
#include <Eigen/Geometry>
#include <array>
#include <cmath>

#include "solver/elements/rotations.h"

namespace tubewright {

namespace {

using Matrix6 = Eigen::Matrix<double, 6, 6>;

// Gauss points and weights on -1..1 (M. Abramowitz, I. Stegun, Handbook of Mathematical Functions,
// table 25.4; from memory). On 90 degrees what they leave out is below 1e-13.
constexpr std::array<double, 4> on_arc_at = {0.1834346424956498, 0.5255324099163290,
                                             0.7966664774136267, 0.9602898564975363};
constexpr std::array<double, 4> on_arc_weight = {0.3626837833783620, 0.3137066458778873,
                                                 0.2223810344533745, 0.1012285362903763};

/// Per metre: of N, Vy, Vz, T, My, Mz on a cut.
Vector6 flexibility_of_cut(const BeamElement& e) {
  const Section& s = e.section;
  const Material& m = e.material;
  Vector6 f;
  f << 1 / (m.E * s.A), 1 / (m.G * s.Ay), 1 / (m.G * s.Az), 1 / (m.G * s.It),
      1 / (m.E * s.Iy * e.arc.bending[0]), 1 / (m.E * s.Iz * e.arc.bending[1]);
  return f;
}

/// Forces and moments at `from`, about `from`, of forces and moments at `to`; both as they act.
Matrix6 carried_to(const Eigen::Vector3d& from, const Eigen::Vector3d& to) {
  Matrix6 T = Matrix6::Identity();
  T.bottomLeftCorner<3, 3>() = skew(to - from);
  return T;
}

}  // namespace

double arc_angle(double L, double curvature) { return 2 * std::asin(L * curvature / 2); }

double developed_length(const BeamElement& e) {
  return e.arc.straight() ? e.L : arc_angle(e.L, e.arc.curvature) / e.arc.curvature;
}

ArcPlace arc_place(const BeamElement& e, double angle) {
  const double radius = 1 / e.arc.curvature, half = arc_angle(e.L, e.arc.curvature) / 2;
  const Eigen::Vector3d inward(0, std::cos(e.arc.towards), std::sin(e.arc.towards));
  const Eigen::Vector3d along = Eigen::Vector3d::UnitX();
  // 2 sin sin in place of cos - cos, which would lose digits on a short arc.
  const double off = 2 * radius * std::sin((half + angle) / 2) * std::sin((half - angle) / 2);
  return {(e.L / 2 + radius * std::sin(angle)) * along - off * inward,
          Eigen::AngleAxisd(angle, along.cross(inward)).toRotationMatrix()};
}

Matrix12 curved_stiffness(const BeamElement& e) {
  const Eigen::Vector3d end = e.L * Eigen::Vector3d::UnitX();
  const double half = arc_angle(e.L, e.arc.curvature) / 2;
  const Vector6 of_cut = flexibility_of_cut(e);
  Matrix6 F = Matrix6::Zero();
  for (std::size_t g = 0; g < on_arc_at.size(); ++g) {
    for (const double side : {-1, 1}) {
      const ArcPlace place = arc_place(e, side * on_arc_at[g] * half);
      Matrix6 to_cut = Matrix6::Zero();
      to_cut.topLeftCorner<3, 3>() = to_cut.bottomRightCorner<3, 3>() = place.axes.transpose();
      const Matrix6 on_cut = to_cut * carried_to(place.at, end);
      const double length = on_arc_weight[g] * half / e.arc.curvature;
      F += length * on_cut.transpose() * of_cut.asDiagonal() * on_cut;
    }
  }
  // F has metres beside radians: scaled to ones on its diagonal before it is inverted.
  const Vector6 scale = F.diagonal().cwiseSqrt().cwiseInverse();
  const Matrix6 even = scale.asDiagonal() * F * scale.asDiagonal();
  const Matrix6 inverse = even.llt().solve(Matrix6::Identity());
  const Matrix6 at_to = scale.asDiagonal() * inverse * scale.asDiagonal();
  const Matrix6 back = carried_to(Eigen::Vector3d::Zero(), end);
  Matrix12 K;
  K.bottomRightCorner<6, 6>() = (at_to + at_to.transpose()) / 2;
  K.topRightCorner<6, 6>() = -back * K.bottomRightCorner<6, 6>();
  K.bottomLeftCorner<6, 6>() = K.topRightCorner<6, 6>().transpose();
  const Matrix6 at_from = back * K.bottomRightCorner<6, 6>() * back.transpose();
  K.topLeftCorner<6, 6>() = (at_from + at_from.transpose()) / 2;
  return K;
}

}  // namespace tubewright
