// Wheels, balance and suspension in the summary, from a driving state filled in by hand.
#include "io/summary/vehicle_summary.h"

#include <limits>
#include <numbers>
#include <sstream>

#include "tests/catch.h"
#include "tests/io/results/hand_made_studies.h"

namespace tubewright::vehicle_summary_test {

namespace {

/// A vehicle on three wheels that brakes: friction 0.8, g = 10.
struct Driving {
  FrameStudies studies = hand_made_studies();
  Analysis& analysis = studies.analysis;
  CaseResult& result = analysis.cases[0];

  Driving() {
    Frame& f = analysis.frame;
    f.gravity = 10;
    f.vehicle = Vehicle{};
    for (const auto& [name, axle] : {std::pair{"front_left", Axle::front},
                                     {"front_right", Axle::front},
                                     {"rear", Axle::rear}}) {
      Wheel w;
      w.name = name;
      w.axle = axle;
      f.vehicle->wheels.push_back(w);
    }
    VehicleFacts facts;
    facts.standing = {250.4, 249.6, 300};
    facts.tipping = {8, 12, 5.5, std::numeric_limits<double>::infinity()};
    facts.braking = {6.5, Deceleration::Limit::nose_over};
    facts.friction = 0.8;
    analysis.vehicle = facts;
    DrivingState d;
    for (const double share : {0.3, 0.9, 0.0}) {
      TyreForce t;
      t.at_contact = {-400 * share, 0, 350};
      t.at_centre = {0, 0, 50};
      t.friction_used = share;
      d.wheels.push_back(t);
    }
    d.wheels[2] = TyreForce{};
    d.wheels[2].lifted = true;
    d.balance.acceleration = {-6, 0, 0};
    d.balance.restraint_force = 3e-11;
    result.driving = d;
  }

  std::string lines() const { return driving_lines(analysis, result, {}); }

  std::string line(const std::string& part) const {
    std::istringstream stream(lines());
    for (std::string line; std::getline(stream, line);) {
      if (line.find(part) != std::string::npos) return line;
    }
    return {};
  }
};

}  // namespace

TEST_CASE("a vehicle is told by how it stands, brakes and tips, in its own g") {
  Driving d;
  CHECK(vehicle_lines(d.analysis) ==
        "stands on     front_left 250 N, front_right 250 N, rear 300 N\n"
        "brakes reach  0.65 g on the level with friction 0.80; limit: nose-over: the rear wheels "
        "lift\n"
        "tips over at  braking 0.80 g, left turn 0.55 g, right turn never\n");
  d.analysis.vehicle.reset();
  CHECK(vehicle_lines(d.analysis).empty());
  CHECK(d.lines().empty());
}

TEST_CASE("each wheel has its forces, and says when it is off the ground or slides") {
  const Driving d;
  CHECK_THAT(d.line("front_left"), ContainsSubstring("-120.0 N"));
  CHECK_THAT(d.line("front_left"), ContainsSubstring("400.0 N"));  // contact and centre together
  CHECK_THAT(d.line("front_left"), ContainsSubstring("0.30"));
  CHECK_THAT(d.line("front_left"), !ContainsSubstring("slides"));
  CHECK(d.line("front_right").ends_with("slides: the tyre has 0.80"));
  CHECK(d.line("rear  ").ends_with("off the ground"));
  // The front axle as a whole: (120 + 360)/800.
  CHECK(d.line("axles need") ==
        "  axles need    friction 0.60 in front, 0.00 behind, and have 0.80");
}

TEST_CASE("the balance tells acceleration in g, turning in degrees and what the restraint takes") {
  Driving d;
  CHECK(d.line("accelerates") == "  accelerates   x -0.600, y 0.000, z 0.000 g");
  CHECK(d.line("turns faster").empty());
  CHECK(d.line("restraint") == "  restraint     takes 3e-11 N, must be nothing");
  d.result.driving->balance.angular = {0, std::numbers::pi / 18, 0};
  CHECK(d.line("turns faster") == "  turns faster  x 0.0, y 10.0, z 0.0 deg/s2");
  CHECK_THAT(d.lines(), !ContainsSubstring("turns over"));
  d.result.driving->tips = true;
  CHECK_THAT(d.lines(), ContainsSubstring("it turns over"));
}

TEST_CASE("links are listed by the size of their force, and the hardest pick-up is named") {
  Driving d;
  CHECK(d.line("links pull") == "  links pull    coil 15 N");  // the slack cable pulls nothing
  d.result.members[3].slack = false;
  d.result.members[3].N = -20;
  CHECK(d.line("links pull") == "  links pull    stay -20 N, coil 15 N");
  CHECK(d.line("pick-up").empty());
  d.result.pick_ups = {{1, {1, 0, 0}}, {3, {0, 30, -40}}};
  CHECK(d.line("pick-up") == "  pick-up       D takes most, 50 N (x 0, y 30, z -40)");
}

}  // namespace tubewright::vehicle_summary_test
