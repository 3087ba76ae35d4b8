// Frames whose displacements, end forces and reactions are printed in textbooks.
#include <cmath>
#include <numbers>

#include "tests/solver/model_builder.h"

namespace tubewright::published_frames_test {

using namespace tubewright::test;

namespace {

/// Five printed digits.
void check_printed(const Vector6& value, const std::array<double, 6>& print) {
  for (int i = 0; i < 6; ++i) {
    INFO("component " << i);
    // half a unit of the fifth digit
    const double unit = std::pow(10.0, std::floor(std::log10(std::abs(print[i]))) - 4);
    CHECK_THAT(value[i], WithinAbs(print[i], 0.51 * unit));
  }
}

}  // namespace

// A. Kassimali, Matrix Analysis of Structures, Example 8.4 (MEMORY; displacements and reactions
// reproduced digit for digit by an independent script). Kip and inch. In the book Y is up: the
// example is turned by (X, Y, Z) -> (X, -Z, Y), and each roll is set so that the local axes are the
// book's.
TEST_CASE("Kassimali's three-member space frame: displacements, end forces and reactions") {
  const auto turn = [](double X, double Y, double Z) { return Eigen::Vector3d(X, -Z, Y); };
  ModelBuilder b;
  const auto add = [&](double X, double Y, double Z) {
    const Eigen::Vector3d p = turn(X, Y, Z);
    return b.node(p.x(), p.y(), p.z());
  };
  const int n1 = add(0, 0, 0), n2 = add(-240, 0, 0), n3 = add(0, -240, 0), n4 = add(0, 0, -240);
  // Book: I_z = 716 about local z, I_y = 236 about local y.
  const int s = b.section(properties(32.9, 236, 716, 15.1), 29000, 11500);
  const auto roll_to = [&](int from, const Eigen::Vector3d& y_book) {
    const Eigen::Matrix3d axes = member_axes(b.model.nodes[from], b.model.nodes[n1], 0);
    return std::atan2(axes.row(2).dot(y_book), axes.row(1).dot(y_book));
  };
  const double half = 0.5, root = std::sqrt(3.0) / 2;
  b.beam(n2, n1, s, roll_to(n2, turn(0, 1, 0)));
  b.beam(n3, n1, s, roll_to(n3, turn(0, 0, 1)));
  b.beam(n4, n1, s, roll_to(n4, turn(-half, root, 0)));
  for (const int n : {n2, n3, n4}) b.fix(n);
  Actions a = b.actions();
  a.nodal.segment<3>(6 * n1 + 3) = turn(-1800, 0, 1800);
  a.beams[0].line = turn(0, -0.25, 0);
  const StaticSolution r = b.solve(a);

  const auto book = [](const Eigen::Vector3d& v) { return Eigen::Vector3d(v.x(), v.z(), -v.y()); };
  Vector6 u;
  u << book(r.displacements.segment<3>(6 * n1)), book(r.displacements.segment<3>(6 * n1 + 3));
  check_printed(u, {-1.3522e-3, -2.7965e-3, -1.8120e-3, -3.0021e-3, 1.0569e-3, 6.4986e-3});

  const std::array<std::array<double, 12>, 3> ends = {
      {{5.3757, 44.106, -0.74272, 2.1722, 58.987, 2330.5, -5.3757, 15.894, 0.74272, -2.1722, 119.27,
        1055.0},
       {11.117, -6.4607, -4.6249, -0.76472, 369.67, -515.55, -11.117, 6.4607, 4.6249, 0.76472,
        740.31, -1035.0},
       {7.2034, 4.5118, -1.7379, -4.7020, 139.65, 362.21, -7.2034, -4.5118, 1.7379, 4.7020, 277.46,
        720.63}}};
  for (int m = 0; m < 3; ++m) {
    INFO("member " << m + 1);
    const Vector12& f = r.beams[m].end_forces;
    std::array<double, 6> from, to;
    std::copy_n(ends[m].begin(), 6, from.begin());
    std::copy_n(ends[m].begin() + 6, 6, to.begin());
    check_printed(Vector6(f.head<6>()), from);
    check_printed(Vector6(f.tail<6>()), to);
  }

  const std::array<std::pair<int, std::array<double, 6>>, 3> reactions = {
      {{n2, {5.3757, 44.106, -0.74272, 2.1722, 58.987, 2330.5}},
       {n3, {-4.6249, 11.117, -6.4607, -515.55, -0.76472, 369.67}},
       {n4, {-0.75082, 4.7763, 7.2034, -383.5, -60.166, -4.702}}}};
  for (const auto& [node, print] : reactions) {
    INFO("reaction at node " << node + 1);
    Vector6 f;
    f << book(r.reactions.segment<3>(6 * node)), book(r.reactions.segment<3>(6 * node + 3));
    check_printed(f, print);
  }
}

// D. L. Logan, A First Course in the Finite Element Method, Example 5.1: member free bodies SEEN
// (four digits), input data MEMORY, more digits DERIVED. Pound and inch, plane frame.
TEST_CASE("Logan's portal frame: displacements and member end forces") {
  ModelBuilder b;
  const int n1 = b.node(0, 0, 0), n2 = b.node(0, 120, 0), n3 = b.node(120, 120, 0),
            n4 = b.node(120, 0, 0);
  const int column = b.section(properties(10, 200, 200, 1), 30e6, 12e6);
  const int rail = b.section(properties(10, 100, 100, 1), 30e6, 12e6);
  b.beam(n1, n2, column);
  b.beam(n2, n3, rail);
  b.beam(n3, n4, column);
  b.fix(n1);
  b.fix(n4);
  b.hold(n2, {z, rx, ry});
  b.hold(n3, {z, rx, ry});
  Actions a = b.actions();
  at(a, n2, x) = 10000;
  at(a, n3, rz) = 5000;
  const StaticSolution r = b.solve(a);
  CHECK_THAT(moved(r, n2, x), WithinAbs(0.211363, 6e-7));
  CHECK_THAT(moved(r, n2, y), WithinAbs(0.001481, 6e-7));
  CHECK_THAT(moved(r, n2, rz), WithinAbs(-0.001526, 6e-7));
  CHECK_THAT(moved(r, n3, x), WithinAbs(0.209359, 6e-7));
  CHECK_THAT(moved(r, n3, rz), WithinAbs(-0.001486, 6e-7));
  struct Row {
    double N, V, start, end;
  };
  const std::array<Row, 3> rows = {{{3703.32, 4991.69, 375803, 223200},
                                    {5008.31, 3703.32, 223200, 221198},
                                    {3703.32, 5008.31, 226198, 374798}}};
  for (int m = 0; m < 3; ++m) {
    INFO("member " << m + 1);
    const Vector12& f = r.beams[m].end_forces;
    CHECK_THAT(std::abs(f[0]), WithinAbs(rows[m].N, 0.006));
    CHECK_THAT(std::hypot(f[1], f[2]), WithinAbs(rows[m].V, 0.006));
    CHECK_THAT(std::hypot(f[4], f[5]), WithinAbs(rows[m].start, 0.6));
    CHECK_THAT(std::hypot(f[10], f[11]), WithinAbs(rows[m].end, 0.6));
  }
}

// Space truss, numbers SEEN; believed to be W. McGuire, R. H. Gallagher, R. D. Ziemian, Matrix
// Structural Analysis, 2nd ed., Example 5.4 (attribution MEMORY). kN and m; E = 200e6 kN/m2.
TEST_CASE("a space truss of links moves as printed and carries the derived forces") {
  ModelBuilder b;
  const int apex = b.node(0, 0, 0);
  const double E = 200e6;
  const std::array<Eigen::Vector3d, 4> feet = {
      {{-2, -4, -8}, {6, -4, -8}, {6, 2, -8}, {-2, 2, -8}}};
  const std::array<double, 4> area = {20000e-6, 30000e-6, 40000e-6, 30000e-6};
  for (int i = 0; i < 4; ++i) {
    const int foot = b.node(feet[i].x(), feet[i].y(), feet[i].z());
    b.bar(apex, foot, E * area[i]);
    b.pin(foot);
  }
  Actions a = b.actions();
  a.nodal.segment<3>(6 * apex) = Eigen::Vector3d(200, 600, -800);
  const StaticSolution r = b.solve(a);
  CHECK_THAT(moved(r, apex, x) * 1e3, WithinAbs(0.178, 5.1e-4));
  CHECK_THAT(moved(r, apex, y) * 1e3, WithinAbs(2.722, 5.1e-4));
  CHECK_THAT(moved(r, apex, z) * 1e3, WithinAbs(-0.487, 5.1e-4));
  const std::array<double, 4> force = {350.07, 306.64, -800.25, -748.36};
  for (int i = 0; i < 4; ++i) CHECK_THAT(r.bar_forces[i], WithinAbs(force[i], 0.0051));
}

namespace {

/// Portal of A. Kleinlogel, Rigid Frame Formulas (MEMORY, checked against a stiffness solution):
/// columns h = 3 (I = 2), beam l = 4 (I = 1.5), E = 1, axially rigid, k = (Ib/Ic)(h/l) = 0.5625.
struct Portal : ModelBuilder {
  int foot1, top1, top2, foot2;

