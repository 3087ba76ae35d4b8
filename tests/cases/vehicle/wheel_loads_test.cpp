// Wheel loads against statics worked by hand, a published split of load transfer, and laws.
#include "cases/vehicle/wheel_loads.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <random>

#include "cases/vehicle/road_events.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::wheel_loads_test {

namespace {

constexpr Source by_hand = rederived("statics worked by hand");
constexpr Source barton =
    seen_in("Barton & Fieldhouse, Automotive Chassis Engineering (2018), p. 174");
constexpr Source barton_by_hand =
    seen_in("Barton & Fieldhouse (2018), p. 174 (decomposition), worked by hand");
constexpr Source brown_24 =
    seen_in("Brown, Robertson & Serpento (2002), p. 24 (formula), worked by hand");

constexpr double g = 9.81;
enum : size_t { FL, FR, RL, RR };

/// Four wheels at x = 0 and x = -L.
RigidVehicle four_wheels(double mass, const Eigen::Vector3d& centre, double L, double front_track,
                         double rear_track) {
  RigidVehicle v;
  v.mass = mass;
  v.centre = centre;
  v.contact = {{0, front_track / 2, 0},
               {0, -front_track / 2, 0},
               {-L, rear_track / 2, 0},
               {-L, -rear_track / 2, 0}};
  v.axle = {Axle::front, Axle::front, Axle::rear, Axle::rear};
  return v;
}

/// A light runabout of 150 kg, with suspension.
RigidVehicle runabout() {
  RigidVehicle v = four_wheels(150, {-0.88, 0, 0.42}, 1.6, 1.0, 0.9);
  v.front_roll_share = 7500.0 / (7500 + 4860);  // k_w t^2/2 of 15 and 12 N/mm at the wheels
  v.front_roll_centre = 0.03;
  v.rear_roll_centre = 0.06;
  return v;
}

double sum(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0);
}

double front_load(const WheelLoads& loads) { return loads.normal[FL] + loads.normal[FR]; }
double rear_load(const WheelLoads& loads) { return loads.normal[RL] + loads.normal[RR]; }

void check_loads(const WheelLoads& loads, const std::vector<double>& expected) {
  REQUIRE(loads.normal.size() == expected.size());
  for (size_t i = 0; i < expected.size(); ++i) {
    INFO("wheel " << i);
    CHECK_THAT(loads.normal[i], WithinRel(expected[i], 0.001));
  }
}

/// What is left of sum N = -m b_z and of the moments of body force and wheel loads about the x and
/// y of the road below the centre of mass; against the whole load and half a metre of it.
double out_of_balance(const RigidVehicle& v, const std::vector<double>& N,
                      const Eigen::Vector3d& b) {
  double ground = 0;
  for (const Eigen::Vector3d& c : v.contact) ground += c.z() / static_cast<double>(N.size());
  const double h = v.centre.z() - ground;
  double force = v.mass * b.z(), roll = -h * v.mass * b.y(), pitch = h * v.mass * b.x();
  for (size_t i = 0; i < N.size(); ++i) {
    force += N[i];
    roll += N[i] * (v.contact[i].y() - v.centre.y());
    pitch -= N[i] * (v.contact[i].x() - v.centre.x());
  }
  const double load = std::abs(v.mass * b.z());
  return std::max({std::abs(force), std::abs(roll) / 0.5, std::abs(pitch) / 0.5}) / load;
}

struct RandomDriving {
  RigidVehicle vehicle;
  Eigen::Vector3d body_force;
};

