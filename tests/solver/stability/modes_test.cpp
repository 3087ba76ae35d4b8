#include "solver/stability/modes.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "solver/statics/assembly.h"
#include "tests/catch.h"
#include "tests/solver/model_builder.h"
#include "tests/truth.h"

namespace tubewright::modes_test {

using namespace tubewright::test;

namespace {

constexpr Source blevins = from_memory(
    "R. D. Blevins, Formulas for Natural Frequency and Mode Shape, Table 8-1 (roots recomputed)");
constexpr Source ten_elements =
    rederived("ten cubic elements with consistent mass, independent script");
constexpr Source free_tube = rederived("Euler-Bernoulli closed form for 25 x 25 x 2 of 1 m");
constexpr Source timoshenko =
    rederived("exact Timoshenko beam, closed form (torsion by St Venant)");
constexpr Source fv2 =
    from_memory("NAFEMS, Selected Benchmarks for Natural Frequency Analysis, FV2");
constexpr Source fv2_mesh = rederived("FV2 with four elements an arm, independent script");
constexpr Source fv4 =
    from_memory("NAFEMS, Selected Benchmarks for Natural Frequency Analysis, FV4 (recomputed)");
constexpr Source fv5 =
    from_memory("NAFEMS, Selected Benchmarks for Natural Frequency Analysis, FV5");

constexpr double pi = std::numbers::pi;

Modes solved(const Model& model, int count, const std::vector<AddedMass>& added = {}) {
  const auto outcome = natural_modes(model, added, count);
  REQUIRE(outcome.has_value());
  return *outcome;
}

std::vector<double> elastic(const Modes& modes) {
  std::vector<double> list;
  for (const Mode& m : modes.modes) {
    if (!m.rigid) list.push_back(m.frequency);
  }
  return list;
}

/// A straight beam along x cut into `elements`, free.
struct Straight : ModelBuilder {
  std::vector<int> nodes;

