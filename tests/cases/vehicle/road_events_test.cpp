// Road events against published tables and formulae worked by hand.
#include "cases/vehicle/road_events.h"

#include <cmath>
#include <random>

#include "cases/vehicle/wheel_loads.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::road_events_test {

namespace {

constexpr Source brown_22 =
    seen_in("Brown, Robertson & Serpento, Motor Vehicle Structures (2002), p. 22");
constexpr Source brown_24 = seen_in(
    "Brown, Robertson & Serpento, Motor Vehicle Structures (2002), p. 24 (formula and K), worked "
    "by hand");
constexpr Source garrett = seen_in(
    "Brown, Robertson & Serpento (2002), p. 22: K_dyn = 4.5 after Garrett (1953), worked by hand");
constexpr Source by_hand = rederived("statics and energy worked by hand");
constexpr Source classic = from_memory("a load put on a spring at once: twice its static force");

constexpr double g = 9.81;
constexpr double degree = 3.14159265358979323846 / 180;

/// A light runabout of 150 kg.
RigidVehicle runabout(double track) {
  RigidVehicle v;
  v.mass = 150;
  v.centre = {-0.88, 0, 0.42};
  v.contact = {{0, track / 2, 0}, {0, -track / 2, 0}, {-1.6, track / 2, 0}, {-1.6, -track / 2, 0}};
  v.axle = {Axle::front, Axle::front, Axle::rear, Axle::rear};
  return v;
}

}  // namespace

TEST_CASE("braking pushes forward, a left turn pushes to the right, weight pushes down") {
  const Eigen::Vector3d b = body_force({.brake = 0.5, .corner = 0.25, .vertical = 2}, g);
  CHECK((b - Eigen::Vector3d(0.5 * g, -0.25 * g, -2 * g)).norm() < 1e-12);
}

TEST_CASE("facing downhill, gravity pushes forward by its sine") {
  const Eigen::Vector3d b = body_force({.grade = 0.75}, g);  // 3:4:5
  CHECK((b - Eigen::Vector3d(0.6 * g, 0, -0.8 * g)).norm() < 1e-12);
}

TEST_CASE("a bank takes from the side acceleration and adds to the load", "[truth]") {
  // 12 m/s round 20 m, 10 degrees. Worked here by hand: v^2/r cos B - g sin B, g cos B +
  // v^2/r sin B.
  const Eigen::Vector3d b = body_force({.corner = 7.2 / g, .bank = 10 * degree}, g);
  truth("12 m/s round 20 m, bank of 10 degrees: side acceleration, m/s2", by_hand, -b.y(),
        within_rel(5.3871, 0.001));
  truth("12 m/s round 20 m, bank of 10 degrees: acceleration into the road, m/s2", by_hand, -b.z(),
        within_rel(10.9112, 0.001));
  CHECK_THAT(-b.y() / g, WithinRel(0.5491, 0.001));
  CHECK_THAT(-b.z() / g, WithinRel(1.1123, 0.001));
}

TEST_CASE("however the road is tilted, gravity and accelerations keep their size") {
  std::mt19937 random(1);
  std::uniform_real_distribution<double> u(-1, 1);
  for (int i = 0; i < 100; ++i) {
    const double grade = u(random), bank = u(random), corner = u(random);
    CHECK_THAT(body_force({.grade = grade, .bank = bank}, g).norm(), WithinRel(g, 1e-12));
    // A turn is square to gravity, also on a hill.
    CHECK_THAT(body_force({.corner = corner, .grade = grade, .bank = bank}, g).norm(),
               WithinRel(g * std::hypot(1, corner), 1e-12));
  }
}

TEST_CASE("a dip adds v^2/(g R) to the weight", "[truth]") {
  // Worked here by hand: 12 m/s, 25 m.
  truth("12 m/s through a dip of 25 m: factor on the weight", by_hand, dip_factor(12, 25, g),
        within_rel(1.5872, 0.001));
  CHECK(dip_factor(0, 25, g) == 1);
}

TEST_CASE("the force of a step is as in the published table", "[truth]") {
  // Brown, Robertson & Serpento, Motor Vehicle Structures (2002), p. 22, to the table's two
  // decimals.
  const double height[] = {0.1, 0.25, 0.293, 0.5, 0.75};
  const double printed[] = {0.48, 0.88, 1.00, 1.73, 3.87};
  // Worked here by hand, sqrt(1 - s^2)/s with s = 1 - H/R.
  const double exact[] = {0.4843, 0.8819, 1.0000, 1.7321, 3.8730};
  for (int i = 0; i < 5; ++i) {
    const double force = step_force(1, height[i], 1, 1);
    truth(named("step of H/R ", height[i], ": push over load"), brown_22, force,
          within_abs(printed[i], 0.005));
    truth(named("step of H/R ", height[i], ": push over load, four digits"), by_hand, force,
          within_rel(exact[i], 0.001));
  }
}

