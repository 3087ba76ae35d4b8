#include "cases/rides/ride_channels.h"

#include <cmath>
#include <random>

#include "cases/joint_stiffness/joint_springs.h"
#include "cases/verdict/fatigue_life.h"
#include "solver/statics/statics.h"
#include "tests/cases/rides/riders.h"
#include "tests/catch.h"

namespace tubewright::ride_channels_test {

using namespace tubewright::testing;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

struct Rig {
  Frame frame;
  NumberedFrame numbered;
  RideModel model;
  RideChannels channels;

  explicit Rig(Frame f)
      : frame(std::move(f)),
        numbered(jointed_model(frame)),
        model(answer_of(ride_model(frame, numbered))),
        channels(answer_of(ride_channels(frame, numbered, model))) {}
};

Eigen::MatrixXd random_x(const RideModel& model, Eigen::Index count) {
  std::mt19937 random(18);
  std::normal_distribution<double> normal;
  Eigen::MatrixXd x(model.loads.cols(), count);
  for (Eigen::Index k = 0; k < x.size(); ++k) x(k) = normal(random);
  // Modal parts are small beside newtons of force.
  x.bottomRows(model.static_answer.rows()) *= 1e-4;
  return x;
}

}  // namespace

TEST_CASE("channels give what solving the loads of an instant gives") {
  const Rig rig(sprung_rider());
  const Eigen::MatrixXd x = random_x(rig.model, 3);
  for (Eigen::Index k = 0; k < x.cols(); ++k) {
    const StaticResult solved =
        solve_statics(rig.model.vehicle.model, {ride_actions(rig.model, x.col(k))});
    REQUIRE(solved);
    const StaticSolution& s = solved->front();
    const Eigen::VectorXd forces = rig.channels.forces * x.col(k);
    for (Eigen::Index b = 0; b < rig.channels.beams; ++b) {
      const SectionForces end = section_forces(s.beams[static_cast<size_t>(b)], 1, true);
      CHECK_THAT(forces[rig.channels.row_of_beam(b, 1)], WithinAbs(end.N, 1e-6));
      CHECK_THAT(forces[rig.channels.row_of_beam(b, 1) + 5], WithinAbs(end.Mz, 1e-6));
    }
    for (Eigen::Index b = 0; b < rig.channels.bars; ++b) {
      CHECK_THAT(forces[rig.channels.row_of_bar(b)],
                 WithinAbs(s.bar_forces[static_cast<size_t>(b)], 1e-6));
    }
  }
}

TEST_CASE("a cable counts as taut: the forces are those with a link in its place") {
  Frame f = sprung_rider();
  f.members.push_back(f.members.back());
  f.members.back().name = "stay";
  f.members.back().from = "fl1";
  f.members.back().to = "rr1";
  const Rig link(f);
  f.members.back().kind = MemberKind::cable;
  const Rig cable(f);
  CHECK((cable.channels.forces - link.channels.forces).norm() < 1e-9 * link.channels.forces.norm());
  const Eigen::MatrixXd &taut = cable.model.give, &stiff = link.model.give;
  const Eigen::Index forces = link.model.system.modes.rows();
  CHECK((taut.leftCols(forces) - stiff.leftCols(forces)).norm() <
        1e-6 * stiff.leftCols(forces).norm());
}

TEST_CASE("in the instants kept every tube has at least 99.5 % of its greatest stress") {
  const Rig rig(sprung_rider());
  const Eigen::MatrixXd x = random_x(rig.model, 200);
  const Eigen::MatrixXd forces = x.transpose() * rig.channels.forces.transpose();
  HardestInstants hardest(rig.model.vehicle.model, rig.channels);
  hardest.add(0, 2, x.leftCols(120), forces.topRows(120));
  hardest.add(240, 2, x.rightCols(80), forces.bottomRows(80));
  const std::vector<RideInstant> kept = hardest.covering(0.995);
  REQUIRE_FALSE(kept.empty());
  CHECK(kept.size() < 100);
  for (const RideInstant& instant : kept) CHECK(instant.x == x.col(instant.step / 2));
  const auto greatest_axial = [&](Eigen::Index bar) {
    return forces.col(rig.channels.row_of_bar(bar)).cwiseMax(0).maxCoeff();
  };
  for (Eigen::Index bar = 0; bar < rig.channels.bars; ++bar) {
    double found = 0;
    for (const RideInstant& instant : kept) {
      found = std::max(found, (rig.channels.forces * instant.x)[rig.channels.row_of_bar(bar)]);
    }
    CHECK(found >= 0.995 * greatest_axial(bar));
  }
}

TEST_CASE("cycles at an end are Miner's sum of its stress ranges") {
  // One force swings between 0 and 1 in one tube's end: 10 cycles of a range of w, repeated.
  const Rig rig(rider());
  const double category = 36e6, gamma = 1.35;
  EndWeights end;
  end.direct = {100e6, 0, 0};
  const std::vector<EndWeights> ends = {end};
  EndCycles cycles(ends, category, gamma);
  Eigen::MatrixXd forces = Eigen::MatrixXd::Zero(21, rig.channels.forces.rows());
  for (Eigen::Index k = 0; k < 21; ++k) forces(k, rig.channels.row_of_beam(0, 0)) = k % 2;
  cycles.add(rig.channels, forces);
  const double expected = miner_sum({{100e6, 10}}, category / gamma, FatigueCurve::direct_stress);
  REQUIRE(cycles.damage().size() == 1);
  CHECK_THAT(cycles.damage().front(), WithinRel(expected, 1e-9));
}

TEST_CASE("bending about both axes adds up in one of the corners") {
  const Rig rig(rider());
  EndWeights end;
  end.direct = {0, 1, 1};
  for (const double sign : {1.0, -1.0}) {
    EndCycles cycles({end}, 36e6, 1);
    Eigen::MatrixXd forces = Eigen::MatrixXd::Zero(3, rig.channels.forces.rows());
    forces(1, rig.channels.row_of_beam(0, 0) + 4) = 50e6;
    forces(1, rig.channels.row_of_beam(0, 0) + 5) = sign * 40e6;
    cycles.add(rig.channels, forces);
    CHECK_THAT(cycles.damage().front(),
               WithinRel(miner_sum({{90e6, 1}}, 36e6, FatigueCurve::direct_stress), 1e-9));
  }
}

}  // namespace tubewright::ride_channels_test
