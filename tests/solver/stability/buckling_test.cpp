#include "solver/stability/buckling.h"

#include <cmath>
#include <numbers>
#include <random>

#include "solver/stability/refine.h"
#include "tests/catch.h"
#include "tests/solver/model_builder.h"
#include "tests/truth.h"

namespace tubewright::buckling_test {

using namespace tubewright::test;

namespace {

constexpr Source gere =
    from_memory("Timoshenko & Gere, Theory of Elastic Stability (1961), ch. 2 (recomputed)");
constexpr Source cubic = rederived("exact cubic stress stiffness, independent script");
constexpr Source euler = rederived("Euler, pi2 E I/L2");
constexpr Source portals = rederived(
    "slope-deflection equations after Bleich, Buckling Strength of Metal Structures, ch. VI (from "
    "memory), roots recomputed");
constexpr Source square_frame =
    from_memory("Timoshenko & Gere: closed square frame, 16.47 (recomputed: 16.464)");

constexpr double pi = std::numbers::pi;

StaticSolution statics(const Model& model, const Actions& actions) {
  const StaticResult result = solve_statics(model, {actions});
  REQUIRE(result.has_value());
  return result->front();
}

Buckling buckled(const Model& model, const Actions& actions, int count = 1) {
  return linear_buckling(model, axial_forces(statics(model, actions)), count);
}

/// Axially stiff section with unit EI, in the x-y plane.
Section unit_section() { return properties(1e5, 1, 1, 1); }

/// A column of unit length along x under a unit load at its end.
double column(int elements, const std::vector<int>& foot, const std::vector<int>& head) {
  ModelBuilder b;
  const int id = b.section(unit_section(), 1, 1);
  std::vector<int> nodes;
  for (int i = 0; i <= elements; ++i)
    nodes.push_back(b.node(static_cast<double>(i) / elements, 0, 0));
  for (int i = 0; i < elements; ++i) b.beam(nodes[i], nodes[i + 1], id);
  Support plane;
  plane.restrained = {false, false, true, true, true, false};
  for (const int n : nodes) {
    plane.node = n;
    b.model.supports.push_back(plane);
  }
  Support s;
  s.node = nodes.front();
  for (const int d : foot) s.restrained[d] = true;
  b.model.supports.push_back(s);
  s = {};
  s.node = nodes.back();
  for (const int d : head) s.restrained[d] = true;
  b.model.supports.push_back(s);
  Actions a = no_actions(b.model);
  a.nodal[6 * nodes.back() + x] = -1;
  const Buckling result = buckled(b.model, a);
  REQUIRE_FALSE(result.modes.empty());
  CHECK(result.complete);
  return result.modes.front().factor;
}

/// Portal of unit columns and beam, a unit load down on each column, in the x-z plane.
double portal(bool fixed_feet, bool sway, double g, int pieces) {
  ModelBuilder b;
  const int column_section = b.section(unit_section(), 1, 1);
  const int beam_section = b.section(properties(1e5, g, g, 1), 1, 1);
  const int foot_l = b.node(0, 0, 0), foot_r = b.node(1, 0, 0);
  const int head_l = b.node(0, 0, 1), head_r = b.node(1, 0, 1);
  b.beam(foot_l, head_l, column_section);
  b.beam(foot_r, head_r, column_section);
  b.beam(head_l, head_r, beam_section);
  for (const int foot : {foot_l, foot_r}) {
    if (fixed_feet)
      b.hold(foot, {x, y, z, rx, ry, rz});
    else
      b.hold(foot, {x, y, z, rx, rz});
  }
  if (!sway) b.hold(head_l, {x});
  const RefinedModel fine = refine(b.model, pieces);
  Model model = fine.model;
  for (int n = 2; n < static_cast<int>(model.nodes.size()); ++n) {
    Support plane;
    plane.node = n;
    plane.restrained = {false, true, false, true, false, true};
    model.supports.push_back(plane);
  }
  Actions a = no_actions(b.model);
  a.nodal[6 * head_l + z] = a.nodal[6 * head_r + z] = -1;
  return buckled(model, refine_actions(fine, a)).modes.front().factor;
}

}  // namespace

TEST_CASE("columns of cubic elements buckle at the loads of the exact cubic stress stiffness",
          "[truth]") {
  // Timoshenko & Gere, Theory of Elastic Stability (1961), ch. 2 (from memory); values of 1, 2, 4,
  // 8 elements recomputed independently, in EI/L^2.
  struct Row {
    const char* ends;
    std::vector<int> foot, head;
    double exact;
    std::array<double, 4> elements;  // 1, 2, 4, 8; 0 where one element cannot buckle
  };
  const std::vector<Row> rows = {
      {"pinned-pinned", {x, y}, {y}, pi * pi, {12.0, 9.94385, 9.87466, 9.86993}},
      {"fixed-free", {x, y, rz}, {}, pi * pi / 4, {2.48596, 2.46866, 2.46748, 2.46741}},
      {"fixed-guided", {x, y, rz}, {rz}, pi * pi, {10.0, 9.94385, 9.87466, 9.86993}},
      {"fixed-pinned", {x, y, rz}, {y}, 20.19073, {30.0, 20.7088, 20.23221, 20.19347}},
      {"fixed-fixed", {x, y, rz}, {y, rz}, 4 * pi * pi, {0, 40.0, 39.77539, 39.49864}},
  };
  for (const Row& row : rows) {
    INFO(row.ends);
    for (int i = 0; i < 4; ++i) {
      if (row.elements[i] == 0) continue;
      truth(named(row.ends, " column, ", 1 << i, " elements: P L2/EI"), cubic,
            column(1 << i, row.foot, row.head), within_rel(row.elements[i], 5e-6));
    }
    truth(named(row.ends, " column: P L2/EI"), gere, column(16, row.foot, row.head),
          within_rel(row.exact, 1e-4));
  }
}

TEST_CASE("a pinned tube of 25 x 25 x 2 buckles at 30.7 kN a metre long", "[truth]") {
  // pi^2 E I / L^2 with I = 1.4835 cm4 (EN 10219-2 properties), E = 210 GPa: 30 747 N (derived).
  ModelBuilder b;
  const int id = b.section(properties(1.73699e-4, 1.483514e-8, 1.483514e-8, 2.5e-8), 210e9, 81e9);
  const int foot = b.node(0, 0, 0), head = b.node(0, 0, 1);
  b.beam(foot, head, id);
  b.hold(foot, {x, y, z, rz});
  b.hold(head, {x, y});
  const RefinedModel fine = refine(b.model, 8);
  Actions a = no_actions(b.model);
  a.nodal[6 * head + z] = -1000;
  const Buckling r = buckled(fine.model, refine_actions(fine, a), 2);
  truth("25 x 25 x 2 of 1 m between pins: critical load, N", euler, 1000 * r.modes.front().factor,
        within_rel(30747.1, 1e-3));
  REQUIRE(r.modes.size() >= 2);  // both directions
  CHECK_THAT(r.modes[1].factor, WithinRel(r.modes[0].factor, 1e-6));
}

TEST_CASE("a mast buckles under its own weight at 7.837 E I/L3", "[truth]") {
  // (q L)_cr = 7.837 E I/L^2 (A. G. Greenhill 1881; Timoshenko & Gere 1961, art. 2.12), of one beam
  // too, since the force along it counts as it grows.
  for (const int pieces : {1, 2, 8}) {
    ModelBuilder b;
    b.section(properties(1, 1, 1, 100), 1, 1);
    b.node(0, 0, 0);
    b.node(0, 0, 1);
    b.beam(0, 1, 0);
    b.fix(0);
    Actions a = no_actions(b.model);
    a.beams[0].line = {0, 0, -1};
    const StaticSolution coarse = statics(b.model, a);
    const RefinedModel fine = refine(b.model, pieces);
    const Buckling found = linear_buckling(fine.model, refine_axial_forces(fine, coarse), 1);
    truth("mast under its own weight, " + std::to_string(pieces) + " pieces: q L3/EI",
          from_memory("Timoshenko & Gere (1961), art. 2.12, after Greenhill (1881)"),
          found.modes.front().factor, within_rel(7.837, pieces == 1 ? 0.02 : 3e-3));
  }
}

TEST_CASE("portals buckle where the slope-deflection equations say", "[truth]") {
  // Bleich, Buckling Strength of Metal Structures, ch. VI, and Timoshenko & Gere (equations from
  // memory, roots recomputed), h = l, columns EI = 1, beam g.
  truth("portal, fixed feet, sway, g 1: P h2/EI", portals, portal(true, true, 1, 8),
        within_rel(7.37915, 1e-3));
  truth("portal, fixed feet, no sway, g 1: P h2/EI", portals, portal(true, false, 1, 8),
        within_rel(25.1822, 1e-3));
  truth("portal, pinned feet, sway, g 1: P h2/EI", portals, portal(false, true, 1, 8),
        within_rel(1.82129, 1e-3));
  truth("portal, pinned feet, no sway, g 1: P h2/EI", portals, portal(false, false, 1, 8),
        within_rel(12.8944, 1e-3));
  truth("portal, fixed feet, sway, g 0.5: P h2/EI", portals, portal(true, true, 0.5, 8),
        within_rel(6.0302, 1e-3));
  truth("portal, pinned feet, no sway, g 0.5: P h2/EI", portals, portal(false, false, 0.5, 8),
        within_rel(11.5986, 1e-3));
  truth("portal, fixed feet, no sway, g 2: P h2/EI", portals, portal(true, false, 2, 8),
        within_rel(28.4031, 1e-3));
  truth("portal, pinned feet, sway, g 2: P h2/EI", portals, portal(false, true, 2, 8),
        within_rel(2.1040, 1e-3));
}

TEST_CASE("a closed square frame squeezed along two sides buckles at 16.47 EI/l2", "[truth]") {
  // Timoshenko & Gere (from memory), no sway: 16.47; recomputed 16.464.
  ModelBuilder b;
  const int id = b.section(unit_section(), 1, 1);
  const int p = b.node(0, 0, 0), q = b.node(1, 0, 0), r = b.node(1, 1, 0), s = b.node(0, 1, 0);
  for (const auto& [from, to] : {std::pair{p, q}, {q, r}, {r, s}, {s, p}}) b.beam(from, to, id);
  const RefinedModel fine = refine(b.model, 8);
  Model model = fine.model;
  for (int n = 0; n < static_cast<int>(model.nodes.size()); ++n) {
    Support plane;
    plane.node = n;
    plane.restrained = {false, false, true, true, true, false};
    if (n == p) plane.restrained[x] = plane.restrained[y] = true;
    if (n == s) plane.restrained[x] = true;
    if (n == q) plane.restrained[y] = true;
    model.supports.push_back(plane);
  }
  Actions a = no_actions(b.model);
  a.nodal[6 * q + x] = a.nodal[6 * r + x] = -1;
  truth("closed square frame: P l2/EI", square_frame,
        buckled(model, refine_actions(fine, a)).modes.front().factor, within_rel(16.464, 1e-3));
}

TEST_CASE("a frame in tension does not buckle, and twice the load halves the factor") {
  ModelBuilder b;
  const int id = b.section(unit_section(), 1, 1);
  const int foot = b.node(0, 0, 0), head = b.node(0, 0, 1);
  b.beam(foot, head, id);
  b.hold(foot, {x, y, z, rx, ry, rz});
  const RefinedModel fine = refine(b.model, 4);
  const auto factor = [&](double pull) {
    Actions a = no_actions(b.model);
    a.nodal[6 * head + z] = pull;
    return buckled(fine.model, refine_actions(fine, a));
  };
  CHECK(factor(1).modes.empty());
  CHECK(factor(1).complete);
  CHECK_THAT(factor(-2).modes.front().factor, WithinRel(factor(-1).modes.front().factor / 2, 1e-9));
}

TEST_CASE("a frame without axial forces does not buckle, nor by those that are rounding") {
  // Enough DOFs for the iteration, which knows no zero of its own.
  ModelBuilder b;
  const int id = b.section(properties(1.73699e-4, 1.483514e-8, 1.483514e-8, 2.5e-8), 210e9, 81e9);
  const int foot = b.node(0, 0, 0), head = b.node(0, 0, 1);
  b.beam(foot, head, id);
  b.hold(foot, {x, y, z, rx, ry, rz});
  const RefinedModel fine = refine(b.model, 80);
  const auto found = [&](double N) {
    return linear_buckling(fine.model, {std::vector<double>(80, N), {}, {}, {}}, 4);
  };
  for (const double N : {0.0, 1e-14, -1e-14, -1e-29}) {
    CAPTURE(N);
    CHECK(found(N).modes.empty());
    CHECK(found(N).complete);
  }
  // A cantilever column, pi2 EI/(4 L2), under however small a force.
  for (const double N : {-1.0, -1e-3}) {
    CAPTURE(N);
    REQUIRE_FALSE(found(N).modes.empty());
    CHECK_THAT(found(N).modes.front().factor * -N, WithinRel(30747.1 / 4, 1e-3));
  }
}

TEST_CASE("cutting beams into pieces changes no displacement at the joints") {
  ModelBuilder b;
  const int id = b.section(properties(1e-4, 1e-8, 2e-8, 1.5e-8), 210e9, 81e9);
  const int p = b.node(0, 0, 0), q = b.node(0.7, 0.1, 0.2), r = b.node(1.1, -0.3, 0.9);
  b.beam(p, q, id, 0.3);
  b.beam(q, r, id);
  b.hold(p, {x, y, z, rx, ry, rz});
  b.hold(r, {y, z});
  Actions a = no_actions(b.model);
  a.nodal[6 * q + y] = 40;
  a.beams[0] = {{10, -20, 30}, {{0.6, {5, 6, 7}, {1, 2, 3}}}, {4, -5, 6}};
  a.beams[1].points.push_back({1.0, {9, 9, 9}, {0, 0, 1}});
  const RefinedModel fine = refine(b.model, 5);
  const StaticSolution coarse = statics(b.model, a),
                       cut = statics(fine.model, refine_actions(fine, a));
  CHECK((coarse.displacements - cut.displacements.head(18)).norm() <
        1e-9 * coarse.displacements.norm());
}

TEST_CASE("modes below a factor are counted without finding them") {
  // A cantilever of one element: 2.486 E I/L^2 is its first, the next 32.18 (cubic stress
  // stiffness).
  ModelBuilder b;
  const int id = b.section(unit_section(), 1, 1);
  b.node(0, 0, 0);
  b.node(1, 0, 0);
  b.beam(0, 1, id);
  b.fix(0);
  Actions a = no_actions(b.model);
  a.nodal[6 + x] = -1;
  const AxialForces forces = axial_forces(statics(b.model, a));
  CHECK(modes_below(b.model, forces, 2.4) == 0);
  CHECK(modes_below(b.model, forces, 2.6) == 2);  // along y and along z
  CHECK(modes_below(b.model, forces, 33) == 4);
}

TEST_CASE("cases called stable together have no mode below their factors, and one alone is told") {
  // A bent frame of three beams and a strut under random forces: what is compressed in one case is
  // pulled in another.
  std::mt19937 random(17);
  std::uniform_real_distribution<double> force(-1, 1);
  ModelBuilder b;
  const int id = b.section(unit_section(), 1, 1);
  b.node(0, 0, 0);
  b.node(0, 0, 1);
  b.node(1, 0.2, 1.1);
  b.node(1.1, 0, 0);
  for (const int n : {0, 1, 2}) b.beam(n, n + 1, id);
  b.bar(0, 2, 1e3);
  b.fix(0);
  b.pin(3);
  int called = 0, none = 0;
  for (int set = 0; set < 12; ++set) {
    std::vector<AxialForces> forces;
    std::vector<LoadedCase> cases;
    for (int i = 0; i < 9; ++i) {
      Actions a = no_actions(b.model);
      for (const int dof : {6, 7, 8, 12, 13, 14}) a.nodal[dof] = force(random);
      a.beams[0].line = {0, 0, force(random)};
      forces.push_back(axial_forces(statics(b.model, a)));
    }
    for (const AxialForces& f : forces) cases.push_back({&f, std::pow(10, 1.5 * force(random))});
    const std::vector<bool> stable = surely_stable(b.model, cases);
    for (size_t i = 0; i < cases.size(); ++i) {
      const bool stands = modes_below(b.model, forces[i], cases[i].factor) == 0;
      CHECK((stands || !stable[i]));
      CHECK(surely_stable(b.model, {&cases[i], 1}).front() == stands);
      called += stable[i];
      none += stands;
    }
  }
  CHECK(called > 0);
  CHECK(none > called);  // or the screen would have nothing to be careful about
  CHECK(none < 12 * 9);
  CHECK(surely_stable(b.model, {}).empty());
}

TEST_CASE("what a mode bends takes its strain energy, what only leans takes none") {
  // A fixed column beside a pinned one, heads joined by a pin-ended bar: the fixed one holds both.
  ModelBuilder b;
  const int id = b.section(unit_section(), 1, 1);
  b.node(0, 0, 0);
  b.node(1, 0, 0);
  b.node(0, 0, 1);
  b.node(1, 0, 1);
  b.beam(0, 2, id);
  b.beam(1, 3, id);
  b.bar(2, 3, 1e5);
  b.fix(0);
  b.hold(1, {x, y, z, rx, rz});
  b.hold(2, {y, rx, rz});
  b.hold(3, {y, rx, rz});
  Actions a = no_actions(b.model);
  a.nodal[6 * 2 + z] = a.nodal[6 * 3 + z] = -1;
  const StaticSolution s = statics(b.model, a);
  const Buckling buckling = linear_buckling(b.model, axial_forces(s), 1);
  REQUIRE(buckling.modes.size() == 1);
  const auto shares = bending_shares(b.model, s.slack, buckling.modes[0].shape);
  CHECK_THAT(shares[0].about_y + shares[0].about_z, WithinRel(1.0, 1e-3));
  CHECK_THAT(shares[1].about_y + shares[1].about_z, WithinAbs(0.0, 1e-6));
}

TEST_CASE("a row of sheets takes no mode out of the count nor puts one in") {
  ModelBuilder b;
  const int id = b.section(unit_section(), 1, 1);
  constexpr int bays = 4;
  for (int i = 0; i <= bays; ++i) {
    b.node(i, 0, 0);
    b.node(i, 1.3, 0);
  }
  std::vector<int> cross;
  for (int i = 0; i <= bays; ++i) cross.push_back(b.beam(2 * i, 2 * i + 1, id));
  for (int i = 0; i < bays; ++i) {
    const int near = b.beam(2 * i, 2 * i + 2, id), far = b.beam(2 * i + 1, 2 * i + 3, id);
    Panel panel;
    panel.corners = {2 * i, 2 * i + 2, 2 * i + 3, 2 * i + 1};
    panel.thickness = 0.1;
    panel.G = 1;
    panel.edges = {{{{true, near}},
                    {{true, cross[static_cast<size_t>(i) + 1]}},
                    {{true, far}},
                    {{true, cross[static_cast<size_t>(i)]}}}};
    b.model.panels.push_back(panel);
  }
  b.fix(0);
  b.fix(1);
  Actions a = no_actions(b.model);
  a.nodal[6 * (2 * bays) + x] = -1;
  a.nodal[6 * (2 * bays + 1) + x] = -0.7;
  const AxialForces forces = axial_forces(statics(b.model, a));
  const Buckling found = linear_buckling(b.model, forces, 8);
  CHECK(found.complete);
  REQUIRE(found.modes.size() >= 8);
  for (size_t k = 0; k + 1 < found.modes.size(); ++k) {
    const double here = found.modes[k].factor, next = found.modes[k + 1].factor;
    if (next < here * (1 + 1e-6)) continue;
    CHECK(modes_below(b.model, forces, (here + next) / 2) == static_cast<int>(k) + 1);
  }
  const Buckling likely = likely_buckling(b.model, forces, 4);
  CHECK_THAT(likely.modes[0].factor, WithinRel(found.modes[0].factor, 1e-4));
}

}  // namespace tubewright::buckling_test
