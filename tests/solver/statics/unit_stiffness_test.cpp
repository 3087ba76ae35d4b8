// Free motions are told from geometry alone: any slenderness, any scale.
#include "solver/statics/unit_stiffness.h"

#include <Eigen/Geometry>
#include <Eigen/QR>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include "solver/elements/beam_element.h"
#include "solver/model/section_shapes.h"
#include "solver/statics/assembly.h"
#include "solver/statics/mechanism.h"
#include "tests/solver/model_builder.h"

namespace tubewright::unit_stiffness_test {

using namespace tubewright::test;

namespace {

constexpr double E = 210e9, G = 81e9;

using Random = std::mt19937;

double between(Random& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

bool chance(Random& random, double share) { return between(random, 0, 1) < share; }

/// 10 to the power of something between the two.
double of_any_size(Random& random, double low, double high) {
  return std::pow(10, between(random, low, high));
}

/// Points up to 5 m apart, members of 0.5 to 50 mm, springs of 1 N/m to 1 MN/m, random releases,
/// random supports.
ModelBuilder random_frame(Random& random) {
  ModelBuilder f;
  const int nodes = static_cast<int>(between(random, 3, 9));
  const bool flat = chance(random, 0.3);
  for (int n = 0; n < nodes; ++n) {
    f.node(between(random, 0, 5), between(random, 0, 5), flat ? 0 : between(random, 0, 5));
  }
  const auto add = [&](int a, int b) {
    if (chance(random, 0.15)) {
      f.model.bars.push_back({a, b, of_any_size(random, 0, 6), false});
      return;
    }
    const double d = of_any_size(random, -3.3, -1.3);
    const int beam = f.beam(a, b, f.section(round_bar(d, 0.3), E, G));
    for (EndConnection* end : {&f.model.beams[static_cast<size_t>(beam)].connection_from,
                               &f.model.beams[static_cast<size_t>(beam)].connection_to}) {
      if (!chance(random, 0.2)) continue;
      for (int d2 = 3; d2 < 6; ++d2) {
        if (chance(random, 0.5)) (*end)[d2] = chance(random, 0.3) ? of_any_size(random, 0, 5) : 0;
      }
    }
    Beam& b_new = f.model.beams[static_cast<size_t>(beam)];
    if (b_new.connection_from[3] == 0 && b_new.connection_to[3] == 0)
      b_new.connection_to[3] = rigid;
  };
  for (int n = 1; n < nodes; ++n) add(static_cast<int>(between(random, 0, n)), n);
  for (int k = 0; k < nodes / 2; ++k) {
    const int a = static_cast<int>(between(random, 0, nodes - 1));
    if (a + 1 < nodes) add(a, a + 1);
  }
  for (const int n : {0, nodes - 1}) {
    Support s;
    s.node = n;
    for (int d = 0; d < 6; ++d) s.restrained[d] = chance(random, d < 3 ? 0.8 : 0.3);
    f.model.supports.push_back(s);
  }
  return f;
}

/// What deforms the members, one row each, on the free DOFs and, appended, the slips of released
/// ends; each row of length one. Written down from the kinematics of a rigid stick, apart from any
/// stiffness. `for_node`: first column and count of each node's free rotations.
struct Compatibility {
  Eigen::MatrixXd rows;
  std::vector<std::pair<int, int>> rotations;
};

Compatibility compatibility(const Model& m) {
  const int dofs = dof_count(m);
  std::vector<bool> held(static_cast<size_t>(dofs), false);
  for (const Support& s : m.supports) {
    for (int d = 0; d < 6; ++d) held[6 * s.node + d] = s.restrained[d];
  }
  std::vector<Eigen::RowVectorXd> rows;
  int slips = 0;
  for (const Beam& b : m.beams) {
    for (const double c : b.connection_from) slips += c == 0;
    for (const double c : b.connection_to) slips += c == 0;
  }
  int slip = dofs;
  for (const Beam& b : m.beams) {
    const Eigen::Vector3d span = m.nodes[b.to] - m.nodes[b.from];
    const Eigen::Matrix3d R = member_axes(m.nodes[b.from], m.nodes[b.to], b.roll);
    Eigen::MatrixXd q = Eigen::MatrixXd::Zero(6, dofs + slips);
    for (int j = 0; j < 3; ++j) {
      const Eigen::Vector3d axis = Eigen::Vector3d::Unit(j);
      q.block<3, 1>(0, 6 * b.to + j) += R * axis;
      q.block<3, 1>(0, 6 * b.from + j) -= R * axis;
      q.block<3, 1>(0, 6 * b.from + 3 + j) -= R * axis.cross(span);
      q.block<3, 1>(3, 6 * b.to + 3 + j) += R * axis;
      q.block<3, 1>(3, 6 * b.from + 3 + j) -= R * axis;
    }
    for (int j = 3; j < 6; ++j) {  // the member's end turns by itself, its far end is carried along
      const Eigen::Vector3d axis = Eigen::Vector3d::Unit(j - 3);
      if (b.connection_from[j] == 0) {
        q.block<3, 1>(0, slip) = -axis.cross(R * span);
        q(j, slip++) = -1;
      }
      if (b.connection_to[j] == 0) q(j, slip++) = 1;
    }
    for (int i = 0; i < 6; ++i) rows.emplace_back(q.row(i));
  }
  for (const Bar& b : m.bars) {
    const Eigen::Vector3d n = (m.nodes[b.to] - m.nodes[b.from]).normalized();
    Eigen::RowVectorXd row = Eigen::RowVectorXd::Zero(dofs + slips);
    row.segment<3>(6 * b.to) = n;
    row.segment<3>(6 * b.from) = -n;
    rows.push_back(row);
  }
  std::vector<int> columns;
  Compatibility c;
  for (int n = 0; n < dofs / 6; ++n) {
    int turns = 0;
    for (int d = 0; d < 6; ++d) {
      if (held[6 * n + d]) continue;
      columns.push_back(6 * n + d);
      turns += d >= 3;
    }
    c.rotations.emplace_back(static_cast<int>(columns.size()) - turns, turns);
  }
  for (int i = 0; i < slips; ++i) columns.push_back(dofs + i);
  c.rows.resize(static_cast<Eigen::Index>(rows.size()), static_cast<Eigen::Index>(columns.size()));
  for (size_t i = 0; i < rows.size(); ++i) {
    c.rows.row(static_cast<Eigen::Index>(i)) = rows[i](columns);
  }
  for (Eigen::Index i = 0; i < c.rows.rows(); ++i) {
    const double size = c.rows.row(i).norm();
    c.rows.row(i) *= size > 1e-12 ? 1 / size : 0;  // what is left of 0 is rounding
  }
  return c;
}

int nullity(const Eigen::MatrixXd& A) {
  if (A.cols() == 0) return 0;
  Eigen::FullPivHouseholderQR<Eigen::MatrixXd> qr(A);
  qr.setThreshold(1e-9);
  return static_cast<int>(A.cols() - qr.rank());
}

/// Motions that strain nothing, less the turns of single nodes that nothing minds.
int expected_motions(const Model& m) {
  const Compatibility c = compatibility(m);
  const int all = nullity(c.rows);
  int alone = 0;
  // The slips of a node's own members go with its turn.
  int last_dof = 0;
  for (const auto& [first, count] : c.rotations) last_dof = std::max(last_dof, first + count);
  const Eigen::MatrixXd slip_columns = c.rows.rightCols(c.rows.cols() - last_dof);
  const int slips_alone = nullity(slip_columns);
  for (const auto& [first, count] : c.rotations) {
    Eigen::MatrixXd turn(c.rows.rows(), count + slip_columns.cols());
    turn << c.rows.middleCols(first, count), slip_columns;
    alone += nullity(turn) - slips_alone;
  }
  return all - alone - slips_alone;
}

}  // namespace

TEST_CASE("every free motion of a frame is found, and none that is not free, whatever is slender") {
  // Independent count: the rank of the members' compatibility conditions, without any stiffness.
  Random random(20);
  int moving = 0, held = 0;
  for (int trial = 0; trial < 400; ++trial) {
    const ModelBuilder f = random_frame(random);
    const int expected = expected_motions(f.model);
    const std::vector<bool> taut(f.model.bars.size(), false);
    const Mechanism found = find_mechanism(f.model, taut);
    INFO("trial " << trial);
    CHECK(static_cast<int>(found.motions.size()) == std::min(expected, 12));
    const StaticResult answer = solve_statics(f.model, {f.actions()});
    CHECK(answer.has_value() == (expected == 0));
    (expected == 0 ? held : moving) += 1;
  }
  CHECK(moving > 50);
  CHECK(held > 50);
}

TEST_CASE("the energy of a motion that strains nothing is the square of rounding") {
  Random random(21);
  for (int trial = 0; trial < 50; ++trial) {
    const ModelBuilder f = random_frame(random);
    Eigen::MatrixXd u(dof_count(f.model), 1);
    const Eigen::Vector3d turn(0.3, -0.7, 0.5), shift(1, 2, -3);
    for (size_t n = 0; n < f.model.nodes.size(); ++n) {
      u.block<3, 1>(6 * static_cast<Eigen::Index>(n), 0) = shift + turn.cross(f.model.nodes[n]);
      u.block<3, 1>(6 * static_cast<Eigen::Index>(n) + 3, 0) = turn;
    }
    const Model unit = with_unit_stiffness(f.model);
    CHECK(element_energies(unit, std::vector<bool>(unit.bars.size(), false), u)(0, 0) < 1e-25);
  }
}

TEST_CASE("the sum of the elements' energies is that of the assembled matrix") {
  Random random(22);
  for (int trial = 0; trial < 50; ++trial) {
    const Model unit = with_unit_stiffness(random_frame(random).model);
    const std::vector<bool> taut(unit.bars.size(), false);
    const Eigen::MatrixXd u = Eigen::MatrixXd::Random(dof_count(unit), 2);
    const Eigen::MatrixXd energy = element_energies(unit, taut, u);
    const double product = u.col(0).dot(apply_stiffness(unit, taut, u.col(1)));
    CHECK_THAT(energy(0, 1), WithinAbs(product, 1e-9 * (1 + energy.diagonal().sum())));
  }
}

TEST_CASE("a long chain of pieces is sound however finely it is divided") {
  ModelBuilder f;
  const int pieces = GENERATE(10, 100, 1000);
  const auto n = f.chain({0, 0, 0}, {2, 0, 0}, pieces, f.section(round_bar(0.02, 0.3), E, G));
  f.fix(n.front());
  CHECK(find_mechanism(f.model, {}).empty());
}

TEST_CASE("slender bars on too few supports are a mechanism of one turn") {
  // Five points up to 5 m apart; everything can turn about the vertical through `a`.
  for (const double d : {0.0005, 0.010, 0.1}) {
    ModelBuilder f;
    const int s = f.section(round_bar(d, 0.3), E, G);
    const int a = f.node(0, 0, 0), b = f.node(4, 0, 0), c = f.node(4, 4, 0), e4 = f.node(0, 4, 0),
              e = f.node(4, 0, 3);
    for (const auto& [i, j] : {std::pair{a, b}, {b, c}, {c, e4}, {e4, a}, {b, e}, {a, e}, {c, e}}) {
      f.beam(i, j, s);
    }
    f.model.bars.push_back({e4, e, 1000, false});
    f.hold(a, {x, y, z, rx});
    f.hold(b, {z});
    Actions load = f.actions();
    at(load, c, x) = 10;
    const StaticFailure failure = f.fail(load);
    CHECK(failure.why == StaticFailure::Why::mechanism);
    CHECK(failure.mechanism.motions.size() == 1);
    f.hold(e4, {x});
    if (d > 0.001) CHECK_NOTHROW(f.solve(load));
  }
}

}  // namespace tubewright::unit_stiffness_test
