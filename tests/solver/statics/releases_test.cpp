// End releases and joint springs, by statics and by series springs.
#include <Eigen/Eigenvalues>

#include "solver/model/section_shapes.h"
#include "tests/solver/model_builder.h"

namespace tubewright::releases_test {

using namespace tubewright::test;

namespace {

constexpr double E = 210e9, G = 81e9, L = 0.8;
const Section tube = hollow_rectangle(0.025, 0.025, 0.002, cold_formed_corners(0.002), 0.3);

struct OneBeam : ModelBuilder {
  int a, b;

  OneBeam() {
    a = node(0, 0, 0);
    b = node(L, 0, 0);
    beam(a, b, section(tube, E, G));
    fix(a);
  }
};

}  // namespace

TEST_CASE("releasing both bending moments makes a built-in beam simply supported") {
  OneBeam f;
  f.fix(f.b);
  Beam& beam = f.model.beams[0];
  beam.connection_from[4] = beam.connection_from[5] = 0;
  beam.connection_to[4] = beam.connection_to[5] = 0;
  Actions a = f.actions();
  a.beams[0].line = {0, 0, -200};
  const StaticSolution s = f.solve(a);
  CHECK_THAT(section_forces(s.beams[0], 0).My, WithinAbs(0, 1e-9));
  CHECK_THAT(section_forces(s.beams[0], 0.5).My, WithinRel(-200 * L * L / 8, 1e-9));
  const double shear = 200 * L * L / (8 * G * tube.Az);
  CHECK_THAT(beam_displacement(s.beams[0], 0.5).displacement.z(),
             WithinRel(-5 * 200 * L * L * L * L / (384 * E * tube.Iy) - shear, 1e-9));
}

TEST_CASE("a turning spring at the root adds M / k to a cantilever's slope") {
  OneBeam f;
  const double k = 5000;
  f.model.beams[0].connection_from[4] = k;
  Actions a = f.actions();
  at(a, f.b, z) = -100;
  const StaticSolution s = f.solve(a);
  const double bending = 100 * L * L * L / (3 * E * tube.Iy) + 100 * L / (G * tube.Az);
  CHECK_THAT(moved(s, f.b, z), WithinRel(-bending - 100 * L * L / k, 1e-9));
  CHECK_THAT(s.beams[0].end_displacements[4], WithinRel(100 * L / k, 1e-9));
}

TEST_CASE("an axial spring at the end is in series with the tube") {
  OneBeam f;
  const double k = 2e6;
  f.model.beams[0].connection_to[0] = k;
  Actions a = f.actions();
  at(a, f.b, x) = 1000;
  CHECK_THAT(moved(f.solve(a), f.b, x), WithinRel(1000 * (L / (E * tube.A) + 1 / k), 1e-9));
}

TEST_CASE("a joint spring goes from released to welded as it stiffens") {
  double last = 1e9;
  for (const double k : {0.0, 10.0, 1e3, 1e5, 1e9, 1e15, rigid}) {
    OneBeam f;
    f.hold(f.b, {z});
    f.model.beams[0].connection_from[4] = k;
    Actions a = f.actions();
    a.beams[0].line = {0, 0, -200};
    const double middle = -beam_displacement(f.solve(a).beams[0], 0.5).displacement.z();
    CHECK(middle <= last * (1 + 1e-9));
    last = middle;
  }
}

TEST_CASE("an expansion slot (Fx released) carries no axial force") {
  OneBeam f;
  f.fix(f.b);
  f.model.beams[0].connection_to[0] = 0;
  Actions a = f.actions();
  a.prescribed[6 * f.b + x] = 0.003;
  const StaticSolution s = f.solve(a);
  CHECK_THAT(section_forces(s.beams[0], 0.3).N, WithinAbs(0, 1e-6));
}

TEST_CASE("releases that leave a member loose are named by direction") {
  const auto released = [](std::initializer_list<int> d) {
    EndConnection c = welded;
    for (const int i : d) c[i] = 0;
    return c;
  };
  CHECK(loose_direction(welded, welded) == -1);
  CHECK(loose_direction(released({3, 4, 5}), released({4, 5})) == -1);
  CHECK(loose_direction(released({0, 1, 2, 3, 4, 5}), welded) == -1);
  CHECK(loose_direction(released({0}), released({0})) == 0);
  CHECK(loose_direction(released({3}), released({3})) == 3);
  CHECK(loose_direction(released({1}), released({1})) == 1);
  CHECK(loose_direction(released({2, 4}), released({4})) == 2);
  CHECK(loose_direction(released({1, 5}), released({5})) == 1);
}

TEST_CASE("a release list is loose exactly when the released stiffness is singular") {
  OneBeam f;
  const BeamElement e = beam_element(f.model, f.model.beams[0]);
  const Matrix12 K = local_stiffness(e);
  for (int pattern = 0; pattern < 4096; ++pattern) {
    EndConnection from = welded, to = welded;
    std::vector<int> r;
    for (int i = 0; i < 12; ++i) {
      if ((pattern >> i & 1) == 0) continue;
      (i < 6 ? from[i] : to[i - 6]) = 0;
      r.push_back(i);
    }
    bool singular = false;
    if (!r.empty()) {
      const Eigen::MatrixXd K_rr = K(r, r);
      const Eigen::VectorXd scale = K_rr.diagonal().cwiseSqrt().cwiseInverse();
      const Eigen::MatrixXd unit = scale.asDiagonal() * K_rr * scale.asDiagonal();
      singular = Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(unit).eigenvalues()[0] < 1e-9;
    }
    INFO("pattern " << pattern);
    REQUIRE((loose_direction(from, to) >= 0) == singular);
  }
}

}  // namespace tubewright::releases_test