/// Three or four wheels, none of them exactly opposite another.
RandomDriving random_driving(std::mt19937& random) {
  std::uniform_real_distribution<double> unit(0, 1);
  const auto between = [&](double low, double high) { return low + (high - low) * unit(random); };
  RandomDriving r;
  RigidVehicle& v = r.vehicle;
  const double L = between(1.0, 2.2), road = between(-0.5, 0.5), origin = between(-3, 3);
  const int single = static_cast<int>(between(0, 4));  // 0: single front, 1: single rear wheel
  for (const Axle axle : {Axle::front, Axle::rear}) {
    const double x = origin + (axle == Axle::front ? 0 : -L), track = between(0.6, 1.3);
    const double middle = between(-0.1, 0.1);
    const bool one = single == (axle == Axle::front ? 0 : 1);
    for (const double side : {0.5, -0.5}) {
      if (one && side < 0) continue;
      v.contact.emplace_back(x + between(-0.05, 0.05), middle + (one ? 0 : side * track), road);
      v.axle.push_back(axle);
    }
  }
  v.mass = between(50, 300);
  v.centre = {origin - L * between(0.35, 0.65), between(-0.08, 0.08), road + between(0.2, 0.6)};
  v.front_roll_share = between(0, 1);
  v.front_roll_centre = between(-0.05, 0.15);
  v.rear_roll_centre = between(-0.05, 0.15);
  r.body_force = {between(-5, 5), between(-7, 7), -between(7, 14)};
  return r;
}

Eigen::Vector3d mirrored(const Eigen::Vector3d& v) { return {v.x(), -v.y(), v.z()}; }

RigidVehicle mirrored(RigidVehicle v) {
  v.centre = mirrored(v.centre);
  for (Eigen::Vector3d& c : v.contact) c = mirrored(c);
  return v;
}

}  // namespace

TEST_CASE("a mass off the middle loads the axles' left and right wheels by their roll share") {
  RigidVehicle v = runabout();
  v.centre.y() = 0.02;
  const WheelLoads loads = wheel_loads(v, {0, 0, -g});
  // Worked here by hand: N_f/2 +- lambda W y/t_f, N_r/2 +- (1 - lambda) W y/t_r.
  check_loads(loads, {348.9455, 313.2295, 417.5203, 391.8047});
  CHECK_FALSE(loads.tips);
  CHECK(std::count(loads.lifted.begin(), loads.lifted.end(), true) == 0);
}

TEST_CASE("a vehicle standing with a box on board carries its weight as worked by hand") {
  // Frame, driver, wheels and a box on the left: 150 kg. Formula as above, lambda = 0.606796.
  RigidVehicle v = four_wheels(150, {-0.847667, 0.012667, 0.376333}, 1.6, 1.0, 0.9);
  v.front_roll_share = 0.606796;
  check_loads(wheel_loads(v, {0, 0, -g}), {357.266, 334.646, 397.937, 381.651});
}

TEST_CASE("braking moves load m a h / L onto the front axle", "[truth]") {
  const WheelLoads standing = wheel_loads(runabout(), {0, 0, -g});
  const WheelLoads braking = wheel_loads(runabout(), body_force({.brake = 0.8}, g));
  // Worked here by hand: W b/L, W a/L, m 0.8 g h/L.
  truth("runabout standing: front axle, N", by_hand, front_load(standing),
        within_rel(662.175, 0.001));
  truth("runabout standing: rear axle, N", by_hand, rear_load(standing),
        within_rel(809.325, 0.001));
  truth("runabout braking at 0.8 g: load moved forward, N", by_hand,
        front_load(braking) - front_load(standing), within_rel(309.015, 0.001));
  CHECK_THAT(front_load(braking), WithinRel(971.190, 0.001));
  CHECK_THAT(rear_load(braking), WithinRel(500.310, 0.001));
}

TEST_CASE("on a slope the whole brake force moves load forward, not the deceleration alone",
          "[truth]") {
  const WheelLoads braking = wheel_loads(runabout(), body_force({.brake = 0.6, .grade = 0.15}, g));
  // Worked here by hand: F = m (a + g sin th), N_f = W cos(th) b/L + F h/L, N_r = W cos(th) a/L -
  // F h/L.
  truth("runabout braking at 0.6 g on 15 %: front axle, N", by_hand, front_load(braking),
        within_rel(943.909, 0.001));
  truth("runabout braking at 0.6 g on 15 %: rear axle, N", by_hand, rear_load(braking),
        within_rel(511.310, 0.001));
  CHECK_THAT(sum(braking.normal), WithinRel(1455.220, 0.001));  // W cos(th)

  const WheelLoads parked = wheel_loads(runabout(), body_force({.grade = 0.15}, g));
  CHECK_THAT(front_load(parked), WithinRel(712.148, 0.001));
  CHECK_THAT(rear_load(parked), WithinRel(743.072, 0.001));
}

