#include "io/report/report_rides.h"

#include <nlohmann/json.hpp>

#include "cases/rides/ride_verdict.h"
#include "io/report/report_data.h"
#include "io/rides/ride_output.h"
#include "tests/cases/rides/riders.h"
#include "tests/catch.h"

namespace tubewright::report_rides_test {

using namespace tubewright::testing;
using nlohmann::json;

namespace {

/// Two rides and their worst instants, driven once.
struct Ridden {
  RideStudy study;
  FrameStudies studies;
};

const Ridden& ridden() {
  static const Ridden both = [] {
    Frame f = sprung_rider();
    f.rides = {kerb_ride(0.05, 3, RideSide::left), kerb_ride(0, 2)};
    RideEntry& gravel = f.rides.back();
    gravel.name = "gravel";
    gravel.ground = Ground::random_road;
    gravel.roughness = 64e-6;
    gravel.duration = 3;
    gravel.repeat = 500;
    Ridden r{answer_of(ride_study(f)), {}};
    r.studies = take_instants(r.study);
    return r;
  }();
  return both;
}

json data_of(const Ridden& r) {
  const FrameText file{"quad.yaml", ""};
  return report_data({r.studies, {}, file, "2026-01-31", nullptr, nullptr, &r.study});
}

}  // namespace

TEST_CASE("each ride says what it goes over, what it came to, and what is not proven") {
  RideStudy study = ridden().study;
  study.rides[1].verdict.not_proven = {"ride gravel: a doubt"};
  study.rides[1].verdict.answer = Verdict::Answer::not_proven;
  const json rides = report_rides(study)["rides"];
  CHECK(rides[0]["what"] == "up a step of 50 mm, with the left wheels only at 10.8 km/h");
  CHECK(rides[1]["what"] == "over a random road of 64.0e-6 m\u00b3 at 7.20 km/h");
  CHECK(rides[1]["word"] == "NOT PROVEN");
  CHECK(rides[1]["not_proven"] == json::array({"ride gravel: a doubt"}));
  CHECK(rides[0]["wear"] == wear_words(study, study.rides[0]));
}

TEST_CASE("a ride has wheels, masses and wear as the answer of `ride` has them") {
  const Ridden& r = ridden();
  const json rides = report_rides(r.study)["rides"];
  for (size_t i = 0; i < 2; ++i) {
    const json part = ride_part(r.study, r.study.rides[i]);
    for (const char* key : {"wheels", "masses", "duration", "worst", "change_by_halving"})
      CHECK(rides[i][key] == part[key]);
    CHECK(rides[i]["fatigue"]["damage"] == part["fatigue"]["damage"]);
  }
}

TEST_CASE("forces over time are those of the ride, a row a wheel, null where no step fell") {
  RideStudy study = ridden().study;
  study.rides[0].trace.least[1][7] = INFINITY;
  study.rides[0].trace.greatest[1][7] = -INFINITY;
  const json trace = report_rides(study)["rides"][0]["trace"];
  REQUIRE(trace["least"].size() == 4);
  REQUIRE(trace["greatest"][3].size() == trace["time"].size());
  CHECK(trace["least"][1][7].is_null());
  CHECK(trace["greatest"][1][7].is_null());
  CHECK(trace["greatest"][0][9] == study.rides[0].trace.greatest[0][9]);
}

TEST_CASE("what is nearest its limit names the load case of the report at which it is so") {
  const json data = data_of(ridden());
  std::optional<double> before;
  for (const json& ride : data["rides"]["rides"]) {
    before.reset();
    for (const json& w : ride["nearest"]) {
      const json& c = data["cases"].at(w["case"].get<size_t>());
      CHECK_THAT(c["name"].get<std::string>(),
                 ContainsSubstring(ride["name"].get<std::string>() + " at "));
      double most = 0;
      for (size_t m = 0; m < data["members"].size(); ++m) {
        if (data["members"][m]["name"] != w["item"]) continue;
        for (const json& used : c["members"][m]["used"]) {
          if (used.is_number()) most = std::max(most, used.get<double>());
        }
      }
      CHECK(most == w["utilisation"].get<double>());
      if (before) CHECK(w["utilisation"] <= *before);
      before = w["utilisation"].get<double>();
    }
  }
}

TEST_CASE("the worst of each member over the rides stands in the order of the members") {
  const json data = data_of(ridden());
  REQUIRE(data["rides"]["worst"].size() == data["members"].size());
  double greatest = 0;
  for (const json& used : data["rides"]["worst"]) {
    if (used.is_number()) greatest = std::max(greatest, used.get<double>());
  }
  CHECK(greatest == data["verdict"]["worst"]["utilisation"].get<double>());
}

TEST_CASE("what lasts least comes first, with what each ride does to it once") {
  RideStudy study = ridden().study;
  study.life_damage.assign(study.frame.members.size(), std::nullopt);
  study.rides[0].damage = {{1, 0, 1e-5}, {2, 1, 3e-5}};
  study.rides[1].damage = {{2, 1, 2e-6}};
  study.life_damage[1] = 1e-5;
  study.life_damage[2] = 1.03e-3;
  const json life = report_rides(study)["life"];
  CHECK(life["sentence"] == life_sentence(study));
  REQUIRE(life["members"].size() == 2);
  CHECK(life["members"][0]["name"] == study.frame.members[2].name);
  CHECK(life["members"][0]["rides"] == json::array({3e-5, 2e-6}));
  CHECK(life["members"][1]["rides"] == json::array({1e-5, 0.0}));
}

TEST_CASE("the report of rides has their cautions and assumptions, and no chapter of a check") {
  const Ridden& r = ridden();
  const json data = data_of(r);
  CHECK(data["cautions"] == ride_cautions(r.study));
  CHECK_THAT(data["assumptions"].dump(), ContainsSubstring("constant speed"));
  for (const char* key : {"fatigue", "torsion", "floor", "modes", "buckling", "cut", "rank"})
    CHECK(data[key].is_null());
  CHECK(data["what_ifs"].empty());
}

}  // namespace tubewright::report_rides_test
