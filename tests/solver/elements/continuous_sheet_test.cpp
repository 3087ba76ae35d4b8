// One sheet over several panels: what the rows between them take and give way by. Against finite
// elements of its own, closed forms and laws; nothing is shared with the solver but what it says.
//
// N and mm. Sheet: E 70 000, nu 0.33, 1.2 thick.
#include <Eigen/Eigenvalues>
#include <Eigen/Geometry>
#include <Eigen/SparseCholesky>
#include <array>
#include <cassert>
#include <cmath>
#include <map>
#include <random>

#include "solver/elements/shear_panel.h"
#include "tests/solver/model_builder.h"
#include "tests/truth.h"

namespace tubewright::continuous_sheet_test {

using namespace tubewright::test;

namespace {

constexpr Source elements = rederived(
    "plane-stress elements of a sheet over two bays, springs along every row, rigid hinged bars");
constexpr Source long_panel =
    rederived("A/(G t) of the whole row and slip along its outline only, by hand");

constexpr double E_al = 70000, nu = 0.33, G_al = E_al / (2 * (1 + nu)), sheet = 1.2;

/// A row of `bays` panels, each a by b, on tubes that give nothing; one sheet, or one each.
struct Row : ModelBuilder {
  Row(int bays, double a, double b, double joint, bool one_sheet, double carry_over = 1,
      const Eigen::Matrix3d& turn = Eigen::Matrix3d::Identity()) {
    const int s = section(properties(1e9, 1e9, 1e9, 1e9), 210000, 81000);
    for (int i = 0; i <= bays; ++i) {
      for (const double y : {0.0, b}) {
        model.nodes.emplace_back(turn * Eigen::Vector3d(a * i, y, 0));
      }
    }
    std::vector<int> cross;
    for (int i = 0; i <= bays; ++i) cross.push_back(beam(2 * i, 2 * i + 1, s));
    for (int i = 0; i < bays; ++i) {
      const int n = 2 * i, low = beam(n, n + 2, s), high = beam(n + 3, n + 1, s);
      Panel p;
      p.corners = {n, n + 2, n + 3, n + 1};
      p.edges = {{{{true, low}}, {{true, cross[i + 1]}}, {{true, high}}, {{true, cross[i]}}}};
      p.thickness = sheet;
      p.G = G_al;
      p.joint = joint;
      p.piece = one_sheet ? 3 : -1;
      p.carry_over = carry_over;
      if (i % 3 == 1) {  // corners in another order, seen from the other side
        std::swap(p.corners[1], p.corners[3]);
        std::reverse(p.edges.begin(), p.edges.end());
      }
      model.panels.push_back(p);
    }
  }

  Eigen::MatrixXd F() const {
    const std::vector<PanelGroup> groups = panel_groups(model);
    REQUIRE(groups.size() == 1);
    return groups[0].F;
  }

