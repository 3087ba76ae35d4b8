// Fields along a beam against the equations they solve (finite differences between smooth points)
// and the textbook's built-in beam (q L4/384 EI, q2 L5/720 EI; from memory).
#include "solver/elements/beam_field.h"

#include <Eigen/Geometry>
#include <algorithm>

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::beam_field_test {

namespace {

constexpr Source textbook =
    from_memory("built-in beam of the textbook: q2 L5/720 EI and q2 L3/12 G A");

BeamElement tube() {
  BeamElement e;
  e.L = 1.2;
  e.section.A = 4e-4;
  e.section.Iy = 8e-8;
  e.section.Iz = 3e-8;
  e.section.It = 5e-8;
  e.section.Ay = 3e-5;
  e.section.Az = 5e-6;
  e.material.E = 200e9;
  e.material.G = 80e9;
  e.axes = Eigen::Quaterniond(0.4, 0.2, -0.6, 0.1).normalized().toRotationMatrix();
  return e;
}

/// Ends somewhere, every kind of load, end forces by the stiffness.
BeamState loaded() {
  BeamState b;
  b.element = tube();
  b.actions.line = {300, -200, 500};
  b.actions.couple = {30, 70, -40};
  b.actions.points.push_back({0.7, {100, -400, 600}, {50, 80, -90}});
  b.actions.points.push_back({0.25, {-50, 70, 200}, {-4, 3, 2}});
  b.end_displacements << 1e-4, 2e-3, -3e-3, 1e-2, 4e-3, -5e-3, -2e-4, 1e-3, 4e-3, -2e-2, 3e-3, 1e-3;
  b.end_forces = local_stiffness(b.element) * b.end_displacements -
                 local_equivalent_loads(b.element, b.actions);
  return b;
}

/// A beam held at both ends.
BeamState held(const BeamActions& actions) {
  BeamState b{tube(), actions, Vector12::Zero(), Vector12::Zero()};
  b.end_forces = -local_equivalent_loads(b.element, actions);
  return b;
}

}  // namespace

TEST_CASE("section forces start and end with the forces of the joints") {
  const BeamState b = loaded();
  const SectionForces from = section_forces(b, 0), to = section_forces(b, 1);
  const Vector12& F = b.end_forces;
  Vector12 cut;
  cut << -from.N, -from.Vy, -from.Vz, -from.T, -from.My, -from.Mz, to.N, to.Vy, to.Vz, to.T, to.My,
      to.Mz;
  CHECK((cut - F).norm() < 1e-9 * F.norm());
}

TEST_CASE("section forces change along the beam as its loads say and jump at point actions") {
  const BeamState b = loaded();
  const Eigen::Vector3d q = b.element.axes * b.actions.line, c = b.element.axes * b.actions.couple;
  constexpr double h = 1e-4;
  const double dx = 2 * h * b.element.L;
  for (const double s : {0.1, 0.5, 0.9}) {
    const SectionForces f = section_forces(b, s), before = section_forces(b, s - h),
                        after = section_forces(b, s + h);
    CHECK_THAT((after.N - before.N) / dx, WithinRel(-q.x(), 1e-6));
    CHECK_THAT((after.Vy - before.Vy) / dx, WithinRel(-q.y(), 1e-6));
    CHECK_THAT((after.Vz - before.Vz) / dx, WithinRel(-q.z(), 1e-6));
    CHECK_THAT((after.T - before.T) / dx, WithinRel(-c.x(), 1e-6));
    CHECK_THAT((after.My - before.My) / dx, WithinRel(f.Vz - c.y(), 1e-6));
    CHECK_THAT((after.Mz - before.Mz) / dx, WithinRel(-f.Vy - c.z(), 1e-6));
  }
  const SectionForces before = section_forces(b, 0.7, true), after = section_forces(b, 0.7);
  const Eigen::Vector3d P = b.element.axes * b.actions.points[0].force;
  const Eigen::Vector3d M = b.element.axes * b.actions.points[0].moment;
  CHECK(
      (Eigen::Vector3d(after.N - before.N, after.Vy - before.Vy, after.Vz - before.Vz) + P).norm() <
      1e-9);
  CHECK(
      (Eigen::Vector3d(after.T - before.T, after.My - before.My, after.Mz - before.Mz) + M).norm() <
      1e-9);
}

TEST_CASE("displacements change along the beam as its section forces and stiffnesses say") {
  const BeamState b = loaded();
  const Section& sec = b.element.section;
  const double E = b.element.material.E, G = b.element.material.G;
  constexpr double h = 1e-4;
  const double dx = 2 * h * b.element.L;
  for (const double s : {0.1, 0.5, 0.9}) {
    const auto local = [&](double at) {
      const BeamDisplacement d = beam_displacement(b, at);
      Vector6 v;
      v << b.element.axes * d.displacement, b.element.axes * d.rotation;
      return v;
    };
    const Vector6 rate = (local(s + h) - local(s - h)) / dx, at = local(s);
    const SectionForces f = section_forces(b, s);
    Vector6 expected;
    expected << f.N / (E * sec.A), at[5] + f.Vy / (G * sec.Ay), -at[4] + f.Vz / (G * sec.Az),
        f.T / (G * sec.It), f.My / (E * sec.Iy), f.Mz / (E * sec.Iz);
    CHECK((rate - expected).cwiseAbs().maxCoeff() < 1e-7);
  }
}

TEST_CASE("displacements end where the far end is") {
  const BeamState b = loaded();
  const Eigen::Matrix3d& R = b.element.axes;
  for (const int end : {0, 1}) {
    const BeamDisplacement d = beam_displacement(b, end);
    CHECK((R * d.displacement - b.end_displacements.segment<3>(6 * end)).norm() < 1e-13);
    CHECK((R * d.rotation - b.end_displacements.segment<3>(6 * end + 3)).norm() < 1e-13);
  }
}

TEST_CASE("the flexibility of a built-in beam is q2 L5/720 EI and the shear's q2 L3/12 G A",
          "[truth]") {
  const BeamElement e = tube();
  const Section& s = e.section;
  const double L = e.L, E = e.material.E, G = e.material.G;
  BeamActions q, P;
  q.line = e.axes.transpose() * Eigen::Vector3d(0, 0, 200);
  P.points.push_back({0.5, e.axes.transpose() * Eigen::Vector3d(0, 0, 1000), {0, 0, 0}});
  const double L3 = L * L * L;
  truth("built-in tube, line load: twice its energy, N m", textbook, held_flexibility(e, q, q),
        within_rel(200.0 * 200 * (L3 * L * L / (720 * E * s.Iy) + L3 / (12 * G * s.Az)), 1e-10));
  // A point load at the middle works on q L4/384 EI + q L2/8 G A.
  truth("built-in tube: work of a point load on the line load, N m", textbook,
        held_flexibility(e, q, P),
        within_rel(1000.0 * 200 * (L3 * L / (384 * E * s.Iy) + L * L / (8 * G * s.Az)), 1e-10));
}

TEST_CASE("the flexibility is the work on the displacements between held ends, both ways alike") {
  const BeamElement e = tube();
  BeamActions one, other;
  one.line = {300, -200, 500};
  one.couple = {30, 70, -40};
  other.line = {-100, 900, 80};
  other.couple = {5, -60, 20};
  CHECK_THAT(held_flexibility(e, one, other), WithinRel(held_flexibility(e, other, one), 1e-10));
  other.points.push_back({0.3, {100, -40, 600}, {50, 80, -90}});
  const BeamState b = held(other);
  double work = 0;  // Simpson on each side of the point action, of fields of degree 4
  for (const auto& [a, c] : {std::pair{0.0, 0.3}, {0.3, 1.0}}) {
    constexpr int n = 40;
    for (int i = 0; i <= n; ++i) {
      const BeamDisplacement d = beam_displacement(b, a + (c - a) * i / n);
      const double weight = i == 0 || i == n ? 1 : i % 2 == 1 ? 4 : 2;
      work += weight * (c - a) * e.L / (3 * n) *
              (one.line.dot(d.displacement) + one.couple.dot(d.rotation));
    }
  }
  CHECK_THAT(held_flexibility(e, one, other), WithinRel(work, 1e-6));
}

TEST_CASE("a beam is smooth between its ends and its point actions, each named once in order") {
  BeamState b = loaded();
  CHECK(smooth_intervals(b) == std::vector<double>{0, 0.25, 0.7, 1});
  b.actions.points.push_back({0.7, {0, 0, 0}, {0, 0, 0}});
  b.actions.points.push_back({1, {0, 0, 0}, {0, 0, 0}});
  CHECK(smooth_intervals(b) == std::vector<double>{0, 0.25, 0.7, 1});
}

}  // namespace tubewright::beam_field_test
