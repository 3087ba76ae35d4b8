// Forces of the road in each kind of driving case, against Newton's laws and levers worked by hand.
#include "cases/vehicle/tyre_forces.h"

#include <Eigen/Geometry>
#include <cmath>
#include <random>

#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"

namespace tubewright::tyre_forces_test {

using testing::add_node;
using testing::add_wheel;
using testing::empty_frame;

namespace {

enum : std::size_t { FL, FR, RL, RR };

/// Four wheels of radius 0.25 m, track 1 m, wheelbase 1.6 m; nodes to tow, jack and lash it by.
Frame four_wheels() {
  Frame f = empty_frame();
  f.gravity = 10;
  f.vehicle = Vehicle{};
  f.vehicle->roll_stiffness_front_share = 0.5;
  add_wheel(f, "fl", {0, 0.5, 0}, 0.25, {}, Axle::front);
  add_wheel(f, "fr", {0, -0.5, 0}, 0.25, {}, Axle::front);
  add_wheel(f, "rl", {-1.6, 0.5, 0}, 0.25, {}, Axle::rear);
  add_wheel(f, "rr", {-1.6, -0.5, 0}, 0.25, {}, Axle::rear);
  add_node(f, "nose_l", 0.3, 0.1, 0.3);
  add_node(f, "nose_r", 0.3, -0.1, 0.3);
  return f;
}

/// 150 kg, centre of mass 0.6 m behind the front axle and 0.4 m up.
RigidVehicle body_of(const Frame& f) {
  MassProperties mass;
  mass.mass = 150;
  mass.centre = {-0.6, 0.02, 0.4};
  return rigid_vehicle(*f.vehicle, mass);
}

TyreForces forces(const Frame& f, const Case& c) {
  const RigidVehicle body = body_of(f);
  return tyre_forces(f, body, c, standing_loads(body, f.gravity, 0), 0);
}

struct Wrench {
  Eigen::Vector3d force = Eigen::Vector3d::Zero();
  Eigen::Vector3d moment = Eigen::Vector3d::Zero();  ///< about the centre of mass
};

/// Of all that acts besides weight.
Wrench sum(const Frame& f, const TyreForces& forces) {
  const Eigen::Vector3d centre = body_of(f).centre;
  Wrench w;
  const auto add = [&](const Eigen::Vector3d& at, const Eigen::Vector3d& force) {
    w.force += force;
    w.moment += (at - centre).cross(force);
  };
  for (std::size_t i = 0; i < forces.wheels.size(); ++i) {
    const TyreForce& t = forces.wheels[i];
    add(f.vehicle->wheels[i].contact, t.at_contact);
    add(f.vehicle->wheels[i].centre, t.at_centre);
    w.moment.y() += t.mount_couple;
  }
  for (const HandlingForce& h : forces.handling) add(h.at, h.force);
  return w;
}

bool all_down(const TyreForces& forces) {
  for (const TyreForce& t : forces.wheels) {
    if (t.lifted) return false;
  }
  return true;
}

}  // namespace

// Newton: the road's forces are m (a - g), and in steady driving they leave no roll or pitch
// moment.
TEST_CASE("tyre_forces balance a vehicle that brakes and turns, by outboard or inboard brakes") {
  std::mt19937 random(1);
  std::uniform_real_distribution<double> u(-0.25, 0.25);
  for (int i = 0; i < 50; ++i) {
    Case c;
    c.brake = 0.25 + u(random);
    c.corner = u(random);
    c.vertical = 1 + u(random);
    Frame f = four_wheels();
    const TyreForces outboard = forces(f, c);
    for (const std::size_t w : {FL, RR}) f.vehicle->wheels[w].brake = WheelBrake::inboard;
    const TyreForces inboard = forces(f, c);
    for (const TyreForces& t : {outboard, inboard}) {
      REQUIRE(all_down(t));
      const Wrench r = sum(f, t);
      CHECK((r.force - 1500 * Eigen::Vector3d(-c.brake, c.corner, c.vertical)).norm() < 1e-9);
      CHECK(r.moment.head<2>().norm() < 1e-9);
      CHECK(t.gravity == Eigen::Vector3d(0, 0, -10));
    }
    CHECK((sum(f, outboard).moment - sum(f, inboard).moment).norm() < 1e-9);
    // B at the hub and R B on the mount: an axle's bearings pass no torque.
    CHECK(inboard.wheels[FL].at_contact.x() == 0);
    CHECK_THAT(inboard.wheels[FL].mount_couple,
               WithinRel(-0.25 * inboard.wheels[FL].at_centre.x()));
    CHECK(outboard.wheels[FL].at_centre.norm() + outboard.wheels[FL].mount_couple == 0);
  }
}

TEST_CASE("tyre_forces on a slope or a bank turn gravity, which keeps its size") {
  Case c;
  c.grade = 0.75;  // a triangle of 3, 4, 5
  const TyreForces down = forces(four_wheels(), c);
  CHECK((down.gravity - Eigen::Vector3d(6, 0, -8)).norm() < 1e-12);
  Frame f = four_wheels();
  for (Wheel& w : f.vehicle->wheels) w.brake = WheelBrake::none;
  for (const TyreForce& t : forces(f, c).wheels) CHECK(t.total().x() == 0);  // it rolls
  c.grade = 0.2;
  c.bank = 0.3;
  CHECK_THAT(forces(f, c).gravity.norm(), WithinRel(10.0, 1e-12));
  CHECK(forces(f, c).gravity.y() > 0);  // left side lower
}

// Steady yaw: side forces of the axles balance about the centre of mass, F_f a = F_r b.
TEST_CASE("tyre_forces in a turn leave no yaw moment, and friction is side force over load") {
  Case c;
  c.corner = 0.4;
  const Frame f = four_wheels();
  const TyreForces t = forces(f, c);
  CHECK_THAT(sum(f, t).moment.z(), WithinAbs(0, 1e-9));
  CHECK_THAT(t.wheels[FL].total().y() + t.wheels[FR].total().y(), WithinRel(600 * 1.0 / 1.6, 1e-9));
  for (const TyreForce& w : t.wheels) {
    CHECK_THAT(w.friction_used, WithinRel(w.total().y() / w.total().z(), 1e-9));
  }
  CHECK(t.wheels[FR].total().z() > t.wheels[FL].total().z());
  // 3-4-5: 30 N and 40 N in the road plane over 100 N.
  std::vector<TyreForce> wheels(4);
  wheels[FL].at_contact = {-30, 0, 60};
  wheels[FR].at_contact = {0, 25, 30};
  wheels[FR].at_centre = {0, 15, 10};
  CHECK_THAT(axle_friction(*f.vehicle, Axle::front, wheels), WithinRel(0.5, 1e-12));
  CHECK(axle_friction(*f.vehicle, Axle::rear, wheels) == 0);
}

// sin th = 1 - 50/250 = 0.8, tan th = 4/3; a bump of factor 3 adds twice the static load.
TEST_CASE("tyre_forces add a bump and a step at the hub of the wheel that meets them") {
  const Frame f = four_wheels();
  Case still;
  const TyreForces before = forces(f, still);
  Case c;
  c.bump.push_back({"rl", 3, {}});
  c.step = StepStrike{"fr", 0.05, 2, {}};
  const TyreForces after = forces(f, c);
  for (const std::size_t w : {FL, FR, RL, RR}) {
    CHECK((after.wheels[w].at_contact - before.wheels[w].at_contact).norm() < 1e-9);
    const double load = before.wheels[w].total().z();
    const Eigen::Vector3d added(w == FR ? -2 * load * 0.75 : 0, 0, w == RL ? 2 * load : 0);
    CHECK((after.wheels[w].at_centre - added).norm() < 1e-9);
  }
}

// K W B/(2 h) = 1.75 x 1500 x 1/(2 x 0.4), shared by yaw equilibrium (1.0 : 0.6 of 1.6 m).
TEST_CASE(
    "tyre_forces of a kerb push on the wheels of its side alone, without turning the vehicle") {
  const Frame f = four_wheels();
  const TyreForces before = forces(f, Case{});
  for (const bool left : {true, false}) {
    Case c;
    c.nudge = KerbNudge{left, 1.75, {}};
    const TyreForces t = forces(f, c);
    const double side = (left ? -1 : 1) * 1.75 * 1500 / 0.8;
    CHECK_THAT(t.wheels[left ? FL : FR].total().y(), WithinRel(side * 1.0 / 1.6, 1e-9));
    CHECK_THAT(t.wheels[left ? RL : RR].total().y(), WithinRel(side * 0.6 / 1.6, 1e-9));
    CHECK(t.wheels[left ? FR : FL].total().y() == 0);
    CHECK_THAT(sum(f, t).moment.z(), WithinAbs(0, 1e-9));
    CHECK_THAT(sum(f, t).force.z(), WithinRel(sum(f, before).force.z(), 1e-12));
  }
}

TEST_CASE("tyre_forces with a rope, a jack or lashings hold the vehicle in balance") {
  const Frame f = four_wheels();
  Case tow;
  tow.tow = Tow{{"nose_l", "nose_r"}, 0.5, {}};
  const TyreForces pulled = forces(f, tow);
  REQUIRE(pulled.handling.size() == 1);
  CHECK(pulled.handling[0].at == Eigen::Vector3d(0.3, 0, 0.3));
  CHECK(pulled.handling[0].force == Eigen::Vector3d(750, 0, 0));

  Case jack;
  jack.jack = Jack{{"nose_l"}, 0.4, {}};
  const TyreForces lifted = forces(f, jack);
  CHECK_THAT(lifted.handling.at(0).force.z(), WithinRel(600.0, 1e-12));
  CHECK((sum(f, lifted).force - Eigen::Vector3d(0, 0, 1500)).norm() < 1e-9);
  CHECK(sum(f, lifted).moment.norm() < 1e-9);

  Case lashed;
  lashed.tie_down = TieDown{{"nose_l", "nose_r"}, 0.4, -0.2, {}};
  const TyreForces tied = forces(f, lashed);
  REQUIRE(all_down(tied));
  CHECK((tied.handling.at(0).force - Eigen::Vector3d(-600, 300, 0)).norm() < 1e-9);
  CHECK_THAT(sum(f, tied).force.z(), WithinRel(1500.0, 1e-12));
  CHECK(sum(f, tied).moment.norm() < 1e-9);
  for (const TyreForce& w : tied.wheels) CHECK(w.total().head<2>().norm() == 0);
}

TEST_CASE("tyre_forces leave no wheel on the ground when the vehicle lies on its roll bar") {
  const Frame f = four_wheels();
  Case c;
  c.roll_over = RollOver{{"nose_l", "nose_r"}, 5000, std::asin(0.6), 1200, {}};
  const TyreForces t = forces(f, c);
  for (const TyreForce& w : t.wheels) CHECK((w.lifted && w.total().norm() == 0));
  CHECK((roll_bar_force(*c.roll_over) - Eigen::Vector3d(-3000, 1200, -4000)).norm() < 1e-9);
  CHECK((sum(f, t).force - Eigen::Vector3d(-3000, 1200, -4000)).norm() < 1e-9);
}

// Levers: the front axle carries 1.0/1.6 of the weight, the left side 0.52 of it.
TEST_CASE("a rigid vehicle stands by the lever rule, its roll centres count with a roll share") {
  Frame f = four_wheels();
  f.vehicle->roll_centre_front = 0.1;
  f.vehicle->wheels[RL].brake = WheelBrake::none;
  f.vehicle->brake_front_share = 0.7;
  const RigidVehicle body = body_of(f);
  const std::vector<double> load = standing_loads(body, 10, 0);
  CHECK_THAT(load[FL] + load[FR], WithinRel(1500 * 1.0 / 1.6, 1e-12));
  CHECK_THAT(load[FL] + load[RL], WithinRel(1500 * 0.52, 1e-12));
  CHECK(body.front_roll_centre == 0.1);
  f.vehicle->roll_stiffness_front_share.reset();
  CHECK(body_of(f).front_roll_centre == 0);
  CHECK(body_of(f).front_roll_share == 0.5);
  CHECK(brakes_of(*f.vehicle).braked == std::vector<bool>{true, true, false, true});
  CHECK(brakes_of(*f.vehicle).front_share == 0.7);
}

}  // namespace tubewright::tyre_forces_test
