// Large displacements against the classical problems, and the laws that hold for any frame.
#include "solver/stability/large_displacement.h"

#include <Eigen/Geometry>
#include <cmath>
#include <random>

#include "solver/elements/rotations.h"
#include "solver/model/section_shapes.h"
#include "solver/stability/deformed_frame.h"
#include "tests/solver/model_builder.h"
#include "tests/truth.h"

namespace tubewright::large_displacement_test {

using namespace tubewright::test;

namespace {

constexpr Source mattiasson =
    from_memory("K. Mattiasson, IJNME 17 (1981) 145-153 (recomputed with elliptic integrals)");
constexpr Source circle =
    rederived("a straight cantilever under an end moment is an arc of a circle");
constexpr Source elastica = rederived(
    "elastica of a strut, after Timoshenko & Gere 2.7, recomputed with elliptic integrals");
constexpr Source lee_mesh =
    rederived("Lee's frame with plane corotational elements, independent script");
constexpr Source lee_rod = rederived("Lee's frame as an exact rod, by shooting");
constexpr Source lee =
    from_memory("S. L. Lee, F. S. Manuel, E. C. Rossow, J. Eng. Mech. Div. ASCE 94 (1968) 527-547");
constexpr Source toggle = rederived(
    "F. W. Williams' toggle, Q. J. Mech. Appl. Math. 17 (1964) 451-469, with plane corotational "
    "elements, independent script");
constexpr Source bend = rederived(
    "bend of K. J. Bathe & S. Bolourchi, IJNME 14 (1979) 961-986, as a geometrically exact rod, by "
    "shooting");

double moved(const LargeDisplacementSolution& s, int node, int direction) {
  return s.displacements[dofs_per_node * node + direction];
}

double reaction(const LargeDisplacementSolution& s, int node, int direction) {
  return s.reactions[dofs_per_node * node + direction];
}

/// A cantilever along x in the x-y plane with EI = 1, L = 1, stretching 1e-6 as much as it bends.
struct Cantilever : ModelBuilder {
  int tip = 0;

  explicit Cantilever(int pieces) {
    const int s = section(properties(1e6, 1, 1, 1), 1, 1);
    tip = chain({0, 0, 0}, {1, 0, 0}, pieces, s).back();
    fix(0);
    keep_plane_xy();
  }

  LargeDisplacementSolution load(int direction, double value) const {
    Actions a = actions();
    at(a, tip, direction) = value;
    return solve_large_displacement(model, a);
  }
};

}  // namespace

TEST_CASE("a cantilever under a dead transverse load bends as the elastica does", "[truth]") {
  // K. Mattiasson, IJNME 17 (1981) 145-153: P L^2/EI; shortening, deflection, slope of the tip.
  const std::vector<std::array<double, 4>> table = {
      {0.2, 0.00265, 0.06636, 0.09964}, {0.4, 0.01035, 0.13098, 0.19715},
      {0.6, 0.02249, 0.19235, 0.29074}, {0.8, 0.03817, 0.24945, 0.37906},
      {1, 0.05643, 0.30172, 0.46135},   {2, 0.16064, 0.49346, 0.78175},
      {3, 0.25442, 0.60325, 0.98602},   {4, 0.32894, 0.66996, 1.12124},
      {5, 0.38763, 0.71379, 1.21537},   {6, 0.43459, 0.74457, 1.28370},
      {7, 0.47293, 0.76737, 1.33496},   {8, 0.50483, 0.78498, 1.37443},
      {9, 0.53182, 0.79906, 1.40547},   {10, 0.55500, 0.81061, 1.43029}};
  const Cantilever f(40);
  for (const auto& [P, shortening, deflection, slope] : table) {
    INFO("P L^2/EI = " << P);
    const LargeDisplacementSolution s = f.load(y, P);
    REQUIRE(s.converged);
    CHECK(s.path.back().stable);
    truth(named("cantilever, P L2/EI = ", P, ": shortening/L"), mattiasson, -moved(s, f.tip, x),
          within_abs(shortening, 1e-4));
    truth(named("cantilever, P L2/EI = ", P, ": deflection/L"), mattiasson, moved(s, f.tip, y),
          within_abs(deflection, 1e-4));
    truth(named("cantilever, P L2/EI = ", P, ": slope, rad"), mattiasson, moved(s, f.tip, rz),
          within_abs(slope, 1e-4));
    CHECK_THAT(reaction(s, 0, y), WithinRel(-P, 1e-7));
    CHECK_THAT(reaction(s, 0, rz), WithinRel(-P * (1 + moved(s, f.tip, x)), 1e-6));
  }
}

TEST_CASE("an end moment rolls a cantilever up to a circle, and round again", "[truth]") {
  // Exact: u = L (sin t/t - 1), w = L (1 - cos t)/t, t = M L/EI.
  const double turns = GENERATE(0.25, 0.5, 1.0, 1.5, 2.0);
  const Cantilever f(20);
  const double t = turns * 2 * M_PI;
  const LargeDisplacementSolution s = f.load(rz, t);
  REQUIRE(s.converged);
  CHECK_THAT(moved(s, f.tip, rz), WithinRel(t, 1e-7));
  truth(named("roll-up, ", turns, " turns: x of the tip/L"), circle, moved(s, f.tip, x),
        within_abs(std::sin(t) / t - 1, 2e-3));
  truth(named("roll-up, ", turns, " turns: y of the tip/L"), circle, moved(s, f.tip, y),
        within_abs((1 - std::cos(t)) / t, 5e-3));
}

TEST_CASE("a strut past its Euler load stands as the elastica does", "[truth]") {
  // S. P. Timoshenko & J. M. Gere, Theory of Elastic Stability, 2.7 (recomputed with K(sin(a/2))):
  // tip slope in degrees; P/Pcr, x/L, y/L.
  const std::vector<std::array<double, 4>> table = {
      {20, 1.0154, 0.9697, 0.2194},   {40, 1.0637, 0.8812, 0.4222},  {60, 1.1517, 0.7410, 0.5932},
      {80, 1.2939, 0.5594, 0.7195},   {100, 1.5184, 0.3490, 0.7915}, {120, 1.8848, 0.1232, 0.8032},
      {140, 2.5423, -0.1069, 0.7504}, {160, 4.0301, -0.3403, 0.6246}};
  Cantilever f(40);
  f.hold(f.tip, {rz});  // the slope is prescribed; at the right load it needs no moment
  for (const auto& [degrees, load, along, across] : table) {
    INFO(degrees << " degrees");
    const double slope = degrees * M_PI / 180;
    const auto solve = [&](double P) {
      Actions a = f.actions();
      a.prescribed[6 * f.tip + rz] = slope;
      at(a, f.tip, x) = -P * M_PI * M_PI / 4;
      return solve_large_displacement(f.model, a);
    };
    double P0 = load, P1 = 1.001 * load;
    LargeDisplacementSolution s = solve(P0), t = solve(P1);
    for (int i = 0; i < 4 && std::abs(reaction(t, f.tip, rz)) > 1e-9; ++i) {
      const double M0 = reaction(s, f.tip, rz), M1 = reaction(t, f.tip, rz);
      const double P = P1 - M1 * (P1 - P0) / (M1 - M0);
      P0 = P1;
      P1 = P;
      s = t;
      t = solve(P1);
      REQUIRE(t.converged);
    }
    truth(named("strut at ", degrees, " degrees: P/P_cr"), elastica, P1, within_rel(load, 2e-3));
    truth(named("strut at ", degrees, " degrees: x/L"), elastica, 1 + moved(t, f.tip, x),
          within_abs(along, 1e-3));
    truth(named("strut at ", degrees, " degrees: y/L"), elastica, moved(t, f.tip, y),
          within_abs(across, 1e-3));
  }
}

namespace {

/// Lee's frame: column and beam of 120, pinned at the outer ends, load on the beam at 24.
struct LeeFrame : ModelBuilder {
  int loaded = 0;