  Straight(double L, int elements, const Section& s, double E, double G, double density) {
    const int id = section(s, E, G, density);
    for (int i = 0; i <= elements; ++i) nodes.push_back(node(L * i / elements, 0, 0));
    for (int i = 0; i < elements; ++i) beam(nodes[i], nodes[i + 1], id);
  }
  int first() const { return nodes.front(); }
  int last() const { return nodes.back(); }
};

/// A slender beam in the x-y plane only: no rotary inertia to speak of.
Straight slender(int elements) {
  Straight b(1, elements, properties(1, 1e-8, 1e-8, 1e-8), 1, 1, 1);
  for (const int n : b.nodes) b.hold(n, {z, rx, ry});
  return b;
}

/// f L^2 2 pi / sqrt(EI/m) = lambda^2.
double lambda(double frequency) { return std::sqrt(frequency * 2 * pi / std::sqrt(1e-8)); }

Section square(double a) {
  Section s = properties(a * a, a * a * a * a / 12, a * a * a * a / 12, 0.140577 * a * a * a * a);
  return s;
}

}  // namespace

TEST_CASE("a beam of ten consistent elements has the frequencies of Blevins' table", "[truth]") {
  // R. D. Blevins, Formulas for Natural Frequency and Mode Shape, Table 8-1 (from memory, roots
  // recomputed); the values of ten cubic elements recomputed independently.
  struct Row {
    const char* ends;
    std::vector<int> left, right;
    std::array<double, 3> exact, ten;
  };
  const std::vector<Row> rows = {
      {"cantilever", {x, y, rz}, {}, {1.875104, 4.694091, 7.854757}, {1.87511, 4.69417, 7.85576}},
      {"pinned-pinned", {x, y}, {y}, {pi, 2 * pi, 3 * pi}, {3.14160, 6.28352, 9.42730}},
      {"clamped-clamped",
       {x, y, rz},
       {y, rz},
       {4.730041, 7.853205, 10.995608},
       {4.73012, 7.85423, 11.00103}},
      {"clamped-pinned",
       {x, y, rz},
       {y},
       {3.926602, 7.068583, 10.210176},
       {3.92663, 7.06919, 10.21393}},
  };
  for (const Row& row : rows) {
    INFO(row.ends);
    Straight b = slender(10);
    Support left, right;
    left.node = b.first();
    right.node = b.last();
    for (const int d : row.left) left.restrained[d] = true;
    for (const int d : row.right) right.restrained[d] = true;
    b.model.supports.push_back(left);
    b.model.supports.push_back(right);
    const std::vector<double> f = elastic(solved(b.model, 3));
    REQUIRE(f.size() >= 3);
    for (int i = 0; i < 3; ++i) {
      truth(named(row.ends, " beam: lambda ", i + 1), ten_elements, lambda(f[i]),
            within_rel(row.ten[i], 3e-6));
      truth(named(row.ends, " beam: lambda ", i + 1), blevins, lambda(f[i]),
            within_rel(row.exact[i], 1e-3));
    }
  }
}

TEST_CASE("a free tube has six rigid motions and the frequencies of a free-free beam, each twice",
          "[truth]") {
  // Square tube 25 x 25 x 2 by EN 10219-2, 1 m: 170.203, 469.172, 919.765 Hz (Euler-Bernoulli,
  // derived); axial 2586.10, torsion 1479.73 Hz.
  Section s = properties(1.73699e-4, 1.48355e-8, 1.48355e-8, 2.5256e-8);
  const Straight b(1, 40, s, 210e9, 80.769e9, 7850);
  const Modes modes = solved(b.model, 16);
  CHECK(modes.complete);
  for (int i = 0; i < 6; ++i) {
    CHECK(modes.modes[static_cast<size_t>(i)].rigid);
    CHECK(modes.modes[static_cast<size_t>(i)].frequency == 0);
  }
  const std::vector<double> f = elastic(modes);
  REQUIRE(f.size() >= 12);
  const double expected[] = {170.203, 170.203, 469.172, 469.172, 919.765, 919.765};
  // Rotary inertia, left out of these numbers, takes less than half a per cent.
  for (int i = 0; i < 6; ++i)
    truth(named("free tube: mode ", i + 1, ", Hz"), free_tube, f[static_cast<size_t>(i)],
          within_rel(expected[i], 8e-3));
  const auto nearest = [&](double frequency) {
    return *std::min_element(f.begin(), f.end(), [&](double one, double other) {
      return std::abs(one - frequency) < std::abs(other - frequency);
    });
  };
  truth("free tube: torsion, Hz", free_tube, nearest(1479.73), within_rel(1479.73, 1e-3));
  truth("free tube: along its axis, Hz", free_tube, nearest(2586.10), within_rel(2586.10, 1e-3));
}

TEST_CASE("a deep beam has the frequencies of Timoshenko's theory and of the standard test FV5",
          "[truth]") {
  // NAFEMS, Selected Benchmarks for Natural Frequency Analysis, test FV5 (targets from memory): 10
  // m, 2 x 2 m, E 200 GPa, nu 0.3, 8000 kg/m3, five elements. Exact Timoshenko with Cowper's
  // 0.84967: 42.645, 148.149, 283.468 Hz (derived); axial 125.000; torsion by St Venant 71.196,
  // 213.59 (the target, 77.542, takes the polar moment).
  Section s = square(2);
  s.Ay = s.Az = 0.84967 * s.A;
  const auto frequencies = [&](int elements) {
    Straight b(10, elements, s, 200e9, 200e9 / 2.6, 8000);
    b.hold(b.first(), {x, y, z, rx});
    b.hold(b.last(), {y, z});
    return elastic(solved(b.model, 9));
  };
  const std::vector<double> fine = frequencies(60), five = frequencies(5);
  REQUIRE(fine.size() >= 9);
  const double exact[] = {42.645,  42.645, 71.196,  125.000, 148.149,
                          148.149, 213.59, 283.468, 283.468};
  for (int i = 0; i < 9; ++i)
    truth(named("deep beam: mode ", i + 1, ", Hz"), timoshenko, fine[i],
          within_rel(exact[i], 6e-4));
  // The published targets, as far as they are those of beam theory.
  truth("deep beam: mode 1, Hz", fv5, five[0], within_rel(42.649, 5e-3));
  truth("deep beam: first axial mode, Hz", fv5, five[3], within_rel(125.00, 5e-3));
  truth("deep beam: second bending mode, Hz", fv5, fine[4], within_rel(148.31, 2e-3));
  truth("deep beam: third bending mode, Hz", fv5, fine[7], within_rel(284.55, 5e-3));
}

TEST_CASE("a cantilever with masses off its axis has the frequencies of the standard test FV4",
          "[truth]") {
  // NAFEMS FV4 (targets from memory, recomputed): 10 m, solid round 0.5 m, masses of 10 000 and
  // 1000 kg at 2 m to either side of the tip on rigid arms.
  const double d = 0.5, A = pi * d * d / 4, I = pi * d * d * d * d / 64;
  Straight b(10, 20, properties(A, I, I, 2 * I), 200e9, 200e9 / 2.6, 8000);
  b.hold(b.first(), {x, y, z, rx, ry, rz});
  const int heavy = b.node(10, 2, 0), light = b.node(10, -2, 0);
  b.model.bodies.push_back({{b.last(), heavy, light}});
  std::vector<AddedMass> masses;
  for (const auto& [node, mass] : {std::pair{heavy, 10000.0}, {light, 1000.0}}) {
    AddedMass m{{node}, Eigen::MatrixXd::Zero(6, 6)};
    m.M.diagonal().head<3>().setConstant(mass);
    masses.push_back(m);
  }
  const std::vector<double> f = elastic(solved(b.model, 6, masses));
  const double expected[] = {1.723, 1.727, 7.413, 9.972, 18.155, 26.957};
  for (int i = 0; i < 6; ++i)
    truth(named("cantilever with masses off its axis: mode ", i + 1, ", Hz"), fv4, f[i],
          within_rel(expected[i], 1e-3));
}

TEST_CASE("the pin-ended double cross has all its multiple modes, as the standard test FV2",
          "[truth]") {
  // NAFEMS FV2 (targets from memory); the values of four elements an arm recomputed independently.
  ModelBuilder b;
  const double a = 0.125;
  const int id = b.section(square(a), 200e9, 200e9 / 2.6, 8000);
  const int hub = b.node(0, 0, 0);
  b.hold(hub, {z, rx, ry});
  for (int arm = 0; arm < 8; ++arm) {
    int inner = hub;
    for (int i = 1; i <= 4; ++i) {
      const double r = 5.0 * i / 4, t = arm * pi / 4;
      const int outer = b.node(r * std::cos(t), r * std::sin(t), 0);
      if (i == 4)
        b.hold(outer, {x, y, z, rx, ry});
      else
        b.hold(outer, {z, rx, ry});
      b.beam(inner, outer, id);
      inner = outer;
    }
  }
  const Modes modes = solved(b.model, 16);
  CHECK(modes.complete);
  const std::vector<double> f = elastic(modes);
  REQUIRE(f.size() == 16);
  const double four[] = {11.339, 17.692, 17.692, 17.721, 17.721, 17.721, 17.721, 17.721,
                         45.524, 57.427, 57.427, 57.748, 57.748, 57.748, 57.748, 57.748};
  for (int i = 0; i < 16; ++i)
    truth(named("double cross: mode ", i + 1, ", Hz"), fv2_mesh, f[i],
          within_rel(four[i], 2e-3));  // rotary inertia: ours
  truth("double cross: mode 1, Hz", fv2, f[0], within_rel(11.336, 1e-3));
  for (int i = 3; i < 8; ++i)
    truth(named("double cross: mode ", i + 1, ", Hz"), fv2, f[i], within_rel(17.709, 1e-3));
}

TEST_CASE("a large frame's modes are complete, orthogonal and solve the equation of motion") {
  // A lattice of square symmetry: many double frequencies, beyond the dense solver.
  ModelBuilder b;
  const int id = b.section(properties(1.7e-4, 1.5e-8, 1.5e-8, 2.5e-8), 210e9, 81e9, 7850);
  const int n = 8;
  std::vector<int> grid;
  for (int i = 0; i < n; ++i) {
    for (int j = 0; j < n; ++j) grid.push_back(b.node(0.3 * i, 0.3 * j, 0));
  }
  for (int i = 0; i < n; ++i) {
    for (int j = 0; j < n; ++j) {
      if (i + 1 < n) b.beam(grid[i * n + j], grid[(i + 1) * n + j], id);
      if (j + 1 < n) b.beam(grid[i * n + j], grid[i * n + j + 1], id);
    }
  }
  for (const int corner : {0, n - 1, n * n - n, n * n - 1}) b.hold(grid[corner], {x, y, z});
  const Modes modes = solved(b.model, 12);
  CHECK(modes.complete);
  for (size_t i = 0; i < modes.modes.size(); ++i) {
    const Eigen::VectorXd& u = modes.modes[i].shape;
    const Eigen::VectorXd Mu = apply_mass(b.model, {}, u);
    CHECK_THAT(u.dot(Mu), WithinRel(1.0, 1e-9));
    const double square_of_omega = std::pow(2 * pi * modes.modes[i].frequency, 2);
    const std::vector<bool> taut;
    Eigen::VectorXd off = apply_stiffness(b.model, taut, u) - square_of_omega * Mu;
    for (const Support& s : b.model.supports) {
      for (int d = 0; d < 6; ++d) {
        if (s.restrained[d]) off[6 * s.node + d] = 0;
      }
    }
    CHECK(off.norm() < 1e-6 * (square_of_omega * Mu).norm());
    for (size_t j = 0; j < i; ++j) CHECK(std::abs(modes.modes[j].shape.dot(Mu)) < 1e-8);
    if (i > 0) CHECK(modes.modes[i].frequency >= modes.modes[i - 1].frequency);
  }
}

TEST_CASE("the mass of the rigid motions is the mass of the model") {
  const Straight b(1.7, 5, properties(2e-4, 2e-8, 3e-8, 4e-8), 210e9, 81e9, 7850);
  for (const int d : {x, y, z}) {
    Eigen::VectorXd u = Eigen::VectorXd::Zero(dof_count(b.model));
    for (const int n : b.nodes) u[6 * n + d] = 1;
    CHECK_THAT(u.dot(apply_mass(b.model, {}, u)), WithinRel(7850 * 2e-4 * 1.7, 1e-12));
  }
}

TEST_CASE("a model that can fold has no modes but is told its mechanism") {
  ModelBuilder b;
  const int id = b.section(properties(1e-4, 1e-8, 1e-8, 1e-8), 210e9, 81e9, 7850);
  const int p = b.node(0, 0, 0), q = b.node(1, 0, 0), r = b.node(1, 1, 0), s = b.node(0, 1, 0);
  for (const auto& [from, to] : {std::pair{p, q}, {q, r}, {r, s}, {s, p}}) {
    Beam& beam = b.model.beams[static_cast<size_t>(b.beam(from, to, id))];
    beam.connection_from[5] = beam.connection_to[5] = 0;
    beam.connection_from[4] = 0;
  }
  b.hold(p, {x, y, z, rx, ry, rz});
  CHECK(natural_modes(b.model, {}, 3).error() != nullptr);
}

TEST_CASE("a stiff bar on a soft spring under each end bounces, pitches and keeps four motions") {
  // sqrt(2 k/m) and, turning about its middle, sqrt(k (L^2/2)/(m L^2/12)) = sqrt(6 k/m) by the law
  // of momentum; its thickness adds a hundredth of 1/12 to the inertia.
  constexpr double k = 1000, a = 0.1, L = 1, m = 7850 * a * a * L;
  const Straight bar(L, 2, square(a), 210e9, 81e9, 7850);
  std::vector<GroundStiffness> ground;
  for (const int end : {bar.first(), bar.last()}) {
    Eigen::MatrixXd K = Eigen::MatrixXd::Zero(6, 6);
    K(2, 2) = k;
    ground.push_back({{end}, K});
  }
  const auto outcome = natural_modes(bar.model, {}, 4, ground);
  REQUIRE(outcome.has_value());
  const std::vector<Mode>& modes = outcome->modes;
  REQUIRE(modes.size() >= 6);
  CHECK(std::count_if(modes.begin(), modes.end(), [](const Mode& x) { return x.rigid; }) == 4);
  CHECK_THAT(modes[4].frequency, WithinRel(std::sqrt(2 * k / m) / (2 * pi), 1e-3));
  CHECK_THAT(modes[5].frequency, WithinRel(std::sqrt(6 * k / (m * 1.01)) / (2 * pi), 1e-3));
}

}  // namespace tubewright::modes_test