TEST_CASE("a left turn loads the right wheels, through links and springs of each axle", "[truth]") {
  const Eigen::Vector3d b = body_force({.corner = 0.8}, g);
  const WheelLoads loads = wheel_loads(runabout(), b);
  // (m a/t_f) [(b/L) h_rf + lambda d], (m a/t_r) [(a/L) h_rr + (1 - lambda) d], d = 0.3735 m the
  // centre of mass above the roll axis: Barton & Fieldhouse, Automotive Chassis Engineering (2018),
  // p. 174. Numbers of this vehicle worked here by hand.
  truth("runabout turning at 0.8 g: load moved across the front axle, N", barton_by_hand,
        (loads.normal[FR] - loads.normal[FL]) / 2, within_rel(282.691, 0.001));
  truth("runabout turning at 0.8 g: load moved across the rear axle, N", barton_by_hand,
        (loads.normal[RR] - loads.normal[RL]) / 2, within_rel(235.259, 0.001));
  check_loads(loads, {48.397, 613.778, 169.403, 639.922});
}

TEST_CASE("side forces of the axles leave no yaw moment, in an axle they go with the load",
          "[truth]") {
  const Eigen::Vector3d b = body_force({.corner = 0.8}, g);
  const WheelLoads loads = wheel_loads(runabout(), b);
  const std::vector<double> side = side_forces(runabout(), loads, b);
  // F_f = m a b/L, F_r = m a a/L: Brown, Robertson & Serpento, Motor Vehicle Structures (2002),
  // p. 24. Numbers worked here by hand.
  truth("runabout turning at 0.8 g: side force of the front axle, N", brown_24, side[FL] + side[FR],
        within_rel(529.740, 0.001));
  truth("runabout turning at 0.8 g: side force of the rear axle, N", brown_24, side[RL] + side[RR],
        within_rel(647.460, 0.001));
  // In proportion to load: common practice, no source.
  CHECK_THAT(side[FL] / side[FR], WithinRel(loads.normal[FL] / loads.normal[FR], 1e-12));
  CHECK_THAT(side[RL] / side[RR], WithinRel(loads.normal[RL] / loads.normal[RR], 1e-12));
}

TEST_CASE("an axle in the air gives no side force, the other one gives it all") {
  WheelLoads loads = wheel_loads(runabout(), {0, 0, -g});
  loads.normal[RL] = loads.normal[RR] = 0;
  const std::vector<double> side = side_forces(runabout(), loads, {0, -3, -g});
  CHECK(side[RL] == 0);
  CHECK(side[RR] == 0);
  CHECK_THAT(sum(side), WithinRel(150 * 3.0, 1e-12));
}

TEST_CASE("a bank turns side force into load") {
  // 12 m/s round 20 m on a bank of 10 degrees. Worked here by hand: side force m (v^2/r cos B -
  // g sin B), load m (g cos B + v^2/r sin B).
  const double bank = 10 * std::acos(-1) / 180;
  const Eigen::Vector3d b = body_force({.corner = 12.0 * 12 / 20 / g, .bank = bank}, g);
  const WheelLoads loads = wheel_loads(runabout(), b);
  CHECK_THAT(sum(loads.normal), WithinRel(1636.685, 0.001));
  CHECK_THAT(sum(side_forces(runabout(), loads, b)), WithinRel(808.069, 0.001));
}