  explicit LeeFrame(int pieces) {
    const int s = section(properties(6, 2, 2, 2), 720, 300);
    const std::vector<int> column = chain({0, 0, 0}, {0, 120, 0}, pieces, s);
    int last = column.back();
    for (int i = 1; i <= pieces; ++i) {
      const int next = node(120.0 * i / pieces, 120, 0);
      beam(last, next, s);
      last = next;
      if (5 * i == pieces) loaded = next;
    }
    pin(column.front());
    pin(last);
    keep_plane_xy();
  }
};

}  // namespace

TEST_CASE("Lee's frame snaps through and back along its known path", "[truth]") {
  // S. L. Lee, F. S. Manuel, E. C. Rossow, J. Eng. Mech. Div. ASCE 94 (1968) 527-547: limit load
  // 1.8552. Recomputed with plane elements of the same kind, 10, 20, 40 a leg: 1.8659, 1.8582,
  // 1.8563; least load -0.9618, -0.9463, -0.9425 at v = 58.51. The least
  // load was read off a path of finite steps, so it lies a little above the true one.
  const auto [pieces, top, bottom] =
      GENERATE(std::tuple{10, 1.8659, -0.9618}, std::tuple{20, 1.8582, -0.9463},
               std::tuple{40, 1.8563, -0.9425});
  INFO(pieces << " elements a leg");
  const LeeFrame f(pieces);
  Actions a = f.actions();
  at(a, f.loaded, y) = -1;
  LargeDisplacementOptions o;
  o.first_step = 0.1;
  o.path_load_factor = 3;
  o.end = PathEnd{f.loaded, y, -90};
  const LargeDisplacementSolution s = trace_path(f.model, a, o);
  REQUIRE(s.converged);
  REQUIRE(s.limit_points.size() == 2);
  const EquilibriumPoint &high = s.path[s.limit_points[0]], &low = s.path[s.limit_points[1]];
  truth(named("Lee's frame, ", pieces, " elements a leg: limit load"), lee_mesh,
        *s.limit_load_factor, within_abs(top, 1.5e-4));
  truth(named("Lee's frame, ", pieces, " elements a leg: least load"), lee_mesh, low.load_factor,
        within_abs(bottom, 3e-4));
  // The exact rod, by shooting: 1.85567 at v = 48.75, u = 26.90.
  truth(named("Lee's frame, ", pieces, " elements a leg: v at the limit"), lee_rod,
        -high.displacements[6 * f.loaded + y], within_rel(48.75, 0.005));
  truth(named("Lee's frame, ", pieces, " elements a leg: u at the limit"), lee_rod,
        high.displacements[6 * f.loaded + x], within_rel(26.90, 0.005));
  truth(named("Lee's frame, ", pieces, " elements a leg: v at the least load"), lee_mesh,
        -low.displacements[6 * f.loaded + y], within_rel(58.51, 0.005));
  for (size_t i = 1; i < s.path.size(); ++i) {  // stable up to the first, again after the second
    if (i < s.limit_points[0] || i > s.limit_points[1] + 1) CHECK(s.path[i].stable);
    if (i > s.limit_points[0] && i < s.limit_points[1]) CHECK_FALSE(s.path[i].stable);
  }
}

TEST_CASE("Lee's frame has its published limit load on a fine mesh, and no step passes it",
          "[truth]") {
  // 1.8552 published; the exact rod, by shooting, 1.85567.
  const LeeFrame f(40);
  Actions a = f.actions();
  at(a, f.loaded, y) = -2;
  LargeDisplacementOptions o;
  o.least_step = 1e-5;
  const LargeDisplacementSolution s = solve_large_displacement(f.model, a, o);
  CHECK_FALSE(s.converged);
  CHECK(s.stop == PathStop::snaps_through);
  CHECK_THAT(s.reason, ContainsSubstring("reaches its greatest load"));
  REQUIRE(s.limit_load_factor);
  truth("Lee's frame, 40 elements a leg: limit load by load steps", lee_rod,
        2 * *s.limit_load_factor, within_rel(1.85567, 0.0005));
  truth("Lee's frame, 40 elements a leg: limit load by load steps", lee, 2 * *s.limit_load_factor,
        within_rel(1.8552, 0.005));
}

namespace {

/// Williams' toggle: two clamped legs, half span 12.943 in, rise 0.386 in; inches and pounds.
struct Toggle : ModelBuilder {
  int apex = 0;

