#include "cases/rides/ride_verdict.h"

#include <algorithm>

#include "tests/cases/rides/riders.h"
#include "tests/catch.h"

namespace tubewright::ride_verdict_test {

using namespace tubewright::testing;

namespace {

RideStudy two_rides() {
  Frame f = rider();
  f.rides = {kerb_ride(0.05, 3), kerb_ride(0.02, 2)};
  f.rides.back().name = "low";
  return answer_of(ride_study(f));
}

/// A ride by hand, its members a and b.
RideResult by_hand(double a, std::optional<double> b) {
  RideResult r;
  r.members = {{"a", a, "yield", 0.1}, {"b", b, "weld", 0.2}};
  r.others = {{"sheet", 0.5, "rivet_shear", 0.3}};
  return r;
}

}  // namespace

TEST_CASE(
    "what is nearest its limit comes first, tube or sheet, and what has no number not at all") {
  const RideResult r = by_hand(0.4, std::nullopt);
  const auto list = nearest_limits(r);
  REQUIRE(list.size() == 2);
  CHECK(list[0]->item == "sheet");
  CHECK(list[1]->item == "a");
  CHECK(nearest_limits(r, 1).size() == 1);
}

TEST_CASE("the worst of a tube over the rides is that of the ride that is worse for it") {
  RideStudy study;
  study.frame.members.resize(2);
  study.rides = {by_hand(0.4, std::nullopt), by_hand(0.3, 0.2)};
  const auto worst = worst_of_members(study);
  CHECK(worst[0] == 0.4);
  CHECK(worst[1] == 0.2);
}

TEST_CASE("rides as a check have the instants at which what is listed is worst, and no others") {
  RideStudy study = two_rides();
  const size_t made = study.rides[0].instant_times.size() + study.rides[1].instant_times.size();
  const FrameStudies studies = take_instants(study);
  const Analysis& analysis = studies.analysis;
  REQUIRE(analysis.cases.size() == analysis.frame.cases.size());
  CHECK(analysis.cases.size() <= made);
  size_t met = 0;
  for (const RideResult& ride : study.rides) {
    CHECK(ride.instants.cases.empty());
    for (const RideWorst* w : nearest_limits(ride)) {
      const auto here = [&](const CaseResult& c) {
        if (!c.name.starts_with(ride.name + " at ")) return false;
        const auto member = std::find_if(study.frame.members.begin(), study.frame.members.end(),
                                         [&](const Member& m) { return m.name == w->item; });
        if (member == study.frame.members.end()) return false;
        const auto i = static_cast<size_t>(member - study.frame.members.begin());
        const NamedMemberCheck nearest = nearest_limit(c.members[i].checks);
        return nearest.result != nullptr && nearest.result->utilisation == w->utilisation;
      };
      if (std::any_of(analysis.cases.begin(), analysis.cases.end(), here)) ++met;
    }
  }
  CHECK(met == nearest_limits(study.rides[0]).size() + nearest_limits(study.rides[1]).size());
  for (size_t k = 0; k < analysis.cases.size(); ++k) {
    CHECK(analysis.cases[k].name == analysis.frame.cases[k].name);
  }
}

TEST_CASE("of these the worst instant of each ride is kept for pictures") {
  RideStudy study = two_rides();
  const FrameStudies studies = take_instants(study);
  const Analysis worst = worst_instants(studies.analysis, study);
  REQUIRE(worst.cases.size() == 2);
  REQUIRE(worst.frame.cases.size() == 2);
  for (size_t i = 0; i < 2; ++i) {
    const RideResult& ride = study.rides[i];
    CHECK(worst.cases[i].name == instant_name(ride.name, ride.worst->time));
    CHECK(worst.frame.cases[i].name == worst.cases[i].name);
    CHECK(worst.cases[i].worst->utilisation == ride.worst->utilisation);
  }
}

TEST_CASE("together rides pass if each passes and nothing is worn out, as rides_pass() says") {
  RideStudy good = two_rides();
  const bool passes = rides_pass(good);
  CHECK((take_instants(good).verdict.answer == Verdict::Answer::pass) == passes);

  RideStudy worn = two_rides();
  worn.life_damage[1] = 1.5;
  CHECK_FALSE(rides_pass(worn));
  const Verdict v = take_instants(worn).verdict;
  CHECK(v.answer == Verdict::Answer::fail);
  CHECK(v.failures.back().check == "life");
  CHECK(v.failures.back().item == worn.frame.members[1].name);
  CHECK(v.failures.back().utilisation == 1.5);

  RideStudy open = two_rides();
  for (RideResult& r : open.rides) {
    r.verdict.failures.clear();
    for (auto* parts : {&r.members, &r.others}) {
      for (RideWorst& w : *parts) w.utilisation = 0.5;
    }
    r.verdict.not_proven = {"the same doubt"};
    r.verdict.answer = Verdict::Answer::not_proven;
  }
  const Verdict doubtful = take_instants(open).verdict;
  CHECK(doubtful.answer == Verdict::Answer::not_proven);
  CHECK(doubtful.not_proven == std::vector<std::string>{"the same doubt"});
}

TEST_CASE("what fails at several instants of a ride is told once, at its worst") {
  RideStudy study = two_rides();
  for (RideResult& r : study.rides) {
    for (auto* parts : {&r.members, &r.others}) {
      for (RideWorst& w : *parts) w.utilisation = 0.5;
    }
  }
  RideWorst &a = study.rides[0].members[0], &b = study.rides[0].members[1];
  a = {a.item, 1.1, "weld", 0.25};
  b = {b.item, 1.3, "joint", 0.5};
  study.rides[0].verdict.failures = {{"weld", a.item, "kerb at 0.2500 s", 1.1},
                                     {"weld", a.item, "kerb at 0.2505 s", 1.05},
                                     {"deflection", "tip", "kerb at 0.3000 s", 1.01}};
  study.rides[0].verdict.answer = Verdict::Answer::fail;
  study.rides[1].verdict.failures.clear();
  const Verdict v = take_instants(study).verdict;
  REQUIRE(v.failures.size() == 3);
  CHECK(v.failures[0].item == b.item);
  CHECK(v.failures[0].load_case == "kerb at 0.5000 s");
  CHECK(v.failures[1].item == a.item);
  CHECK(v.failures[1].utilisation == 1.1);
  CHECK(v.failures[2].item == "tip");
}

}  // namespace tubewright::ride_verdict_test
