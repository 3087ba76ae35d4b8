#include "cases/vehicle/wheel_lift.h"

#include <limits>
#include <numbers>

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::wheel_lift_test {

namespace {

constexpr Source by_hand = rederived("statics of axles, tyres and frame in series, worked by hand");

constexpr double degree = std::numbers::pi / 180;
constexpr double never = std::numeric_limits<double>::infinity();

}  // namespace

TEST_CASE("the lighter axle sets the couple that the road can put into the frame", "[truth]") {
  // 150 kg, wheelbase 1.6 m, centre 0.88 m behind the front axle, tracks 1.0 and 0.9 m. By hand.
  truth("couple that lifts a wheel, N m", by_hand, lifting_couple(662.175, 1.0, 809.325, 0.9),
        within_rel(331.0875, 1e-6));
  CHECK_THAT(1.3 * 331.0875, WithinRel(430.41, 1e-4));
}

TEST_CASE("a stiffer frame lifts a wheel on a lower bump", "[truth]") {
  // The same vehicle on tyres of 120 N/mm; frame, front and rear tyres in series. By hand.
  const double front = roll_stiffness(120e3, 1.0), rear = roll_stiffness(120e3, 0.9);
  truth("roll stiffness of the front tyres, N m/deg", by_hand, front * degree,
        within_rel(1047.20, 1e-5));
  truth("roll stiffness of the rear tyres, N m/deg", by_hand, rear * degree,
        within_rel(848.23, 1e-5));
  const auto bump = [&](double frame) {
    return 1e3 * lifting_bump(331.0875, 1.0, frame, front, rear);
  };
  truth("bump that lifts a wheel, frame of 150 N m/deg, mm", by_hand, bump(150 / degree),
        within_abs(50.9, 0.05));
  truth("bump that lifts a wheel, frame of 300 N m/deg, mm", by_hand, bump(300 / degree),
        within_abs(31.6, 0.05));
  truth("bump that lifts a wheel, frame of 1000 N m/deg, mm", by_hand, bump(1000 / degree),
        within_abs(18.1, 0.05));
  truth("bump that lifts a wheel, rigid frame, mm", by_hand, bump(never), within_abs(12.3, 0.05));
}

}  // namespace tubewright::wheel_lift_test
