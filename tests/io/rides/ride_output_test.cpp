#include "io/rides/ride_output.h"

#include <nlohmann/json.hpp>

#include "tests/cases/rides/riders.h"
#include "tests/catch.h"

namespace tubewright::ride_output_test {

using namespace tubewright::testing;

namespace {

const RideStudy& kerb_study() {
  static const RideStudy study = [] {
    Frame f = sprung_rider();
    f.rides = {kerb_ride(0.05, 3)};
    return answer_of(ride_study(f));
  }();
  return study;
}

}  // namespace

TEST_CASE("the JSON of a ride has the keys of the contract") {
  const RideStudy& study = kerb_study();
  const auto json = nlohmann::json::parse(ride_json(study, {}));
  const auto& kerb = json.at("rides").at("kerb");
  const auto& wheel = kerb.at("wheels").at("front_left");
  CHECK(wheel.at("peak").get<double>() == study.rides[0].wheels[0].peak);
  CHECK(wheel.at("factor").get<double>() > 1);
  CHECK(wheel.contains("off_ground"));
  CHECK(kerb.at("masses").at("driver").contains("rms"));
  CHECK(kerb.at("masses").at("driver").contains("peak"));
  for (const Member& m : study.frame.members) {
    const auto& member = kerb.at("members").at(m.name);
    CHECK(member.contains("utilisation"));
    CHECK(member.contains("item"));
    CHECK(member.contains("time"));
  }
  CHECK(kerb.at("fatigue").contains("damage"));
  CHECK(kerb.at("converged").is_boolean());
  CHECK(json.at("passes").get<bool>() == rides_pass(study));
}

TEST_CASE("the text of a ride fits the terminal and says what is not in it") {
  const std::string text = ride_text(kerb_study(), {});
  CHECK_THAT(text, ContainsSubstring("front_left"));
  CHECK_THAT(text, ContainsSubstring("It does not replace a drive test."));
  size_t at = 0;
  while (at < text.size()) {
    const size_t end = text.find('\n', at);
    INFO(text.substr(at, end - at));
    CHECK(end - at <= 100);
    at = end + 1;
  }
}

TEST_CASE("quiet is one line a ride") {
  const std::string lines = ride_lines(kerb_study());
  CHECK(std::count(lines.begin(), lines.end(), '\n') == 1);
  CHECK(lines.starts_with("kerb: "));
}

}  // namespace tubewright::ride_output_test
