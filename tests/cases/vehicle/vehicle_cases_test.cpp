#include "cases/vehicle/vehicle_cases.h"

#include <Eigen/Geometry>
#include <cmath>

#include "cases/analysis/analysis.h"
#include "cases/rides/load_cases.h"
#include "cases/validate/validate.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"

namespace tubewright::vehicle_cases_test {

using namespace tubewright::testing;

namespace {

Analysis analysed(const Frame& f) {
  const Diagnostics faults = validate(f);
  INFO(text_of(faults));
  REQUIRE(faults.empty());
  Result<Analysis> outcome = analyse(f);
  if (const auto* diagnostics = outcome.error()) {
    INFO(text_of(*diagnostics));
    REQUIRE(diagnostics->empty());
  }
  return *std::move(outcome);
}

double load(const CaseResult& c, size_t wheel) { return c.driving->wheels[wheel].total().z(); }

/// Forces of the wheels, one more at a point, and the weight, against mass times acceleration;
/// about the centre of mass the moments, against the inertia times the angular acceleration.
void check_newton_with(const Analysis& a, const CaseResult& c, const Eigen::Vector3d& extra,
                       const Eigen::Vector3d& at) {
  const VehicleFacts& v = *a.vehicle;
  const double weight = v.mass.mass * a.frame.gravity;
  Eigen::Vector3d force = extra, moment = (at - v.mass.centre).cross(extra);
  for (size_t w = 0; w < c.driving->wheels.size(); ++w) {
    const Wheel& wheel = a.frame.vehicle->wheels[w];
    const TyreForce& f = c.driving->wheels[w];
    force += f.total();
    moment += (wheel.contact - v.mass.centre).cross(f.at_contact) +
              (wheel.centre - v.mass.centre).cross(f.at_centre) +
              Eigen::Vector3d(0, f.mount_couple, 0);
  }
  const Balance& b = c.driving->balance;
  CHECK((force + v.mass.mass * (b.gravity - b.acceleration)).norm() < 1e-9 * weight);
  CHECK((moment - v.mass.inertia * b.angular).norm() < 1e-9 * weight);
  CHECK(b.restraint_force < 1e-8 * weight);
  CHECK(c.solution.residual.force < 1e-9);
  CHECK(c.solution.residual.moment < 1e-9);
  CHECK(c.solution.equilibrium.force < 1e-9);
  CHECK(c.solution.equilibrium.moment < 1e-9);
}

void check_newton(const Analysis& a, const CaseResult& c) {
  check_newton_with(a, c, {0, 0, 0}, {0, 0, 0});
}

Eigen::Vector3d mirrored(const Eigen::Vector3d& v) { return {v.x(), -v.y(), v.z()}; }

}  // namespace

TEST_CASE("standing, the wheels carry the weight and nothing accelerates") {
  Frame f = box_vehicle();
  add_drive(f, "standing");
  const Analysis a = analysed(f);
  const CaseResult& c = a.cases[0];
  check_newton(a, c);
  CHECK(c.driving->balance.acceleration.norm() < 1e-9);
  CHECK(c.driving->balance.angular.norm() < 1e-9);
  CHECK_THAT(load(c, 0) + load(c, 1) + load(c, 2) + load(c, 3),
             WithinRel(a.mass.total * standard_gravity, 1e-9));
}

TEST_CASE("forces and moments close for a thousand random vehicles and cases") {
  std::mt19937 random(2026);
  std::uniform_real_distribution<double> unit(0, 1);
  const auto between = [&](double low, double high) { return low + (high - low) * unit(random); };
  for (int trial = 0; trial < 1000; ++trial) {
    Frame f = box_vehicle();
    for (Node& n : f.nodes) {
      for (double& x : n.at) x += between(-0.05, 0.05);
    }
    add_mass(f, "box", between(1, 60), {between(-1.2, 0.2), between(-0.3, 0.3), between(0.2, 0.9)},
             {"fl1", "rr1", "rl0"});
    f.masses.back().inertia = {between(0, 3), between(0, 3), between(0, 3)};
    Vehicle& v = *f.vehicle;
    for (Wheel& w : v.wheels) {
      const Eigen::Vector3d shift(between(-0.1, 0.1), between(-0.1, 0.1), 0);
      w.contact += shift;
      w.centre += shift + Eigen::Vector3d(between(-0.01, 0.01), between(-0.02, 0.02), 0);
      w.brake = static_cast<WheelBrake>(random() % 3);
    }
    v.wheels[2].brake = WheelBrake::outboard;
    v.roll_stiffness_front_share = unit(random);
    v.brake_ideal = true;
    if (trial % 3 == 0) v.wheels.erase(v.wheels.begin() + static_cast<int>(random() % 4));
    Case& c = add_drive(f, "case");
    if (trial % 2 == 0) c.brake = between(0, 0.8);
    if (trial % 5 != 0) c.corner = between(-0.7, 0.7);
    if (trial % 7 == 0) c.grade = between(-0.2, 0.2);
    if (trial % 4 == 0)
      c.bump.push_back({v.wheels[random() % v.wheels.size()].name, between(0, 5), {}});
    if (trial % 6 == 0) c.step = StepStrike{v.wheels[0].name, between(0.01, 0.15), 4.5, {}};
    if (trial % 9 == 0) c.lift = v.wheels.back().name;
    if (trial % 11 == 0) c.nudge = KerbNudge{trial % 2 == 0, 1.75, {}};
    const bool can_brake = std::any_of(v.wheels.begin(), v.wheels.end(),
                                       [](const Wheel& w) { return w.brake != WheelBrake::none; });
    if (!can_brake) c.brake = 0;
    INFO("trial " << trial);
    const Analysis a = analysed(f);
    check_newton(a, a.cases[0]);
    for (const TyreForce& w : a.cases[0].driving->wheels) CHECK(w.at_contact.z() >= 0);
  }
}

TEST_CASE("a mirrored vehicle in a mirrored case answers with mirrored forces") {
  Frame f = box_vehicle();
  add_mass(f, "box", 15, {-0.3, 0.2, 0.4}, {"fl1", "fl0", "rl0"});
  Case& c = add_drive(f, "case");
  c.brake = 0.3;
  c.corner = 0.4;
  c.bump.push_back({"front_left", 2.5, {}});
  Frame g = f;
  for (Node& n : g.nodes) n.at = mirrored(n.at);
  for (CarriedMass& m : g.masses) m.at = mirrored(m.at);
  for (Wheel& w : g.vehicle->wheels) {
    w.contact = mirrored(w.contact);
    w.centre = mirrored(w.centre);
  }
  g.cases[0].corner = -0.4;
  const CaseResult a = analysed(f).cases[0], b = analysed(g).cases[0];
  for (size_t w = 0; w < 4; ++w) {
    CHECK((a.driving->wheels[w].total() - mirrored(b.driving->wheels[w].total())).norm() < 1e-9);
  }
  for (size_t m = 0; m < a.members.size(); ++m) {
    CHECK_THAT(a.members[m].N, WithinAbs(b.members[m].N, 1e-6));
    CHECK_THAT(a.members[m].worst.stress.von_mises,
               WithinAbs(b.members[m].worst.stress.von_mises, 1e-3));  // Pa
  }
}

TEST_CASE("with equal axles and no roll share given, the elastic vehicle shares the roll evenly") {
  // By symmetry front to back: the box, its load in the middle, the case.
  Frame f = box_vehicle();
  f.members.erase(f.members.begin() + 12, f.members.end());
  f.masses[0].at = {-0.6, 0.05, 0.6};
  f.vehicle->roll_stiffness_front_share.reset();
  f.vehicle->tyre_rate = 120e3;
  add_drive(f, "standing");
  const CaseResult c = analysed(f).cases[0];
  CHECK_THAT(load(c, 0), WithinRel(load(c, 2), 1e-7));
  CHECK_THAT(load(c, 1), WithinRel(load(c, 3), 1e-7));
  CHECK(load(c, 0) > load(c, 1));
}

TEST_CASE("on soft springs the elastic vehicle shares the roll as the springs do") {
  // Roll stiffness of an axle k t^2/2; the tyres stand for the springs, one rate for all, so with
  // tracks t_f and t_r the front share is t_f^2/(t_f^2 + t_r^2). Barton & Fieldhouse (2018), p.
  // 174.
  Frame f = box_vehicle();
  f.vehicle->tyre_rate = 50;  // N/m: the frame is as good as rigid against it
  f.masses[0].at = {-0.5, 0.06, 0.6};
  for (const size_t w : {size_t{2}, size_t{3}}) f.vehicle->wheels[w].contact.y() *= 0.7;
  for (Wheel& w : f.vehicle->wheels) w.centre.y() = w.contact.y();
  add_drive(f, "standing");
  Frame g = f;
  f.vehicle->roll_stiffness_front_share.reset();
  const double front = 0.8 * 0.8, rear = 0.56 * 0.56;
  g.vehicle->roll_stiffness_front_share = front / (front + rear);
  const CaseResult elastic = analysed(f).cases[0], given = analysed(g).cases[0];
  for (size_t w = 0; w < 4; ++w) CHECK_THAT(load(elastic, w), WithinRel(load(given, w), 1e-4));
}

TEST_CASE("a combination adds to the loads at rest what its parts have more, the weight once") {
  Frame f = box_vehicle();
  add_drive(f, "braking").brake = 0.4;
  add_drive(f, "bump").bump.push_back({"front_left", 3, {}});
  Case& sum = add_case(f, "both", CaseKind::combine);
  sum.of = {{"braking", 1.0, {}}, {"bump", 0.5, {}}};
  add_drive(f, "standing");
  const Analysis a = analysed(f);
  check_newton(a, a.cases[2]);
  for (size_t m = 0; m < a.cases[0].members.size(); ++m) {
    const auto from = [&](size_t c) { return a.cases[c].members[m].from; };
    const Vector6 expected = from(3) + (from(0) - from(3)) + 0.5 * (from(1) - from(3));
    CHECK((from(2) - expected).norm() < 1e-6);
  }
  double up = 0;
  for (const TyreForce& w : a.cases[2].driving->wheels) up += w.total().z();
  double weight = 0;
  for (const TyreForce& w : a.cases[3].driving->wheels) weight += w.total().z();
  CHECK_THAT(up, WithinRel(weight + 0.5 * (3 - 1) * load(a.cases[3], 0), 1e-9));
}

TEST_CASE("a wheel that is off the ground in a part and on it in the sum is on it") {
  Frame f = box_vehicle();
  Case& lifted = add_drive(f, "lifted");
  lifted.lift = "front_left";
  add_drive(f, "bump").bump.push_back({"front_left", 3, {}});
  Case& sum = add_case(f, "both", CaseKind::combine);
  sum.of = {{"lifted", 1.0, {}}, {"bump", 1.0, {}}};
  const CaseResult c = analysed(f).cases[2];
  CHECK(load(c, 0) > 0);
  CHECK_FALSE(c.driving->wheels[0].lifted);
  CHECK_FALSE(c.driving->pulls);
}

TEST_CASE("a combination that would pull the road up says so") {
  Frame f = box_vehicle();
  add_drive(f, "bump").bump.push_back({"front_left", 3, {}});
  add_case(f, "undone", CaseKind::combine).of = {{"bump", -1.0, {}}};
  CHECK(analysed(f).cases[1].driving->pulls);
}

// Independent of the split inside the program: brakes in proportion to load and side forces that
// keep the vehicle from yawing need the same friction sqrt(0.5^2 + 0.7^2) g of every wheel, since a
// force of one direction times each load has its resultant through the centre of mass.
TEST_CASE("braking in a turn needs the same friction of every wheel if each brakes by its load") {
  Frame f = box_vehicle();
  for (Wheel& w : f.vehicle->wheels) w.brake = WheelBrake::outboard;
  f.vehicle->brake_front_share.reset();
  Case& c = add_drive(f, "both");
  c.brake = 0.3;
  c.corner = 0.25;
  const Analysis a = analysed(f);
  for (const TyreForce& w : a.cases[0].driving->wheels) {
    REQUIRE_FALSE(w.lifted);
    CHECK_THAT(w.friction_used, WithinRel(std::hypot(0.3, 0.25), 1e-9));
  }
  CHECK(std::abs(a.cases[0].driving->balance.angular.z()) < 1e-9);
}

TEST_CASE("a steady case does not yaw, whatever brakes, grade, bank and roll centres do") {
  std::mt19937 random(5);
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  for (int trial = 0; trial < 40; ++trial) {
    Frame f = box_vehicle();
    for (Wheel& w : f.vehicle->wheels) {
      w.brake = w.axle == Axle::front && trial % 3 == 0 ? WheelBrake::none : WheelBrake::outboard;
      w.contact.y() *= between(0.8, 1.2);
    }
    f.vehicle->brake_front_share.reset();
    if (trial % 3 != 0 && trial % 2 == 0) f.vehicle->brake_front_share = between(0, 1);
    if (trial % 4 == 0) {
      f.vehicle->roll_stiffness_front_share = between(0, 1);
      f.vehicle->roll_centre_front = between(-0.05, 0.1);
      f.vehicle->roll_centre_rear = between(-0.05, 0.1);
    }
    Case& c = add_drive(f, "both");
    c.brake = between(0, 0.35);
    c.corner = between(-0.3, 0.3);
    c.grade = between(-0.1, 0.1);
    const CaseResult r = analysed(f).cases[0];
    const auto& wheels = r.driving->wheels;
    const auto down = [&](Axle axle) {
      for (size_t w = 0; w < wheels.size(); ++w) {
        if (f.vehicle->wheels[w].axle == axle && !wheels[w].lifted) return true;
      }
      return false;
    };
    if (!down(Axle::front) || !down(Axle::rear)) continue;
    CHECK(std::abs(r.driving->balance.angular.z()) < 1e-6);
  }
}

TEST_CASE("a kerb takes the weight over to its side, as far as tipping") {
  Frame f = box_vehicle();
  add_drive(f, "standing");
  for (const double factor : {0.5, 1.0, 1.75}) {
    add_drive(f, "nudge_" + std::to_string(factor)).nudge = KerbNudge{true, factor, {}};
  }
  const Analysis a = analysed(f);
  const auto on_left = [&](const CaseResult& c) { return load(c, 0) + load(c, 2); };
  const double weight = on_left(a.cases[0]) + load(a.cases[0], 1) + load(a.cases[0], 3);
  // By moments about the middle of the track: F h/t of the weight goes over, F = K W t/(2 h).
  CHECK_THAT(on_left(a.cases[1]), WithinRel(on_left(a.cases[0]) + 0.25 * weight, 0.02));
  CHECK_THAT(on_left(a.cases[3]), WithinRel(weight, 1e-6));
  for (size_t c = 1; c < a.cases.size(); ++c) {
    CHECK_THAT(on_left(a.cases[c]) + load(a.cases[c], 1) + load(a.cases[c], 3),
               WithinRel(weight, 1e-6));
  }
}

TEST_CASE("a wheel that cannot push is reported off the ground") {
  Frame f = box_vehicle();
  add_drive(f, "hard_turn").corner = 0.75;
  const CaseResult c = analysed(f).cases[0];
  CHECK((c.driving->wheels[0].lifted || c.driving->wheels[2].lifted));
  for (const TyreForce& w : c.driving->wheels) {
    CHECK(w.total().z() >= 0);
    if (w.lifted) CHECK(w.total().norm() == 0);
  }
}

TEST_CASE("a vehicle that turns over passes no one by unnoticed") {
  Frame f = box_vehicle();
  add_drive(f, "far_too_fast").corner = 3;
  add_drive(f, "gentle").corner = 0.1;
  const Analysis a = analysed(f);
  CHECK(a.cases[0].driving->tips);
  REQUIRE(a.remarks.size() == 1);
  CHECK(a.remarks[0].message == "in case `far_too_fast` the vehicle turns over");
}

TEST_CASE("displacements are measured from the frame's mean motion") {
  Frame f = box_vehicle();
  add_drive(f, "bump").bump.push_back({"front_left", 5, {}});
  const Analysis a = analysed(f);
  NumberedFrame n = build_model(f);
  const std::vector<double> masses = nodal_masses(n.model, mass_distribution(f, n));
  Eigen::Vector3d mean(0, 0, 0);
  for (size_t i = 0; i < masses.size(); ++i) {
    mean +=
        masses[i] * a.cases[0].solution.displacements.segment<3>(static_cast<Eigen::Index>(6 * i));
  }
  CHECK(mean.norm() < 1e-12);
}

TEST_CASE("where the origin lies changes no force, not even against a kerb") {
  Frame f = box_vehicle();
  add_drive(f, "nudge").nudge = KerbNudge{true, 1.75, {}};
  add_drive(f, "turn").corner = 0.3;
  Frame g = f;
  const Eigen::Vector3d shift(3, 5, 1);
  for (Node& n : g.nodes) n.at += shift;
  for (CarriedMass& m : g.masses) m.at += shift;
  for (Wheel& w : g.vehicle->wheels) {
    w.contact += shift;
    w.centre += shift;
  }
  const Analysis here = analysed(f), there = analysed(g);
  for (size_t c = 0; c < 2; ++c) {
    for (size_t w = 0; w < 4; ++w) {
      CHECK((here.cases[c].driving->wheels[w].total() - there.cases[c].driving->wheels[w].total())
                .norm() < 1e-8);
    }
  }
}

TEST_CASE("a jack carries its share, the wheels the rest, and nothing accelerates") {
  Frame f = box_vehicle();
  add_drive(f, "jack").jack = Jack{{"fl0"}, 0.3, {}};
  const Analysis a = analysed(f);
  const CaseResult& c = a.cases[0];
  double wheels = 0;
  for (size_t w = 0; w < 4; ++w) wheels += load(c, w);
  CHECK_THAT(wheels, WithinRel(0.7 * a.mass.total * standard_gravity, 1e-9));
  CHECK(c.driving->balance.acceleration.norm() < 1e-9);
  CHECK(c.driving->balance.angular.norm() < 1e-8);
}

TEST_CASE("lashings hold what presses forward and sideways") {
  // 0.8 g forward and 0.5 g sideways are what cargo restraint practice in Germany asks for.
  Frame f = box_vehicle();
  add_drive(f, "lashed").tie_down = TieDown{{"fl0", "fr0", "rl0", "rr0"}, 0.8, 0.5, {}};
  const Analysis a = analysed(f);
  const Balance& b = a.cases[0].driving->balance;
  CHECK_THAT(b.acceleration.x(), WithinRel(-0.8 * standard_gravity, 1e-9));
  CHECK_THAT(b.acceleration.y(), WithinRel(-0.5 * standard_gravity, 1e-9));
  CHECK(b.angular.norm() < 1e-8);
  CHECK(b.restraint_force < 1e-8);
}

TEST_CASE("a force on the roll bar is carried by the inertia of the whole vehicle") {
  // 2670 N tilted back by 12 degrees: F_x -555.12, F_z -2611.65 N. By hand.
  Frame f = box_vehicle();
  const RollOver roll{{"rl1", "rr1"}, 2670, 12 * std::acos(-1.0) / 180, 1330, {}};
  const Eigen::Vector3d force = roll_bar_force(roll);
  CHECK((force - Eigen::Vector3d(-555.12, 1330, -2611.65)).norm() < 0.01);
  add_drive(f, "roll").roll_over = roll;
  const Analysis a = analysed(f);
  check_newton_with(a, a.cases[0], force, {-1.2, 0, 0.5});
}

TEST_CASE("a tow rope accelerates the whole vehicle") {
  Frame f = box_vehicle();
  add_drive(f, "tow").tow = Tow{{"fl0", "fr0"}, 0.5, {}};
  const CaseResult c = analysed(f).cases[0];
  CHECK_THAT(c.driving->balance.acceleration.x(), WithinRel(0.5 * standard_gravity, 1e-9));
}

TEST_CASE("an outboard brake loads the upright with F and R B, an inboard one the mount with R B") {
  // B = 388.48 N at R = 0.25 m: F_x -388.48, M_y +97.12 N m about the wheel centre. By hand.
  Frame f = box_vehicle();
  for (Wheel& w : f.vehicle->wheels) w.centre.z() = 0.25;
  for (Wheel& w : f.vehicle->wheels) w.brake = WheelBrake::outboard;
  f.vehicle->wheels[0].brake = f.vehicle->wheels[1].brake = WheelBrake::inboard;
  add_drive(f, "braking").brake = 0.5;
  const CaseResult c = analysed(f).cases[0];
  const TyreForce& front = c.driving->wheels[0];
  const TyreForce& rear = c.driving->wheels[2];
  CHECK(front.at_contact.x() == 0);
  CHECK(front.at_centre.x() < 0);
  CHECK_THAT(front.mount_couple, WithinRel(-0.25 * front.at_centre.x(), 1e-12));
  CHECK(rear.at_centre.x() == 0);
  CHECK(rear.mount_couple == 0);
  const Eigen::Vector3d about_centre =
      Eigen::Vector3d(0, 0, -0.25).cross(Eigen::Vector3d(-388.48, 0, 0));
  CHECK_THAT(about_centre.y(), WithinRel(97.12, 1e-9));
}

TEST_CASE("an upright without a tie rod is named with what it lacks") {
  Frame f = box_vehicle();
  add_node(f, "low", 0, 0.40, 0.15);
  add_node(f, "up", 0, 0.38, 0.40);
  add_node(f, "arm", -0.1, 0.39, 0.2);
  int count = 0;
  for (const auto& [from, to] :
       {std::pair{"low", "fl0"}, {"low", "rl0"}, {"up", "fl1"}, {"up", "rl1"}, {"low", "fl1"}}) {
    add_member(f, "link_" + std::to_string(++count), from, to).kind = MemberKind::link;
  }
  Wheel& w = f.vehicle->wheels[0];
  w.carrier = {"low", "up", "arm"};
  w.hold = WheelHold::rigid_upright;
  add_member(f, "arm_stub", "arm", "low").kind = MemberKind::link;
  add_drive(f, "standing");
  const Result<Analysis> outcome = analyse(f);
  REQUIRE(!outcome);
  const std::string text = text_of(*outcome.error());
  CHECK_THAT(text, ContainsSubstring("the upright of wheel `front_left` is loose"));
  CHECK_THAT(text, ContainsSubstring("needs six restraints and has 5"));
}

TEST_CASE("a vehicle without cases gets the standard set") {
  Frame f = box_vehicle();
  const auto completed = with_load_cases(f);
  REQUIRE(completed.has_value());
  const Frame& g = *completed;
  std::vector<std::string> names;
  for (const Case& c : g.cases) {
    names.push_back(c.name);
    CHECK_FALSE(c.note.empty());
  }
  for (const char* name : {"standing", "braking", "left_turn", "right_turn", "braking_left_turn",
                           "bump_front_left", "bump_rear_right", "bump_front_axle",
                           "bump_rear_axle", "step_front_left", "nudge_left", "twist_front_left"}) {
    INFO(name);
    CHECK(std::find(names.begin(), names.end(), name) != names.end());
  }
  const auto bump = std::find_if(g.cases.begin(), g.cases.end(),
                                 [](const Case& c) { return c.name == "bump_front_left"; });
  CHECK(bump->bump[0].factor == 5.0);  // no springs
  CHECK_THAT(bump->note, ContainsSubstring("De Lorenzo"));
  const Analysis a = analysed(g);
  for (const CaseResult& c : a.cases) {
    INFO(c.name);
    check_newton(a, c);
  }
}

TEST_CASE("displacement limits of a vehicle name cases of the standard set") {
  Frame f = box_vehicle();
  f.limits.displacements = {{"bump_front_left", "fl0", {std::nullopt, std::nullopt, 0.01}, {5, 7}}};
  CHECK(with_load_cases(f).has_value());
  f.limits.displacements[0].load_case = "bump_front_lef";
  const auto refused = with_load_cases(f);
  REQUIRE_FALSE(refused.has_value());
  REQUIRE(refused.error()->size() == 1);
  const Diagnostic& fault = refused.error()->front();
  CHECK_THAT(fault.message, ContainsSubstring("names case `bump_front_lef`"));
  CHECK(fault.advice == "did you mean `bump_front_left`?");
  CHECK(fault.place.line == 5);
}

TEST_CASE("each factor of the standard set can be set in the file, and its note then says so") {
  Frame f = box_vehicle();
  StandardFactors& factors = f.vehicle->standard;
  factors.bump = 4;
  factors.step_height = 0.03;
  factors.step = 2;
  factors.nudge = 1.4;
  factors.twist = 1.8;
  factors.downhill = 0;
  const auto completed = with_load_cases(f);
  const Frame& g = *completed;
  for (const Case& c : g.cases) {
    INFO(c.name);
    if (!c.bump.empty()) CHECK(c.bump[0].factor == 4);
    if (c.step) CHECK(c.step->height == 0.03);
    if (c.step) CHECK(c.step->factor == 2);
    if (c.nudge) CHECK(c.nudge->factor == 1.4);
    if (!c.lift.empty()) CHECK(c.vertical == 1.8);
    CHECK(c.grade == 0);
    if (!c.bump.empty() || c.step || c.nudge) {
      CHECK_THAT(c.note, ContainsSubstring("given in the frame file"));
    }
  }
}

TEST_CASE("a spring makes the standard bump one for sprung vehicles") {
  Frame f = box_vehicle();
  Member& spring = add_member(f, "seat_spring", "fl0", "fr1");
  spring.kind = MemberKind::spring;
  spring.section.clear();
  spring.rate = 1000;
  const auto completed = with_load_cases(f);
  for (const Case& c : completed->cases) {
    if (!c.bump.empty()) CHECK(c.bump[0].factor == 3);
  }
}

}  // namespace tubewright::vehicle_cases_test
