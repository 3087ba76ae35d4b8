// How vehicles ride, against rigid bodies on springs and Rayleigh's law.
#include "cases/studies/suspension_modes.h"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "cases/model/mass_distribution.h"
#include "cases/studies/frame_modes.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::suspension_modes_test {

using namespace tubewright::testing;

namespace {

constexpr Source momentum = rederived("rigid bodies on springs, law of momentum");

constexpr double pi = std::numbers::pi;

FrameModes modes_of(const Frame& f, int count) { return answer_of(frame_modes(f, count)); }

MassProperties mass_of(const Frame& f) {
  const NumberedFrame n = build_model(f);
  return mass_properties(n.model, mass_distribution(f, n));
}

/// Frequencies of the vehicle as a rigid body on its tyres, Hz, ascending: M a = -K x by the law of
/// momentum about the centre of mass.
std::vector<double> rigid_on_tyres(const Frame& f) {
  const MassProperties body = mass_of(f);
  Eigen::Matrix<double, 6, 6> M = Eigen::Matrix<double, 6, 6>::Zero(), K = M;
  M.topLeftCorner<3, 3>().diagonal().setConstant(body.mass);
  M.bottomRightCorner<3, 3>() = body.inertia;
  for (const Wheel& w : f.vehicle->wheels) {
    const Eigen::Vector3d r = w.contact - body.centre;
    Eigen::Matrix<double, 6, 1> lift;
    lift << 0, 0, 1, r.y(), -r.x(), 0;
    K += *f.vehicle->tyre_rate * lift * lift.transpose();
  }
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::Matrix<double, 6, 6>> solver(K, M);
  std::vector<double> list;
  for (int k = 3; k < 6; ++k) list.push_back(std::sqrt(solver.eigenvalues()[k]) / (2 * pi));
  return list;
}

constexpr double k_tyre = 100e3, k_spring = 20e3;  // N/m

/// A heavy box on four corners: a hub of 10 kg on two level links, below an upright spring.
Frame sprung_box() {
  Frame f = box_vehicle();
  f.sections.front().height = f.sections.front().width = 0.060;
  f.sections.front().wall = 0.004;
  f.masses.front().mass = 1000;
  f.masses.front().at.x() = -0.6;
  f.vehicle->wheels.clear();
  for (const auto& [end, other, x] : {std::tuple{"f", "r", 0.0}, {"r", "f", -1.2}}) {
    for (const auto& [side, y] : {std::pair{"l", 0.6}, {"r", -0.6}}) {
      const std::string here = std::string(end) + side, there = std::string(other) + side;
      add_node(f, here + "_hub", x, y, 0.2);
      add_node(f, here + "_tower", x, y, 0.5);
      add_member(f, here + "_stay_0", here + "0", here + "_tower");
      add_member(f, here + "_stay_1", here + "1", here + "_tower");
      add_member(f, here + "_stay_2", there + "1", here + "_tower");
      add_member(f, here + "_link_0", here + "0", here + "_hub").kind = MemberKind::link;
      add_member(f, here + "_link_1", there + "0", here + "_hub").kind = MemberKind::link;
      Member& spring = add_member(f, here + "_spring", here + "_hub", here + "_tower");
      spring.kind = MemberKind::spring;
      spring.section.clear();
      spring.rate = k_spring;
      add_mass(f, here + "_wheel", 10, {x, y, 0.2}, {here + "_hub"});
      add_wheel(f, here, {x, y, 0}, 0.2, {here + "_hub"}, x < 0 ? Axle::rear : Axle::front);
    }
  }
  return f;
}

std::vector<double> frequencies(const std::vector<FrameMode>& modes, const std::string& words) {
  std::vector<double> list;
  for (const FrameMode& m : modes) {
    if (m.words.starts_with(words)) list.push_back(m.frequency);
  }
  return list;
}

}  // namespace