TEST_CASE("the load transfer of a published car comes out term by term", "[truth]") {
  // Barton & Fieldhouse, Automotive Chassis Engineering (2018), p. 174: sprung mass 1280 kg with 54
  // % on the front, 0.365 m above the roll axis (roll centres at 0.07 and 0.32 m), track 1.46 m,
  // 0.6 g, roll stiffness 28 650 N m/rad, unsprung masses 140 and 180 kg at 0.28 and 0.30 m.
  constexpr double L = 2.5;  // not given, and of no effect
  constexpr double t = 1.46, above_axis = 0.365, stiffness = 28650, a = 0.6 * g;
  const double h = 0.46 * 0.32 + 0.54 * 0.07 + above_axis;
  const double roll = 1280 * a * above_axis / (stiffness - 1280 * g * above_axis);
  CHECK_THAT(roll / a, WithinRel(0.0194, 0.01));
  RigidVehicle sprung = four_wheels(1280, {-0.46 * L, 0, h}, L, t, t);
  sprung.front_roll_centre = 0.07;
  sprung.rear_roll_centre = 0.32;
  const auto transfer = [&] {
    const WheelLoads loads = wheel_loads(sprung, {0, -a, -g});
    return std::array{(loads.normal[FR] - loads.normal[FL]) / 2,
                      (loads.normal[RR] - loads.normal[RL]) / 2};
  };
  // On the roll axis the mass does not reach the springs: what is left goes through the links.
  sprung.centre.z() = h - above_axis;
  truth("published car: front, through the links, N", barton, transfer()[0],
        within_rel(195.0, 0.01));
  truth("published car: rear, through the links, N", barton, transfer()[1],
        within_rel(760.0, 0.01));
  const double front_unsprung = 140 * a * 0.28 / t, rear_unsprung = 180 * a * 0.30 / t;
  CHECK_THAT(front_unsprung, WithinRel(158.0, 0.01));
  CHECK_THAT(rear_unsprung, WithinRel(218.0, 0.01));
  // Above it, the roll carries the mass outward as well. The front springs' share is the one that
  // gives the printed 1556 N. The printed sum 1919 N disagrees with its own terms, 1556 + 195 + 158
  // = 1909; both are within 1 %.
  sprung.centre.z() = h;
  sprung.centre.y() = -above_axis * roll;
  sprung.front_roll_share = 1556 / (stiffness * roll / t);
  const double front = transfer()[0] + front_unsprung;
  truth("published car: front in all, sum of the printed terms, N", barton, front,
        within_rel(1556.0 + 195 + 158, 0.001));
  truth("published car: front in all as printed (its own terms add to 1909), N", barton, front,
        within_rel(1919.0, 0.01));
}

TEST_CASE("a wheel held in the air twists the frame by its axle's load times half its track",
          "[truth]") {
  const WheelLoads loads = wheel_loads(runabout(), {0, 0, -g}, {true, false, false, false});
  CHECK(loads.lifted == std::vector<bool>{true, false, false, false});
  CHECK_FALSE(loads.tips);
  CHECK(loads.cross_pattern.empty());
  // Worked here by hand: the other front wheel has N_f, and N_RL - N_RR = N_f t_f/t_r.
  CHECK(loads.normal[FL] == 0);
  CHECK_THAT(loads.normal[FR], WithinRel(662.175, 0.001));
  truth("front wheel in the air: opposite load at the rear left, N", by_hand, loads.normal[RL],
        within_rel(772.5375, 0.001));
  truth("front wheel in the air: load at the rear right, N", by_hand, loads.normal[RR],
        within_rel(36.7875, 0.001));
  // T = min(N_f t_f, N_r t_r)/2, worked here by hand; the rule also in Brown, Robertson & Serpento
  // (2002), ch. 2, from memory.
  const double T = std::min(front_load(loads) * 1.0, rear_load(loads) * 0.9) / 2;
  CHECK_THAT(T, WithinRel(331.0875, 0.001));
  CHECK_THAT((loads.normal[FR] - loads.normal[FL]) * 1.0 / 2, WithinRel(T, 1e-9));
  CHECK_THAT((loads.normal[RL] - loads.normal[RR]) * 0.9 / 2, WithinRel(T, 1e-9));
}

TEST_CASE("a wheel that lifts is reported and the others still balance the vehicle") {
  const Eigen::Vector3d b = body_force({.corner = 1.0}, g);
  const WheelLoads loads = wheel_loads(runabout(), b);
  CHECK(loads.lifted == std::vector<bool>{true, false, false, false});
  CHECK(loads.normal[FL] == 0);
  CHECK_FALSE(loads.tips);
  CHECK(loads.cross_pattern.empty());
  CHECK(out_of_balance(runabout(), loads.normal, b) < 1e-12);
}

