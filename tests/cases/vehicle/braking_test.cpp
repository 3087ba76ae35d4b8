// Brake forces, the grip they need, and how hard a vehicle can brake and turn before it tips.
#include "cases/vehicle/braking.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>

#include "cases/vehicle/road_events.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::braking_test {

namespace {

constexpr Source by_hand = rederived("statics worked by hand");

constexpr double g = 9.81;
enum : size_t { FL, FR, RL, RR };
using Limit = Deceleration::Limit;

RigidVehicle four_wheels(double a, double b, double h, double front_track, double rear_track) {
  RigidVehicle v;
  v.mass = 150;
  v.centre = {-a, 0, h};
  v.contact = {{0, front_track / 2, 0},
               {0, -front_track / 2, 0},
               {-a - b, rear_track / 2, 0},
               {-a - b, -rear_track / 2, 0}};
  v.axle = {Axle::front, Axle::front, Axle::rear, Axle::rear};
  return v;
}

/// A light runabout of 150 kg.
RigidVehicle runabout() { return four_wheels(0.88, 0.72, 0.42, 1.0, 0.9); }

const Brakes all_ideal = {{true, true, true, true}, {}};
const Brakes front_only = {{true, true, false, false}, {}};
const Brakes rear_only = {{false, false, true, true}, {}};

double sum(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0);
}

struct Braking {
  WheelLoads loads;
  std::vector<double> brake;
  std::vector<double> friction;
};

/// Straight ahead at deceleration d (m/s2) on the slope.
Braking braking_at(const RigidVehicle& v, const Brakes& brakes, double d, double slope) {
  const Eigen::Vector3d b = body_force({.brake = d / g, .grade = slope}, g);
  Braking r;
  r.loads = wheel_loads(v, b);
  r.brake = brake_forces(v, brakes, r.loads, v.mass * b.x());
  r.friction = friction_needed(r.loads, r.brake, std::vector<double>(v.contact.size(), 0));
  return r;
}

double greatest(const std::vector<double>& values) {
  return *std::max_element(values.begin(), values.end());
}

}  // namespace

TEST_CASE("ideal brake forces go with the wheel loads", "[truth]") {
  const Braking r = braking_at(runabout(), all_ideal, 0.8 * g, 0);
  // Worked here by hand: F = m a = 1177.20 N, times N_f/W and N_r/W.
  truth("braking at 0.8 g, 150 kg: brake force, N", by_hand, sum(r.brake),
        within_rel(1177.20, 0.001));
  truth("braking at 0.8 g: front axle, N", by_hand, r.brake[FL] + r.brake[FR],
        within_rel(776.952, 0.001));
  truth("braking at 0.8 g: rear axle, N", by_hand, r.brake[RL] + r.brake[RR],
        within_rel(400.248, 0.001));
  for (const double mu : r.friction) CHECK_THAT(mu, WithinRel(0.8, 1e-9));
}

TEST_CASE("braking downhill takes the friction of the deceleration and of the slope", "[truth]") {
  const Braking r = braking_at(runabout(), all_ideal, 0.6 * g, 0.15);
  // Worked here by hand: F = m (a + g sin th), friction F/(W cos th).
  truth("braking at 0.6 g on 15 %: brake force, N", by_hand, sum(r.brake),
        within_rel(1101.183, 0.001));
  for (const double mu : r.friction) CHECK_THAT(mu, WithinRel(0.75671, 0.001));
}

TEST_CASE("fixed shares divide the brake force between the axles, the load within them") {
  WheelLoads loads;
  loads.normal = {100, 300, 200, 200};
  const std::vector<double> brake =
      brake_forces(runabout(), {{true, true, true, true}, 0.6}, loads, 100);
  CHECK_THAT(brake[FL], WithinRel(15.0, 1e-12));
  CHECK_THAT(brake[FR], WithinRel(45.0, 1e-12));
  CHECK_THAT(brake[RL], WithinRel(20.0, 1e-12));
  CHECK_THAT(brake[RR], WithinRel(20.0, 1e-12));
}

TEST_CASE("an axle without load on a braked wheel leaves its part to the other") {
  WheelLoads loads;
  loads.normal = {400, 400, 0, 0};
  const Brakes fixed = {{true, true, true, true}, 0.6};
  CHECK(brake_forces(runabout(), fixed, loads, 100) == std::vector<double>{50, 50, 0, 0});
  CHECK(brake_forces(runabout(), rear_only, loads, 100) == std::vector<double>(4, 0.0));
  loads.normal = {0, 200, 300, 300};
  const Brakes left_front_and_rear = {{true, false, true, true}, 0.6};
  CHECK(brake_forces(runabout(), left_front_and_rear, loads, 100) ==
        std::vector<double>{0, 0, 50, 50});
  CHECK(brake_forces(runabout(), {{false, false, false, false}, {}}, loads, 100) ==
        std::vector<double>(4, 0.0));
}