  explicit Toggle(int pieces) {
    const double b = 0.753, t = 0.243;
    const int s = section(properties(b * t, 1, b * t * t * t / 12, 1), 10.3e6, 4e6);
    apex = chain({0, 0, 0}, {12.943, 0.386, 0}, pieces, s).back();
    int last = apex;
    for (int i = 1; i <= pieces; ++i) {
      const double at = 1.0 * i / pieces;
      const int next = node(12.943 * (1 + at), 0.386 * (1 - at), 0);
      beam(last, next, s);
      last = next;
    }
    fix(0);
    fix(last);
    keep_plane_xy();
  }
};

}  // namespace

TEST_CASE("Williams' toggle pushed down by its apex has the loads and thrusts known", "[truth]") {
  // F. W. Williams, Q. J. Mech. Appl. Math. 17 (1964) 451-469; recomputed with plane elements of
  // the same kind, 20 a leg: apex deflection in; load and thrust lb.
  const std::vector<std::array<double, 3>> table = {
      {0.1, 25.22, 365}, {0.2, 33.56, 590}, {0.3, 32.93, 674}, {0.4, 31.36, 624},
      {0.5, 36.07, 450}, {0.6, 53.11, 163}, {0.7, 87.70, -229}};
  Toggle f(20);
  f.hold(f.apex, {y});
  for (const auto& [deflection, load, thrust] : table) {
    INFO(deflection << " in");
    Actions a = f.actions();
    a.prescribed[6 * f.apex + y] = -deflection;
    const LargeDisplacementSolution s = solve_large_displacement(f.model, a);
    REQUIRE(s.converged);
    truth(named("toggle pushed by ", deflection, " in: load, lb"), toggle, -reaction(s, f.apex, y),
          within_abs(load, 0.006));
    truth(named("toggle pushed by ", deflection, " in: thrust, lb"), toggle, reaction(s, 0, x),
          within_abs(thrust, 0.6));
  }
}

TEST_CASE("Williams' toggle snaps at its known load and stiffens again", "[truth]") {
  // As above: greatest load 33.94 at 0.233, least 31.35 at 0.392; 4 and 10 elements 35.65, 34.15.
  const auto [pieces, top] =
      GENERATE(std::pair{4, 35.65}, std::pair{10, 34.15}, std::pair{20, 33.94});
  const Toggle f(pieces);
  Actions a = f.actions();
  at(a, f.apex, y) = -80;
  LargeDisplacementOptions o;
  o.first_step = 0.05;
  const LargeDisplacementSolution s = trace_path(f.model, a, o);
  REQUIRE(s.converged);
  CHECK(s.path.back().load_factor == 1);
  REQUIRE(s.limit_points.size() == 2);
  truth(named("toggle, ", pieces, " elements a leg: limit load, lb"), toggle,
        80 * *s.limit_load_factor, within_abs(top, 0.006));
  if (pieces < 20) return;
  const EquilibriumPoint &high = s.path[s.limit_points[0]], &low = s.path[s.limit_points[1]];
  truth("toggle: deflection at the limit, in", toggle, -high.displacements[6 * f.apex + y],
        within_abs(0.233, 0.0015));
  truth("toggle: least load, lb", toggle, 80 * low.load_factor, within_abs(31.35, 0.006));
  truth("toggle: deflection at the least load, in", toggle, -low.displacements[6 * f.apex + y],
        within_abs(0.392, 0.0015));
}

TEST_CASE("a 45 degree bend loaded square to its plane goes where the exact rod goes", "[truth]") {
  // K. J. Bathe, S. Bolourchi, IJNME 14 (1979) 961-986; J. C. Simo, L. Vu-Quoc, CMAME 58 (1986);
  // recomputed with the geometrically exact rod, shear included, for both torsion constants.
  struct Row {
    double P, It, x, y, z;
  };
  constexpr double polar = 1.0 / 6, saint_venant = 0.140577;
  static const std::array<Row, 6> rows = {{{300, polar, 22.245, 58.779, 40.192},
                                           {450, polar, 18.508, 52.239, 48.503},
                                           {600, polar, 15.685, 47.150, 53.475},
                                           {300, saint_venant, 22.113, 58.536, 40.480},
                                           {450, saint_venant, 18.369, 51.970, 48.705},
                                           {600, saint_venant, 15.558, 46.892, 53.607}}};
  const Row& row = rows[GENERATE(range(0, 6))];
  const std::string bent =
      named("45 degree bend, P = ", row.P, ", ", row.It == polar ? "polar" : "St Venant's", " J");
  ModelBuilder f;
  Section square = properties(1, 1.0 / 12, 1.0 / 12, row.It);
  square.Ay = square.Az = 1;
  const int s = f.section(square, 1e7, 5e6), pieces = 32;
  for (int i = 0; i <= pieces; ++i) {
    const double angle = M_PI / 4 * i / pieces;
    f.node(100 * (1 - std::cos(angle)), 100 * std::sin(angle), 0);
    if (i > 0) f.beam(i - 1, i, s);
  }
  f.fix(0);
  Actions a = f.actions();
  at(a, pieces, z) = row.P;
  const LargeDisplacementSolution r = solve_large_displacement(f.model, a);
  REQUIRE(r.converged);
  const Eigen::Vector3d tip = f.model.nodes[pieces] + r.displacements.segment<3>(6 * pieces);
  truth(named(bent, ": x of the tip"), bend, tip.x(), within_rel(row.x, 0.005));
  truth(named(bent, ": y of the tip"), bend, tip.y(), within_rel(row.y, 0.005));
  truth(named(bent, ": z of the tip"), bend, tip.z(), within_rel(row.z, 0.005));
}

namespace {

constexpr double E = 210e9, G = 81e9;
const Section tube = hollow_rectangle(0.03, 0.02, 0.002, cold_formed_corners(0.002), 0.3);

/// A small space frame with everything in it: tubes askew, hinges, a ball, a spring-joined end,
/// links, a rigid arm, partly held rotations. `turn` turns all of it, loads too.
struct Mixed : ModelBuilder {
  Eigen::Matrix3d turn;
  int arm = 0, held = 0;

