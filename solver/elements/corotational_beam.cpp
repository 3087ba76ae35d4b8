#include "solver/elements/corotational_beam.h"

#include <Eigen/Geometry>
#include <cmath>

#include "solver/elements/rotations.h"

namespace tubewright {

namespace {

using Matrix7 = Eigen::Matrix<double, 7, 7>;
using Vector7 = Eigen::Matrix<double, 7, 1>;
using Matrix7x12 = Eigen::Matrix<double, 7, 12>;
using Matrix12x3 = Eigen::Matrix<double, 12, 3>;
using Matrix3x12 = Eigen::Matrix<double, 3, 12>;

/// Chord against its unloaded length, and sine between chord and roll axis, below which the frame
/// is given up: long before rounding matters, long after the small-strain law has ended.
constexpr double least_chord = 1e-3;
constexpr double least_sine = 1e-2;

/// Which moments (x, y, z) a connection does not pass on.
std::array<bool, 3> released_moments(const Vector12& connection, int end) {
  std::array<bool, 3> released = {};
  for (int d = 0; d < 3; ++d) released[d] = connection[6 * end + 3 + d] == 0;
  return released;
}

int count(const std::array<bool, 3>& flags) { return flags[0] + flags[1] + flags[2]; }

/// The end whose joint leads the frame, or -1 for both alike.
int leading_end(const std::array<std::array<bool, 3>, 2>& released) {
  if (count(released[0]) == 0 && count(released[1]) == 0) return -1;
  if (count(released[0]) == 0) return 0;
  if (count(released[1]) == 0) return 1;
  if (released[0][0] != released[1][0]) return released[0][0] ? 1 : 0;  // torsion holds one
  return count(released[0]) <= count(released[1]) ? 0 : 1;
}

/// An end's rotation as the local stiffness has it, in working axes.
struct EndStrain {
  Eigen::Vector3d rotation = Eigen::Vector3d::Zero();
  Eigen::Matrix3d by_spin = Eigen::Matrix3d::Zero();  ///< d rotation / d spin against the frame
};

EndStrain end_strain(const CorotationalBeam& beam, int end, const Eigen::Matrix3d& R) {
  EndStrain s;
  if (beam.ends[end] == EndRotation::vector) {
    s.rotation = rotation_vector(R);
    s.by_spin = vector_by_spin(s.rotation);
  } else if (beam.ends[end] == EndRotation::hinge) {
    // Only where the pin points matters; c x p is its turn, to second order.
    const Eigen::Vector3d& c = beam.pin[end];
    const Eigen::Vector3d p = R * c;
    s.rotation = c.cross(p);
    s.by_spin = -skew(c) * skew(p);
  }
  return s;
}

/// d/d spin of by_spin^T m, m fixed.
Eigen::Matrix3d change_of_end_moment(const CorotationalBeam& beam, int end,
                                     const Eigen::Matrix3d& R, const EndStrain& s,
                                     const Eigen::Vector3d& m) {
  if (beam.ends[end] == EndRotation::vector) {
    return change_of_spin_moment(s.rotation, m) * s.by_spin;
  }
  if (beam.ends[end] == EndRotation::hinge) {
    const Eigen::Vector3d& c = beam.pin[end];
    return -skew(c.cross(m)) * skew(R * c);
  }
  return Eigen::Matrix3d::Zero();
}

/// How the frame turns with the ends. All in the frame's own components; `spin` G: w_frame = G^T d.
//   w_y = -(w2 - w1)/l,  w_z = (v2 - v1)/l  keep x on the chord, and q . e_z = 0, q the mean of the
//   ends' y axes, gives  w_x = (sum share (w_i x q_i)_z + q_x w_y)/q_y.
struct FrameSpin {
  double l = 0;
  std::array<Eigen::Vector3d, 2> q_end;
  Eigen::Vector3d q = Eigen::Vector3d::Zero();
  Matrix12x3 spin = Matrix12x3::Zero();
};

FrameSpin frame_spin(const CorotationalBeam& beam, double l,
                     const std::array<Eigen::Matrix3d, 2>& R) {
  FrameSpin f;
  f.l = l;
  f.spin(2, 1) = 1 / l;
  f.spin(8, 1) = -1 / l;
  f.spin(1, 2) = -1 / l;
  f.spin(7, 2) = 1 / l;
  for (int end = 0; end < 2; ++end) {
    f.q_end[end] = R[end].col(1);
    f.q += beam.roll_share[end] * f.q_end[end];
    f.spin(6 * end + 3, 0) = beam.roll_share[end] * f.q_end[end].y();
    f.spin(6 * end + 4, 0) = -beam.roll_share[end] * f.q_end[end].x();
  }
  f.spin.col(0) = (f.spin.col(0) + f.q.x() * f.spin.col(1)).eval() / f.q.y();
  return f;
}

/// d(G M) for fixed M.
Matrix12 change_of_frame_moment(const CorotationalBeam& beam, const FrameSpin& f,
                                const Matrix7x12& strain, const Eigen::Vector3d& M) {
  const Eigen::Matrix<double, 1, 12> stretch = strain.row(0);
  const Matrix12 d_y = -f.spin.col(1) * stretch / f.l;
  const Matrix12 d_z = -f.spin.col(2) * stretch / f.l;
  Matrix12 d_x = f.q.x() * d_y;
  Matrix3x12 dq = Matrix3x12::Zero();
  for (int end = 0; end < 2; ++end) {
    const Matrix3x12 d_end =
        -beam.roll_share[end] * skew(f.q_end[end]) * strain.middleRows<3>(1 + 3 * end);
    d_x.row(6 * end + 3) += d_end.row(1);
    d_x.row(6 * end + 4) -= d_end.row(0);
    dq += d_end;
  }
  d_x += f.spin.col(1) * dq.row(0) - f.spin.col(0) * dq.row(1);
  return M.x() / f.q.y() * d_x + M.y() * d_y + M.z() * d_z;
}

}  // namespace

std::string corotational_obstacle(const Beam& beam) {
  for (const EndConnection* c : {&beam.connection_from, &beam.connection_to}) {
    for (int d = 0; d < 3; ++d) {
      if ((*c)[d] == 0) return "a beam's released force lets its joint slide away from it";
    }
  }
  return "";
}

CorotationalBeam corotational_beam(const BeamElement& e) {
  CorotationalBeam b;
  b.L = e.L;
  b.along = e.L * e.axes.row(0).transpose();
  const std::array released = {released_moments(e.connection, 0),
                               released_moments(e.connection, 1)};
  const int leader = leading_end(released);
  b.roll_share = leader < 0 ? std::array{0.5, 0.5} : std::array{1.0 - leader, 1.0 * leader};
  // A leader hinged about z swings its y axis along the member: follow its z axis instead.
  if (leader >= 0 && released[leader][2] && !released[leader][1]) {
    b.from_member << 1, 0, 0, 0, 0, 1, 0, -1, 0;
  }
  b.axes = e.axes.transpose() * b.from_member.transpose();
  const Matrix12 Q = rotation_12(b.from_member);
  b.K = Q * condense(e)->K * Q.transpose();
  for (int end = 0; end < 2; ++end) {
    const int n = count(released[end]);
    b.ends[end] = n == 3 ? EndRotation::ball : n == 1 ? EndRotation::hinge : EndRotation::vector;
    b.pin[end].setZero();
    for (int d = 0; d < 3 && n == 1; ++d) {
      if (released[end][d]) b.pin[end] = b.from_member.col(d);
    }
  }
  return b;
}

// With the frame's spin G, stretch r and the ends' spins against the frame as `strain` A,
//   forces = A^T (n, m1, m2),  m_i = by_spin_i^T (what the local stiffness gives),
// and their change has four parts: the material, that of by_spin, that of G, and the turning of
// the forces with the frame.
CorotationalBeamState corotational_state(const CorotationalBeam& beam, const JointMotion& from,
                                         const JointMotion& to, bool with_tangent) {
  CorotationalBeamState state;
  const std::array<const JointMotion*, 2> joints = {&from, &to};
  const Eigen::Vector3d du = to.displacement - from.displacement;
  const Eigen::Vector3d chord = beam.along + du;
  const double l = chord.norm();
  if (!(l > least_chord * beam.L) || !std::isfinite(l)) return state;
  Eigen::Vector3d q = Eigen::Vector3d::Zero();
  for (int end = 0; end < 2; ++end) {
    q += beam.roll_share[end] * (joints[end]->rotation * beam.axes.col(1));
  }
  Eigen::Matrix3d E;
  E.col(0) = chord / l;
  E.col(2) = E.col(0).cross(q);
  const double sine = E.col(2).norm();
  if (!(sine > least_sine)) return state;
  E.col(2) /= sine;
  E.col(1) = E.col(2).cross(E.col(0));

  std::array<Eigen::Matrix3d, 2> R;
  std::array<EndStrain, 2> strains;
  Vector12 d = Vector12::Zero();
  d[6] = (2 * beam.along + du).dot(du) / (l + beam.L);  // l - L without cancellation
  for (int end = 0; end < 2; ++end) {
    R[end] = E.transpose() * joints[end]->rotation * beam.axes;
    strains[end] = end_strain(beam, end, R[end]);
    d.segment<3>(6 * end + 3) = strains[end].rotation;
  }
  const Vector12 p = beam.K * d;
  const FrameSpin frame = frame_spin(beam, l, R);
  Matrix7x12 A = Matrix7x12::Zero();
  A(0, 0) = -1;
  A(0, 6) = 1;
  Vector7 m;
  m[0] = p[6];
  for (int end = 0; end < 2; ++end) {
    A.middleRows<3>(1 + 3 * end) = -frame.spin.transpose();
    A.block<3, 3>(1 + 3 * end, 6 * end + 3) += Eigen::Matrix3d::Identity();
    m.segment<3>(1 + 3 * end) = strains[end].by_spin.transpose() * p.segment<3>(6 * end + 3);
  }
  const Vector12 f = A.transpose() * m;

  state.valid = f.allFinite();
  state.axes = (E * beam.from_member).transpose();
  const Matrix12 to_member = rotation_12(beam.from_member.transpose());
  state.displacements = to_member * d;
  state.local_forces = to_member * f;
  const Matrix12 to_global = rotation_12(E);
  state.forces = to_global * f;
  state.energy = d.dot(p) / 2;
  if (!with_tangent) return state;

  const std::array<int, 7> deforming = {6, 3, 4, 5, 9, 10, 11};
  Matrix7 k;
  for (int j = 0; j < 7; ++j) {
    for (int i = 0; i < 7; ++i) k(i, j) = beam.K(deforming[i], deforming[j]);
  }
  Matrix7 by_spin = Matrix7::Zero();
  by_spin(0, 0) = 1;
  for (int end = 0; end < 2; ++end) {
    by_spin.block<3, 3>(1 + 3 * end, 1 + 3 * end) = strains[end].by_spin;
  }
  k = (by_spin.transpose() * k * by_spin).eval();
  for (int end = 0; end < 2; ++end) {
    k.block<3, 3>(1 + 3 * end, 1 + 3 * end) +=
        change_of_end_moment(beam, end, R[end], strains[end], p.segment<3>(6 * end + 3));
  }
  Matrix12x3 turning;
  for (int i = 0; i < 12; i += 3) turning.block<3, 3>(i, 0) = skew(f.segment<3>(i));
  const Eigen::Vector3d M = m.segment<3>(1) + m.segment<3>(4);
  const Matrix12 K = A.transpose() * k * A - change_of_frame_moment(beam, frame, A, M) -
                     turning * frame.spin.transpose();
  state.tangent = to_global * K * to_global.transpose();
  return state;
}

}  // namespace tubewright
