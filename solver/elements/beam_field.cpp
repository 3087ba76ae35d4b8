#include "solver/elements/beam_field.h"

#include <algorithm>
#include <cmath>

namespace tubewright {

// Equilibrium of the piece from 0 to x, whose end carries the joint's force and whose cut carries
// the section forces:  cut + joint + loads = 0.
SectionForces section_forces(const BeamState& beam, double s, bool before) {
  const double x = s * beam.element.L;
  const Eigen::Vector3d q = beam.element.axes * beam.actions.line;
  const Eigen::Vector3d c = beam.element.axes * beam.actions.couple;
  const Vector12& F = beam.end_forces;
  SectionForces r;
  r.N = -F[0] - q.x() * x;
  r.Vy = -F[1] - q.y() * x;
  r.Vz = -F[2] - q.z() * x;
  r.T = -F[3] - c.x() * x;
  r.My = -F[4] - F[2] * x - q.z() * x * x / 2 - c.y() * x;
  r.Mz = -F[5] + F[1] * x + q.y() * x * x / 2 - c.z() * x;
  for (const PointAction& p : beam.actions.points) {
    if (before ? p.at >= s : p.at > s) continue;
    const double arm = x - p.at * beam.element.L;
    const Eigen::Vector3d P = beam.element.axes * p.force;
    const Eigen::Vector3d M = beam.element.axes * p.moment;
    r.N -= P.x();
    r.Vy -= P.y();
    r.Vz -= P.z();
    r.T -= M.x();
    r.My -= M.y() + P.z() * arm;
    r.Mz -= M.z() - P.y() * arm;
  }
  return r;
}

namespace {

/// Section forces integrated from 0 to x: what the kinematics of the beam need.
struct Integrals {
  double N = 0, T = 0, Vy = 0, Vz = 0;
  double My = 0, Mz = 0;    ///< once
  double My2 = 0, Mz2 = 0;  ///< twice
};

Integrals integrate_to(const BeamState& beam, double x) {
  const Eigen::Vector3d q = beam.element.axes * beam.actions.line;
  const Eigen::Vector3d c = beam.element.axes * beam.actions.couple;
  const Vector12& F = beam.end_forces;
  const double x2 = x * x / 2, x3 = x * x2 / 3, x4 = x * x3 / 4;
  Integrals i;
  i.N = -F[0] * x - q.x() * x2;
  i.Vy = -F[1] * x - q.y() * x2;
  i.Vz = -F[2] * x - q.z() * x2;
  i.T = -F[3] * x - c.x() * x2;
  i.My = -F[4] * x - F[2] * x2 - q.z() * x3 - c.y() * x2;
  i.My2 = -F[4] * x2 - F[2] * x3 - q.z() * x4 - c.y() * x3;
  i.Mz = -F[5] * x + F[1] * x2 + q.y() * x3 - c.z() * x2;
  i.Mz2 = -F[5] * x2 + F[1] * x3 + q.y() * x4 - c.z() * x3;
  for (const PointAction& p : beam.actions.points) {
    const double a = std::max(0.0, x - p.at * beam.element.L);  // Macaulay bracket
    const double a2 = a * a / 2, a3 = a * a2 / 3;
    const Eigen::Vector3d P = beam.element.axes * p.force;
    const Eigen::Vector3d M = beam.element.axes * p.moment;
    i.N -= P.x() * a;
    i.Vy -= P.y() * a;
    i.Vz -= P.z() * a;
    i.T -= M.x() * a;
    i.My -= M.y() * a + P.z() * a2;
    i.My2 -= M.y() * a2 + P.z() * a3;
    i.Mz -= M.z() * a - P.y() * a2;
    i.Mz2 -= M.z() * a2 - P.y() * a3;
  }
  return i;
}

}  // namespace

// u' = N/EA, rx' = T/(G It), rz' = Mz/(E Iz), v' = rz + Vy/(G Ay), ry' = My/(E Iy),
// w' = -ry + Vz/(G Az), integrated from the `from` end.
BeamDisplacement beam_displacement(const BeamState& beam, double s) {
  const double x = s * beam.element.L;
  const Section& sec = beam.element.section;
  const double E = beam.element.material.E, G = beam.element.material.G;
  const Vector12& d = beam.end_displacements;
  const Integrals i = integrate_to(beam, x);
  Eigen::Vector3d move, turn;
  move.x() = d[0] + i.N / (E * sec.A);
  move.y() = d[1] + d[5] * x + i.Mz2 / (E * sec.Iz) + i.Vy / (G * sec.Ay);
  move.z() = d[2] - d[4] * x - i.My2 / (E * sec.Iy) + i.Vz / (G * sec.Az);
  turn.x() = d[3] + i.T / (G * sec.It);
  turn.y() = d[4] + i.My / (E * sec.Iy);
  turn.z() = d[5] + i.Mz / (E * sec.Iz);
  const Eigen::Matrix3d to_global = beam.element.axes.transpose();
  return {to_global * move, to_global * turn};
}

// Energy of the held beam, twice: int N^2/EA + T^2/(G It) + M^2/EI + V^2/(G As). A uniform load
// gives V = q (x - L/2) and M = q L^2/24 at most between; a uniform couple V = -c/(1 + Phi).
double held_flexibility(const BeamElement& e, const BeamActions& uniform, const BeamActions& any) {
  const Section& s = e.section;
  const double E = e.material.E, G = e.material.G, L = e.L, L3 = L * L * L;
  const Eigen::Vector3d p = e.axes * uniform.line, q = e.axes * any.line;
  const Eigen::Vector3d c = e.axes * uniform.couple, d = e.axes * any.couple;
  double f = p.x() * q.x() * L3 / (12 * E * s.A) + c.x() * d.x() * L3 / (12 * G * s.It);
  f += p.y() * q.y() * (L3 * L * L / (720 * E * s.Iz) + L3 / (12 * G * s.Ay));
  f += p.z() * q.z() * (L3 * L * L / (720 * E * s.Iy) + L3 / (12 * G * s.Az));
  f += c.z() * d.z() * L / (G * s.Ay) / (1 + shear_ratio(e.material, s.Iz, s.Ay, L));
  f += c.y() * d.y() * L / (G * s.Az) / (1 + shear_ratio(e.material, s.Iy, s.Az, L));
  if (any.points.empty()) return f;
  // Reciprocity: the point actions' work on the displacements of the uniform load.
  BeamState held{e, uniform, Vector12::Zero(), Vector12::Zero()};
  held.end_forces = -local_equivalent_loads(e, uniform);
  for (const PointAction& point : any.points) {
    const BeamDisplacement u = beam_displacement(held, point.at);
    f += point.force.dot(u.displacement) + point.moment.dot(u.rotation);
  }
  return f;
}

std::vector<double> smooth_intervals(const BeamState& beam) {
  std::vector<double> at = {0, 1};
  for (const PointAction& p : beam.actions.points) at.push_back(p.at);
  std::sort(at.begin(), at.end());
  at.erase(std::unique(at.begin(), at.end()), at.end());
  return at;
}

}  // namespace tubewright
