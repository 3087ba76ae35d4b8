// Inertia relief against Newton's and Euler's laws, rigid motions and the work of a unit force.
#include "cases/vehicle/free_vehicle.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <random>

#include "tests/cases/resultants.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"

namespace tubewright::free_vehicle_test {

using testing::add_member;
using testing::add_node;
using testing::box_vehicle;
using testing::resultant;
using testing::Resultant;

namespace {

struct Random {
  std::mt19937 source;
  std::uniform_real_distribution<double> u{-1, 1};

  double number(double size) { return size * u(source); }
  Eigen::Vector3d vector(double size) { return {number(size), number(size), number(size)}; }
};

/// A box on wheels with an inboard brake at the rear, unequal on its two sides.
struct Example {
  Frame frame = box_vehicle();
  NumberedFrame numbered;
  FreeVehicle vehicle;

  Example() {
    testing::add_mass(frame, "bag", 12, {-0.2, 0.25, 0.4}, {"fl0", "fl1"});
    frame.vehicle->wheels[2].brake = WheelBrake::inboard;
    frame.vehicle->wheels[2].brake_mount = {"rl0", "rl1"};
    numbered = build_model(frame);
    vehicle = free_vehicle(frame, numbered);
  }
};

TyreForces random_forces(Random& random) {
  TyreForces forces;
  forces.gravity = {1, -2, -9};
  for (int i = 0; i < 4; ++i) {
    TyreForce t;
    t.at_contact = random.vector(500);
    t.at_centre = random.vector(500);
    t.mount_couple = random.number(100);
    forces.wheels.push_back(t);
  }
  forces.handling.push_back({{"fl1", "fr1", "rl1"}, random.vector(1), random.vector(800)});
  return forces;
}

StaticSolution solved(const FreeVehicle& v, const Actions& a) {
  const StaticResult r = solve_statics(v.model, {a});
  REQUIRE(r.has_value());
  return (*r)[0];
}

std::vector<std::string> mount_of(const Frame& f) {
  const NumberedFrame n = build_model(f);
  std::vector<std::string> names;
  for (const int node : brake_mount(f, n, f.vehicle->wheels[0]))
    names.push_back(f.nodes[node].name);
  std::sort(names.begin(), names.end());
  return names;
}

using Names = std::vector<std::string>;

}  // namespace

// d'Alembert: whatever acts, with the inertia of every mass it has no resultant and no moment.
TEST_CASE("any forces on the wheels and the frame are balanced by the inertia of its masses") {
  Example e;
  Random random{std::mt19937(1)};
  const FreeVehicle& v = e.vehicle;
  for (int i = 0; i < 20; ++i) {
    const TyreForces forces = random_forces(random);
    const std::vector<NodeAction> push = {{"fr1", random.vector(300), {}}};
    const std::vector<NodeAction> twist = {{"rl0", random.vector(50), {}}};
    const auto [actions, b] = balanced_actions(v, forces, push, twist, e.numbered);
    const Resultant left = resultant(v.model, actions, v.mass.centre);
    CHECK(left.force.norm() < 1e-8);
    CHECK(left.moment.norm() < 1e-8);

    Eigen::Vector3d force = push[0].value + forces.handling[0].force;
    Eigen::Vector3d moment =
        twist[0].value +
        (e.frame.nodes[e.numbered.node.at("fr1")].at - v.mass.centre).cross(push[0].value) +
        (forces.handling[0].at - v.mass.centre).cross(forces.handling[0].force);
    for (std::size_t w = 0; w < 4; ++w) {
      const Wheel& wheel = e.frame.vehicle->wheels[w];
      force += forces.wheels[w].total();
      moment += (wheel.contact - v.mass.centre).cross(forces.wheels[w].at_contact) +
                (wheel.centre - v.mass.centre).cross(forces.wheels[w].at_centre);
      moment.y() += forces.wheels[w].mount_couple;
    }
    CHECK((b.force - force).norm() < 1e-9);
    CHECK((v.mass.mass * (b.acceleration - b.gravity) - force).norm() < 1e-8);
    CHECK((v.mass.inertia * b.angular - moment).norm() < 1e-8);  // it starts without spin
  }
}

TEST_CASE("forces in balance give no reaction in the determinate restraints of a free vehicle") {
  Example e;
  Random random{std::mt19937(2)};
  const Actions a = balanced_actions(e.vehicle, random_forces(random), {}, {}, e.numbered).actions;
  CHECK(solved(e.vehicle, a).reactions.norm() < 1e-6);
  int restrained = 0;
  for (const Support& s : e.vehicle.model.supports) {
    restrained += static_cast<int>(std::count(s.restrained.begin(), s.restrained.end(), true));
  }
  CHECK(restrained == 6);
}

TEST_CASE("other actions on a free vehicle are balanced as well, those on nodes and on beams") {
  Example e;
  Random random{std::mt19937(3)};
  Actions other = no_actions(e.vehicle.model);
  for (Eigen::Index i = 0; i < other.nodal.size(); ++i) other.nodal[i] = random.number(100);
  other.beams[3].points.push_back({0.3, random.vector(200), random.vector(30)});
  other.beams[7].points.push_back({1.0, random.vector(200), random.vector(30)});
  const Resultant alone = resultant(e.vehicle.model, other, e.vehicle.mass.centre);
  CHECK(alone.force.norm() > 1);
  CHECK(alone.moment.norm() > 1);
  Actions sum = no_actions(e.vehicle.model);
  add_balanced(e.vehicle, other, sum);
  const Resultant left = resultant(e.vehicle.model, sum, e.vehicle.mass.centre);
  CHECK(left.force.norm() < 1e-8);
  CHECK(left.moment.norm() < 1e-8);
}

TEST_CASE("a wheel's force comes down to that force at its contact patch") {
  Example e;
  const Eigen::Vector3d force(-120, 340, 560);
  for (std::size_t w = 0; w < 4; ++w) {
    Actions a = no_actions(e.vehicle.model);
    add_wheel_force(e.vehicle, w, force, a);
    const Resultant r = resultant(e.vehicle.model, a, e.frame.vehicle->wheels[w].contact);
    CHECK((r.force - force).norm() < 1e-9);
    CHECK(r.moment.norm() < 1e-9);
  }
}

// A rigid motion moves the contact as it moves the body; and the force does work on what it moves.
TEST_CASE("a contact moves with the body, and under its own load along it") {
  Example e;
  const FreeVehicle& v = e.vehicle;
  const Eigen::Vector3d t(0.01, -0.02, 0.03), w(0.002, -0.003, 0.001);
  StaticSolution rigid_motion;
  rigid_motion.displacements.resize(dof_count(v.model));
  for (std::size_t n = 0; n < v.model.nodes.size(); ++n) {
    const auto i = static_cast<Eigen::Index>(6 * n);
    rigid_motion.displacements.segment<3>(i) = t + w.cross(v.model.nodes[n]);
    rigid_motion.displacements.segment<3>(i + 3) = w;
  }
  const std::vector<double> up = contact_displacements(v, rigid_motion.displacements);
  for (std::size_t i = 0; i < 4; ++i) {
    CHECK_THAT(up[i], WithinAbs((t + w.cross(e.frame.vehicle->wheels[i].contact)).z(), 1e-12));
  }
  for (std::size_t i = 0; i < 4; ++i) {
    Actions unit = no_actions(v.model), a = no_actions(v.model);
    add_wheel_force(v, i, Eigen::Vector3d::UnitZ(), unit);
    add_balanced(v, unit, a);
    StaticSolution s = solved(v, a);
    centre_motion(v, s);
    CHECK(contact_displacements(v, s.displacements)[i] > 0);
  }
}

TEST_CASE("the mean motion of a free vehicle is taken out, and only a rigid motion is") {
  Example e;
  Random random{std::mt19937(4)};
  const FreeVehicle& v = e.vehicle;
  const Actions a = balanced_actions(v, random_forces(random), {}, {}, e.numbered).actions;
  const StaticSolution before = solved(v, a);
  StaticSolution after = before;
  centre_motion(v, after);
  const std::vector<double> mass = nodal_masses(v.model, v.distribution);
  const double size = before.displacements.norm();
  Eigen::Vector3d momentum = Eigen::Vector3d::Zero(), spin = momentum;
  const Eigen::VectorXd taken = before.displacements - after.displacements;
  for (std::size_t i = 0; i < mass.size(); ++i) {
    const Eigen::Vector3d u = after.displacements.segment<3>(static_cast<Eigen::Index>(6 * i));
    momentum += mass[i] * u;
    spin += mass[i] * v.model.nodes[i].cross(u);
    for (std::size_t j = 0; j < i; ++j) {  // distances stay
      const Eigen::Vector3d stretch = taken.segment<3>(static_cast<Eigen::Index>(6 * i)) -
                                      taken.segment<3>(static_cast<Eigen::Index>(6 * j));
      CHECK_THAT(stretch.dot(v.model.nodes[i] - v.model.nodes[j]), WithinAbs(0, 1e-9 * size));
    }
  }
  CHECK(momentum.norm() < 1e-9 * size * v.mass.mass);
  CHECK(spin.norm() < 1e-9 * size * v.mass.mass);
  CHECK(taken.norm() > 1e-3 * size);
}

TEST_CASE(
    "an inboard brake is fixed where it says, else where links meet the frame, else to the hub") {
  Frame f = box_vehicle();
  Wheel& wheel = f.vehicle->wheels[0];
  CHECK(mount_of(f) == Names{"fl0", "fl1", "fr0"});  // spread: its carriers
  add_node(f, "low", 0, 0.40, 0.15);
  add_node(f, "up", 0, 0.38, 0.40);
  wheel.carrier = {"low", "up"};
  wheel.hold = WheelHold::rigid_upright;
  CHECK(mount_of(f) == Names{"low", "up"});
  for (const auto& [from, to, kind] : {std::tuple{"low", "fl0", MemberKind::link},
                                       {"fl0", "up", MemberKind::link},
                                       {"rl1", "up", MemberKind::cable},
                                       {"low", "up", MemberKind::link},
                                       {"low", "fr0", MemberKind::beam}}) {
    add_member(f, std::string(from) + to, from, to).kind = kind;
  }
  CHECK(mount_of(f) == Names{"fl0", "rl1"});
  wheel.brake_mount = {"rr1"};
  CHECK(mount_of(f) == Names{"rr1"});
}

}  // namespace tubewright::free_vehicle_test
