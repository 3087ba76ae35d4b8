#include "cases/vehicle/wheel_lift.h"

#include <limits>
#include <numbers>

#include "tests/catch.h"

namespace tubewright::wheel_lift_test {

namespace {

constexpr double degree = std::numbers::pi / 180;
constexpr double never = std::numeric_limits<double>::infinity();

}  // namespace

TEST_CASE("the lighter axle sets the couple that the road can put into the frame") {
  // 150 kg, wheelbase 1.6 m, centre 0.88 m behind the front axle, tracks 1.0 and 0.9 m. By hand.
  CHECK_THAT(lifting_couple(662.175, 1.0, 809.325, 0.9), WithinRel(331.0875, 1e-6));
  CHECK_THAT(1.3 * 331.0875, WithinRel(430.41, 1e-4));
}

TEST_CASE("a stiffer frame lifts a wheel on a lower bump") {
  // The same vehicle on tyres of 120 N/mm; frame, front and rear tyres in series. By hand.
  const double front = roll_stiffness(120e3, 1.0), rear = roll_stiffness(120e3, 0.9);
  CHECK_THAT(front * degree, WithinRel(1047.20, 1e-5));
  CHECK_THAT(rear * degree, WithinRel(848.23, 1e-5));
  const auto bump = [&](double frame) {
    return 1e3 * lifting_bump(331.0875, 1.0, frame, front, rear);
  };
  CHECK_THAT(bump(150 / degree), WithinAbs(50.9, 0.05));
  CHECK_THAT(bump(300 / degree), WithinAbs(31.6, 0.05));
  CHECK_THAT(bump(1000 / degree), WithinAbs(18.1, 0.05));
  CHECK_THAT(bump(never), WithinAbs(12.3, 0.05));
}

}  // namespace tubewright::wheel_lift_test
