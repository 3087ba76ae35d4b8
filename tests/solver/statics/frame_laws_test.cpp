// Laws that every linear frame obeys, whatever its shape: equilibrium, reciprocity, energy,
// invariance under rigid motion and under a change of units, the patch test.
#include <Eigen/Geometry>
#include <random>

#include "solver/model/section_shapes.h"
#include "tests/solver/model_builder.h"

namespace tubewright::frame_laws_test {

using namespace tubewright::test;

namespace {

/// A random tetrahedral lattice with rolls, releases, joint springs, links, loads of every kind.
struct RandomFrame : ModelBuilder {
  Actions loads;

  RandomFrame(unsigned seed, const Eigen::Matrix3d& turn, const Eigen::Vector3d& shift,
              double metre = 1, double newton = 1) {
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> u(-1, 1);
    const auto vector = [&](double size) {
      return Eigen::Vector3d(size * u(random), size * u(random), size * u(random));
    };
    for (int i = 0; i < 12; ++i) {
      const int layer = i / 4, row = i / 2 % 2;
      const Eigen::Vector3d p = Eigen::Vector3d(layer, row, i % 2) + vector(0.2);
      model.nodes.emplace_back(metre * (turn * p + shift));
    }
    const double Pa = newton / (metre * metre);
    const int tube =
        section(scaled(hollow_rectangle(0.05, 0.03, 0.002, cold_formed_corners(0.002), 0.3), metre),
                210e9 * Pa, 81e9 * Pa);
    const int bar_section = section(scaled(round_bar(0.012, 0.3), metre), 210e9 * Pa, 81e9 * Pa);
    // Local axes turn with the frame only if the reference direction does: find the roll that does
    // it.
    const auto add = [&](int a, int c, int s, double roll) {
      const Eigen::Matrix3d now = member_axes(model.nodes[a], model.nodes[c], 0);
      const Eigen::Matrix3d before =
          member_axes(turn.transpose() * model.nodes[a], turn.transpose() * model.nodes[c], roll);
      const Eigen::Vector3d y = turn * before.row(1).transpose();
      return beam(a, c, s, std::atan2(now.row(2).dot(y), now.row(1).dot(y)));
    };
    for (int i = 0; i < 12; ++i) {
      for (int j = i + 1; j < std::min(12, i + 6); ++j) {
        const double choice = u(random);
        if (choice < -0.6) continue;
        if (choice < -0.45) {
          model.bars.push_back({i, j, 2e6 * newton / metre, false});
          continue;
        }
        const int m = add(i, j, choice < 0.5 ? tube : bar_section, 3 * u(random));
        if (choice > 0.7) model.beams[m].connection_from = {rigid, rigid, rigid, rigid, 0, 0};
        if (choice > 0.8)
          model.beams[m].connection_to = {rigid, rigid, rigid, rigid, 0, 300 * newton * metre};
        if (choice > 0.9) model.beams[m].connection_to[1] = 1e5 * newton / metre;
      }
    }
    for (const int n : {0, 1, 2}) fix(n);
    loads = actions();
    for (int i = 3; i < 12; ++i) {
      loads.nodal.segment<3>(6 * i) = newton * (turn * vector(100));
      loads.nodal.segment<3>(6 * i + 3) = newton * metre * (turn * vector(20));
    }
    for (BeamActions& b : loads.beams) {
      b.line = newton / metre * (turn * vector(50));
      b.points.push_back({0.5 + 0.5 * u(random), newton * (turn * vector(80)),
                          newton * metre * (turn * vector(5))});
    }
  }

