#include "cases/changes/rank_study.h"

#include <algorithm>

#include "cases/changes/nine_digits.h"
#include "cases/studies/torsion.h"
#include "tests/cases/changes/ring_box.h"
#include "tests/cases/clad_frames.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"

namespace tubewright::rank_study_tests {

using namespace tubewright::testing;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

Frame box() {
  Frame f = ring_box_in_torsion();
  SectionEntry brace = f.sections.front();
  brace.name = "brace";
  brace.height = brace.width = 0.020;
  brace.wall = 0.0015;
  f.sections.push_back(brace);
  f.cases[0].forces[0].value.z() = 200;  // within its limits
  f.cases[0].forces[1].value.z() = -200;
  return f;
}

const TubeWorth& worth_of(const std::vector<TubeWorth>& list, const std::string& name) {
  const auto at =
      std::find_if(list.begin(), list.end(), [&](const auto& t) { return t.name == name; });
  if (at == list.end()) FAIL("no tube " + name);
  return *at;
}

}  // namespace

TEST_CASE("each tube is ranked alone and in its group, and its figures are those of drawn frames") {
  const Frame f = box();
  const RankStudy study = answer_of(rank_study(f));
  CHECK(study.tubes.size() == 20);
  CHECK(study.groups.size() == 13);
  const TubeWorth& alone = worth_of(study.tubes, "lb0-lb1");
  const TubeWorth& both = worth_of(study.groups, "lb0-lb1");
  CHECK(alone.members.size() == 1);
  CHECK(both.members.size() == 2);
  CHECK_THAT(both.mass, WithinRel(2 * alone.mass, 1e-12));
  CHECK_THAT(*both.per_wall->stiffness, WithinRel(2 * *alone.per_wall->stiffness, 1e-2));
  for (const auto& next : {alone.up, alone.down}) {
    REQUIRE(next);
    const Frame drawn = with_section(f, alone.members, next->section);
    CHECK_THAT(*next->frame.stiffness, WithinRel(*torsional_stiffness(drawn), 1e-9));
    CHECK_THAT(next->frame.worst->utilisation,
               WithinRel(worst_of_all(answer_of(analyse(drawn)))->utilisation, 1e-9));
  }
  CHECK(alone.up->mass > alone.mass);
  CHECK(alone.down->mass < alone.mass);
  const Frame without = without_members(f, alone.members);
  CHECK_THAT(*alone.without.stiffness, WithinRel(*torsional_stiffness(without), 1e-9));
}

TEST_CASE("a tube can go only if the frame without it passes, its limits included") {
  Frame f = box();
  add_node(f, "tail", -0.3, 0.2, 0);
  add_member(f, "idle", "lb0", "tail");
  const RankStudy study = answer_of(rank_study(f));
  CHECK(study.whole.passes);
  CHECK(worth_of(study.tubes, "idle").removable);
  f.limits.torsional_stiffness = *study.whole.stiffness * 0.99;
  const RankStudy limited = answer_of(rank_study(f));
  CHECK(worth_of(limited.tubes, "idle").removable);
  CHECK_FALSE(worth_of(limited.tubes, "lb0-lb1").removable);
  f.limits.torsional_stiffness = *study.whole.stiffness * 2;
  const RankStudy missed = answer_of(rank_study(f));
  CHECK_FALSE(missed.whole.passes);
  CHECK_FALSE(worth_of(missed.tubes, "idle").removable);
}

TEST_CASE("both diagonals of each open bay are tried, and those with an image with it too") {
  const Frame f = box();
  const RankStudy study = answer_of(rank_study(f));
  CHECK(study.diagonal_section == "brace");
  const auto pairs = std::count_if(study.diagonals.begin(), study.diagonals.end(),
                                   [](const Diagonal& d) { return d.tubes.size() == 2; });
  // Eleven bays: four sides of each of two, three rings.
  CHECK(study.diagonals.size() - static_cast<size_t>(pairs) == 22);
  for (const Diagonal& d : study.diagonals) {
    Frame drawn = f;
    for (const auto& [from, to] : d.tubes) drawn = with_tube(drawn, from, to, "brace", false);
    CHECK_THAT(*d.welded.stiffness, WithinRel(*torsional_stiffness(drawn), 1e-9));
    CHECK(*d.pinned.stiffness >= *study.whole.stiffness * (1 - 1e-9));
    CHECK(*d.welded.stiffness >= *d.pinned.stiffness * (1 - 1e-9));
  }
  CHECK(std::is_sorted(study.diagonals.begin(), study.diagonals.end(),
                       [](const Diagonal& a, const Diagonal& b) {
                         return nine_digits(*a.stiffness_per_kg) > nine_digits(*b.stiffness_per_kg);
                       }));
}