TEST_CASE("a tyre needs the friction of brake and side force together") {
  WheelLoads loads;
  loads.normal = {100, 50, 0};
  const std::vector<double> friction = friction_needed(loads, {30, 0, 5}, {-40, 20, 5});
  CHECK_THAT(friction[0], WithinRel(0.5, 1e-12));
  CHECK_THAT(friction[1], WithinRel(0.4, 1e-12));
  CHECK(friction[2] == 0);
}

TEST_CASE("on the level the reachable deceleration is as worked by hand", "[truth]") {
  const double a = 0.88, b = 0.72, h = 0.42, L = 1.6, mu = 0.8;
  const auto reach = [&](const Brakes& brakes, double friction) {
    return reachable_deceleration(runabout(), brakes, friction, 0, g);
  };
  // Worked here by hand: F = mu N_r with N_r = (W a - F h)/L; F = mu N_f with N_f = (W b + F h)/L.
  truth("rear brakes alone, mu 0.8: deceleration, m/s2", by_hand, reach(rear_only, mu).greatest,
        within_rel(g * mu * a / (L + mu * h), 1e-12));
  CHECK(reach(rear_only, mu).limit == Limit::rear_grip);
  truth("front brakes alone, mu 0.8: deceleration, m/s2", by_hand, reach(front_only, mu).greatest,
        within_rel(g * mu * b / (L - mu * h), 1e-12));
  CHECK(reach(front_only, mu).limit == Limit::front_grip);
  CHECK_THAT(reach(all_ideal, mu).greatest, WithinRel(g * mu, 1e-12));
  // With grip to spare the rear wheels lift first, at g a/h.
  CHECK_THAT(reach(all_ideal, 3).greatest, WithinRel(2.0952 * g, 0.001));
  CHECK(reach(all_ideal, 3).limit == Limit::nose_over);
  CHECK(reach(front_only, 5).limit == Limit::nose_over);  // mu h > L: the front never slides
}

TEST_CASE("without brakes a vehicle gains speed downhill by g sin th") {
  const Brakes none = {{false, false, false, false}, {}};
  const Deceleration d = reachable_deceleration(runabout(), none, 0.8, 0.75, g);
  CHECK_THAT(d.greatest, WithinRel(-0.6 * g, 1e-12));  // 3:4:5
  CHECK(d.limit == Limit::none);
  CHECK(reachable_deceleration(runabout(), none, 0.8, 0, g).greatest == 0);
}

TEST_CASE("too little grip for the slope shows as a deceleration below zero") {
  CHECK(reachable_deceleration(runabout(), all_ideal, 0.3, 0.4, g).greatest < 0);
  CHECK(reachable_deceleration(runabout(), all_ideal, 0.5, 0.4, g).greatest > 0);
}

TEST_CASE("one braked wheel of two has half the axle's grip") {
  const Brakes one_rear = {{false, false, true, false}, {}};
  const double F = 0.8 / 2 * 0.88 / (1.6 + 0.8 / 2 * 0.42);  // mu/2 in place of mu
  CHECK_THAT(reachable_deceleration(runabout(), one_rear, 0.8, 0, g).greatest,
             WithinRel(g * F, 1e-12));
}