  static Section scaled(Section s, double metre) {
    const double m2 = metre * metre;
    s.A *= m2;
    s.Ay *= m2;
    s.Az *= m2;
    for (double* I : {&s.Iy, &s.Iz, &s.It}) *I *= m2 * m2;
    for (double* W : {&s.Wy, &s.Wz, &s.Wt, &s.Wply, &s.Wplz}) *W *= m2 * metre;
    return s;
  }
};

const Eigen::Matrix3d no_turn = Eigen::Matrix3d::Identity();
const Eigen::Vector3d no_shift = Eigen::Vector3d::Zero();

Eigen::VectorXd turned(const Eigen::VectorXd& v, const Eigen::Matrix3d& R) {
  Eigen::VectorXd w(v.size());
  for (Eigen::Index i = 0; i < v.size(); i += 3) w.segment<3>(i) = R * v.segment<3>(i);
  return w;
}

}  // namespace

TEST_CASE("every joint and the whole frame are in equilibrium") {
  const unsigned seed = GENERATE(range(1u, 21u));
  const RandomFrame f(seed, no_turn, no_shift);
  const StaticSolution s = f.solve(f.loads);
  INFO("seed " << seed);
  CHECK(s.residual.force < 1e-9);
  CHECK(s.residual.moment < 1e-9);
  CHECK(s.equilibrium.force < 1e-9);
  CHECK(s.equilibrium.moment < 1e-9);
}

TEST_CASE("both ends of every beam are in equilibrium with its loads") {
  const RandomFrame f(7, no_turn, no_shift);
  const StaticSolution s = f.solve(f.loads);
  for (const BeamState& b : s.beams) {
    const SectionForces end = section_forces(b, 1);
    const Vector12& F = b.end_forces;
    const double size = F.norm();
    CHECK_THAT(end.N, WithinAbs(F[6], 1e-9 * size));
    CHECK_THAT(end.Vy, WithinAbs(F[7], 1e-9 * size));
    CHECK_THAT(end.Vz, WithinAbs(F[8], 1e-9 * size));
    CHECK_THAT(end.T, WithinAbs(F[9], 1e-9 * size));
    CHECK_THAT(end.My, WithinAbs(F[10], 1e-9 * size));
    CHECK_THAT(end.Mz, WithinAbs(F[11], 1e-9 * size));
  }
}

TEST_CASE("the displacement field of every beam ends where its far end is") {
  const RandomFrame f(11, no_turn, no_shift);
  const StaticSolution s = f.solve(f.loads);
  const double size = s.displacements.lpNorm<Eigen::Infinity>();
  for (const BeamState& b : s.beams) {
    const BeamDisplacement end = beam_displacement(b, 1);
    const Eigen::Matrix3d to_global = b.element.axes.transpose();
    CHECK((end.displacement - to_global * b.end_displacements.segment<3>(6)).norm() < 1e-8 * size);
    CHECK((end.rotation - to_global * b.end_displacements.segment<3>(9)).norm() < 1e-8 * size);
  }
}

TEST_CASE("work of one load case on another's displacements is the same both ways (Betti)") {
  const RandomFrame f(3, no_turn, no_shift);
  Actions a = f.actions(), b = f.actions();
  a.nodal.segment<6>(6 * 5) << 10, -20, 30, 4, 5, -6;
  b.nodal.segment<6>(6 * 9) << -7, 80, 9, 1, 2, 3;
  const StaticSolution ra = f.solve(a), rb = f.solve(b);
  CHECK_THAT(a.nodal.dot(rb.displacements), WithinRel(b.nodal.dot(ra.displacements), 1e-9));
}

TEST_CASE("turning and shifting the whole frame turns its answer") {
  const unsigned seed = GENERATE(1u, 2u, 3u, 4u, 5u);
  std::mt19937 random(100 + seed);
  std::normal_distribution<double> g;
  const Eigen::Matrix3d R = Eigen::Quaterniond(g(random), g(random), g(random), g(random))
                                .normalized()
                                .toRotationMatrix();
  const RandomFrame plain(seed, no_turn, no_shift), moved_frame(seed, R, {3, -5, 7});
  const StaticSolution a = plain.solve(plain.loads), b = moved_frame.solve(moved_frame.loads);
  CHECK((turned(a.displacements, R) - b.displacements).norm() < 1e-8 * a.displacements.norm());
  CHECK((turned(a.reactions, R) - b.reactions).norm() < 1e-8 * a.reactions.norm());
  for (size_t i = 0; i < a.beams.size(); ++i) {
    CHECK((a.beams[i].end_forces - b.beams[i].end_forces).norm() < 1e-7 * a.reactions.norm());
  }
}

TEST_CASE("millimetres and kilonewtons give the same answer as metres and newtons") {
  const unsigned seed = GENERATE(1u, 2u, 3u);
  const double metre = 1000, newton = 1e-3;
  const RandomFrame si(seed, no_turn, no_shift), other(seed, no_turn, no_shift, metre, newton);
  const StaticSolution a = si.solve(si.loads), b = other.solve(other.loads);
  double worst = 0;
  const double size = a.displacements.lpNorm<Eigen::Infinity>();
  for (Eigen::Index n = 0; n < a.displacements.size(); n += 6) {
    worst = std::max(
        worst, (a.displacements.segment<3>(n) - b.displacements.segment<3>(n) / metre).norm());
    worst = std::max(
        worst, (a.displacements.segment<3>(n + 3) - b.displacements.segment<3>(n + 3)).norm());
  }
  CHECK(worst < 1e-9 * size);
}

// Patch test: displacements prescribed on the outside by a linear field u = H x (uniform stretch
// along a straight chain; a rigid motion of a lattice) must be met inside.
TEST_CASE("a uniform stretch and a rigid motion pass through any division of a frame") {
  ModelBuilder b;
  const int s =
      b.section(hollow_rectangle(0.03, 0.03, 0.002, cold_formed_corners(0.002), 0.3), 210e9, 81e9);
  std::vector<int> n;
  for (const double p : {0.0, 0.13, 0.5, 0.61, 1.0}) n.push_back(b.node(p, 2 * p, -p));
  for (int i = 0; i < 4; ++i) b.beam(n[i], n[i + 1], s, 0.3 * i);
  b.fix(n.front());
  b.fix(n.back());
  Actions a = b.actions();
  a.prescribed.segment<3>(6 * n.back()) = 1e-3 * b.model.nodes[n.back()];
  const StaticSolution r = b.solve(a);
  for (const int i : n) {
    CHECK((r.displacements.segment<3>(6 * i) - 1e-3 * b.model.nodes[i]).norm() < 1e-12);
  }
  for (const BeamState& beam : r.beams) {
    CHECK_THAT(section_forces(beam, 0.5).N, WithinRel(210e9 * beam.element.section.A * 1e-3, 1e-9));
  }

  RandomFrame f(5, no_turn, no_shift);
  const Eigen::Vector3d w(1e-3, -2e-3, 3e-3), t(0.01, 0.02, -0.01);
  Actions rigid_motion = f.actions();
  for (const int i : {0, 1, 2}) {
    rigid_motion.prescribed.segment<3>(6 * i) = t + w.cross(f.model.nodes[i]);
    rigid_motion.prescribed.segment<3>(6 * i + 3) = w;
  }
  const StaticSolution q = f.solve(rigid_motion);
  for (size_t i = 0; i < f.model.nodes.size(); ++i) {
    CHECK((q.displacements.segment<3>(6 * i) - t - w.cross(f.model.nodes[i])).norm() < 1e-10);
  }
  CHECK(q.reactions.norm() < 1e-4);  // against 1e7 N/m of tube stiffness
}

TEST_CASE("the work of the loads equals twice the strain energy (Clapeyron)") {
  ModelBuilder b;
  const Section tube = hollow_rectangle(0.03, 0.03, 0.002, cold_formed_corners(0.002), 0.3);
  const int s = b.section(tube, 210e9, 81e9);
  const int root = b.node(0, 0, 0), knee = b.node(0.7, 0, 0.1), tip = b.node(0.7, 0.5, 0);
  b.beam(root, knee, s);
  b.beam(knee, tip, s);
  b.fix(root);
  Actions a = b.actions();
  a.nodal.segment<6>(6 * tip) << 50, 20, -300, 7, -5, 9;
  const StaticSolution r = b.solve(a);
  double energy = 0;
  for (const BeamState& beam : r.beams) {  // Simpson is exact: forces are linear between nodes
    const double L = beam.element.L;
    for (const auto& [where, weight] : {std::pair{0.0, 1.0}, {0.5, 4.0}, {1.0, 1.0}}) {
      const SectionForces f = section_forces(beam, where);
      energy += weight * L / 12 *
                (f.N * f.N / (210e9 * tube.A) + f.My * f.My / (210e9 * tube.Iy) +
                 f.Mz * f.Mz / (210e9 * tube.Iz) + f.T * f.T / (81e9 * tube.It) +
                 f.Vy * f.Vy / (81e9 * tube.Ay) + f.Vz * f.Vz / (81e9 * tube.Az));
    }
  }
  CHECK_THAT(a.nodal.dot(r.displacements) / 2, WithinRel(energy, 1e-10));
}

}  // namespace tubewright::frame_laws_test
