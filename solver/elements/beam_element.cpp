#include "solver/elements/beam_element.h"

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>
#include <utility>

#include "solver/elements/beam_shapes.h"
#include "solver/elements/curved_beam.h"

namespace tubewright {

double shear_ratio(const Material& m, double I, double shear_area, double L) {
  return 12 * m.E * I / (m.G * shear_area * L * L);
}

namespace {

enum { u1, v1, w1, rx1, ry1, rz1, u2, v2, w2, rx2, ry2, rz2 };

void set_symmetric(Matrix12& K, int i, int j, double value) {
  K(i, j) = value;
  K(j, i) = value;
}

/// Bending in one plane: deflections v_i, v_j and rotations r_i, r_j. `turn` is +1 in the x-y
/// plane, where the slope dv/dx is +rz, and -1 in the x-z plane, where dw/dx is -ry.
void add_bending(Matrix12& K, int v_i, int r_i, int v_j, int r_j, double turn, double EI, double L,
                 double phi) {
  const double k = EI / (L * L * L * (1 + phi));
  K(v_i, v_i) = K(v_j, v_j) = 12 * k;
  set_symmetric(K, v_i, v_j, -12 * k);
  set_symmetric(K, v_i, r_i, turn * 6 * k * L);
  set_symmetric(K, v_i, r_j, turn * 6 * k * L);
  set_symmetric(K, v_j, r_i, -turn * 6 * k * L);
  set_symmetric(K, v_j, r_j, -turn * 6 * k * L);
  K(r_i, r_i) = K(r_j, r_j) = (4 + phi) * k * L * L;
  set_symmetric(K, r_i, r_j, (2 - phi) * k * L * L);
}

/// By reciprocity the forces a held beam hands to its joints are the work of the load on the
/// shapes.
void add_point(Vector12& f, const BeamElement& e, const PointAction& p) {
  const double s = p.at;
  const Eigen::Vector3d F = e.axes * p.force;
  const Eigen::Vector3d M = e.axes * p.moment;
  f[u1] += (1 - s) * F.x();
  f[u2] += s * F.x();
  f[rx1] += (1 - s) * M.x();
  f[rx2] += s * M.x();
  const BendingShapes xy =
      bending_shapes(s, e.L, shear_ratio(e.material, e.section.Iz, e.section.Ay, e.L));
  const Eigen::Vector4d in_xy = xy.deflection * F.y() + xy.rotation * M.z();
  f[v1] += in_xy[0];
  f[rz1] += in_xy[1];
  f[v2] += in_xy[2];
  f[rz2] += in_xy[3];
  const BendingShapes xz =
      bending_shapes(s, e.L, shear_ratio(e.material, e.section.Iy, e.section.Az, e.L));
  const Eigen::Vector4d in_xz = xz.deflection * F.z() - xz.rotation * M.y();  // theta = -ry
  f[w1] += in_xz[0];
  f[ry1] -= in_xz[1];
  f[w2] += in_xz[2];
  f[ry2] -= in_xz[3];
}

/// A uniform couple c, its work on the shapes' rotations. Without shear flexibility it hands the
/// joints a pair of forces c and no moment.
void add_couple(Vector12& f, const BeamElement& e, const Eigen::Vector3d& c) {
  const double phi_y = shear_ratio(e.material, e.section.Iz, e.section.Ay, e.L);
  const double phi_z = shear_ratio(e.material, e.section.Iy, e.section.Az, e.L);
  f[rx1] += c.x() * e.L / 2;
  f[rx2] += c.x() * e.L / 2;
  f[v1] -= c.z() / (1 + phi_y);
  f[v2] += c.z() / (1 + phi_y);
  f[w1] += c.y() / (1 + phi_z);
  f[w2] -= c.y() / (1 + phi_z);
  for (const int end : {rz1, rz2}) f[end] += c.z() * e.L / 2 * phi_y / (1 + phi_y);
  for (const int end : {ry1, ry2}) f[end] += c.y() * e.L / 2 * phi_z / (1 + phi_z);
}

}  // namespace

Eigen::Matrix3d member_axes(const Eigen::Vector3d& from, const Eigen::Vector3d& to, double roll) {
  const Eigen::Vector3d x = (to - from).normalized();
  constexpr double near_vertical = 0.5 * std::numbers::pi / 180;
  const double from_vertical = std::hypot(x.x(), x.y());  // sine of the angle to the vertical
  const Eigen::Vector3d reference = from_vertical <= std::sin(near_vertical)
                                        ? Eigen::Vector3d::UnitX()
                                        : Eigen::Vector3d::UnitZ();
  const Eigen::Vector3d z0 = (reference - reference.dot(x) * x).normalized();
  const Eigen::Vector3d y0 = z0.cross(x);
  Eigen::Matrix3d axes;
  axes.row(0) = x;
  axes.row(1) = std::cos(roll) * y0 + std::sin(roll) * z0;
  axes.row(2) = -std::sin(roll) * y0 + std::cos(roll) * z0;
  return axes;
}

BeamElement beam_element(const Model& model, const Beam& beam) {
  const Eigen::Vector3d& from = model.nodes[beam.from];
  const Eigen::Vector3d& to = model.nodes[beam.to];
  BeamElement e;
  e.L = (to - from).norm();
  e.axes = member_axes(from, to, beam.roll);
  e.section = model.sections[beam.section];
  e.material = model.materials[beam.material];
  for (int i = 0; i < 6; ++i) {
    e.connection[i] = beam.connection_from[i];
    e.connection[6 + i] = beam.connection_to[i];
  }
  e.joints = {beam.joint_from, beam.joint_to};
  e.arc = beam.arc;
  return e;
}

bool BeamElement::rigidly_joined() const {
  return connection.array().isInf().all() && joints[0].none() && joints[1].none();
}

std::vector<EndSpring> joint_springs(const BeamElement& e) {
  std::vector<EndSpring> springs;
  for (const int end : {0, 1}) {
    const JointFlexibility& joint = e.joints[end];
    if (joint.axial > 0) springs.push_back({Vector12::Unit(6 * end + u1), joint.axial});
    const double c = std::cos(joint.turn), s = std::sin(joint.turn);
    const std::array<std::array<double, 2>, 2> axes = {{{c, s}, {-s, c}}};  // local y, z
    for (const int k : {0, 1}) {
      if (!(joint.bending[k] > 0)) continue;
      // The moment at a distance d inward: M_y + d F_z, M_z - d F_y at `from`, else mirrored.
      const double d = joint.distance[k] * (end == 0 ? 1 : -1);
      Vector12 along = Vector12::Zero();
      along[6 * end + ry1] = axes[k][0];
      along[6 * end + rz1] = axes[k][1];
      along[6 * end + w1] = d * axes[k][0];
      along[6 * end + v1] = -d * axes[k][1];
      springs.push_back({along, joint.bending[k]});
    }
  }
  return springs;
}

Matrix12 local_stiffness(const BeamElement& e) {
  if (!e.arc.straight()) return curved_stiffness(e);
  const Section& s = e.section;
  const Material& m = e.material;
  Matrix12 K = Matrix12::Zero();
  const double axial = m.E * s.A / e.L;
  K(u1, u1) = K(u2, u2) = axial;
  set_symmetric(K, u1, u2, -axial);
  const double torsion = m.G * s.It / e.L;
  K(rx1, rx1) = K(rx2, rx2) = torsion;
  set_symmetric(K, rx1, rx2, -torsion);
  add_bending(K, v1, rz1, v2, rz2, +1, m.E * s.Iz, e.L, shear_ratio(m, s.Iz, s.Ay, e.L));
  add_bending(K, w1, ry1, w2, ry2, -1, m.E * s.Iy, e.L, shear_ratio(m, s.Iy, s.Az, e.L));
  return K;
}

Vector12 local_equivalent_loads(const BeamElement& e, const BeamActions& actions) {
  Vector12 f = Vector12::Zero();
  // Uniform load q: half at each end, and q L^2/12, with or without shear flexibility.
  const Eigen::Vector3d q = e.axes * actions.line;
  const double half = e.L / 2, moment = e.L * e.L / 12;
  f[u1] = f[u2] = q.x() * half;
  f[v1] = f[v2] = q.y() * half;
  f[w1] = f[w2] = q.z() * half;
  f[rz1] = q.y() * moment;
  f[rz2] = -q.y() * moment;
  f[ry1] = -q.z() * moment;
  f[ry2] = q.z() * moment;
  add_couple(f, e, e.axes * actions.couple);
  for (const PointAction& p : actions.points) add_point(f, e, p);
  return f;
}

namespace {

/// Takes out what rounding has left of stiffnesses that releases took wholly: of a beam torn off at
/// one end everything.
void clear_rounding(const Vector12& before, Matrix12& K) {
  constexpr double rounding = 1e-13;  // of the stiffness before; the softest springs leave 1e-9
  for (int i = 0; i < 12; ++i) {
    if (K(i, i) > rounding * before[i]) continue;
    K.row(i).setZero();
    K.col(i).setZero();
  }
}

}  // namespace

// Releases and springs are condensed out one after the other, the joint's before the connection's.
// A spring s between the member end (u_i) and its joint (d_i) gives, from row i of
// K u = f + (joint force),
//   u_i = d_i - (k.v - f_i) / (K_ii + s),   k = column i of K, v = u with d_i in the place of u_i,
// and what the member shows its joints is K less k k^T / (K_ii + s); s = 0 is a release.
// For a spring of flexibility c that feels the force a.(K u - f) the same reads
//   u = d - a c (a.K d - a.f) / (1 + c a.K a),   K less c K a (K a)^T / (1 + c a.K a).
std::optional<CondensedBeam> condense(const BeamElement& e) {
  CondensedBeam b;
  b.K = local_stiffness(e);
  b.from_joint.setIdentity();
  b.from_load.setZero();

  EndConnection from, to;
  for (int i = 0; i < 6; ++i) {
    from[i] = e.connection[i];
    to[i] = e.connection[6 + i];
  }
  if (loose_direction(from, to) >= 0) return std::nullopt;

  const Vector12 before = b.K.diagonal();
  for (const EndSpring& spring : joint_springs(e)) {
    const Vector12 Ka = b.K * spring.along;
    const double share = spring.flexibility / (1 + spring.flexibility * spring.along.dot(Ka));
    const Vector12 turned = b.from_joint * spring.along;
    b.from_load += share * turned * turned.transpose();
    b.from_joint -= share * turned * Ka.transpose();
    b.K -= share * Ka * Ka.transpose();
  }
  for (int i = 0; i < 12; ++i) {
    const double s = e.connection[i];
    if (std::isinf(s)) continue;
    const Vector12 k = b.K.col(i);
    const double flexibility = 1 / (k[i] + s);
    const Vector12 column = b.from_joint.col(i);
    b.from_load += flexibility * column * column.transpose();
    b.from_joint -= flexibility * column * k.transpose();
    b.K -= flexibility * k * k.transpose();
    // Row and column i keep the share s / (K_ii + s): exactly nothing for a release.
    b.from_joint.col(i) = s * flexibility * column;
    b.K.row(i) = s * flexibility * k.transpose();
    b.K.col(i) = s * flexibility * k;
  }
  if ((e.connection.array() == 0).any()) clear_rounding(before, b.K);
  return b;
}

int loose_direction(const EndConnection& from, const EndConnection& to) {
  const auto free = [](double stiffness) { return stiffness == 0; };
  for (const int d : {0, 3}) {  // axial force, torsion: one end at least must hold
    if (free(from[d]) && free(to[d])) return d;
  }
  // Bending in a plane: two of the four end forces must hold, one of them a transverse force.
  for (const auto& [force, moment] : {std::pair{1, 5}, std::pair{2, 4}}) {
    const int released =
        free(from[force]) + free(from[moment]) + free(to[force]) + free(to[moment]);
    if (released > 2 || (free(from[force]) && free(to[force]))) return force;
  }
  return -1;
}

Matrix12 rotation_12(const Eigen::Matrix3d& axes) {
  Matrix12 R = Matrix12::Zero();
  for (int i = 0; i < 12; i += 3) R.block<3, 3>(i, i) = axes;
  return R;
}

}  // namespace tubewright