TEST_CASE("wheel loads balance the body force, whatever the vehicle, and none pulls down") {
  std::mt19937 random(1);
  int balanced = 0, on_four = 0, with_lifted_wheel = 0;
  for (int i = 0; i < 1000; ++i) {
    const RandomDriving r = random_driving(random);
    const WheelLoads loads = wheel_loads(r.vehicle, r.body_force);
    const std::vector<double>& N = loads.normal;
    REQUIRE(N.size() == r.vehicle.contact.size());
    CHECK(*std::min_element(N.begin(), N.end()) >= 0);
    CHECK_THAT(sum(N), WithinRel(-r.vehicle.mass * r.body_force.z(), 1e-9));
    for (size_t w = 0; w < N.size(); ++w) CHECK((!loads.lifted[w] || N[w] == 0));
    const auto lifted = std::count(loads.lifted.begin(), loads.lifted.end(), true);
    CHECK(loads.cross_pattern.size() == (N.size() - lifted == 4 ? 4 : 0));
    CHECK(loads.tips == (N.size() - lifted < 3));
    const std::vector<double> side = side_forces(r.vehicle, loads, r.body_force);
    CHECK_THAT(sum(side), WithinAbs(-r.vehicle.mass * r.body_force.y(), 1e-9 * sum(N)));
    if (loads.tips) continue;
    CHECK(out_of_balance(r.vehicle, N, r.body_force) < 1e-9);
    ++balanced;
    on_four += N.size() - lifted == 4 ? 1 : 0;
    with_lifted_wheel += lifted > 0 ? 1 : 0;
  }
  CHECK(balanced > 700);
  CHECK(on_four > 200);
  CHECK(with_lifted_wheel > 50);
}

TEST_CASE("a vehicle tips just when the resultant meets the road outside its contacts") {
  std::mt19937 random(2);
  int tipped = 0;
  for (int i = 0; i < 1000; ++i) {
    const RandomDriving r = random_driving(random);
    const RigidVehicle& v = r.vehicle;
    const Eigen::Vector3d& b = r.body_force;
    const Eigen::Vector3d p = v.centre + b / -b.z() * (v.centre.z() - v.contact[0].z());
    // Counter-clockwise from above: right front, left front, left rear, right rear.
    std::vector<Eigen::Vector3d> around;
    for (const Axle axle : {Axle::front, Axle::rear}) {
      std::vector<Eigen::Vector3d> of_axle;
      for (size_t w = 0; w < v.contact.size(); ++w) {
        if (v.axle[w] == axle) of_axle.push_back(v.contact[w]);
      }
      if (axle == Axle::front) std::reverse(of_axle.begin(), of_axle.end());
      around.insert(around.end(), of_axle.begin(), of_axle.end());
    }
    bool inside = true;
    for (size_t w = 0; w < around.size(); ++w) {
      const Eigen::Vector3d edge = around[(w + 1) % around.size()] - around[w];
      const Eigen::Vector3d to_p = p - around[w];
      inside = inside && edge.x() * to_p.y() - edge.y() * to_p.x() > 0;
    }
    CHECK(wheel_loads(v, b).tips == !inside);
    tipped += inside ? 0 : 1;
  }
  CHECK(tipped > 50);
}

TEST_CASE("a mirrored vehicle under mirrored body force has mirrored loads") {
  std::mt19937 random(3);
  for (int i = 0; i < 200; ++i) {
    const RandomDriving r = random_driving(random);
    const WheelLoads loads = wheel_loads(r.vehicle, r.body_force);
    const WheelLoads other = wheel_loads(mirrored(r.vehicle), mirrored(r.body_force));
    CHECK(loads.lifted == other.lifted);
    CHECK(loads.tips == other.tips);
    const double load = sum(loads.normal);
    for (size_t w = 0; w < loads.normal.size(); ++w) {
      CHECK_THAT(loads.normal[w], WithinAbs(other.normal[w], 1e-9 * load));
    }
  }
}

