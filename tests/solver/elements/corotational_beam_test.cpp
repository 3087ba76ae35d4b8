// The corotational beam by itself: its laws, whatever the release and however far it has turned.
#include "solver/elements/corotational_beam.h"

#include <Eigen/Geometry>
#include <cmath>
#include <random>
#include <vector>

#include "solver/elements/rotations.h"
#include "tests/solver/model_builder.h"

namespace tubewright::corotational_beam_test {

using namespace tubewright::test;

namespace {

using Random = std::mt19937;

Eigen::Vector3d arrow(Random& random, double size) {
  std::normal_distribution<double> n;
  return size * Eigen::Vector3d(n(random), n(random), n(random));
}

/// Released moments of a beam's two ends: bits of Mx My Mz, then a name.
struct Releases {
  std::vector<int> from, to;
  double spring = rigid;  ///< of the other moments at `to`
};

const std::vector<Releases> all_releases = {
    {{}, {}},         {{}, {5}},           {{4}, {}},        {{}, {3, 4, 5}},
    {{4}, {4}},       {{5}, {5}},          {{3}, {5}},       {{}, {3}},
    {{4, 5}, {4, 5}}, {{3, 4, 5}, {4, 5}}, {{}, {4}, 300.0}, {{}, {}, 500.0}};

/// A tube askew in space, dimensions of order 1 so that differences are well conditioned.
BeamElement tube_element(const Releases& r) {
  BeamElement e;
  e.L = 1.3;
  e.axes = member_axes({0, 0, 0}, {0.7, 0.9, -0.4}, 0.6);
  e.section = properties(20, 2, 3, 4);
  e.section.Ay = 9;
  e.section.Az = 11;
  e.material = {1000, 400, 0, 0, 0};
  for (const int d : {3, 4, 5}) e.connection[6 + d] = r.spring;
  for (const int d : r.from) e.connection[d] = 0;
  for (const int d : r.to) e.connection[6 + d] = 0;
  return e;
}

/// Both joints turned far together, then strained by `strain`; hinges turn on by `swing` rad.
std::array<JointMotion, 2> moved_ends(Random& random, const BeamElement& e, const Releases& r,
                                      double strain, double swing) {
  const Eigen::Matrix3d far = rotation_matrix(arrow(random, 2));
  const Eigen::Vector3d shift = arrow(random, 3);
  std::array<JointMotion, 2> ends;
  for (int i = 0; i < 2; ++i) {
    const Eigen::Vector3d at = i * e.L * e.axes.row(0).transpose();
    const std::vector<int>& free = i == 0 ? r.from : r.to;
    Eigen::Matrix3d turn = rotation_matrix(arrow(random, strain));
    if (free.size() == 1) {
      turn = turn * rotation_matrix(swing * e.axes.row(free[0] - 3).transpose());
    } else if (free.size() == 3) {
      turn = rotation_matrix(arrow(random, 2));
    }
    ends[i].rotation = far * turn;
    ends[i].displacement = far * (at + arrow(random, strain * e.L)) + shift - at;
  }
  return ends;
}

void nudge(std::array<JointMotion, 2>& ends, int unknown, double by) {
  JointMotion& joint = ends[unknown / 6];
  const int d = unknown % 6;
  if (d < 3) {
    joint.displacement[d] += by;
  } else {
    joint.rotation = (rotation_matrix(by * Eigen::Vector3d::Unit(d - 3)) * joint.rotation).eval();
  }
}

}  // namespace

TEST_CASE("the rotation vector and its spin agree with finite differences, near zero and far") {
  Random random(3);
  const double size = GENERATE(1e-7, 0.03, 0.0999, 0.1001, 1.0, 2.9);
  const Eigen::Vector3d v = size * arrow(random, 1).normalized(), m = arrow(random, 1);
  CHECK((rotation_vector(rotation_matrix(v)) - v).norm() < 1e-12);
  CHECK((rotation_matrix(v) - Eigen::AngleAxisd(size, v / size).toRotationMatrix()).norm() < 1e-14);
  CHECK((spin_by_vector(v) * vector_by_spin(v) - Eigen::Matrix3d::Identity()).norm() < 1e-12);
  const double h = 1e-5;
  for (int d = 0; d < 3; ++d) {
    const Eigen::Vector3d a = v + h * Eigen::Vector3d::Unit(d),
                          b = v - h * Eigen::Vector3d::Unit(d);
    const Eigen::Vector3d w =
        rotation_vector(rotation_matrix(a) * rotation_matrix(b).transpose()) / (2 * h);
    CHECK((w - spin_by_vector(v).col(d)).norm() < 1e-9);
    const Eigen::Vector3d to_vector =
        (spin_by_vector(a).transpose() * m - spin_by_vector(b).transpose() * m) / (2 * h);
    CHECK((to_vector - change_of_vector_moment(v, m).col(d)).norm() < 1e-9);
    const Eigen::Vector3d to_spin =
        (vector_by_spin(a).transpose() * m - vector_by_spin(b).transpose() * m) / (2 * h);
    CHECK((to_spin - change_of_spin_moment(v, m).col(d)).norm() < 1e-9);
  }
}

TEST_CASE("a rotation followed through whole turns keeps counting") {
  Eigen::Vector3d followed = Eigen::Vector3d::Zero();
  const Eigen::Vector3d axis = Eigen::Vector3d(1, -2, 2) / 3;
  for (int i = 1; i <= 40; ++i) {  // passes 2 pi exactly at i = 20
    followed = rotation_vector_near(rotation_matrix(i * M_PI / 10 * axis), followed);
    CHECK((followed - i * M_PI / 10 * axis).norm() < 1e-8);
  }
}

TEST_CASE("a beam's tangent is the derivative of its forces, and its forces that of its energy") {
  const size_t kind = GENERATE(range(0, 12));
  const Releases& r = all_releases[kind];
  Random random(static_cast<unsigned>(17 + kind));
  const BeamElement e = tube_element(r);
  const CorotationalBeam beam = corotational_beam(e);
  for (const double strain : {0.0, 0.05, 0.3}) {
    INFO("releases " << kind << ", strain " << strain);
    std::array<JointMotion, 2> ends = moved_ends(random, e, r, strain, 1.4);
    const CorotationalBeamState s = corotational_state(beam, ends[0], ends[1], true);
    REQUIRE(s.valid);
    const double h = 1e-5, scale = beam.K.norm();
    for (int i = 0; i < 12; ++i) {
      auto up = ends, down = ends;
      nudge(up, i, h);
      nudge(down, i, -h);
      const CorotationalBeamState a = corotational_state(beam, up[0], up[1], false);
      const CorotationalBeamState b = corotational_state(beam, down[0], down[1], false);
      const Vector12 column = (a.forces - b.forces) / (2 * h);
      CHECK((column - s.tangent.col(i)).norm() < 1e-7 * scale);
      CHECK_THAT((a.energy - b.energy) / (2 * h), WithinAbs(s.forces[i], 1e-7 * scale));
    }
  }
}

TEST_CASE("unloaded, a beam's tangent is its linear stiffness, wherever it has been turned to") {
  const size_t kind = GENERATE(range(0, 12));
  INFO("releases " << kind);
  const BeamElement e = tube_element(all_releases[kind]);
  const CorotationalBeam beam = corotational_beam(e);
  const Matrix12 R = rotation_12(e.axes);
  const Matrix12 K = R.transpose() * condense(e)->K * R;
  const CorotationalBeamState start = corotational_state(beam, {}, {}, true);
  CHECK((start.tangent - K).norm() < 1e-12 * K.norm());
  CHECK((start.axes - e.axes).norm() < 1e-14);
  const Eigen::Matrix3d far = rotation_matrix({1, -2, 0.5});
  JointMotion from, to;
  from.rotation = to.rotation = far;
  to.displacement = far * beam.along - beam.along;
  const CorotationalBeamState turned = corotational_state(beam, from, to, true);
  const Matrix12 F = rotation_12(far);
  CHECK((turned.tangent - F * K * F.transpose()).norm() < 1e-12 * K.norm());
  CHECK(turned.forces.norm() < 1e-12 * K.norm());
}

TEST_CASE("a rigid motion of a strained beam turns its forces along and leaves its energy") {
  const size_t kind = GENERATE(range(0, 12));
  const Releases& r = all_releases[kind];
  Random random(5);
  const BeamElement e = tube_element(r);
  const CorotationalBeam beam = corotational_beam(e);
  const auto ends = moved_ends(random, e, r, 0.2, 2.5);
  const CorotationalBeamState s = corotational_state(beam, ends[0], ends[1], false);
  REQUIRE(s.valid);
  const Eigen::Matrix3d far = rotation_matrix({-1.5, 1, 2});
  auto other = ends;
  for (int i = 0; i < 2; ++i) {
    const Eigen::Vector3d at = i * beam.along;
    other[i].rotation = far * ends[i].rotation;
    other[i].displacement = far * (at + ends[i].displacement) + Eigen::Vector3d(4, -5, 6) - at;
  }
  const CorotationalBeamState t = corotational_state(beam, other[0], other[1], false);
  CHECK((t.forces - rotation_12(far) * s.forces).norm() < 1e-11 * s.forces.norm());
  CHECK((t.local_forces - s.local_forces).norm() < 1e-11 * s.forces.norm());
  CHECK_THAT(t.energy, WithinRel(s.energy, 1e-11));
}

TEST_CASE("a strained beam's end forces balance in its deformed place") {
  const size_t kind = GENERATE(range(0, 12));
  const Releases& r = all_releases[kind];
  Random random(6);
  const BeamElement e = tube_element(r);
  const CorotationalBeam beam = corotational_beam(e);
  const auto ends = moved_ends(random, e, r, 0.2, 1.0);
  const CorotationalBeamState s = corotational_state(beam, ends[0], ends[1], false);
  const Eigen::Vector3d chord = beam.along + ends[1].displacement - ends[0].displacement;
  const Eigen::Vector3d force = s.forces.segment<3>(0) + s.forces.segment<3>(6);
  const Eigen::Vector3d moment =
      s.forces.segment<3>(3) + s.forces.segment<3>(9) + chord.cross(s.forces.segment<3>(6));
  CHECK(force.norm() < 1e-12 * s.forces.norm());
  CHECK(moment.norm() < 1e-12 * s.forces.norm());
}

TEST_CASE("a hinge turned by any angle carries no moment about its pin, a ball none at all") {
  Random random(9);
  for (const Releases& r : {Releases{{}, {5}}, {{4}, {}}, {{}, {3}}, {{4}, {4}}}) {
    const BeamElement e = tube_element(r);
    const auto ends = moved_ends(random, e, r, 0.2, 2.0);
    const CorotationalBeamState s =
        corotational_state(corotational_beam(e), ends[0], ends[1], false);
    for (int i = 0; i < 2; ++i) {
      const std::vector<int>& free = i == 0 ? r.from : r.to;
      if (free.empty()) continue;
      const Eigen::Vector3d pin = ends[i].rotation * e.axes.row(free[0] - 3).transpose();
      CHECK(std::abs(pin.dot(s.forces.segment<3>(6 * i + 3))) < 1e-12 * s.forces.norm());
    }
  }
  const Releases ball = {{}, {3, 4, 5}};
  const BeamElement e = tube_element(ball);
  const auto ends = moved_ends(random, e, ball, 0.2, 0);
  const CorotationalBeamState s = corotational_state(corotational_beam(e), ends[0], ends[1], false);
  CHECK(s.forces.segment<3>(9).norm() == 0);
  CHECK(s.forces.norm() > 1);
}

TEST_CASE("a beam whose ends have met, or that stands square to its chord, has no state") {
  const CorotationalBeam beam = corotational_beam(tube_element({}));
  JointMotion to;
  to.displacement = -beam.along;
  CHECK_FALSE(corotational_state(beam, {}, to, true).valid);
  to.displacement.setConstant(NAN);
  CHECK_FALSE(corotational_state(beam, {}, to, true).valid);
  JointMotion a, b;
  a.rotation = b.rotation = rotation_matrix(M_PI / 2 * beam.axes.col(2));
  CHECK_FALSE(corotational_state(beam, a, b, true).valid);
}

TEST_CASE("released forces are an obstacle, released moments and springs are not") {
  Beam b;
  CHECK(corotational_obstacle(b).empty());
  b.connection_to = {1e6, 1e6, 1e6, 0, 0, 0};
  CHECK(corotational_obstacle(b).empty());
  b.connection_from[0] = 0;
  CHECK_FALSE(corotational_obstacle(b).empty());
}

}  // namespace tubewright::corotational_beam_test
