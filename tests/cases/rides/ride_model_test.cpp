#include "cases/rides/ride_model.h"

#include "cases/analysis/analysis.h"
#include "cases/joint_stiffness/joint_springs.h"
#include "cases/rides/ride_channels.h"
#include "solver/dynamics/ride_start.h"
#include "tests/cases/rides/riders.h"
#include "tests/catch.h"

namespace tubewright::ride_model_test {

using namespace tubewright::testing;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

/// Of the standing vehicle: force coordinates, and what modes have beyond them.
Eigen::VectorXd at_rest(const RideModel& m) {
  const auto tyres = static_cast<Eigen::Index>(m.system.tyres.size());
  const auto standing = standing_ride(m.system, Eigen::VectorXd::Zero(tyres), false);
  REQUIRE(standing);
  const Eigen::Index forces = m.system.modes.rows(), elastic = m.static_answer.rows();
  Eigen::VectorXd x = Eigen::VectorXd::Zero(forces + elastic);
  for (Eigen::Index t = 0; t < tyres; ++t) {
    x[m.system.tyres[static_cast<size_t>(t)].vertical] = standing->tyre_forces[t];
  }
  x.tail(elastic) = standing->displacement.tail(elastic) - m.static_answer * x.head(forces);
  return x;
}

}  // namespace

TEST_CASE("a vehicle at rest stands and carries its weight as in the standing load case") {
  for (Frame f : {rider(), sprung_rider()}) {
    add_drive(f, "standing");
    const NumberedFrame numbered = jointed_model(f);
    const RideModel m = answer_of(ride_model(f, numbered));
    CHECK(m.rigid == 6);
    const Analysis analysis = answer_of(analyse(f));
    const CaseResult& standing = analysis.cases.front();
    for (size_t w = 0; w < m.standing.size(); ++w) {
      CHECK_THAT(m.standing[w], WithinRel(standing.driving->wheels[w].total().z(), 2e-3));
    }
    const Eigen::VectorXd x = at_rest(m);
    // Nothing vibrates: the modes have nothing beyond their static answer.
    CHECK(x.tail(m.static_answer.rows()).norm() < 1e-9 * x.norm());
    const RideChannels channels = answer_of(ride_channels(f, numbered, m));
    const Eigen::VectorXd forces = channels.forces * x;
    double greatest = 0;
    for (const BeamState& b : standing.solution.beams) {
      greatest = std::max(greatest, std::abs(section_forces(b, 0).My));
    }
    for (Eigen::Index b = 0; b < channels.beams; ++b) {
      const SectionForces s = section_forces(standing.solution.beams[static_cast<size_t>(b)], 0);
      // A tube's weight acts at the ends of its pieces: q l2/12 of one is missed.
      CHECK_THAT(forces[channels.row_of_beam(b, 0) + 4], WithinAbs(s.My, 0.02 * greatest));
    }
  }
}

TEST_CASE("loads of a ride are in balance") {
  const Frame f = sprung_rider();
  const RideModel m = answer_of(ride_model(f, jointed_model(f)));
  for (Eigen::Index k = 0; k < m.loads.cols(); ++k) {
    Eigen::Vector3d force = Eigen::Vector3d::Zero(), moment = force;
    double size = 0;
    for (size_t n = 0; n < m.fine.model.nodes.size(); ++n) {
      const auto at = dofs_per_node * static_cast<Eigen::Index>(n);
      const Eigen::Vector3d F = m.loads.col(k).segment<3>(at);
      force += F;
      moment += m.fine.model.nodes[n].cross(F) + m.loads.col(k).segment<3>(at + 3);
      size += F.norm();
    }
    INFO(k);
    CHECK(force.norm() < 1e-6 * size);
    CHECK(moment.norm() < 1e-6 * size);
  }
}

TEST_CASE("modes left out answer as if at rest: the sum of flexibilities does not depend on them") {
  const Frame f = sprung_rider();
  const NumberedFrame numbered = jointed_model(f);
  const auto flexibility = [&](const RideModes& modes) -> Eigen::MatrixXd {
    const RideModel m = answer_of(ride_model(f, numbered, modes));
    const Eigen::MatrixXd phi = m.system.modes.rightCols(m.static_answer.rows());
    return m.system.residual_flexibility + phi * m.static_answer;
  };
  const Eigen::MatrixXd few = flexibility({60, 6}), many = flexibility({250, 40});
  CHECK((few - many).norm() < 2e-3 * many.norm());
}

}  // namespace tubewright::ride_model_test
