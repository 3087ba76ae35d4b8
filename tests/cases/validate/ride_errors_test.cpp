// The wording of what can be wrong with a ride, against the form of the house.
#include "cases/validate/ride_errors.h"

#include "tests/catch.h"
#include "tests/wording_form.h"

namespace tubewright::ride_errors_test {

TEST_CASE("every wording of a faulty ride has the form of the house") {
  testing::check_wordings(
      "cases/validate/ride_errors.h",
      {{"ride_over_nothing", ride_over_nothing("kerb")},
       {"ride_over_several", ride_over_several("kerb", {"step", "road"})},
       {"ride_lacks", ride_lacks("hole", "a pothole", "length")},
       {"not_of_this_ride", not_of_this_ride("kerb", "seed", "a step")},
       {"level_step", level_step("kerb")},
       {"no_seed", no_seed("gravel")},
       {"unreadable_profile", unreadable_profile("track", "track.csv", "line 3 has 2 numbers")},
       {"ride_without_vehicle", ride_without_vehicle("kerb")},
       {"wheel_without_radius", wheel_without_radius("left", "kerb")},
       {"wheel_without_tyre", wheel_without_tyre("left", "kerb")},
       {"unclimbable", unclimbable("kerb", 0.3, "left", 0.2)},
       {"ride_too_short", ride_too_short("kerb", 0.1, 0.8)},
       {"does_not_stand", does_not_stand()},
       {"ride_diverges", ride_diverges("kerb")},
       {"no_rides", no_rides()},
       {"name_of_an_instant", name_of_an_instant("kerb_1", "kerb")},
       {"no_wheel_on_side", no_wheel_on_side("kerb", "left")}});
}

}  // namespace tubewright::ride_errors_test
