// Pieces chosen case by case against Euler and against the same frames cut finely throughout.
#include "solver/stability/fine_buckling.h"

#include <cmath>
#include <numbers>
#include <random>

#include "tests/catch.h"
#include "tests/solver/model_builder.h"
#include "tests/truth.h"

namespace tubewright::fine_buckling_test {

using namespace tubewright::test;

namespace {

constexpr Source euler = rederived("Euler, pi2 E I/L2");
constexpr Source engesser =
    from_memory("Engesser's shear correction, P = P_E/(1 + P_E/(G A_s)), Timoshenko & Gere 2.17");
constexpr double pi = std::numbers::pi;
constexpr int most = 16;

/// A tube 30 x 30 x 2 in round figures, with shear or without.
Section tube(bool shear) {
  Section s = properties(2.2e-4, 2.9e-8, 2.9e-8, 4.4e-8);
  if (shear) s.Ay = s.Az = 1e-4;
  return s;
}

/// A pinned column of length L under 1 N.
FineBuckling column(double L, const Section& section) {
  ModelBuilder b;
  const int id = b.section(section, 210e9, 81e9);
  b.node(0, 0, 0);
  b.node(L, 0, 0);
  b.beam(0, 1, id);
  b.hold(0, {x, y, z, rx});
  b.hold(1, {y, z});
  Actions a = b.actions();
  a.nodal[6 + x] = -1;
  return fine_buckling(b.model, b.solve(a), 2, most);
}

/// A tower or a girder of `bays` boxes with diagonals, random in its corners, loads and tubes.
struct RandomFrame {
  Model model;
  Actions actions;
};

RandomFrame random_frame(std::mt19937& random, int bays) {
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  ModelBuilder b;
  std::vector<int> tubes = {b.section(tube(true), 210e9, 81e9),
                            b.section(properties(1e-4, 4e-9, 4e-9, 6e-9), 210e9, 81e9),
                            b.section(properties(6e-5, 5e-11, 2e-9, 2e-10), 210e9, 81e9)};
  const auto drawn = [&] { return tubes[static_cast<size_t>(between(0, 2.2))]; };
  for (int i = 0; i <= bays; ++i) {
    for (const auto& [py, pz] : {std::pair{0.0, 0.0}, {0.4, 0.0}, {0.4, 0.3}, {0.0, 0.3}}) {
      b.node(0.5 * i + between(-0.1, 0.1), py + between(-0.1, 0.1), pz + between(-0.1, 0.1));
    }
    for (int k = 0; k < 4; ++k) {
      b.beam(4 * i + k, 4 * i + (k + 1) % 4, drawn());
      if (i == 0) continue;
      const int leg = b.beam(4 * (i - 1) + k, 4 * i + k, drawn());
      if (between(0, 1) < 0.1) b.model.beams[static_cast<size_t>(leg)].connection_from[ry] = 0;
      if (between(0, 1) < 0.6) b.beam(4 * (i - 1) + k, 4 * i + (k + 1) % 4, drawn());
    }
  }
  for (int k = 0; k < 4; ++k) b.fix(k);
  Actions a = b.actions();
  for (int n = 4; n < 4 * (bays + 1); ++n) {
    for (const int d : {x, y, z}) a.nodal[6 * n + d] = between(-100, 100);
  }
  return {b.model, a};
}

StaticSolution solved(const RandomFrame& frame) {
  const StaticResult r = solve_statics(frame.model, {frame.actions});
  REQUIRE(r.has_value());
  return r->front();
}

}  // namespace

TEST_CASE("a pinned column buckles at Euler's load, cut into a few pieces", "[truth]") {
  const FineBuckling slender = column(2, tube(false));
  REQUIRE(slender.buckling.modes.size() >= 2);
  CHECK(slender.buckling.complete);
  const double P = pi * pi * 210e9 * 2.9e-8 / 4;
  truth("pinned column, pieces by need: first load, N", euler, slender.buckling.modes[0].factor,
        within_rel(P, 2e-3));
  CHECK(slender.fine.pieces.front().size() <= 8);
}

TEST_CASE("a short column that shears is cut finer, and comes out at Engesser's load", "[truth]") {
  const double P = pi * pi * 210e9 * 2.9e-8 / (0.2 * 0.2), GA = 81e9 * 1e-4;
  const FineBuckling stocky = column(0.2, tube(true));
  REQUIRE(!stocky.buckling.modes.empty());
  truth("short pinned column with shear: first load, N", engesser, stocky.buckling.modes[0].factor,
        within_rel(P / (1 + P / GA), 3e-3));
}

TEST_CASE("what hardly carries is one piece, and pieces grow with force, length and precision") {
  ModelBuilder b;
  const int id = b.section(tube(false), 210e9, 81e9);
  for (const double at : {0.0, 1.0, 2.0, 4.0}) b.node(at, 0, 0);
  for (int i = 0; i < 3; ++i) b.beam(i, i + 1, id);
  const AxialForces N{{-1e-3, -1e4, -1e4}, {}, {}, {}};
  const std::vector<int> rough = pieces_for_buckling(b.model, N, 2, 0.03, most);
  const std::vector<int> fine = pieces_for_buckling(b.model, N, 2, 0.001, most);
  CHECK(rough.front() == 1);
  CHECK(fine.front() == 1);
  CHECK(fine[1] > 1);
  CHECK(fine[1] % 2 == 0);
  for (size_t i = 0; i < 3; ++i) CHECK(rough[i] <= fine[i]);
  CHECK(fine[2] > fine[1]);
  CHECK(pieces_for_buckling(b.model, N, 1e12, 0.001, most) == std::vector<int>{most, most, most});
}

TEST_CASE("random frames: factors within 0.3 % of sixteen pieces a beam, and none missing") {
  std::mt19937 random(17);
  int compared = 0;
  size_t pieces = 0, beams = 0;
  for (int trial = 0; trial < 12; ++trial) {
    const RandomFrame frame = random_frame(random, 1 + trial % 3);
    const StaticSolution solution = solved(frame);
    constexpr int count = 4;
    const FineBuckling found = fine_buckling(frame.model, solution, count, most);
    const RefinedModel fine = refine(frame.model, most);
    const Buckling finest = linear_buckling(fine.model, refine_axial_forces(fine, solution), count);
    CHECK(found.buckling.complete);
    REQUIRE(finest.complete);
    REQUIRE(found.buckling.modes.size() == finest.modes.size());
    const double bound = clamped_factor(frame.model, axial_forces(solution), count);
    for (size_t k = 0; k < finest.modes.size(); ++k) {
      INFO("trial " << trial << ", factor " << k);
      CHECK_THAT(found.buckling.modes[k].factor, WithinRel(finest.modes[k].factor, 3e-3));
      CHECK(finest.modes[k].factor <= bound * (1 + 1e-9));
      ++compared;
    }
    pieces += found.fine.model.beams.size();
    beams += frame.model.beams.size();
  }
  CHECK(compared >= 40);
  CHECK(pieces < 5 * beams);
}

TEST_CASE("a frame without any force does not buckle, in few or many pieces") {
  std::mt19937 random(3);
  RandomFrame frame = random_frame(random, 1);
  frame.actions = no_actions(frame.model);
  CHECK(fine_buckling(frame.model, solved(frame), 3, most).buckling.modes.empty());
}

}  // namespace tubewright::fine_buckling_test