  explicit Mixed(const Eigen::Matrix3d& turned = Eigen::Matrix3d::Identity(), bool partly = false)
      : turn(turned) {
    const int s = section(tube, E, G);
    const std::vector<Eigen::Vector3d> places = {
        {0, 0, 0},     {1, 0, 0.1}, {1, 1, 0},   {0, 1, 0.05},    {0.1, 0, 1},
        {1, 0.1, 1.1}, {1.1, 1, 1}, {0, 0.9, 1}, {0.5, 0.5, 1.4}, {0.7, 0.6, 1.6}};
    for (const Eigen::Vector3d& p : places) {
      const Eigen::Vector3d q = turn * p;
      node(q.x(), q.y(), q.z());
    }
    for (int i = 0; i < 4; ++i) {
      tube_between(i, i + 4, s, 0.1 * i);
      tube_between(4 + i, 4 + (i + 1) % 4, s, 0.2);
      tube_between(4 + i, 8, s, 0);
    }
    model.beams[0].connection_to[4] = 0;                              // a hinge
    model.beams[2].connection_from = {rigid, rigid, rigid, 0, 0, 0};  // a ball
    model.beams[4].connection_to = {rigid, rigid, rigid, rigid, 800, 500};
    model.beams[5].connection_from[5] = 0;
    for (const auto& [a, b] : {std::pair{0, 5}, {1, 6}, {2, 7}}) bar(a, b, 4e6);
    model.bodies.push_back({{8, 9}});
    bar(9, 6, 5e6);
    arm = 9;
    for (int i = 0; i < 4; ++i) {
      if (partly && i == 3) {
        hold(3, {x, y, z, rx});
      } else if (partly && i == 2) {
        hold(2, {x, y, z, ry, rz});
      } else {
        fix(i);
      }
    }
    held = 2;
  }

  /// Local z lies as it does in the unturned frame.
  void tube_between(int from, int to, int s, double roll) {
    const Eigen::Vector3d a = model.nodes[from], b = model.nodes[to];
    const Eigen::Matrix3d wanted =
        member_axes(turn.transpose() * a, turn.transpose() * b, roll) * turn.transpose();
    const Eigen::Matrix3d plain = member_axes(a, b, 0);
    beam(from, to, s, std::atan2(wanted.row(1).dot(plain.row(2)), wanted.row(1).dot(plain.row(1))));
  }

