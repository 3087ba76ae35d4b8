// The default load cases against what tyres and tipping allow, and as one set for left and right.
#include "cases/vehicle/standard_cases.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "cases/validate/validate.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::standard_cases_test {

namespace {

constexpr Source hub_loads = seen_in(
    "off-road cycling, J. Biomech. Eng. 1999 (abstract): hub loads of 3 to 5 times body weight");
constexpr Source brown = seen_in(
    "Brown, Robertson & Serpento, Motor Vehicle Structures (2002), pp. 22, 24, after Garrett "
    "(1953)");
constexpr Source lecture = seen_in(
    "lecture notes after Brown, Robertson & Serpento (2002): one wheel on uneven roads, cars");
constexpr Source practice = common_practice("share of the tipping limit that a turn goes to");

}  // namespace

using testing::box_vehicle;
using testing::text_of;

namespace {

VehicleFacts facts_of(const Frame& f) {
  const auto facts = vehicle_facts(f, build_model(f));
  REQUIRE(facts.has_value());
  return *facts;
}

std::vector<Case> cases_of(const Frame& f) { return standard_cases(f, facts_of(f)); }

std::set<std::string> names(const std::vector<Case>& cases) {
  std::set<std::string> list;
  for (const Case& c : cases) list.insert(c.name);
  CHECK(list.size() == cases.size());
  return list;
}

const Case& named(const std::vector<Case>& cases, const std::string& name) {
  const auto found =
      std::find_if(cases.begin(), cases.end(), [&](const Case& c) { return c.name == name; });
  INFO(name);
  REQUIRE(found != cases.end());
  return *found;
}

/// The box with its driver off the middle.
Frame lopsided(double y) {
  Frame f = box_vehicle();
  f.masses[0].at.y() = y;
  return f;
}

struct Grip {
  double friction = 0;  ///< that the tyre nearest to sliding needs
  bool tips = false;
};

Grip grip(const Frame& f, const Case& c) {
  const VehicleFacts facts = facts_of(f);
  Grip g;
  const TyreForces forces = tyre_forces(f, facts.rigid, c, facts.standing, 0);
  for (const TyreForce& t : forces.wheels) g.friction = std::max(g.friction, t.friction_used);
  g.tips = forces.tips;
  return g;
}

}  // namespace

TEST_CASE("standard_cases meet four wheels with each event at each wheel, axle and side") {
  Frame f = box_vehicle();
  const std::vector<Case> cases = cases_of(f);
  CHECK(names(cases) ==
        std::set<std::string>{"standing", "braking", "braking_left_turn", "braking_right_turn",
                              "left_turn", "right_turn", "bump_front_left", "bump_front_right",
                              "bump_rear_left", "bump_rear_right", "bump_front_axle",
                              "bump_rear_axle", "step_front_left", "step_front_right", "nudge_left",
                              "nudge_right", "twist_front_left", "twist_front_right"});
  for (const Case& c : cases) {
    CHECK(c.kind == CaseKind::vehicle);
    CHECK_FALSE(c.note.empty());
    CHECK(c.rare == (c.step.has_value() || c.nudge.has_value()));
  }
  f.cases = cases;
  CHECK(text_of(validate(f)).empty());
}

TEST_CASE("standard_cases have the factors of their sources", "[truth]") {
  const Frame f = box_vehicle();
  const std::vector<Case> cases = cases_of(f);
  truth("bump without springs: factor on the static load", hub_loads,
        named(cases, "bump_front_left").bump.at(0).factor, within_abs(5, 0));
  truth("step: dynamic factor", brown, named(cases, "step_front_left").step->factor,
        within_abs(4.5, 0));
  truth("kerb nudge: factor", brown, named(cases, "nudge_left").nudge->factor, within_abs(1.75, 0));
  truth("wheel in the air: factor on the static load", lecture,
        named(cases, "twist_front_left").vertical, within_abs(1.3, 0));
  const VehicleFacts facts = facts_of(f);
  truth("turn without a limit by grip: share of the tipping limit", practice,
        named(cases, "left_turn").corner * f.gravity / facts.tipping.left_turn,
        within_rel(0.95, 1e-9));
}

TEST_CASE("standard_cases of a three-wheeler twist no wheel, and without brakes none brakes") {
  Frame f = box_vehicle();
  std::vector<Wheel>& wheels = f.vehicle->wheels;
  wheels.erase(wheels.begin() + 1);
  wheels[0].name = "front";
  wheels[0].contact.y() = wheels[0].centre.y() = 0;
  for (Wheel& w : wheels) w.brake = WheelBrake::none;
  CHECK(names(cases_of(f)) == std::set<std::string>{"standing", "left_turn", "right_turn",
                                                    "bump_front", "bump_rear_left",
                                                    "bump_rear_right", "bump_rear_axle",
                                                    "step_front", "nudge_left", "nudge_right"});
}