TEST_CASE("a stiff vehicle on soft tyres bounces, pitches and rolls as a rigid body does",
          "[truth]") {
  Frame f = box_vehicle();
  f.masses.front().at.x() = -0.6;  // the centre of mass amid the wheels
  f.vehicle->tyre_rate = 200;      // N/m: the frame is as good as rigid against it
  const FrameModes m = modes_of(f, 6);
  CHECK(m.on_tyres);
  CHECK(m.complete);
  CHECK(std::count_if(m.modes.begin(), m.modes.end(), [](const auto& x) { return x.rigid; }) == 3);
  const std::vector<double> wanted = rigid_on_tyres(f);
  REQUIRE(m.modes.size() == 9);
  for (size_t k = 0; k < 3; ++k) {
    truth(named("rigid vehicle on tyres: mode ", k + 1, ", Hz"), momentum, m.modes[3 + k].frequency,
          within_rel(wanted[k], 1e-3));
    CHECK(m.modes[3 + k].share > 0.99);
    CHECK_FALSE(m.modes[3 + k].frame_only);
  }
  const auto bounce = frequencies(m.modes, "body bounce");
  REQUIRE(bounce.size() == 1);
  CHECK_THAT(bounce.front(), WithinRel(std::sqrt(4 * 200 / mass_of(f).mass) / (2 * pi), 1e-3));
  CHECK(frequencies(m.modes, "body pitch").size() == 1);
  CHECK(frequencies(m.modes, "body roll").size() == 1);
  CHECK(frequencies(m.modes, "wheel hop").empty());
}

TEST_CASE("without a suspension the frame's own modes are what they are without tyres") {
  Frame f = box_vehicle();
  const FrameModes before = modes_of(f, 8);
  CHECK(before.own.empty());
  CHECK_FALSE(before.on_tyres);
  for (const FrameMode& m : before.modes) CHECK(m.frame_only == !m.rigid);
  f.vehicle->tyre_rate = 120e3;
  const FrameModes after = modes_of(f, 8);
  REQUIRE(!after.own.empty());
  REQUIRE(lowest_elastic(after) == &after.own.front());
  CHECK_THAT(lowest_elastic(after)->frequency, WithinRel(lowest_elastic(before)->frequency, 1e-9));
  for (const FrameMode& m : after.own) CHECK(m.words.starts_with("frame's own first"));
  f.limits.frequency = 0.999 * after.own.front().frequency;
  CHECK(modes_pass(f, after));
  f.limits.frequency = 1.001 * after.own.front().frequency;
  CHECK_FALSE(modes_pass(f, after));
  f.supports.push_back({"fl0", {true, true, true, true, true, true}, {}, {}});
  CHECK_FALSE(modes_of(f, 2).on_tyres);
}

TEST_CASE("a wheel hops between tyre and spring, the body rides on both in series", "[truth]") {
  Frame f = sprung_box();
  f.vehicle->tyre_rate = k_tyre;
  const FrameModes m = modes_of(f, 12);
  const NumberedFrame n = build_model(f);
  const double unsprung = nodal_masses(n.model, mass_distribution(f, n))[8];
  REQUIRE(f.nodes[8].name == "fl_hub");
  const auto hops = frequencies(m.modes, "wheel hop, ");
  REQUIRE(hops.size() == 4);
  for (const double hop : hops) {
    CHECK_THAT(hop, WithinRel(std::sqrt((k_tyre + k_spring) / unsprung) / (2 * pi), 0.01));
  }
  const auto bounce = frequencies(m.modes, "body bounce");
  REQUIRE(bounce.size() == 1);
  const double series = 1 / (1 / k_tyre + 1 / k_spring), body = mass_of(f).mass - 4 * unsprung;
  truth("sprung box: bounce, Hz", momentum, bounce.front(),
        within_rel(std::sqrt(4 * series / body) / (2 * pi), 0.01));
  CHECK(frequencies(m.modes, "body pitch").size() == 1);
  CHECK(frequencies(m.modes, "body roll").size() == 1);
  REQUIRE(lowest_elastic(m) != nullptr);
  CHECK(lowest_elastic(m)->frame_only);
  CHECK(lowest_elastic(m)->frequency > hops.back());
}

TEST_CASE("locking the springs lowers no frequency") {  // Rayleigh
  const Frame f = sprung_box();
  const NumberedFrame n = build_model(f);
  const std::vector<AddedMass> added = added_masses(n.model, mass_distribution(f, n));
  const auto sprung = natural_modes(n.model, added, 20);
  const auto locked = natural_modes(with_locked_springs(f, n, n.model), added, 20);
  REQUIRE(sprung);
  REQUIRE(locked);
  REQUIRE(sprung->modes.size() == locked->modes.size());
  for (size_t k = 0; k < sprung->modes.size(); ++k) {
    CHECK(locked->modes[k].frequency >= sprung->modes[k].frequency * (1 - 1e-6));
  }
  CHECK(locked->modes[6].frequency > 2 * sprung->modes[6].frequency);
}

}  // namespace tubewright::suspension_modes_test