TEST_CASE("cross-weight leaves equilibrium as it is") {
  std::mt19937 random(4);
  int seen = 0;
  for (int i = 0; i < 200; ++i) {
    const RandomDriving r = random_driving(random);
    const WheelLoads plain = wheel_loads(r.vehicle, r.body_force);
    if (plain.cross_pattern.empty()) continue;
    ++seen;
    CHECK(plain.cross_pattern[FL] == 1);
    const double x = 0.3 * *std::min_element(plain.normal.begin(), plain.normal.end());
    const WheelLoads crossed = wheel_loads(r.vehicle, r.body_force, {}, x);
    CHECK(out_of_balance(r.vehicle, crossed.normal, r.body_force) < 1e-9);
    if (crossed.cross_pattern.empty()) continue;
    for (size_t w = 0; w < 4; ++w) {
      CHECK_THAT(crossed.normal[w],
                 WithinAbs(plain.normal[w] + x * plain.cross_pattern[w], 1e-9 * sum(plain.normal)));
    }
  }
  CHECK(seen > 50);
}

TEST_CASE("the cross pattern goes with the inverse of the tracks, + on the left front diagonal") {
  const std::vector<double> pattern = wheel_loads(runabout(), {0, 0, -g}).cross_pattern;
  // Worked here by hand: +1 and -1 over t_f, their moment undone by -+ t_f/t_r over t_r.
  REQUIRE(pattern.size() == 4);
  CHECK_THAT(pattern[FL], WithinRel(1.0, 1e-12));
  CHECK_THAT(pattern[FR], WithinRel(-1.0, 1e-12));
  CHECK_THAT(pattern[RL], WithinRel(-1 / 0.9, 1e-12));
  CHECK_THAT(pattern[RR], WithinRel(1 / 0.9, 1e-12));
}

TEST_CASE("the order in which wheels are listed does not matter") {
  RigidVehicle v = runabout();
  std::swap(v.contact[FL], v.contact[RR]);
  std::swap(v.axle[FL], v.axle[RR]);
  const Eigen::Vector3d b = body_force({.brake = 0.3, .corner = 0.4}, g);
  const WheelLoads plain = wheel_loads(runabout(), b, {}, 20), swapped = wheel_loads(v, b, {}, 20);
  CHECK_THAT(swapped.normal[RR], WithinRel(plain.normal[FL], 1e-12));
  CHECK_THAT(swapped.normal[FR], WithinRel(plain.normal[FR], 1e-12));
  CHECK_THAT(swapped.normal[RL], WithinRel(plain.normal[RL], 1e-12));
  CHECK_THAT(swapped.normal[FL], WithinRel(plain.normal[RR], 1e-12));
}

TEST_CASE("elastic roll moments share by the roll share, from none to all on one axle") {
  for (const double share : {0.0, 0.25, 1.0}) {
    RigidVehicle v = runabout();
    v.front_roll_share = share;
    v.front_roll_centre = v.rear_roll_centre = 0;
    const WheelLoads loads = wheel_loads(v, body_force({.corner = 0.3}, g));
    const double front = (loads.normal[FR] - loads.normal[FL]) * 1.0 / 2;
    const double rear = (loads.normal[RR] - loads.normal[RL]) * 0.9 / 2;
    const double all = 150 * 0.3 * g * 0.42;  // m a h
    CHECK_THAT(front, WithinAbs(share * all, 1e-9));
    CHECK_THAT(rear, WithinAbs((1 - share) * all, 1e-9));
  }
}

TEST_CASE("cross-weight that lifts two opposite corners leaves the vehicle on three wheels") {
  // Front track twice the rear one: the rear loads answer twice as fast. By statics the vehicle
  // stands on every three wheels that have its centre of mass between them.
  const RigidVehicle v = four_wheels(100, {-1.2, 0.01, 0.4}, 1.6, 1.2, 0.6);
  for (const double cross : {-1000.0, 1000.0}) {
    const WheelLoads loads = wheel_loads(v, {0, 0, -g}, {}, cross);
    CHECK(std::count(loads.lifted.begin(), loads.lifted.end(), true) == 1);
    CHECK_FALSE(loads.tips);
    CHECK(out_of_balance(v, loads.normal, {0, 0, -g}) < 1e-12);
  }
}