  Portal() {
    const double stiff = 1e9;
    foot1 = node(0, 0, 0);
    top1 = node(0, 3, 0);
    top2 = node(4, 3, 0);
    foot2 = node(4, 0, 0);
    const int column = section(properties(stiff, 2, 2, 1), 1, 1);
    const int rail = section(properties(stiff, 1.5, 1.5, 1), 1, 1);
    beam(foot1, top1, column);
    beam(top1, top2, rail);
    beam(top2, foot2, column);
    keep_plane_xy();
  }

  void feet(std::initializer_list<int> held) {
    hold(foot1, held);
    hold(foot2, held);
  }

  Actions sway() const {
    Actions a = actions();
    at(a, top1, x) = 1;
    return a;
  }

  Actions vertical() const {
    Actions a = actions();
    a.beams[1].line = {0, -1, 0};
    return a;
  }
};

}  // namespace

TEST_CASE("Kleinlogel's portal with fixed feet") {
  constexpr double printed = 1e-6;
  Portal p;
  p.feet({x, y, rz});
  const StaticSolution sway = p.solve(p.sway());
  CHECK_THAT(std::abs(reaction(sway, p.foot1, rz)), WithinAbs(0.921429, printed));
  CHECK_THAT(std::hypot(sway.beams[1].end_forces[4], sway.beams[1].end_forces[5]),
             WithinAbs(0.578571, printed));
  CHECK_THAT(moved(sway, p.top1, x), WithinAbs(0.948214, printed));
  const StaticSolution vertical = p.solve(p.vertical());
  CHECK_THAT(std::abs(reaction(vertical, p.foot1, rz)), WithinAbs(0.520325, printed));
  CHECK_THAT(std::hypot(vertical.beams[1].end_forces[4], vertical.beams[1].end_forces[5]),
             WithinAbs(1.040650, printed));
  CHECK_THAT(std::abs(reaction(vertical, p.foot1, x)), WithinAbs(0.520325, printed));
}

TEST_CASE("Kleinlogel's portal with pinned feet") {
  constexpr double printed = 1e-6;
  Portal p;
  p.feet({x, y});
  const StaticSolution sway = p.solve(p.sway());
  CHECK_THAT(std::hypot(sway.beams[1].end_forces[4], sway.beams[1].end_forces[5]),
             WithinAbs(1.5, printed));
  CHECK_THAT(moved(sway, p.top1, x), WithinAbs(4.25, printed));
  const StaticSolution vertical = p.solve(p.vertical());
  CHECK_THAT(std::hypot(vertical.beams[1].end_forces[4], vertical.beams[1].end_forces[5]),
             WithinAbs(0.969697, printed));
  CHECK_THAT(std::abs(reaction(vertical, p.foot1, x)), WithinAbs(0.323232, printed));
}

}  // namespace tubewright::published_frames_test