  /// q0 of each panel for the same shear in all: it closes the second and fourth corner, which
  /// those seen from the other side have in common.
  std::vector<double> even_shear(double q) const {
    return std::vector<double>(model.panels.size(), q);
  }
};

double quadratic_form(const Eigen::MatrixXd& F, const std::vector<double>& q) {
  const Eigen::Map<const Eigen::VectorXd> v(q.data(), static_cast<Eigen::Index>(q.size()));
  return v.dot(F * v);
}

/// A sheet over two bays a by b in four-noded elements with nodes every h, on springs along the
/// five rows. The bars do not stretch and are hinged: rails move along themselves by `rail`,
/// crosses by `cross`. The energy with those given.
double sheet_energy(double a, double b, double h, double joint, const std::array<double, 2>& rail,
                    const std::array<double, 3>& cross) {
  const int columns = static_cast<int>(std::lround(2 * a / h)),
            rows = static_cast<int>(std::lround(b / h)), middle = columns / 2;
  const auto number = [&](int i, int j, int d) { return 2 * (i * (rows + 1) + j) + d; };
  const int size = number(columns, rows, 1) + 1;
  std::vector<Eigen::Triplet<double>> entries;
  Eigen::VectorXd f = Eigen::VectorXd::Zero(size);
  double given = 0;
  Eigen::Matrix3d D;
  D << 1, nu, 0, nu, 1, 0, 0, 0, (1 - nu) / 2;
  D *= E_al / (1 - nu * nu) * sheet;
  Eigen::Matrix<double, 8, 8> k = Eigen::Matrix<double, 8, 8>::Zero();
  const std::array<double, 4> sx = {-1, 1, 1, -1}, sy = {-1, -1, 1, 1};
  for (const double x : {-1 / std::sqrt(3.0), 1 / std::sqrt(3.0)}) {
    for (const double y : {-1 / std::sqrt(3.0), 1 / std::sqrt(3.0)}) {
      Eigen::Matrix<double, 3, 8> B = Eigen::Matrix<double, 3, 8>::Zero();
      for (int n = 0; n < 4; ++n) {
        const double dx = sx[n] * (1 + sy[n] * y) / (2 * h), dy = sy[n] * (1 + sx[n] * x) / (2 * h);
        B(0, 2 * n) = B(2, 2 * n + 1) = dx;
        B(1, 2 * n + 1) = B(2, 2 * n) = dy;
      }
      k += B.transpose() * D * B * (h * h / 4);
    }
  }
  for (int i = 0; i < columns; ++i) {
    for (int j = 0; j < rows; ++j) {
      const std::array<int, 4> at = {number(i, j, 0), number(i + 1, j, 0), number(i + 1, j + 1, 0),
                                     number(i, j + 1, 0)};
      for (int m = 0; m < 8; ++m) {
        for (int n = 0; n < 8; ++n) {
          entries.emplace_back(at[m / 2] + m % 2, at[n / 2] + n % 2, k(m, n));
        }
      }
    }
  }
  // Two-point Gauss: exact for linear displacements.
  const auto spring = [&](int p, int q, double base) {
    for (const double s : {0.5 - 0.5 / std::sqrt(3.0), 0.5 + 0.5 / std::sqrt(3.0)}) {
      const double w = joint * h / 2;
      for (const auto& [m, Nm] : {std::pair{p, 1 - s}, {q, s}}) {
        f[m] += w * Nm * base;
        for (const auto& [n, Nn] : {std::pair{p, 1 - s}, {q, s}})
          entries.emplace_back(m, n, w * Nm * Nn);
      }
      given += w * base * base;
    }
  };
  for (int i = 0; i < columns; ++i) {
    spring(number(i, 0, 0), number(i + 1, 0, 0), rail[0]);
    spring(number(i, rows, 0), number(i + 1, rows, 0), rail[1]);
  }
  for (int j = 0; j < rows; ++j) {
    spring(number(0, j, 1), number(0, j + 1, 1), cross[0]);
    spring(number(middle, j, 1), number(middle, j + 1, 1), cross[1]);
    spring(number(columns, j, 1), number(columns, j + 1, 1), cross[2]);
  }
  assert(size > 0);
  Eigen::SparseMatrix<double> K(size, size);
  K.setFromTriplets(entries.begin(), entries.end());
  const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> solver(K);
  REQUIRE(solver.info() == Eigen::Success);
  return (given - f.dot(solver.solve(f))) / 2;
}

/// The same of two panels: the work of their flows on the bars, q = F^-1 A gamma.
double panel_energy(const Row& row, double a, double b, const std::array<double, 2>& rail,
                    const std::array<double, 3>& cross) {
  Eigen::Vector2d shear;
  for (int i = 0; i < 2; ++i) {
    const double gamma = (rail[1] - rail[0]) / b + (cross[i + 1] - cross[i]) / a;
    shear[i] = a * b * gamma;
  }
  return shear.dot(row.F().ldlt().solve(shear)) / 2;
}

}  // namespace

TEST_CASE("a row of equal panels in even shear is one long panel, slip along its outline only",
          "[truth]") {
  const double a = 600, b = 400, joint = 200;
  for (const int bays : {1, 2, 3, 5}) {
    const Row row(bays, a, b, joint, true);
    const double whole = bays * a * b / (G_al * sheet) + 2 * (bays * a + b) / joint;
    truth(named(bays, " panels 600 x 400 x 1.2 in a row, rivets 200 N/mm2: flexibility, mm3/N"),
          long_panel, quadratic_form(row.F(), row.even_shear(1)), within_rel(whole, 1e-6));
    const Row apart(bays, a, b, joint, false);
    CHECK_THAT(quadratic_form(apart.F(), apart.even_shear(1)),
               WithinRel(whole + (bays - 1) * 2 * b / joint, 1e-6));
  }
}

TEST_CASE("a sheet over two bays on springs: finite elements", "[truth]") {
  // Uniform flow is in balance whatever the bars do, so the panels are the softer ones; in even
  // shear it is the answer itself. With opposite shears it jumps at the middle row, which a sheet
  // in one piece smooths out.
  const double a = 600, b = 400;
  for (const double joint : {66.0, 200.0, 600.0}) {
    const Row one(2, a, b, joint, true), apart(2, a, b, joint, false);
    const std::array<double, 2> slide = {0, 0.4}, still = {0, 0};
    const std::array<double, 3> none = {0, 0, 0}, tent = {0, 0.6, 0};
    const double even = sheet_energy(a, b, 20, joint, slide, none);
    const std::string what = named("sheet over two bays, rows of ", joint, " N/mm2: ");
    truth(what + "energy in even shear, N mm", elements, panel_energy(one, a, b, slide, none),
          within_rel(even, 1e-6));
    const double opposite = sheet_energy(a, b, 20, joint, still, tent);
    const double ours = panel_energy(one, a, b, still, tent);
    truth(what + "energy of the elements over ours in opposite shears", elements, opposite / ours,
          not_below(1, 1.25));
    // Two sheets with a row each miss both: too soft with even shear, too stiff with opposite ones.
    CHECK(panel_energy(apart, a, b, slide, none) < 0.95 * even);
    CHECK(panel_energy(apart, a, b, still, tent) > ours);
  }
}

TEST_CASE("flows that are equal on both sides put nothing on the row between") {
  const Row row(4, 500, 300, 150, true);
  const std::vector<double> q = row.even_shear(12);
  for (int p = 0; p < 4; ++p) {
    int inner = 0;
    double outer = 0;
    for (const PanelRow& r : panel_rows(row.model, p)) {
      const double load = r.flow * q[p] + (r.other < 0 ? 0 : r.other_flow * q[r.other]);
      if (r.other < 0) {
        CHECK_THAT(std::abs(load), WithinRel(12, 1e-12));
        outer += r.length;
        continue;
      }
      CHECK(std::abs(load) < 1e-12 * 12);
      CHECK(std::abs(r.other - p) == 1);
      ++inner;
    }
    CHECK(inner == (p == 0 || p == 3 ? 1 : 2));
    CHECK_THAT(outer, WithinRel(1000 + (inner == 1 ? 300.0 : 0.0), 1e-12));
  }
}

TEST_CASE("a row takes what its tube gets from both panels, whatever the flows are") {
  // The line loads on a shared member are what the sheet puts there: their sum is the row's load.
  std::mt19937 random(3);
  std::uniform_real_distribution<double> u(-10, 10);
  const Row row(5, 450, 320, 150, true);
  std::vector<double> q;
  for (int i = 0; i < 5; ++i) q.push_back(u(random));
  std::map<EdgePiece, Eigen::Vector3d> line;
  for (size_t p = 0; p < 5; ++p) {
    for (const EdgeLoad& l : edge_loads(row.model, row.model.panels[p], q[p], 0)) {
      line.emplace(l.piece, Eigen::Vector3d::Zero()).first->second += l.line;
    }
  }
  for (int p = 0; p < 5; ++p) {
    for (const PanelRow& r : panel_rows(row.model, p)) {
      const double load = r.flow * q[p] + (r.other < 0 ? 0 : r.other_flow * q[r.other]);
      CHECK_THAT(std::abs(load), WithinAbs(line.at(r.member).norm(), 1e-12));
    }
  }
}

TEST_CASE("energies of the panels add up to that of the flexibility matrix, none below zero") {
  for (const unsigned seed : {1u, 2u, 3u, 4u}) {
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> u(-1, 1);
    const Row row(6, 400 + 50 * u(random), 300, 100, true, 0.25 * seed);
    std::vector<double> q;
    for (int i = 0; i < 6; ++i) q.push_back(u(random));
    double sum = 0;
    for (const double energy : panel_energies(row.model, q)) {
      CHECK(energy >= 0);
      sum += energy;
    }
    CHECK_THAT(sum, WithinRel(quadratic_form(row.F(), q) / 2, 1e-6));  // tubes nearly rigid
  }
}

TEST_CASE("the flexibility of a sheet with the softest joint keeps positive eigenvalues") {
  for (const double carry_over : {0.3, 1.0}) {
    const Row row(8, 300, 500, 1e-4, true, carry_over);
    const Eigen::MatrixXd F = row.F();
    CHECK((F - F.transpose()).norm() == 0);
    CHECK(Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(F).eigenvalues().minCoeff() > 0);
    const std::vector<PanelGroup> groups = panel_groups(row.model);
    const Eigen::MatrixXd K = group_stiffness(groups[0]);
    CHECK((K - K.transpose()).norm() < 1e-12 * K.norm());
    CHECK(Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(K).eigenvalues().minCoeff() >
          -1e-12 * K.norm());
  }
}

TEST_CASE("turning a continuous sheet turns nothing in its flexibility") {
  std::mt19937 random(9);
  std::normal_distribution<double> n;
  const Eigen::Matrix3d turn = Eigen::Quaterniond(n(random), n(random), n(random), n(random))
                                   .normalized()
                                   .toRotationMatrix();
  const Row plain(4, 500, 300, 150, true, 0.7), turned(4, 500, 300, 150, true, 0.7, turn);
  CHECK((plain.F() - turned.F()).norm() < 1e-9 * plain.F().norm());
}

TEST_CASE("only panels of one piece share a row, and a bond less of it than rivets") {
  const double b = 300, joint = 150;
  const Row apart(2, 500, b, joint, false), rivets(2, 500, b, joint, true),
      bond(2, 500, b, joint, true, 0.2);
  const double none = apart.F()(0, 1);
  // Even shear runs one way along the cross tube in one panel, the other way in the next.
  CHECK_THAT(rivets.F()(0, 1) - none, WithinRel(-b / joint, 1e-9));
  CHECK_THAT(bond.F()(0, 1) - none, WithinRel(-0.2 * b / joint, 1e-9));
  CHECK_THAT(rivets.F()(0, 0), WithinRel(apart.F()(0, 0), 1e-12));
}

}  // namespace tubewright::continuous_sheet_test