  Actions loads(double size) const {
    Actions a = actions();
    const auto put = [&](int n, const Eigen::Vector3d& F) {
      a.nodal.segment<3>(6 * n) += turn * F;
    };
    put(arm, size * Eigen::Vector3d(300, 200, -500));
    put(5, size * Eigen::Vector3d(-100, 400, -300));
    put(7, size * Eigen::Vector3d(200, 100, 100));
    a.beams[1].line = turn * (size * Eigen::Vector3d(0, 0, -150));
    a.beams[7].points.push_back({0.3, turn * (size * Eigen::Vector3d(50, 20, -80)), {0, 0, 0}});
    return a;
  }
};

Residual outer_balance(const Model& model, const Eigen::VectorXd& loads,
                       const LargeDisplacementSolution& s) {
  Eigen::Vector3d force = Eigen::Vector3d::Zero(), moment = force;
  for (size_t n = 0; n < model.nodes.size(); ++n) {
    const Vector6 f = s.load_factor * loads.segment<6>(6 * n) + s.reactions.segment<6>(6 * n);
    force += f.head<3>();
    moment += f.tail<3>() + (model.nodes[n] + s.displacements.segment<3>(6 * n)).cross(f.head<3>());
  }
  return {force.norm(), moment.norm()};
}

}  // namespace

TEST_CASE("a frame's tangent and rate are the derivatives of its out-of-balance") {
  const bool partly = GENERATE(false, true);
  const Mixed f(Eigen::Matrix3d::Identity(), partly);
  Actions a = f.loads(3);
  at(a, f.arm, ry) = 40;
  at(a, 5, rx) = -30;
  a.prescribed[6 * 2 + z] = 0.05;
  a.prescribed[6 * 2 + ry] = 0.3;
  const DeformableFrame frame = *deformable_frame(f.model, a);
  Configuration p = reference_configuration(frame);
  std::mt19937 random(4);
  std::uniform_real_distribution<double> any(-0.15, 0.15);
  const auto n = static_cast<Eigen::Index>(frame.free.unknown.size());
  const double factor = 0.7, h = 1e-6;
  for (int i = 0; i < 3; ++i) {  // far and strained
    update_configuration(frame, Eigen::VectorXd::NullaryExpr(n, [&] { return any(random); }),
                         factor, p);
  }
  const InternalForces r = internal_forces(frame, p, factor, true);
  REQUIRE(r.valid);
  const double scale = Eigen::MatrixXd(r.tangent).lpNorm<Eigen::Infinity>();
  const auto difference = [&](const Eigen::VectorXd& step, double change) {
    Configuration up = p, down = p;
    update_configuration(frame, step, factor + change, up);
    update_configuration(frame, -step, factor - change, down);
    return Eigen::VectorXd((internal_forces(frame, up, factor + change, false).out_of_balance -
                            internal_forces(frame, down, factor - change, false).out_of_balance) /
                           (2 * h));
  };
  for (Eigen::Index i = 0; i < n; ++i) {
    INFO("unknown " << frame.free.unknown[i]);
    const Eigen::VectorXd column = difference(h * Eigen::VectorXd::Unit(n, i), 0);
    CHECK((column - Eigen::VectorXd(r.tangent.col(i))).lpNorm<Eigen::Infinity>() < 1e-8 * scale);
  }
  const Eigen::VectorXd by_load = difference(Eigen::VectorXd::Zero(n), h);
  CHECK((by_load + r.rate).lpNorm<Eigen::Infinity>() < 1e-8 * scale);
}

TEST_CASE("small loads give the linear solution, with hinges, links, bodies and set supports") {
  const bool partly = GENERATE(false, true);
  const Mixed f(Eigen::Matrix3d::Identity(), partly);
  const double size = 1e-5;
  Actions a = f.loads(size);
  at(a, 5, rx) = 20 * size;
  a.prescribed[6 * f.held + z] = 1e-3 * size;
  a.prescribed[6 * f.held + ry] = 2e-3 * size;
  const StaticSolution linear = f.solve(a);
  const LargeDisplacementSolution s = solve_large_displacement(f.model, a);
  REQUIRE(s.converged);
  CHECK(s.path.back().stable);
  CHECK((s.displacements - linear.displacements).norm() < 1e-6 * linear.displacements.norm());
  CHECK((s.reactions - linear.reactions).norm() < 1e-5 * linear.reactions.norm());
  for (size_t i = 0; i < s.beams.size(); ++i) {
    const Vector12 &p = s.beams[i].end_forces, &q = linear.beams[i].end_forces;
    CHECK((p - q).norm() < 1e-5 * linear.reactions.norm());
    CHECK((s.beams[i].element.axes - linear.beams[i].element.axes).norm() < 1e-5);
  }
  for (size_t i = 0; i < s.bar_forces.size(); ++i) {
    CHECK_THAT(s.bar_forces[i], WithinAbs(linear.bar_forces[i], 1e-5 * linear.reactions.norm()));
  }
}

TEST_CASE("turning a whole frame with its loads by a large angle turns its answer") {
  const Eigen::Matrix3d turn = rotation_matrix({1.1, -2.0, 0.7});
  const Mixed f, g(turn);
  const double size = 100;
  const LargeDisplacementSolution s = solve_large_displacement(f.model, f.loads(size));
  const LargeDisplacementSolution t = solve_large_displacement(g.model, g.loads(size));
  REQUIRE(s.converged);
  REQUIRE(t.converged);
  CHECK(s.displacements.segment<3>(6 * f.arm).norm() > 0.05);
  for (size_t n = 0; n < f.model.nodes.size(); ++n) {
    for (const Eigen::Index part : {0, 3}) {
      const auto i = static_cast<Eigen::Index>(6 * n) + part;
      CHECK((turn * s.displacements.segment<3>(i) - t.displacements.segment<3>(i)).norm() < 1e-8);
    }
  }
  for (size_t i = 0; i < s.beams.size(); ++i) {
    const Vector12 &p = s.beams[i].end_forces, &q = t.beams[i].end_forces;
    CHECK((p - q).norm() < 1e-5 * s.reactions.norm());
  }
  CHECK_THAT(t.strain_energy, WithinRel(s.strain_energy, 1e-7));
}

TEST_CASE("supports that turn a frame by a large angle turn it without strain") {
  // All four feet go round a common axis; nothing else acts.
  ModelBuilder f;
  const int s = f.section(tube, E, G);
  f.chain({0, 0, 0}, {1, 0, 0.5}, 3, s);
  f.model.beams[1].connection_to[4] = 300;
  f.fix(0);
  Actions a = f.actions();
  const Eigen::Vector3d v(0.8, -1.9, 1.5);
  a.prescribed.segment<3>(3) = v;
  const LargeDisplacementSolution r = solve_large_displacement(f.model, a);
  REQUIRE(r.converged);
  for (int n = 0; n < 4; ++n) {
    const Eigen::Vector3d place = f.model.nodes[n];
    CHECK((place + r.displacements.segment<3>(6 * n) - rotation_matrix(v) * place).norm() < 1e-9);
  }
  CHECK(r.strain_energy < 1e-12);
  CHECK(r.reactions.norm() < 1e-4);
}

TEST_CASE("reactions balance the loads on the deformed frame") {
  const bool partly = GENERATE(false, true);
  const Mixed f(Eigen::Matrix3d::Identity(), partly);
  Actions a = f.loads(35);  // at 39 a member buckles between its joints
  at(a, f.arm, ry) = 200;
  at(a, 6, rz) = -150;
  a.prescribed[6 * f.held + y] = 0.02;
  const LargeDisplacementSolution s = solve_large_displacement(f.model, a);
  REQUIRE(s.converged);
  CHECK(s.residual.force < 1e-8);
  CHECK(s.residual.moment < 1e-8);
  const Residual left = outer_balance(f.model, joint_loads(f.model, a), s);
  CHECK(left.force < 1e-4);   // N, of 6 kN
  CHECK(left.moment < 1e-4);  // N m
  CHECK(s.displacements.lpNorm<Eigen::Infinity>() > 0.05);
}

TEST_CASE("the work of dead forces along the path is the strain energy at its end") {
  const Mixed f;
  const Actions a = f.loads(40);
  Actions forces = a;  // equivalent moments of loads along members have no potential
  for (BeamActions& b : forces.beams) b = {};
  LargeDisplacementOptions o;
  o.first_step = o.greatest_step = 0.01;
  const LargeDisplacementSolution s = solve_large_displacement(f.model, forces, o);
  REQUIRE(s.converged);
  double work = 0;
  for (size_t i = 1; i < s.path.size(); ++i) {
    const EquilibriumPoint &p = s.path[i - 1], &q = s.path[i];
    work +=
        (p.load_factor + q.load_factor) / 2 * forces.nodal.dot(q.displacements - p.displacements);
  }
  CHECK_THAT(s.strain_energy, WithinRel(work, 1e-5));
}

TEST_CASE("Newton's steps converge quadratically, dead moments and a rigid arm included") {
  const Mixed f;
  Actions a = f.loads(40);
  at(a, f.arm, ry) = 200;
  at(a, 6, rz) = -150;
  LargeDisplacementOptions o;
  o.first_step = o.greatest_step = 0.5;
  const LargeDisplacementSolution s = solve_large_displacement(f.model, a, o);
  REQUIRE(s.converged);
  CHECK(s.path.size() == 3);
  CHECK(s.iterations <= 14);
}

TEST_CASE("two links snap through at the load of the flat truss") {
  // Exact: P = 2 k (L - l) h/l at rise h, l = sqrt(a^2 + h^2); greatest where (a^2 L)^(1/3) = l.
  const double half = 1, rise = 0.3, k = 1e6, L = std::hypot(half, rise);
  ModelBuilder f;
  f.node(-half, 0, 0);
  f.node(0, 0, rise);
  f.node(half, 0, 0);
  f.bar(0, 1, k * L);
  f.bar(1, 2, k * L);
  f.pin(0);
  f.pin(2);
  f.hold(1, {x, y});
  Actions a = f.actions();
  const double P = 1e4;
  at(a, 1, z) = -P;
  LargeDisplacementOptions o;
  o.path_load_factor = 4;
  o.first_step = 0.2;
  const LargeDisplacementSolution s = trace_path(f.model, a, o);
  REQUIRE(s.converged);
  const double l = std::cbrt(half * half * L), h = std::sqrt(l * l - half * half);
  REQUIRE(s.limit_points.size() == 2);
  CHECK_THAT(P * *s.limit_load_factor, WithinRel(2 * k * (L - l) * h / l, 1e-5));
  CHECK_THAT(s.path[s.limit_points[1]].load_factor, WithinRel(-*s.limit_load_factor, 1e-5));
  for (const EquilibriumPoint& p : s.path) {
    const double height = rise + p.displacements[6 + z], length = std::hypot(half, height);
    CHECK_THAT(P * p.load_factor, WithinAbs(2 * k * (L - length) * height / length, 1e-3));
  }
}

TEST_CASE("a hanging weight swings out on its link as the resultant points") {
  // A pin-ended link under forces H and W stands along them: tan = H/W. Nothing resists at first
  // but a soft spring; it is all geometry.
  ModelBuilder f;
  f.node(0, 0, 1);
  f.node(0, 0, 0);
  f.node(-1, 0, 0);
  f.bar(0, 1, 1e7);
  f.bar(1, 2, 1e-2);
  f.pin(0);
  f.pin(2);
  f.hold(1, {y});
  Actions a = f.actions();
  at(a, 1, x) = 300;
  at(a, 1, z) = -400;
  const LargeDisplacementSolution s = trace_path(f.model, a);
  REQUIRE(s.converged);
  CHECK_THAT(s.displacements[6 + x], WithinAbs(0.6, 2e-3));
  CHECK_THAT(s.displacements[6 + z], WithinAbs(1 - 0.8, 2e-3));
  CHECK_THAT(s.bar_forces[0], WithinRel(500.0, 1e-3));
}

TEST_CASE("cables go slack and taut, and stay slack at large displacements") {
  // A mast, fixed below, held by two cables: the leeward one is slack and the other carries.
  ModelBuilder f;
  const int s = f.section(tube, E, G);
  const std::vector<int> mast = f.chain({0, 0, 0}, {0, 0, 2}, 8, s);
  const int left = f.node(-1.5, 0, 0), right = f.node(1.5, 0, 0);
  f.fix(0);
  f.pin(left);
  f.pin(right);
  f.bar(left, mast.back(), 2e5, true);
  f.bar(right, mast.back(), 2e5, true);
  const double H = GENERATE(1.0, 3000.0);
  INFO("H = " << H);
  Actions a = f.actions();
  at(a, mast.back(), x) = H;
  const LargeDisplacementSolution both = solve_large_displacement(f.model, a);
  REQUIRE(both.converged);
  CHECK(both.slack == std::vector<bool>{false, true});
  CHECK(both.bar_forces[0] > 0);
  CHECK(both.bar_forces[1] == 0);
  ModelBuilder alone = f;
  alone.model.bars.pop_back();
  alone.model.bars[0].tension_only = false;
  const LargeDisplacementSolution one = solve_large_displacement(alone.model, a);
  REQUIRE(one.converged);
  CHECK((one.displacements - both.displacements).norm() < 1e-7 * one.displacements.norm());
  if (H > 100) return;
  const StaticSolution linear = f.solve(a);
  CHECK_THAT(both.bar_forces[0], WithinRel(linear.bar_forces[0], 1e-4));
}

TEST_CASE("cable crosses in a tower settle, one of each pair slack") {
  ModelBuilder f;
  const int s = f.section(tube, E, G);
  for (int storey = 0; storey <= 4; ++storey) {
    f.node(0, 0, storey);
    f.node(1, 0, storey);
    if (storey == 0) continue;
    const int n = 2 * storey;
    f.beam(n - 2, n, s);
    f.beam(n - 1, n + 1, s);
    f.beam(n, n + 1, s);
    f.bar(n - 2, n + 1, 1e6, true);
    f.bar(n - 1, n, 1e6, true);
  }
  f.fix(0);
  f.fix(1);
  Actions a = f.actions();
  for (int n = 2; n < 10; ++n) at(a, n, x) = 400;
  const LargeDisplacementSolution r = solve_large_displacement(f.model, a);
  REQUIRE(r.converged);
  for (size_t i = 0; i < r.slack.size(); i += 2) {
    CHECK_FALSE(r.slack[i]);
    CHECK(r.slack[i + 1]);
  }
  CHECK(outer_balance(f.model, a.nodal, r).moment < 1e-4);
}

TEST_CASE("a rigid arm on a torsion spring stands where the moment of its weight does") {
  // c t = W r cos t: a beam of torsional stiffness c = G It/L, with an arm r square to it.
  const double L = 1, r = 0.4, GIt = 100, W = GENERATE(100.0, 600.0, 3000.0);
  ModelBuilder f;
  const int s = f.section(properties(1e-2, 1e-3, 1e-3, GIt / G), E, G);
  f.node(0, 0, 0);
  f.node(L, 0, 0);
  f.node(L, r, 0);
  f.beam(0, 1, s);
  f.model.bodies.push_back({{1, 2}});
  f.fix(0);
  Actions a = f.actions();
  at(a, 2, z) = -W;
  const LargeDisplacementSolution d = solve_large_displacement(f.model, a);
  REQUIRE(d.converged);
  double t = 0, high = M_PI / 2;
  for (int i = 0; i < 60; ++i) {  // bisection: the spring wins at the upper end
    const double middle = (t + high) / 2;
    (GIt / L * middle < W * r * std::cos(middle) ? t : high) = middle;
  }
  CHECK_THAT(-moved(d, 1, rx), WithinRel(t, 1e-4));  // the beam's bending is 1e-4 of it at most
  CHECK_THAT(moved(d, 2, y), WithinAbs(-r * (1 - std::cos(t)), 2e-4));
  CHECK(d.path.back().stable);
}

TEST_CASE("a four-bar linkage of hinged tubes swings as a parallelogram through a large angle") {
  // Two cranks, hinged below and above; a soft spring across resists. A prescribed push of the
  // coupler leaves everything unstrained: the coupler moves on a circle without turning.
  ModelBuilder f;
  const int s = f.section(tube, E, G);
  f.node(0, 0, 0);
  f.node(0, 0, 0.5);
  f.node(1, 0, 0.5);
  f.node(1, 0, 0);
  for (int i = 0; i < 3; ++i) f.beam(i, i + 1, s);
  for (const int crank : {0, 2}) {  // pins square to the plane: local y
    f.model.beams[crank].connection_from[4] = 0;
    f.model.beams[crank].connection_to[4] = 0;
  }
  const bool all_hinged = GENERATE(false, true);
  if (all_hinged) f.model.beams[1].connection_from[4] = 0;  // node 1 may spin on its pin, idly
  f.bar(1, 3, 1e-3);
  f.fix(0);
  f.fix(3);
  f.hold(1, {x});
  Actions a = f.actions();
  a.prescribed[6 + x] = 0.45;  // 64 degrees
  const LargeDisplacementSolution r = solve_large_displacement(f.model, a);
  REQUIRE(r.converged);
  const double drop = 0.5 - std::sqrt(0.25 - 0.45 * 0.45);
  for (const int n : {1, 2}) {
    CHECK_THAT(moved(r, n, x), WithinAbs(0.45, 1e-8));
    CHECK_THAT(moved(r, n, z), WithinAbs(-drop, 1e-8));
    CHECK_THAT(moved(r, n, ry), WithinAbs(0, 1e-8));
  }
}

TEST_CASE("tubes pinned at both ends carry what links in their place carry") {
  // A skew tripod pressed down half its height: no torsion in the tubes, and none to bend them.
  const std::vector<Eigen::Vector3d> feet = {{1, 0, 0}, {-0.6, 0.8, 0.1}, {-0.4, -0.9, -0.1}};
  ModelBuilder tubes, links;
  for (ModelBuilder* f : {&tubes, &links}) {
    f->node(0, 0, 0.4);
    for (const Eigen::Vector3d& p : feet) {
      f->pin(f->node(p.x(), p.y(), p.z()));
      if (f == &tubes) f->hold(static_cast<int>(f->model.nodes.size()) - 1, {rx, ry, rz});
    }
  }
  const int s = tubes.section(tube, E, G);
  for (int leg = 1; leg <= 3; ++leg) {
    const int b = tubes.beam(0, leg, s);
    tubes.model.beams[b].connection_from =
        tubes.model.beams[b].connection_to = {rigid, rigid, rigid, rigid, 0, 0};
    links.bar(0, leg, E * tube.A);
  }
  for (ModelBuilder* f : {&tubes, &links}) f->hold(0, {z});
  Actions a = tubes.actions();
  a.prescribed[z] = -0.2;
  at(a, 0, x) = 5e4;
  const LargeDisplacementSolution p = solve_large_displacement(tubes.model, a);
  a.beams.clear();
  const LargeDisplacementSolution q = solve_large_displacement(links.model, a);
  REQUIRE(p.converged);
  REQUIRE(q.converged);
  CHECK((p.displacements.head<3>() - q.displacements.head<3>()).norm() < 1e-6);
  CHECK(std::abs(q.bar_forces[0]) > 1e4);
  for (size_t i = 0; i < 3; ++i) {
    CHECK_THAT(p.beams[i].end_forces[6], WithinRel(q.bar_forces[i], 1e-4));
  }
}

TEST_CASE("loads along a beam tend to one answer as it is divided, forces in it too") {
  // Cantilever, w L^3/EI = 8: differences fall by four for each halving. By Richardson against
  // the finest two.
  const double w = 8;
  std::vector<double> deflection, root;
  for (const int pieces : {8, 16, 32}) {
    ModelBuilder f;
    const int s = f.section(properties(1e6, 1, 1, 1), 1, 1);
    const int tip = f.chain({0, 0, 0}, {1, 0, 0}, pieces, s).back();
    f.fix(0);
    f.keep_plane_xy();
    Actions a = f.actions();
    for (BeamActions& b : a.beams) b.line = {0, -w, 0};
    const LargeDisplacementSolution r = solve_large_displacement(f.model, a);
    REQUIRE(r.converged);
    deflection.push_back(moved(r, tip, y));
    root.push_back(section_forces(r.beams[0], 0).Mz);
    // In its own axes the root's section force is the support's reaction, negated.
    CHECK_THAT(root.back(), WithinAbs(-reaction(r, 0, rz), 1e-7));
    CHECK_THAT(section_forces(r.beams.back(), 1).Mz, WithinAbs(0, 0.02 * w / pieces));
  }
  const double ratio = (deflection[1] - deflection[0]) / (deflection[2] - deflection[1]);
  CHECK(ratio > 3.5);
  CHECK(ratio < 4.5);
}

TEST_CASE("a perfect strut is not followed past its Euler load, and is called unstable there") {
  const Cantilever f(8);
  const double P = M_PI * M_PI / 4;
  CHECK(f.load(x, -0.98 * P).converged);
  const LargeDisplacementSolution above = f.load(x, -1.02 * P);
  CHECK_FALSE(above.converged);
  CHECK(above.stop == PathStop::buckles);
  CHECK(above.path.back().stable);
  CHECK_THAT(*above.limit_load_factor, WithinRel(1 / 1.02, 1e-3));
  Actions a = f.actions();
  at(a, f.tip, x) = -1.02 * P;
  const LargeDisplacementSolution path = trace_path(f.model, a);
  REQUIRE(path.converged);
  CHECK_FALSE(path.path.back().stable);
  CHECK(path.path.back().negative_pivots == 1);
}

TEST_CASE("a divided strut is called unstable at Euler's load, however few its pieces") {
  // Pieces of a cantilever, half a pinned strut; error of the load in percent, that of cubic beams
  // with consistent stress stiffness (buckling_test.cpp).
  const auto [pieces, error] =
      GENERATE(std::pair{1, 0.75}, std::pair{2, 0.052}, std::pair{4, 0.0033}, std::pair{8, 0.0003});
  INFO(pieces << " pieces");
  const Cantilever f(pieces);
  const auto stable = [&](double percent) {
    return f.load(x, -(1 + percent / 100) * M_PI * M_PI / 4).converged;
  };
  CHECK(stable(error - 0.02 - 0.02 * error));
  CHECK_FALSE(stable(error + 0.02 + 0.02 * error));
}

TEST_CASE("what cannot be solved with large displacements is refused with its reason") {
  const auto refused = [](const Model& model, const Actions& a, const std::string& why) {
    for (const bool path : {false, true}) {
      const LargeDisplacementSolution s =
          path ? trace_path(model, a) : solve_large_displacement(model, a);
      CHECK_FALSE(s.converged);
      CHECK_THAT(s.reason, ContainsSubstring(why));
      CHECK(s.displacements.size() == dof_count(model));
    }
  };
  ModelBuilder f;
  const int s = f.section(tube, E, G);
  const std::vector<int> n = f.chain({0, 0, 0}, {1, 0, 0}, 2, s);
  f.fix(0);
  ModelBuilder panel = f;
  panel.model.panels.emplace_back();
  Actions a = f.actions();
  refused(panel.model, panel.actions(), "sheets");
  ModelBuilder slide = f;
  slide.model.beams[1].connection_from[0] = 0;
  refused(slide.model, a, "beam 1: a beam's released force");
  ModelBuilder loose = f;
  loose.model.beams[0].connection_from[3] = loose.model.beams[0].connection_to[3] = 0;
  refused(loose.model, a, "beam 0: its releases leave it loose");
  ModelBuilder hinged = f;
  hinged.model.beams[0].connection_to[4] = 0;
  refused(hinged.model, a, "can move without resistance");
  ModelBuilder pinned = f;
  const int end = pinned.node(1, 1, 0);
  pinned.bar(n[2], end, 1e6);
  pinned.pin(end);
  Actions turned = pinned.actions();
  at(turned, end, rz) = 1;
  refused(pinned.model, turned, "nothing resists");
}

TEST_CASE("nothing on a frame leaves it where it is") {
  const Mixed f;
  const LargeDisplacementSolution s = solve_large_displacement(f.model, f.actions());
  CHECK(s.converged);
  CHECK(s.displacements.norm() < 1e-12);
  CHECK(trace_path(f.model, f.actions()).converged);
  ModelBuilder held;  // and where nothing can move at all
  const int section = held.section(tube, E, G);
  held.chain({0, 0, 0}, {1, 0, 0}, 1, section);
  held.fix(0);
  held.fix(1);
  CHECK(solve_large_displacement(held.model, held.actions()).converged);
  CHECK(trace_path(held.model, held.actions()).converged);
  CHECK(solve_large_displacement({}, no_actions({})).converged);
}

TEST_CASE("absurd loads end with a reason and finite numbers") {
  const Mixed f;
  const double size = GENERATE(1e5, 1e12);
  LargeDisplacementOptions o;
  o.most_steps = 60;
  for (const bool path : {false, true}) {
    const LargeDisplacementSolution s = path ? trace_path(f.model, f.loads(size), o)
                                             : solve_large_displacement(f.model, f.loads(size), o);
    CHECK(s.converged == s.reason.empty());
    CHECK(s.displacements.allFinite());
    CHECK(s.reactions.allFinite());
  }
}

}  // namespace tubewright::large_displacement_test
