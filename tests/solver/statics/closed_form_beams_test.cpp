// Beams with known answers. Formulas: W. C. Young, R. G. Budynas, Roark's Formulas for Stress and
// Strain, 7th ed., Table 8.1 and ch. 10; S. Timoshenko, Strength of Materials (MEMORY, every number
// recomputed). One element a span is exact: tolerance 1e-9.
#include <cmath>
#include <numbers>

#include "solver/elements/stress.h"
#include "solver/model/section_shapes.h"
#include "tests/solver/model_builder.h"
#include "tests/truth.h"

namespace tubewright::closed_form_beams_test {

using namespace tubewright::test;

namespace {

constexpr Source roark = rederived(
    "Roark's Formulas for Stress and Strain, 7th ed., Table 8.1 (formula from memory, re-derived)");
constexpr Source instance = rederived(
    "closed forms of bending, shear (Cowper) and torsion for 25 x 25 x 2, evaluated independently");

constexpr double exact = 1e-9;
constexpr double E = 210e9, G = 80769.2e6;
constexpr double L = 1.3, P = 100, w = 250, M = 40;

/// A shear-rigid beam along x of one or more spans, loaded in the x-z plane.
struct BeamOnSupports : ModelBuilder {
  double EI = 0;
  std::vector<int> n;

  explicit BeamOnSupports(int spans, double length = L) {
    const Section s = properties(174e-6, 1.4835e-8, 0.9e-8, 2.5e-8);
    EI = E * s.Iy;
    n = chain({0, 0, 0}, {length * spans, 0, 0}, spans, section(s, E, G));
  }