TEST_CASE("at the reachable deceleration some axle is at mu N or the rear lifts, beyond it worse") {
  std::mt19937 random(1);
  std::uniform_real_distribution<double> unit(0, 1);
  const auto between = [&](double low, double high) { return low + (high - low) * unit(random); };
  int seen[3] = {0, 0, 0};
  for (int i = 0; i < 2000; ++i) {
    RigidVehicle v = four_wheels(between(0.3, 1.2), between(0.3, 1.2), between(0.2, 0.9), 1.0, 0.8);
    const int single = static_cast<int>(between(0, 4));  // a single front or rear wheel
    if (single < 2) {
      const size_t gone = single == 0 ? FR : RR;
      v.contact[gone - 1].y() = 0;
      v.contact.erase(v.contact.begin() + static_cast<std::ptrdiff_t>(gone));
      v.axle.erase(v.axle.begin() + static_cast<std::ptrdiff_t>(gone));
    }
    Brakes brakes;
    for (size_t w = 0; w < v.axle.size(); ++w) brakes.braked.push_back(unit(random) < 0.7);
    if (std::count(brakes.braked.begin(), brakes.braked.end(), true) == 0) continue;
    if (unit(random) < 0.6) brakes.front_share = std::clamp(between(-0.2, 1.2), 0.0, 1.0);
    const double mu = between(0.1, 1.5), slope = between(-0.3, 0.3);

    const Deceleration d = reachable_deceleration(v, brakes, mu, slope, g);
    const Braking at = braking_at(v, brakes, d.greatest, slope);
    double rear = 0;
    for (size_t w = 0; w < v.axle.size(); ++w) {
      if (v.axle[w] == Axle::rear) rear += at.loads.normal[w];
    }
    ++seen[static_cast<int>(d.limit)];
    if (d.limit == Limit::nose_over) {
      CHECK(rear < 1e-9 * v.mass * g);
      CHECK(greatest(at.friction) < mu * (1 + 1e-9));
      CHECK(wheel_loads(v, body_force({.brake = d.greatest / g + 1e-4, .grade = slope}, g)).tips);
    } else {
      CHECK_THAT(greatest(at.friction), WithinRel(mu, 1e-9));
      CHECK(rear >= 0);
      CHECK_FALSE(at.loads.tips);
      CHECK(greatest(braking_at(v, brakes, d.greatest + 1e-3, slope).friction) > mu);
    }
    CHECK(greatest(braking_at(v, brakes, d.greatest - 1e-3, slope).friction) < mu);
  }
  CHECK(seen[static_cast<int>(Limit::front_grip)] > 200);
  CHECK(seen[static_cast<int>(Limit::rear_grip)] > 200);
  CHECK(seen[static_cast<int>(Limit::nose_over)] > 20);
}

TEST_CASE("a vehicle turns over forward at g a/h, backward at g b/h, sideways at g t/2h",
          "[truth]") {
  const TippingLimits t = tipping_limits(four_wheels(0.88, 0.72, 0.42, 1.0, 1.0), g);
  // Worked here by hand: the moment m a h meets that of the weight about the edge of the contacts.
  truth("turning over forward: deceleration, m/s2", by_hand, t.braking,
        within_rel(2.0952 * g, 0.001));
  truth("turning over backward: acceleration, m/s2", by_hand, t.driving,
        within_rel(g * 0.72 / 0.42, 1e-12));
  truth("turning over sideways: acceleration, m/s2", by_hand, t.left_turn,
        within_rel(g * 0.5 / 0.42, 1e-12));
  CHECK_THAT(t.right_turn, WithinRel(g * 0.5 / 0.42, 1e-12));
}

TEST_CASE("a mass on the left lets a vehicle turn left harder than right") {
  RigidVehicle v = four_wheels(0.8, 0.8, 0.5, 1.0, 1.0);
  v.centre.y() = 0.1;
  CHECK_THAT(tipping_limits(v, g).left_turn, WithinRel(g * 0.6 / 0.5, 1e-12));
  CHECK_THAT(tipping_limits(v, g).right_turn, WithinRel(g * 0.4 / 0.5, 1e-12));
}

TEST_CASE("a three-wheeler turns over the line from its single wheel to the outer one") {
  RigidVehicle v;
  v.mass = 100;
  v.centre = {-0.5, 0, 0.5};
  v.contact = {{0, 0.5, 0}, {0, -0.5, 0}, {-1.5, 0, 0}};
  v.axle = {Axle::front, Axle::front, Axle::rear};
  // Two thirds of the way from the single wheel the line is 2/3 of half the track away.
  CHECK_THAT(tipping_limits(v, g).left_turn, WithinRel(g * (0.5 * 2 / 3) / 0.5, 1e-12));
  CHECK_THAT(tipping_limits(v, g).right_turn, WithinRel(g * (0.5 * 2 / 3) / 0.5, 1e-12));
}

TEST_CASE("tipping limits are where wheel loads tip") {
  RigidVehicle v = runabout();
  v.centre.y() = 0.03;
  const TippingLimits t = tipping_limits(v, g);
  const auto tips = [&](double x, double y) { return wheel_loads(v, {x, y, -g}).tips; };
  CHECK((tips(1.001 * t.braking, 0) && !tips(0.999 * t.braking, 0)));
  CHECK((tips(-1.001 * t.driving, 0) && !tips(-0.999 * t.driving, 0)));
  CHECK((tips(0, -1.001 * t.left_turn) && !tips(0, -0.999 * t.left_turn)));
  CHECK((tips(0, 1.001 * t.right_turn) && !tips(0, 0.999 * t.right_turn)));
}

TEST_CASE("a mass on the road never tips, wherever the road is") {
  RigidVehicle v = runabout();
  for (Eigen::Vector3d& c : v.contact) c.z() = 0.42;
  const TippingLimits t = tipping_limits(v, g);
  for (const double limit : {t.braking, t.driving, t.left_turn, t.right_turn}) {
    CHECK(std::isinf(limit));
  }
}

}  // namespace tubewright::braking_test