TEST_CASE("braking beyond nose-over leaves the front wheels with everything") {
  const WheelLoads loads = wheel_loads(runabout(), body_force({.brake = 2.2}, g));
  CHECK(loads.tips);
  CHECK(loads.lifted == std::vector<bool>{false, false, true, true});
  check_loads(loads, {150 * g / 2, 150 * g / 2, 0, 0});
}

TEST_CASE(
    "turning beyond tipping leaves the outer wheels with everything, shared along their line") {
  const RigidVehicle v = four_wheels(150, {-0.88, 0, 0.42}, 1.6, 1.0, 1.0);
  const WheelLoads loads = wheel_loads(v, body_force({.corner = 1.3}, g));
  CHECK(loads.tips);
  CHECK(loads.lifted == std::vector<bool>{true, false, true, false});
  check_loads(loads, {0, 662.175, 0, 809.325});  // W b/L, W a/L
}

TEST_CASE(
    "two wheels carry beside their line only along it, and beyond its end the nearer one all") {
  const std::vector<bool> rear_off = {false, false, true, true};
  RigidVehicle v = four_wheels(100, {-0.5, 0.25, 0.4}, 1.6, 1.0, 1.0);
  check_loads(wheel_loads(v, {0, 0, -g}, rear_off), {75 * g, 25 * g, 0, 0});
  CHECK(wheel_loads(v, {0, 0, -g}, rear_off).tips);
  v.centre.y() = 0.6;
  const WheelLoads beyond = wheel_loads(v, {0, 0, -g}, rear_off);
  CHECK(beyond.normal == std::vector<double>{100 * g, 0, 0, 0});
  CHECK(beyond.lifted == std::vector<bool>{false, true, true, true});
}

TEST_CASE("one wheel on the ground carries all, none carries nothing, and both turn over") {
  const WheelLoads one = wheel_loads(runabout(), {0, 0, -g}, {true, true, false, true});
  CHECK_THAT(one.normal[RL], WithinRel(150 * g, 1e-12));
  CHECK(one.tips);
  const WheelLoads none = wheel_loads(runabout(), {0, 0, -g}, {true, true, true, true});
  CHECK(sum(none.normal) == 0);
  CHECK(none.tips);
}

TEST_CASE("a vehicle that nothing presses down leaves the road with all wheels") {
  for (const double up : {0.0, 3.0}) {
    const WheelLoads loads = wheel_loads(runabout(), {1, 2, up});
    CHECK(loads.normal == std::vector<double>(4, 0.0));
    CHECK(loads.lifted == std::vector<bool>(4, true));
    CHECK(loads.tips);
    CHECK(sum(side_forces(runabout(), loads, {1, 2, up})) == 0);
  }
}

TEST_CASE("wheels that stand on each other or in a row give numbers all the same") {
  RigidVehicle three_in_a_row = four_wheels(100, {-0.5, 0.1, 0.4}, 1, 1, 1);
  three_in_a_row.contact[FR] = {-1, -1, 0};
  const std::vector<RigidVehicle> vehicles = {
      three_in_a_row, four_wheels(100, {0, 0, 0.4}, 0, 0, 0),
      four_wheels(100, {-0.5, 0, 0.4}, 1, 0, 0), four_wheels(100, {-0.5, 0.1, 0.4}, 0, 1, 1),
      four_wheels(100, {-0.5, 0.1, 0.4}, 1, 1, 0)};
  for (const RigidVehicle& v : vehicles) {
    for (const std::vector<bool>& off :
         {std::vector<bool>{}, std::vector<bool>{true, false, false, false},
          std::vector<bool>{false, true, true, false}}) {
      const Eigen::Vector3d b(1, 2, -g);
      const WheelLoads loads = wheel_loads(v, b, off, 10);
      for (const double N : loads.normal) CHECK((std::isfinite(N) && N >= 0));
      for (const double q : loads.cross_pattern) CHECK(std::isfinite(q));
      for (const double F : side_forces(v, loads, b)) CHECK(std::isfinite(F));
    }
  }
}

}  // namespace tubewright::wheel_loads_test
