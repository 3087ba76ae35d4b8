#include "cases/studies/roll_support.h"

#include <numbers>

#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::roll_support_test {

using namespace tubewright::testing;

namespace {

constexpr Source by_hand = rederived("two axles and a torsion spring between, solved by hand");
constexpr double per_degree = std::numbers::pi / 180;

Frame box() {
  Frame f = box_vehicle();
  f.torsion = TorsionTest{{"fl0", "fr0"}, {"rl0", "rr0"}, 100, {}};
  return f;
}
}  // namespace

TEST_CASE("a frame as stiff as both axles together keeps four fifths of an even balance",
          "[truth]") {
  // Two axles and a torsion spring between, solved by hand; the table of wanted shares against
  // K_frame/(K_f + K_r), front share 0.5, 0.6, 0.7.
  struct Row {
    double wanted, even, six, seven;
  };
  for (const Row& row : {Row{0.80, 1.00, 0.96, 0.84}, Row{0.90, 2.25, 2.16, 1.89},
                         Row{0.95, 4.75, 4.56, 3.99}, Row{0.98, 12.25, 11.76, 10.29}}) {
    truth(named("front share 0.5, frame/axles ", row.even, ": balance kept"), by_hand,
          balance_kept(row.even * 7, 3, 4, 0.5), within_abs(row.wanted, 1e-3));
    truth(named("front share 0.6, frame/axles ", row.six, ": balance kept"), by_hand,
          balance_kept(row.six * 7, 3, 4, 0.6), within_abs(row.wanted, 1e-3));
    truth(named("front share 0.7, frame/axles ", row.seven, ": balance kept"), by_hand,
          balance_kept(row.seven * 7, 3, 4, 0.7), within_abs(row.wanted, 1e-3));
  }
  // A sprung cart of 216 N m/deg in all, front share 0.607: 90 % at 463 N m/deg (same source).
  truth("sprung cart, frame of 463 N m/deg: balance kept", by_hand,
        balance_kept(463 * per_degree, 130.9 * per_degree, 84.82 * per_degree, 0.606796),
        within_abs(0.90, 2e-3));
}

TEST_CASE("without springs the roll stiffness of an axle is that of its tyres, k t^2/2") {
  Frame f = box();
  f.vehicle->tyre_rate = 120e3;
  const RollSupportOutcome r = roll_support(f, 1000);
  REQUIRE(r.support);
  CHECK_FALSE(r.support->sprung);
  CHECK_FALSE(r.support->kept);
  // The wheels stand on the frame itself: only the tyres give way. Track 0.8 m.
  CHECK_THAT(r.support->front, WithinRel(120e3 * 0.8 * 0.8 / 2, 1e-9));
  CHECK_THAT(r.support->rear, WithinRel(120e3 * 0.8 * 0.8 / 2, 1e-9));
  CHECK(r.support->lifting_bump > 0);
}

TEST_CASE("on rigid tyres a bump lifts the other wheel as soon as the frame has twisted enough") {
  const Frame f = box();
  const double K = 5000;
  const RollSupportOutcome r = roll_support(f, K);
  REQUIRE(r.support);
  CHECK(std::isinf(r.support->front));
  CHECK_THAT(r.support->lifting_bump,
             WithinRel(0.8 * std::tan(r.support->lifting_couple / K), 1e-9));
}

TEST_CASE("a vehicle on three wheels is not twisted by the road") {
  Frame f = box();
  f.vehicle->wheels.pop_back();
  const RollSupportOutcome r = roll_support(f, 1000);
  CHECK_FALSE(r.support);
  CHECK_THAT(r.reason, ContainsSubstring("two wheels on each axle"));
  f.vehicle.reset();
  CHECK_FALSE(roll_support(f, 1000).support);
}

}  // namespace tubewright::roll_support_test