// Tyres slide at mu N; a vehicle that turns harder than t/(2 h) goes over (any handbook).
TEST_CASE("standard_cases turn as hard as tyres or tipping allow, each side for itself") {
  Frame f = lopsided(0.05);
  const std::vector<Case> cases = cases_of(f);
  const double left = named(cases, "left_turn").corner, right = named(cases, "right_turn").corner;
  const Eigen::Vector3d centre = facts_of(f).mass.centre;
  CHECK_THAT(left, WithinRel(0.95 * (0.4 + centre.y()) / centre.z(), 1e-9));
  CHECK_THAT(right, WithinRel(-0.95 * (0.4 - centre.y()) / centre.z(), 1e-9));
  for (const char* name : {"left_turn", "right_turn"}) {
    Case c = named(cases, name);
    CHECK_FALSE(grip(f, c).tips);
    c.corner *= 1.01 / 0.95;
    CHECK(grip(f, c).tips);
  }
  f.vehicle->friction = 0.3;
  CHECK(named(cases_of(f), "left_turn").corner == 0.3);
  CHECK(named(cases_of(f), "right_turn").corner == -0.3);
}

TEST_CASE("standard_cases brake as hard as the tyres allow, no harder") {
  Frame f = box_vehicle();
  for (const double friction : {0.3, 0.5}) {
    for (const WheelBrake rear : {WheelBrake::outboard, WheelBrake::none}) {
      f.vehicle->friction = friction;
      f.vehicle->wheels[2].brake = f.vehicle->wheels[3].brake = rear;
      Case c = named(cases_of(f), "braking");
      CHECK_THAT(grip(f, c).friction, WithinRel(friction, 1e-9));
      c.brake *= 1.01;
      CHECK(grip(f, c).friction > friction);
    }
  }
}

TEST_CASE(
    "standard_cases brake downhill in a turn without sliding, at the usual share if they can") {
  for (const double share : {0.5, 0.7, 1.0}) {
    Frame f = lopsided(0.03);
    f.vehicle->friction = 0.5;
    f.vehicle->standard.combined = share;
    const std::vector<Case> cases = cases_of(f);
    for (const auto& [name, turn] :
         {std::pair{"braking_left_turn", "left_turn"}, {"braking_right_turn", "right_turn"}}) {
      Case c = named(cases, name);
      CHECK(c.grade == 0.10);
      CHECK(grip(f, c).friction <= 0.5);
      const double reached = c.corner / named(cases, turn).corner;
      CHECK(reached <= share * (1 + 1e-12));
      if (reached > 0.999 * share) continue;
      c.brake /= 0.97;  // a little harder and a tyre slides
      c.corner /= 0.97;
      CHECK(grip(f, c).friction > 0.5);
    }
  }
}

TEST_CASE("standard_cases of a mirrored vehicle are the mirrored cases") {
  const std::vector<Case> cases = cases_of(lopsided(0.04)), mirrored = cases_of(lopsided(-0.04));
  for (const char* kind : {"", "braking_"}) {
    const std::string left = std::string(kind) + "left_turn",
                      right = std::string(kind) + "right_turn";
    CHECK_THAT(named(mirrored, left).corner, WithinRel(-named(cases, right).corner, 1e-9));
    CHECK_THAT(named(mirrored, right).corner, WithinRel(-named(cases, left).corner, 1e-9));
    CHECK_THAT(named(mirrored, left).brake, WithinAbs(named(cases, right).brake, 1e-9));
  }
}

// A wheel lifts from the axle whose load times half its track, the couple it can hold, is smaller.
TEST_CASE("standard_cases lift the wheels of the lighter or narrower axle, and steps stay low") {
  Frame f = box_vehicle();
  f.masses[0].at.x() = -0.2;  // the driver in front
  CHECK(names(cases_of(f)).contains("twist_rear_left"));
  CHECK_FALSE(names(cases_of(f)).contains("twist_front_left"));
  for (int i : {0, 1}) f.vehicle->wheels[i].contact.y() *= 0.1;
  CHECK(names(cases_of(f)).contains("twist_front_left"));
  CHECK(named(cases_of(f), "twist_front_left").lift == "front_left");

  CHECK(named(cases_of(f), "step_front_left").step->height == 0.05);
  for (Wheel& w : f.vehicle->wheels) w.centre.z() = w.contact.z() + 0.06;  // a small wheel
  CHECK_THAT(named(cases_of(f), "step_front_left").step->height, WithinRel(0.03, 1e-12));
}

}  // namespace tubewright::standard_cases_test