  void simple(int left, int right) {
    hold(n[left], {x, y, z, rx});
    hold(n[right], {y, z});
  }
};

Actions line_load(const ModelBuilder& b, double q) {
  Actions a = b.actions();
  for (BeamActions& beam : a.beams) beam.line = {0, 0, q};
  return a;
}

Actions point_load(const ModelBuilder& b, double where, double force) {
  Actions a = b.actions();
  a.beams[0].points.push_back({where, {0, 0, force}, Eigen::Vector3d::Zero()});
  return a;
}

double deflection(const StaticSolution& s, int beam, double where) {
  return beam_displacement(s.beams[beam], where).displacement.z();
}

/// Bending moment of the first beam, positive where it sags (z < 0 in tension).
double sagging(const StaticSolution& s, double where) {
  return -section_forces(s.beams[0], where).My;
}

}  // namespace

TEST_CASE("a cantilever's tip moves P L^3 / 3 E I and turns P L^2 / 2 E I", "[truth]") {
  BeamOnSupports b(1);
  b.fix(b.n[0]);
  Actions a = b.actions();
  at(a, b.n[1], z) = -P;
  const StaticSolution s = b.solve(a);
  truth("cantilever, load at the tip: deflection P L3/3EI, m", roark, moved(s, b.n[1], z),
        within_rel(-P * L * L * L / (3 * b.EI), exact));
  truth("cantilever, load at the tip: slope P L2/2EI, rad", roark, moved(s, b.n[1], ry),
        within_rel(P * L * L / (2 * b.EI), exact));
  CHECK_THAT(reaction(s, b.n[0], z), WithinRel(P, exact));
  truth("cantilever, load at the tip: moment P L, N m", roark, reaction(s, b.n[0], ry),
        within_rel(-P * L, exact));
}

TEST_CASE("a cantilever under a line load moves w L^4 / 8 E I", "[truth]") {
  BeamOnSupports b(1);
  b.fix(b.n[0]);
  const StaticSolution s = b.solve(line_load(b, -w));
  truth("cantilever, line load: deflection w L4/8EI, m", roark, moved(s, b.n[1], z),
        within_rel(-w * std::pow(L, 4) / (8 * b.EI), exact));
  truth("cantilever, line load: slope w L3/6EI, rad", roark, moved(s, b.n[1], ry),
        within_rel(w * std::pow(L, 3) / (6 * b.EI), exact));
  truth("cantilever, line load: moment w L2/2, N m", roark, sagging(s, 0),
        within_rel(-w * L * L / 2, exact));
}

TEST_CASE("a cantilever under a tip moment bends to a parabola", "[truth]") {
  BeamOnSupports b(1);
  b.fix(b.n[0]);
  Actions a = b.actions();
  at(a, b.n[1], ry) = M;
  const StaticSolution s = b.solve(a);
  truth("cantilever, moment at the tip: deflection M L2/2EI, m", roark, moved(s, b.n[1], z),
        within_rel(-M * L * L / (2 * b.EI), exact));
  truth("cantilever, moment at the tip: slope M L/EI, rad", roark, moved(s, b.n[1], ry),
        within_rel(M * L / b.EI, exact));
  CHECK_THAT(deflection(s, 0, 0.5), WithinRel(-M * L * L / (8 * b.EI), exact));
}

TEST_CASE("a simply supported beam under a centre load moves P L^3 / 48 E I", "[truth]") {
  BeamOnSupports b(1);
  b.simple(0, 1);
  const StaticSolution s = b.solve(point_load(b, 0.5, -P));
  truth("simple beam, load in the middle: deflection P L3/48EI, m", roark, deflection(s, 0, 0.5),
        within_rel(-P * L * L * L / (48 * b.EI), exact));
  truth("simple beam, load in the middle: slope P L2/16EI, rad", roark, moved(s, b.n[0], ry),
        within_rel(P * L * L / (16 * b.EI), exact));
  truth("simple beam, load in the middle: moment P L/4, N m", roark, sagging(s, 0.5),
        within_rel(P * L / 4, exact));
}

TEST_CASE("a simply supported beam under a line load moves 5 w L^4 / 384 E I", "[truth]") {
  BeamOnSupports b(1);
  b.simple(0, 1);
  const StaticSolution s = b.solve(line_load(b, -w));
  truth("simple beam, line load: deflection 5 w L4/384EI, m", roark, deflection(s, 0, 0.5),
        within_rel(-5 * w * std::pow(L, 4) / (384 * b.EI), exact));
  truth("simple beam, line load: slope w L3/24EI, rad", roark, moved(s, b.n[0], ry),
        within_rel(w * L * L * L / (24 * b.EI), exact));
  truth("simple beam, line load: moment w L2/8, N m", roark, sagging(s, 0.5),
        within_rel(w * L * L / 8, exact));
}

TEST_CASE("a built-in beam has P L / 8 at its ends and w L^2 / 12 under a line load", "[truth]") {
  BeamOnSupports b(1);
  b.fix(b.n[0]);
  b.fix(b.n[1]);
  const StaticSolution centre = b.solve(point_load(b, 0.5, -P));
  truth("built-in beam, load in the middle: deflection P L3/192EI, m", roark,
        deflection(centre, 0, 0.5), within_rel(-P * L * L * L / (192 * b.EI), exact));
  truth("built-in beam, load in the middle: end moment P L/8, N m", roark, sagging(centre, 0),
        within_rel(-P * L / 8, exact));
  CHECK_THAT(sagging(centre, 0.5), WithinRel(P * L / 8, exact));
  const StaticSolution line = b.solve(line_load(b, -w));
  truth("built-in beam, line load: deflection w L4/384EI, m", roark, deflection(line, 0, 0.5),
        within_rel(-w * std::pow(L, 4) / (384 * b.EI), exact));
  truth("built-in beam, line load: end moment w L2/12, N m", roark, sagging(line, 1),
        within_rel(-w * L * L / 12, exact));
  truth("built-in beam, line load: moment in the middle w L2/24, N m", roark, sagging(line, 0.5),
        within_rel(w * L * L / 24, exact));
}

TEST_CASE("a built-in beam with a load off centre has P a b^2 / L^2 and P a^2 b / L^2", "[truth]") {
  BeamOnSupports b(1);
  b.fix(b.n[0]);
  b.fix(b.n[1]);
  const double part = GENERATE(0.1, 0.3, 0.5, 0.85);
  const double a = part * L, c = L - a;
  const StaticSolution s = b.solve(point_load(b, part, -P));
  truth(named("built-in beam, load at ", part, " L: moment P a b2/L2, N m"), roark, sagging(s, 0),
        within_rel(-P * a * c * c / (L * L), exact));
  truth(named("built-in beam, load at ", part, " L: moment P a2 b/L2, N m"), roark, sagging(s, 1),
        within_rel(-P * a * a * c / (L * L), exact));
}

TEST_CASE("a support that settles D in a built-in beam needs 6 E I D / L^2") {
  BeamOnSupports b(1);
  b.fix(b.n[0]);
  b.fix(b.n[1]);
  Actions a = b.actions();
  const double D = -0.004;
  a.prescribed[dofs_per_node * b.n[1] + z] = D;
  const StaticSolution s = b.solve(a);
  CHECK_THAT(moved(s, b.n[1], z), WithinRel(D, exact));
  CHECK_THAT(std::abs(sagging(s, 0)), WithinRel(6 * b.EI * -D / (L * L), exact));
  CHECK_THAT(reaction(s, b.n[1], z), WithinRel(12 * b.EI * D / (L * L * L), exact));
}

TEST_CASE("a propped cantilever's prop carries 5 P / 16 and 3 w L / 8", "[truth]") {
  BeamOnSupports b(1);
  b.fix(b.n[0]);
  b.hold(b.n[1], {z});
  const StaticSolution centre = b.solve(point_load(b, 0.5, -P));
  truth("propped cantilever, load in the middle: reaction 5 P/16, N", roark,
        reaction(centre, b.n[1], z), within_rel(5 * P / 16, exact));
  truth("propped cantilever, load in the middle: moment 3 P L/16, N m", roark, sagging(centre, 0),
        within_rel(-3 * P * L / 16, exact));
  truth("propped cantilever, load in the middle: deflection there 7 P L3/768EI, m", roark,
        deflection(centre, 0, 0.5), within_rel(-7 * P * L * L * L / (768 * b.EI), exact));
  const StaticSolution line = b.solve(line_load(b, -w));
  truth("propped cantilever, line load: reaction 3 w L/8, N", roark, reaction(line, b.n[1], z),
        within_rel(3 * w * L / 8, exact));
  truth("propped cantilever, line load: moment w L2/8, N m", roark, sagging(line, 0),
        within_rel(-w * L * L / 8, exact));
  // greatest deflection 0.00541612 w L^4/EI at 0.4215 L from the prop
  truth("propped cantilever, line load: greatest deflection 0.00541612 w L4/EI, m", roark,
        deflection(line, 0, 1 - 0.4215354),
        within_rel(-0.00541612 * w * std::pow(L, 4) / b.EI, 1e-6));
}

TEST_CASE("two equal spans put 1.25 w L on the middle support", "[truth]") {
  BeamOnSupports b(2);
  b.hold(b.n[0], {x, y, z, rx});
  b.hold(b.n[1], {z});
  b.hold(b.n[2], {y, z});
  const StaticSolution s = b.solve(line_load(b, -w));
  truth("two equal spans, line load: middle reaction 1.25 w L, N", roark, reaction(s, b.n[1], z),
        within_rel(1.25 * w * L, exact));
  truth("two equal spans, line load: moment over the support w L2/8, N m", roark, sagging(s, 1),
        within_rel(-w * L * L / 8, exact));
}

// Numeric instance, N and mm: 25x25x2 of EN 10219-2, E = 210000, nu = 0.3, Cowper kappa = 0.43551.
TEST_CASE("a short cantilever tube adds its shear deflection", "[truth]") {
  ModelBuilder b;
  Section s = properties(173.699, 14834.9, 14834.9, 25256);
  s.Ay = s.Az = 0.43551 * s.A;
  const int tube = b.section(s, 210000, 80769.2);
  const int root = b.node(0, 0, 0), far = b.node(1000, 0, 0), near = b.node(0, 100, 0);
  b.beam(root, far, tube);
  b.beam(root, near, tube);
  b.fix(root);
  Actions a = b.actions();
  at(a, far, z) = at(a, near, z) = -100;
  at(a, far, rx) = 50000;
  const StaticSolution r = b.solve(a);
  truth("25 x 25 x 2, cantilever of 1 m, 100 N: deflection with shear, mm", instance,
        -moved(r, far, z), within_abs(10.71615, 5e-5));
  truth("25 x 25 x 2, cantilever of 0.1 m, 100 N: deflection with shear, mm", instance,
        -moved(r, near, z), within_abs(0.01233648, 5e-8));
  truth("25 x 25 x 2 of 1 m, 50 N m of torsion: twist, rad", instance, moved(r, far, rx),
        within_abs(0.0245109, 5e-7));
}

TEST_CASE("displacements between the ends agree with a finely divided beam") {
  const Section tube = hollow_rectangle(0.04, 0.02, 0.002, cold_formed_corners(0.002), 0.3);
  const auto solve = [&](int pieces) {
    ModelBuilder b;
    const auto n = b.chain({0, 0, 0}, {0.5, 0.2, 0.1}, pieces, b.section(tube, E, G));
    b.fix(n.front());
    b.hold(n.back(), {x, z});
    Actions a = b.actions();
    for (BeamActions& beam : a.beams) beam.line = {30, -70, 900};
    at(a, n.back(), y) = 200;
    at(a, n.back(), rx) = 12;
    return b.solve(a);
  };
  const StaticSolution one = solve(1), ten = solve(10);
  for (int i = 0; i <= 10; ++i) {
    const BeamDisplacement d = beam_displacement(one.beams[0], i / 10.0);
    const Eigen::VectorXd fine = ten.displacements.segment<6>(6 * i);
    CHECK((d.displacement - fine.head<3>()).norm() <= 1e-10 * ten.displacements.norm());
    CHECK((d.rotation - fine.tail<3>()).norm() <= 1e-10 * ten.displacements.norm());
  }
}

TEST_CASE("a point action inside a beam equals the same action on a node there") {
  const Section tube = hollow_rectangle(0.04, 0.02, 0.002, cold_formed_corners(0.002), 0.3);
  const Eigen::Vector3d force(100, -250, 400), moment(20, -35, 50), from(0, 0, 0),
      to(0.9, 0.3, 0.5);
  const double where = 0.35;
  ModelBuilder whole, split;
  int n0 = whole.node(0, 0, 0), n1 = whole.node(to.x(), to.y(), to.z());
  whole.beam(n0, n1, whole.section(tube, E, G), 0.4);
  whole.fix(n0);
  whole.fix(n1);
  Actions a = whole.actions();
  a.beams[0].points.push_back({where, force, moment});
  const StaticSolution r = whole.solve(a);

  const Eigen::Vector3d middle = where * to;
  n0 = split.node(0, 0, 0);
  n1 = split.node(to.x(), to.y(), to.z());
  const int m = split.node(middle.x(), middle.y(), middle.z());
  const int s = split.section(tube, E, G);
  split.beam(n0, m, s, 0.4);
  split.beam(m, n1, s, 0.4);
  split.fix(n0);
  split.fix(n1);
  Actions nodal = split.actions();
  nodal.nodal.segment<3>(6 * m) = force;
  nodal.nodal.segment<3>(6 * m + 3) = moment;
  const StaticSolution q = split.solve(nodal);

  CHECK((r.reactions - q.reactions.head<12>()).norm() <= 1e-10 * q.reactions.norm());
  const BeamDisplacement d = beam_displacement(r.beams[0], where);
  CHECK((d.displacement - q.displacements.segment<3>(6 * m)).norm() <=
        1e-10 * d.displacement.norm());
  CHECK((d.rotation - q.displacements.segment<3>(6 * m + 3)).norm() <= 1e-10 * d.rotation.norm());
  CHECK_THAT(section_forces(r.beams[0], where, true).My,
             WithinRel(section_forces(q.beams[0], 1).My, 1e-9));
  CHECK_THAT(section_forces(r.beams[0], where).Mz,
             WithinRel(section_forces(q.beams[1], 0).Mz, 1e-9));
}

}  // namespace tubewright::closed_form_beams_test
