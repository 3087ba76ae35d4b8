#include "cases/validate/validate.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::validate_vehicle_test {

using testing::add_case;
using testing::braced_rectangle;
using testing::text_of;

namespace {

Wheel wheel(const std::string& name, double x, double y, Axle axle, const std::string& carrier) {
  Wheel w;
  w.name = name;
  w.contact = {x, y, -0.2};
  w.centre = {x, y, 0.03};
  w.carrier = {carrier};
  w.brake = WheelBrake::outboard;
  w.axle = axle;
  return w;
}

Frame runabout() {
  Frame f = braced_rectangle();
  Vehicle v;
  v.wheels = {wheel("front_left", 0.6, 0.5, Axle::front, "C"),
              wheel("front_right", 0.6, -0.1, Axle::front, "B"),
              wheel("rear_left", 0, 0.5, Axle::rear, "D"),
              wheel("rear_right", 0, -0.1, Axle::rear, "A")};
  f.vehicle = v;
  return f;
}

}  // namespace

TEST_CASE("a vehicle on three or four wheels is sound") {
  Frame f = runabout();
  CHECK(text_of(validate(f)).empty());
  f.vehicle->wheels.pop_back();
  CHECK(text_of(validate(f)).empty());
  f.vehicle->wheels.pop_back();
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("the vehicle has 2 wheels"));
}

TEST_CASE("axles have wheels, a track and an order") {
  Frame f = runabout();
  for (Wheel& w : f.vehicle->wheels) w.axle = Axle::front;
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("the front axle has 4 wheels"));
  f = runabout();
  f.vehicle->wheels[1].contact.y() = 0.5;
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("no track between them"));
  f = runabout();
  for (Wheel& w : f.vehicle->wheels) w.axle = w.axle == Axle::front ? Axle::rear : Axle::front;
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("not in front of the rear axle"));
}

TEST_CASE("a wheel stands on the ground and is carried by nodes of the frame") {
  Frame f = runabout();
  f.vehicle->wheels[0].contact.z() = 0.5;
  f.vehicle->wheels[1].carrier = {};
  f.vehicle->wheels[2].carrier = {"D", "D", "E"};
  const std::string text = text_of(validate(f));
  CHECK_THAT(text, ContainsSubstring("wheel `front_left` touches the ground above its centre"));
  CHECK_THAT(text, ContainsSubstring("wheel `front_right` is carried by nothing"));
  CHECK_THAT(text, ContainsSubstring("wheel `rear_left` names node `D` twice"));
  CHECK_THAT(text, ContainsSubstring("wheel `rear_left` names node `E`, which does not exist"));
}

TEST_CASE("shares lie between 0 and 1 and brakes are where the share sends the force") {
  Frame f = runabout();
  f.vehicle->brake_front_share = 1.2;
  f.vehicle->roll_stiffness_front_share = -0.1;
  f.vehicle->friction = 0;
  const std::string text = text_of(validate(f));
  CHECK_THAT(text, ContainsSubstring("`brake_front_share`"));
  CHECK_THAT(text, ContainsSubstring("`roll_stiffness_front_share`"));
  CHECK_THAT(text, ContainsSubstring("`friction`"));

  f = runabout();
  f.vehicle->brake_front_share = 0.6;
  f.vehicle->wheels[2].brake = f.vehicle->wheels[3].brake = WheelBrake::none;
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("to the rear axle, which has no brake"));
  f.vehicle->brake_front_share = 1;
  CHECK(validate(f).empty());
}

TEST_CASE("driving cases name wheels, and steps that a wheel can climb") {
  Frame f = runabout();
  Case& c = add_case(f, "bad", CaseKind::vehicle);
  c.bump.push_back({"front_lift", 3, {}});
  c.lift = "rear_lefty";
  c.step = StepStrike{"front_left", 0.25, 4.5, {}};  // the radius is 0.23 m
  const std::string text = text_of(validate(f));
  CHECK_THAT(text, ContainsSubstring("`front_lift`, which does not exist | did you mean"));
  CHECK_THAT(text, ContainsSubstring("did you mean `rear_left`?"));
  CHECK_THAT(text, ContainsSubstring("lower than its radius, 230 mm"));
}

TEST_CASE("a case that brakes needs a brake") {
  Frame f = runabout();
  add_case(f, "stop", CaseKind::vehicle).brake = 0.8;
  CHECK(validate(f).empty());
  for (Wheel& w : f.vehicle->wheels) w.brake = WheelBrake::none;
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("brakes, but no wheel has a brake"));
}

TEST_CASE("a torsion test has a left and a right node at each end, four in all") {
  Frame f = braced_rectangle();
  f.torsion = TorsionTest{{"C", "B"}, {"D", "A"}, 100, {}};
  CHECK(text_of(validate(f)).empty());
  f.torsion->front = {"B", "C"};
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("`B` is not to the left of `C`"));
  f.torsion->front = {"D", "A"};
  CHECK_THAT(text_of(validate(f)), ContainsSubstring("uses node `D` twice"));
  f.torsion = TorsionTest{{"C", "Q"}, {"D", "A"}, 0, {}};
  const std::string text = text_of(validate(f));
  CHECK_THAT(text, ContainsSubstring("names node `Q`"));
  CHECK_THAT(text, ContainsSubstring("impossible `couple`"));
}

TEST_CASE("targets, stock and bench weights are quantities that can exist") {
  Frame f = braced_rectangle();
  f.limits.mass = -40;
  f.stock = Stock{};
  f.stock->end_trim = 3;
  f.stock->sizes.push_back({Shape::square_tube, 0.02, 0.02, 0.02, -1});
  f.bench_test = BenchTest{{{"A", 1e300}, {"Z", 20}}, {{"B", 5, {}}}};
  const std::string text = text_of(validate(f));
  CHECK_THAT(text, ContainsSubstring("`limits` has an impossible `mass`"));
  CHECK_THAT(text, ContainsSubstring("`stock` trims its bars away"));
  CHECK_THAT(text, ContainsSubstring("stock size 1 has a wall of 20 mm"));
  CHECK_THAT(text, ContainsSubstring("stock size 1 has an impossible `price`"));
  CHECK_THAT(text, ContainsSubstring("`bench_test.weights` has an impossible `A`"));
  CHECK_THAT(text, ContainsSubstring("names node `Z`"));
  CHECK_THAT(text, ContainsSubstring("reads node `B` in no direction"));
}

}  // namespace tubewright::validate_vehicle_test
