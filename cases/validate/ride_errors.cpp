#include "cases/validate/ride_errors.h"

#include "cases/frame/wording.h"

namespace tubewright {

namespace {

std::string the_ride(const std::string& ride) { return "ride " + quoted(ride); }

}  // namespace

Diagnostic ride_over_nothing(const std::string& ride) {
  return {the_ride(ride) + " does not say what it goes over",
          "give one of `step`, `obstacle`, `road` and `profile`"};
}

Diagnostic ride_over_several(const std::string& ride, const std::vector<std::string>& keys) {
  return {the_ride(ride) + " goes over several things: " + quoted_list(keys),
          "keep one; make another ride of each other"};
}

Diagnostic ride_lacks(const std::string& ride, const std::string& of, const std::string& key) {
  return {the_ride(ride) + " goes over " + of + " without `" + key + "`", "add it, in mm"};
}

Diagnostic not_of_this_ride(const std::string& ride, const std::string& key,
                            const std::string& over) {
  return {"`" + key + "` says nothing of ride " + quoted(ride) + ", which goes over " + over,
          "remove it"};
}

Diagnostic level_step(const std::string& ride) {
  return {the_ride(ride) + " goes over a step of no height",
          "give its height in mm, negative for a step down"};
}

Diagnostic no_seed(const std::string& ride) {
  return {the_ride(ride) + " has a `seed` that is none",
          "give a whole number from 1 to 2147483646"};
}

Diagnostic unreadable_profile(const std::string& ride, const std::string& file,
                              const std::string& why) {
  return {"the profile " + quoted(file) + " of ride " + quoted(ride) + " cannot be used: " + why,
          "give rows of x, left, right in mm, x ascending, in a CSV file beside the frame file"};
}

Diagnostic ride_without_vehicle(const std::string& ride) {
  return {the_ride(ride) + " has no wheels to ride on", "describe the `vehicle`"};
}

Diagnostic wheel_without_radius(const std::string& wheel, const std::string& ride) {
  return {
      "wheel " + quoted(wheel) + " has no `radius`, with which it rolls in ride " + quoted(ride),
      "add it, in mm, or let the tyre follow otherwise, `follower: {patch: 100}`"};
}

Diagnostic wheel_without_tyre(const std::string& wheel, const std::string& ride) {
  return {"wheel " + quoted(wheel) + " has no tyre in ride " + quoted(ride) +
              ": its stiffness is not known",
          "add `tyre_rate` in N/mm to the vehicle or to the wheel"};
}

Diagnostic unclimbable(const std::string& ride, double height, const std::string& wheel,
                       double radius) {
  return {the_ride(ride) + " has an edge of " + in_mm(height) + ", which wheel " + quoted(wheel) +
              " of " + in_mm(radius) + " radius cannot climb",
          "give a lower edge"};
}

Diagnostic ride_too_short(const std::string& ride, double duration, double needed) {
  return {the_ride(ride) + " ends after " + decimals(duration, 2) +
              " s, before all wheels are over what it goes over",
          "leave `duration` out, or give at least " + decimals(needed, 2) + " s"};
}

Diagnostic does_not_stand() {
  return {"the vehicle does not stand on its tyres: it tips over one, or falls between them",
          "check the places of the wheels' contacts and of the masses"};
}

Diagnostic ride_diverges(const std::string& ride) {
  return {the_ride(ride) + " has no answer: its numbers grow beyond all bounds",
          "check masses, tyre rates and damping for slips of the keyboard"};
}

Diagnostic name_of_an_instant(const std::string& load_case, const std::string& ride_case) {
  return {"case " + quoted(load_case) + " has the name of an instant of case " + quoted(ride_case),
          "give it another name: a ride's instants are called after their case, with _1, _2, ..."};
}

Diagnostic no_rides() {
  return {"the frame file describes no ride",
          "add some, such as `rides: {kerb: {step: 50, speed: 10}}`"};
}

Diagnostic no_wheel_on_side(const std::string& ride, const std::string& side) {
  return {the_ride(ride) + " has its obstacle on the " + side + ", where no wheel is",
          "leave `side` out"};
}

}  // namespace tubewright
