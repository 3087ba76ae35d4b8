#include "cases/rides/ride_cases.h"

#include <algorithm>
#include <cmath>

#include "cases/analysis/analysis.h"
#include "cases/rides/ride_study.h"
#include "cases/verdict/verdict.h"
#include "tests/cases/rides/riders.h"
#include "tests/catch.h"

namespace tubewright::ride_cases_test {

using namespace tubewright::testing;
namespace {

/// With a case of kind ride over the kerb.
Frame over_kerb(Frame f, double height = 0.03, double speed = 2) {
  f.rides = {kerb_ride(height, speed, RideSide::left)};
  add_case(f, "hard", CaseKind::ride).ride = "kerb";
  return f;
}

double worst_of_member(const Analysis& analysis, size_t member) {
  double worst = 0;
  for (const CaseResult& c : analysis.cases) {
    const NamedMemberCheck nearest = nearest_limit(c.members[member].checks);
    if (nearest.result != nullptr) {
      worst = std::max(worst, nearest.result->utilisation.value_or(0));
    }
  }
  return worst;
}

}  // namespace

TEST_CASE("each tube is used in the instants of a ride case as it is in the ride itself") {
  for (const Frame& f : {over_kerb(rider()), over_kerb(sprung_rider())}) {
    const Frame ridden = answer_of(with_ride_cases(f));
    const Analysis analysis = answer_of(analyse(ridden));
    const RideStudy study = answer_of(ride_study(f));
    const RideResult& ride = study.rides.front();
    const double greatest = ride.worst->utilisation.value();
    size_t compared = 0;
    for (size_t m = 0; m < f.members.size(); ++m) {
      const double used = ride.members[m].utilisation.value_or(0);
      if (used < 0.3 * greatest) continue;
      ++compared;
      // 5 % of the greatest stress may be missed; inertia within tubes acts at points.
      CHECK(worst_of_member(analysis, m) > 0.93 * used);
      CHECK(worst_of_member(analysis, m) < 1.05 * used);
    }
    CHECK(compared > 5);
  }
}

TEST_CASE("instants are numbered in order of time, and their wheels carry what the ride has") {
  const Frame f = over_kerb(sprung_rider());
  const Frame ridden = answer_of(with_ride_cases(f));
  REQUIRE(ridden.cases.size() > 1);
  const RideStudy study = answer_of(ride_study(f));
  double greatest = 0;
  for (size_t i = 0; i < ridden.cases.size(); ++i) {
    const Case& c = ridden.cases[i];
    CHECK(c.name == "hard_" + std::to_string(i + 1));
    CHECK(c.kind == CaseKind::vehicle);
    CHECK(c.part_of == "hard");
    REQUIRE(c.wheel_forces.size() == 4);
    for (const WheelForce& w : c.wheel_forces) {
      CHECK(w.up >= 0);
      greatest = std::max(greatest, w.up);
    }
  }
  double peak = 0;
  for (const RideWheel& w : study.rides.front().wheels) peak = std::max(peak, w.peak);
  CHECK(greatest <= peak);
  CHECK(greatest > 0.9 * peak);
}

TEST_CASE("what swings against the rest holds itself in balance, whatever the wheels do") {
  // Elastic modes move neither the centre of mass nor turn the whole: orthogonal to rigid motions.
  const Frame ridden = answer_of(with_ride_cases(over_kerb(sprung_rider())));
  const auto at = [&](const std::string& name) {
    return std::find_if(ridden.nodes.begin(), ridden.nodes.end(),
                        [&](const Node& n) { return n.name == name; })
        ->at;
  };
  bool any = false;
  for (const Case& c : ridden.cases) {
    Eigen::Vector3d force = Eigen::Vector3d::Zero(), moment = force;
    double size = 0;
    for (const NodeAction& f : c.forces) {
      force += f.value;
      moment += at(f.node).cross(f.value);
      size = std::max(size, f.value.norm());
    }
    for (const NodeAction& m : c.moments) moment += m.value;
    for (const PointLoad& p : c.point_loads) {
      const Member& tube = *std::find_if(ridden.members.begin(), ridden.members.end(),
                                         [&](const Member& m) { return m.name == p.member; });
      force += p.force;
      moment += ((1 - p.at) * at(tube.from) + p.at * at(tube.to)).cross(p.force) + p.moment;
    }
    any = any || size > 100;
    // What is smaller than a millionth of the weight is left out.
    CHECK(force.norm() < 0.1);
    CHECK(moment.norm() < 0.1);
  }
  CHECK(any);
}

TEST_CASE("a frame that has been here, or has no ride cases, comes back as it is") {
  const Frame ridden = answer_of(with_ride_cases(over_kerb(rider())));
  const Frame again = answer_of(with_ride_cases(ridden));
  REQUIRE(again.cases.size() == ridden.cases.size());
  for (size_t i = 0; i < again.cases.size(); ++i)
    CHECK(again.cases[i].name == ridden.cases[i].name);
}

TEST_CASE("a case that bears the name of an instant is told so") {
  Frame f = over_kerb(rider());
  add_drive(f, "hard_1").place = {7, 3};
  const auto refused = with_ride_cases(f);
  REQUIRE(refused.error() != nullptr);
  CHECK_THAT(refused.error()->front().message,
             ContainsSubstring("case `hard_1` has the name of an instant of case `hard`"));
  CHECK(refused.error()->front().place.line == 7);
}

TEST_CASE("a limit on displacements in a ride case holds in each of its instants") {
  Frame f = over_kerb(rider());
  DisplacementLimit limit;
  limit.load_case = "hard";
  limit.node = "fl1";
  limit.most[2] = 0.01;
  f.limits.displacements = {limit};
  const Frame ridden = answer_of(with_ride_cases(f));
  REQUIRE(ridden.limits.displacements.size() == ridden.cases.size());
  for (size_t i = 0; i < ridden.cases.size(); ++i)
    CHECK(ridden.limits.displacements[i].load_case == ridden.cases[i].name);
}

TEST_CASE("one asks for all instants by the name of the ride case, and for one by its own") {
  const Frame ridden = answer_of(with_ride_cases(over_kerb(rider())));
  CHECK(answer_of(analyse(ridden, {"hard"})).cases.size() == ridden.cases.size());
  CHECK(answer_of(analyse(ridden, {"hard_2"})).cases.size() == 1);
}

TEST_CASE("what the ride does not prove its cases do not prove either") {
  // A kerb of half the wheel's radius at walking pace takes most of an unsprung vehicle's speed.
  const Frame ridden = answer_of(with_ride_cases(over_kerb(rider(), 0.1, 1.5)));
  const Verdict verdict = verdict_of(answer_of(analyse(ridden)), {}, std::nullopt);
  CHECK(std::count_if(verdict.not_proven.begin(), verdict.not_proven.end(),
                      [](const std::string& why) {
                        return why.find("of the speed") != std::string::npos;
                      }) == 1);
  CHECK(verdict.answer != Verdict::Answer::pass);
}

}  // namespace tubewright::ride_cases_test