TEST_CASE("a step of 50 mm under a wheel of 250 mm pushes back with 4.5 times 0.75 of its load",
          "[truth]") {
  const double load = wheel_loads(runabout(1.0), {0, 0, -g}).normal[0];
  // Worked here by hand: sin th = 0.8, 1/tan th = 0.75. The factor 4.5: Garrett (1953), same page.
  const double still = step_force(load, 0.05, 0.25, 1);
  truth("step of 50 mm, wheel of 250 mm: push, N", by_hand, still, within_rel(248.3, 0.001));
  truth("step of 50 mm, wheel of 250 mm, factor 4.5: push, N", garrett,
        step_force(load, 0.05, 0.25, 4.5), within_rel(1117.4, 0.001));
  // Without the factor the resultant goes through the edge of the step: P / sin th.
  truth("step of 50 mm, wheel of 250 mm: resultant, N", by_hand, std::hypot(load, still),
        within_rel(413.9, 0.001));
}

TEST_CASE("a kerb nudge is K times the side force that tips the vehicle", "[truth]") {
  // K W B/(2h): Brown, Robertson & Serpento (2002), p. 24, K = 1.75 after Garrett, others 1.4.
  // Numbers worked here by hand.
  truth("kerb nudge, K 1, N", brown_24, kerb_nudge(150 * g, 0.95, 0.42, 1.0),
        within_rel(1664.2, 0.001));
  truth("kerb nudge, K 1.4, N", brown_24, kerb_nudge(150 * g, 0.95, 0.42, 1.4),
        within_rel(2329.9, 0.001));
  truth("kerb nudge, K 1.75, N", brown_24, kerb_nudge(150 * g, 0.95, 0.42, 1.75),
        within_rel(2912.3, 0.001));
}

TEST_CASE("a kerb nudge splits between front and rear wheel of the side it strikes", "[truth]") {
  // A kerb on the right pushes left, on the wheels of the right side only.
  const RigidVehicle v = runabout(0.95);
  WheelLoads struck;
  struck.normal = {0, 1, 0, 1};
  const double force = kerb_nudge(150 * g, 0.95, 0.42, 1.75);
  const std::vector<double> side = side_forces(v, struck, {0, -force / v.mass, 0});
  // F L2/(L1 + L2), F L1/(L1 + L2): same book and page. Numbers worked here by hand.
  CHECK(side[0] == 0);
  CHECK(side[2] == 0);
  truth("kerb nudge: on the front wheel, N", brown_24, side[1], within_rel(1310.55, 0.001));
  truth("kerb nudge: on the rear wheel, N", brown_24, side[3], within_rel(1601.79, 0.001));
}

TEST_CASE("a drop multiplies the static load by the root of its height and the stiffness",
          "[truth]") {
  // Worked here by hand from the energy, 1 + sqrt(1 + 2 s k/(m g)), to one decimal: a corner of
  // 37.5 kg dropped by 25 and 50 mm on springs of 8 to 120 N/mm.
  const double rate[] = {8e3, 15e3, 60e3, 120e3};
  const double from_25_mm[] = {2.4, 2.7, 4.0, 5.2};
  const double from_50_mm[] = {2.8, 3.3, 5.2, 6.8};
  for (int i = 0; i < 4; ++i) {
    truth(named("drop of 25 mm on ", rate[i] / 1e3, " N/mm, 37.5 kg: factor"), by_hand,
          drop_factor(0.025, rate[i], 37.5, g), within_abs(from_25_mm[i], 0.05));
    truth(named("drop of 50 mm on ", rate[i] / 1e3, " N/mm, 37.5 kg: factor"), by_hand,
          drop_factor(0.050, rate[i], 37.5, g), within_abs(from_50_mm[i], 0.05));
  }
}

TEST_CASE("a mass let go on its spring without a fall weighs twice", "[truth]") {
  truth("mass let go on its spring: factor", classic, drop_factor(0, 15e3, 37.5, g),
        within_abs(2, 0));  // classic; from memory
}

}  // namespace tubewright::road_events_test