TEST_CASE("a bay with a panel or a diagonal gets no other") {
  Frame f = box();
  add_sheet(f, "skin").offset = 0;
  add_panel(f, "floor_0", "skin", {"lb0", "rb0", "rb1", "lb1"});
  add_member(f, "across", "lt0", "rt1");
  const RankStudy study = answer_of(rank_study(f));
  const auto tried = [&](const std::string& from, const std::string& to) {
    return std::any_of(study.diagonals.begin(), study.diagonals.end(), [&](const Diagonal& d) {
      return d.tubes.size() == 1 && d.tubes[0] == std::pair(from, to);
    });
  };
  CHECK_FALSE(tried("lb0", "rb1"));
  CHECK_FALSE(tried("rt0", "lt1"));
  CHECK(tried("lb1", "rb2"));
}

TEST_CASE("a change that pays mends what fails, lightens what passes, stiffens either") {
  Frame f = box();
  const RankStudy passing = answer_of(rank_study(f));
  CHECK(passing.mends.kind == BestChange::Kind::none);
  CHECK(passing.stiffens.kind != BestChange::Kind::none);
  CHECK(passing.stiffens.mass > 0);
  if (passing.lightens.kind != BestChange::Kind::none) CHECK(passing.lightens.mass < 0);
  f.limits.torsional_stiffness = *passing.whole.stiffness * 1.1;
  const RankStudy failing = answer_of(rank_study(f));
  REQUIRE(failing.mends.kind == BestChange::Kind::diagonal);
  const Diagonal& d = failing.diagonals[static_cast<size_t>(failing.mends.index)];
  CHECK((failing.mends.pinned ? d.pinned : d.welded).passes);
}

TEST_CASE("a limit of frequency is asked of what would pass otherwise") {
  Frame f = box();
  const RankStudy free = answer_of(rank_study(f));
  REQUIRE(free.frequency);
  f.limits.frequency = *free.frequency * 1.5;
  const RankStudy limited = answer_of(rank_study(f));
  CHECK_FALSE(limited.whole.passes);
  REQUIRE(limited.whole.frequency);
  CHECK_THAT(*limited.whole.frequency, WithinRel(*free.frequency, 1e-6));
}

TEST_CASE("what is more or less to pay is known where the stock has prices") {
  Frame f = box();
  f.stock = Stock{};
  f.stock->length = 6;
  f.stock->sizes = {{Shape::square_tube, 0.025, 0.025, 0.002, 18},
                    {Shape::square_tube, 0.030, 0.030, 0.002, 24},
                    {Shape::square_tube, 0.020, 0.020, 0.002, {}}};
  const RankStudy study = answer_of(rank_study(f));
  const TubeWorth& tube = worth_of(study.tubes, "lb0-lb1");
  REQUIRE(tube.up);
  REQUIRE(tube.up->price);
  CHECK_THAT(*tube.up->price, WithinAbs(0.6, 1e-12));  // 1 a metre more, 600 mm of it
  REQUIRE(tube.down);
  CHECK_FALSE(tube.down->price);
}

TEST_CASE("a vehicle without cases of its own is ranked by the standard set") {
  Frame f = box_vehicle();
  const RankStudy study = answer_of(rank_study(f));
  CHECK(study.whole.worst);
  CHECK(study.tubes.size() == 17);
}

TEST_CASE("a frame that nothing acts on has nothing to rank by") {
  Frame f = ring_box();
  f.cases.clear();
  const auto outcome = rank_study(f);
  REQUIRE_FALSE(outcome);
  CHECK(text_of(*outcome.error()).find("nothing says what a tube is worth") != std::string::npos);
}

}  // namespace tubewright::rank_study_tests
