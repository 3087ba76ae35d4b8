// The beam element against textbook formulas of single beams (S. P. Timoshenko, Strength of
// Materials; from memory) and the laws of rigid motion and statics.
#include "solver/elements/beam_element.h"

#include <Eigen/Geometry>
#include <Eigen/LU>
#include <random>

#include "tests/catch.h"

namespace tubewright::beam_element_test {

namespace {

enum { u1, v1, w1, rx1, ry1, rz1, u2, v2, w2, rx2, ry2, rz2 };

BeamElement element(double shear_area_y, double shear_area_z) {
  BeamElement e;
  e.L = 1.4;
  e.section.A = 4e-4;
  e.section.Iy = 8e-8;
  e.section.Iz = 3e-8;
  e.section.It = 5e-8;
  e.section.Ay = shear_area_y;
  e.section.Az = shear_area_z;
  e.material.E = 200e9;
  e.material.G = 80e9;
  return e;
}

BeamElement deep() { return element(3e-6, 5e-7); }
BeamElement slender() { return element(rigid, rigid); }

/// Resultant of end forces about the `from` end, local axes.
Vector6 resultant(const BeamElement& e, const Vector12& f) {
  Vector6 r = f.head<6>() + f.tail<6>();
  r.tail<3>() += Eigen::Vector3d(e.L, 0, 0).cross(Eigen::Vector3d(f.segment<3>(6)));
  return r;
}

}  // namespace

TEST_CASE("member axes are a right-handed frame along the member with z upward") {
  std::mt19937 random(3);
  std::uniform_real_distribution<double> u(-1, 1);
  for (int i = 0; i < 20; ++i) {
    const Eigen::Vector3d a(u(random), u(random), u(random)), b(u(random), u(random), u(random));
    const Eigen::Matrix3d R = member_axes(a, b, 0);
    CHECK((R * R.transpose() - Eigen::Matrix3d::Identity()).norm() < 1e-13);
    CHECK_THAT(R.determinant(), WithinRel(1.0, 1e-13));
    CHECK((R * (b - a) - (b - a).norm() * Eigen::Vector3d::UnitX()).norm() < 1e-13);
    CHECK_THAT(R(1, 2), WithinAbs(0, 1e-13));  // y is level
    CHECK(R(2, 2) > 0);
    // A roll turns y towards z and z towards -y.
    const double roll = 3 * u(random);
    const Eigen::Matrix3d rolled = member_axes(a, b, roll);
    const Eigen::AngleAxisd about_x(roll, Eigen::Vector3d(R.row(0)));
    CHECK((rolled.row(1).transpose() - about_x * Eigen::Vector3d(R.row(1))).norm() < 1e-13);
    CHECK((rolled.row(2).transpose() - about_x * Eigen::Vector3d(R.row(2))).norm() < 1e-13);
  }
}

TEST_CASE("an upright member has its z forward, up to half a degree of lean") {
  const Eigen::Matrix3d upright = member_axes({1, 2, 0}, {1, 2, 3}, 0);
  CHECK((upright.row(2) - Eigen::RowVector3d::UnitX()).norm() < 1e-15);
  CHECK((upright.row(1) + Eigen::RowVector3d::UnitY()).norm() < 1e-15);
  const auto leaning = [](double degrees) {
    const double angle = degrees * EIGEN_PI / 180;
    return member_axes({0, 0, 0}, {0, std::sin(angle), std::cos(angle)}, 0);
  };
  CHECK(leaning(0.49).row(2).x() > 0.99);
  CHECK(leaning(0.51).row(2).x() < 0.01);
}

TEST_CASE("no rigid motion of a beam meets a force, and its end forces balance") {
  for (const BeamElement& e : {slender(), deep()}) {
    const Matrix12 K = local_stiffness(e);
    CHECK((K - K.transpose()).norm() == 0);
    for (int d = 0; d < 3; ++d) {
      const Eigen::Vector3d w = Eigen::Vector3d::Unit(d), arm = w.cross(Eigen::Vector3d(e.L, 0, 0));
      Vector12 turn, move;
      turn << Eigen::Vector3d::Zero(), w, arm, w;
      move << w, Eigen::Vector3d::Zero(), w, Eigen::Vector3d::Zero();
      CHECK((K * turn).norm() < 1e-12 * K.norm());
      CHECK((K * move).norm() < 1e-12 * K.norm());
    }
    for (int i = 0; i < 12; ++i) CHECK(resultant(e, K.col(i)).norm() < 1e-12 * K.norm());
  }
}

TEST_CASE("a cantilever's tip moves as the textbook says, with its shear deflection") {
  for (const BeamElement& e : {slender(), deep()}) {
    const Section& s = e.section;
    const double E = e.material.E, G = e.material.G, L = e.L;
    const Eigen::Matrix<double, 6, 6> F =
        local_stiffness(e).bottomRightCorner<6, 6>().fullPivLu().inverse();
    CHECK_THAT(F(0, 0), WithinRel(L / (E * s.A), 1e-10));
    CHECK_THAT(F(3, 3), WithinRel(L / (G * s.It), 1e-10));
    CHECK_THAT(F(1, 1), WithinRel(L * L * L / (3 * E * s.Iz) + L / (G * s.Ay), 1e-10));
    CHECK_THAT(F(2, 2), WithinRel(L * L * L / (3 * E * s.Iy) + L / (G * s.Az), 1e-10));
    CHECK_THAT(F(1, 5), WithinRel(L * L / (2 * E * s.Iz), 1e-10));
    CHECK_THAT(F(2, 4), WithinRel(-L * L / (2 * E * s.Iy), 1e-10));
    CHECK_THAT(F(4, 4), WithinRel(L / (E * s.Iy), 1e-10));
    CHECK_THAT(F(5, 5), WithinRel(L / (E * s.Iz), 1e-10));
    CHECK_THAT(shear_ratio(e.material, s.Iy, s.Az, L),
               WithinAbs(4 * (F(2, 2) / (L * L * L / (3 * E * s.Iy)) - 1), 1e-9));
  }
}

TEST_CASE("a built-in beam hands its joints P a b2/L2, q L2/12 and the statics of any load") {
  const BeamElement e = slender();
  const double L = e.L, a = 0.3 * L, b = L - a;
  BeamActions point;
  point.points.push_back({0.3, {0, 0, -500}, {0, 0, 0}});
  const Vector12 f = local_equivalent_loads(e, point);
  CHECK_THAT(f[ry1], WithinRel(500 * a * b * b / (L * L), 1e-12));
  CHECK_THAT(f[ry2], WithinRel(-500 * a * a * b / (L * L), 1e-12));
  CHECK_THAT(f[w1], WithinRel(-500 * b * b * (3 * a + b) / (L * L * L), 1e-12));
  BeamActions line;
  line.line = {0, 70, 0};
  const Vector12 g = local_equivalent_loads(e, line);
  CHECK_THAT(g[rz1], WithinRel(70 * L * L / 12, 1e-12));
  CHECK_THAT(g[rz2], WithinRel(-70 * L * L / 12, 1e-12));
  // A couple M at a: end moments M b (2a - b)/L2 and M a (2b - a)/L2 (Roark, table 8.1; from
  // memory), here as what is handed on.
  BeamActions couple;
  couple.points.push_back({0.3, {0, 0, 0}, {0, 0, 40}});
  const Vector12 h = local_equivalent_loads(e, couple);
  CHECK_THAT(h[rz1], WithinRel(-40 * b * (2 * a - b) / (L * L), 1e-12));
  CHECK_THAT(h[rz2], WithinRel(-40 * a * (2 * b - a) / (L * L), 1e-12));

  BeamElement turned = deep();
  turned.axes = Eigen::Quaterniond(0.4, 0.2, -0.6, 0.1).normalized().toRotationMatrix();
  BeamActions all;
  all.line = {30, -20, 50};
  all.couple = {3, 7, -4};
  all.points.push_back({0.7, {100, -40, 60}, {5, 8, -9}});
  const Eigen::Matrix3d& R = turned.axes;
  Vector6 expected;
  expected.head<3>() = R * (all.line * L + all.points[0].force);
  expected.tail<3>() = R * (all.couple * L + all.points[0].moment) +
                       Eigen::Vector3d(L / 2, 0, 0).cross(R * all.line * L) +
                       Eigen::Vector3d(0.7 * L, 0, 0).cross(R * all.points[0].force);
  CHECK((resultant(turned, local_equivalent_loads(turned, all)) - expected).norm() < 1e-11);
}

TEST_CASE("with a hinge at its far end a beam is the propped cantilever of the textbook") {
  BeamElement e = slender();
  e.connection[ry2] = 0;
  const std::optional<CondensedBeam> c = condense(e);
  REQUIRE(c);
  const double EI = e.material.E * e.section.Iy, L = e.L;
  CHECK_THAT(c->K(w2, w2), WithinRel(3 * EI / (L * L * L), 1e-10));
  CHECK_THAT(c->K(ry1, ry1), WithinRel(3 * EI / L, 1e-10));
  CHECK(c->K.col(ry2).norm() == 0);
  BeamActions line;
  line.line = {0, 0, -100};
  const Vector12 f = c->from_joint.transpose() * local_equivalent_loads(e, line);
  CHECK_THAT(f[w1], WithinRel(-100 * L * 5 / 8, 1e-10));
  CHECK_THAT(f[w2], WithinRel(-100 * L * 3 / 8, 1e-10));
  CHECK_THAT(f[ry1], WithinRel(100 * L * L / 8, 1e-10));
  // The hinge turns by q L3/(48 EI) while both joints are held.
  const Vector12 ends = c->from_load * local_equivalent_loads(e, line);
  CHECK_THAT(std::abs(ends[ry2]), WithinRel(100 * L * L * L / (48 * EI), 1e-10));
}

TEST_CASE("a spring in a beam's end adds its flexibility to the cantilever's") {
  BeamElement e = slender();
  e.connection[rz1] = 9e3;
  e.connection[u2] = 4e6;
  const Eigen::Matrix<double, 6, 6> F =
      condense(e)->K.bottomRightCorner<6, 6>().fullPivLu().inverse();
  const double L = e.L;
  CHECK_THAT(F(0, 0), WithinRel(L / (e.material.E * e.section.A) + 1 / 4e6, 1e-9));
  CHECK_THAT(F(1, 1), WithinRel(L * L * L / (3 * e.material.E * e.section.Iz) + L * L / 9e3, 1e-9));
}

TEST_CASE("a joint that gives way is a spring in series with the connection, about its own axes") {
  BeamElement sprung = deep(), jointed = deep();
  sprung.connection[u1] = 1 / (1 / 5e6 + 1 / 4e6);
  sprung.connection[ry1] = 7e3;
  sprung.connection[rz1] = 3e3;
  sprung.connection[ry2] = 2e3;
  jointed.connection[u1] = 5e6;
  jointed.joints[0] = {1 / 4e6, {1 / 7e3, 1 / 3e3}, 0};
  jointed.joints[1] = {0, {0, 1 / 2e3}, -EIGEN_PI / 2};  // the second axis lies along local y
  CHECK(!jointed.rigidly_joined());
  const CondensedBeam a = *condense(sprung), b = *condense(jointed);
  CHECK((a.K - b.K).norm() < 1e-12 * a.K.norm());
  CHECK((a.from_joint - b.from_joint).norm() < 1e-12 * a.from_joint.norm());
  CHECK((a.from_load - b.from_load).norm() < 1e-12 * a.from_load.norm());

  // The same joint on a beam that is turned about its axis: roll and turn undo each other.
  const double angle = 0.7;
  BeamElement round = slender(), turned = slender();
  round.section.Iz = turned.section.Iz = round.section.Iy;
  round.joints[1] = {0, {1 / 7e3, 1 / 3e3}, 0};
  turned.joints[1] = {0, {1 / 7e3, 1 / 3e3}, angle};
  const Eigen::Matrix3d about_x =
      Eigen::AngleAxisd(angle, Eigen::Vector3d::UnitX()).toRotationMatrix();
  const Matrix12 R = rotation_12(about_x.transpose());
  const Matrix12 K = R.transpose() * condense(round)->K * R;
  CHECK((K - condense(turned)->K).norm() < 1e-12 * K.norm());
}

TEST_CASE("a joint that feels the moment at a distance turns by that moment") {
  // A cantilever of length L under F at its tip, its root turning by c times the moment F (L - d)
  // there: the tip goes by F c (L - d)^2 more (derived).
  BeamElement e = slender();
  const double L = e.L, c = 1e-4, d = 0.1;
  for (const int k : {0, 1}) {
    for (const int end : {0, 1}) {
      BeamElement jointed = slender();
      jointed.joints[end].bending[k] = c;
      jointed.joints[end].distance[k] = d;
      const int free = end == 0 ? 6 : 0;
      const auto flexibility = [&](const BeamElement& b) {
        return Eigen::Matrix<double, 6, 6>(
            condense(b)->K.block<6, 6>(free, free).fullPivLu().inverse());
      };
      const int across = k == 0 ? 2 : 1;  // about y it moves along z
      CHECK_THAT(flexibility(jointed)(across, across) - flexibility(e)(across, across),
                 WithinRel(c * (L - d) * (L - d), 1e-9));
    }
  }
}

TEST_CASE("a beam in soft joints hands them its loads as springs at its ends would") {
  // Uniform load between equal springs c = S L/EI: the end moment is 1/(1 + 2/c) of q L2/12
  // (derived; the share of a semi-rigid beam in any textbook on joints).
  BeamElement e = slender();
  const double EI = e.material.E * e.section.Iy, S = 8 * EI / e.L;
  e.joints[0] = e.joints[1] = {0, {1 / S, 0}, 0};
  BeamActions line;
  line.line = {0, 0, -100};
  const Vector12 f = condense(e)->from_joint.transpose() * local_equivalent_loads(e, line);
  CHECK_THAT(f[ry1], WithinRel(0.8 * 100 * e.L * e.L / 12, 1e-10));
  CHECK_THAT(f[ry2], WithinRel(-0.8 * 100 * e.L * e.L / 12, 1e-10));
}

TEST_CASE("releases at both ends that let a member move by itself are told apart") {
  const auto released = [](std::initializer_list<int> from, std::initializer_list<int> to) {
    EndConnection a = welded, b = welded;
    for (const int d : from) a[d] = 0;
    for (const int d : to) b[d] = 0;
    BeamElement e = slender();
    for (int d = 0; d < 6; ++d) e.connection[d] = a[d], e.connection[6 + d] = b[d];
    const int loose = loose_direction(a, b);
    CHECK(condense(e).has_value() == (loose < 0));
    return loose;
  };
  CHECK(released({}, {}) == -1);
  CHECK(released({4, 5}, {4, 5}) == -1);
  CHECK(released({3, 4, 5}, {4, 5}) == -1);
  CHECK(released({0}, {0}) == 0);
  CHECK(released({3, 4, 5}, {3, 4, 5}) == 3);
  CHECK(released({1}, {1}) == 1);
  CHECK(released({4}, {2, 4}) == 2);
}

TEST_CASE("a beam torn off at one end has no stiffness left, not even that of rounding") {
  for (const int end : {0, 1}) {
    for (const double length : {0.03, 0.7368, 5.1}) {
      BeamElement e = deep();
      e.L = length;
      e.joints[0] = {1e-9, {3e-5, 7e-6}, 0.3, {0.01, 0.03}};
      for (int d = 0; d < 6; ++d) e.connection[6 * end + d] = 0;
      CHECK(condense(e)->K.isZero(0));
    }
  }
}

TEST_CASE("an element looks up its length, axes, section and ends, and turns all four vectors") {
  Model model;
  model.nodes = {{0, 0, 0}, {3, 4, 0}};
  model.sections.resize(2);
  model.sections[1].A = 7;
  model.materials.resize(3);
  model.materials[2].E = 5;
  Beam beam;
  beam.to = 1;
  beam.section = 1;
  beam.material = 2;
  beam.roll = 0.4;
  beam.connection_to[4] = 12;
  const BeamElement e = beam_element(model, beam);
  CHECK(e.L == 5);
  CHECK(e.axes == member_axes(model.nodes[0], model.nodes[1], 0.4));
  CHECK(e.section.A == 7);
  CHECK(e.material.E == 5);
  CHECK(e.connection[10] == 12);
  CHECK(e.connection[4] == rigid);
  const Vector12 v = Vector12::LinSpaced(1, 12), w = rotation_12(e.axes) * v;
  for (int i = 0; i < 12; i += 3)
    CHECK((w.segment<3>(i) - e.axes * v.segment<3>(i)).norm() < 1e-14);
}

}  // namespace tubewright::beam_element_test
