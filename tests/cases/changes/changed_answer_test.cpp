#include "cases/changes/changed_answer.h"

#include "tests/cases/changes/ring_box.h"
#include "tests/cases/small_vehicles.h"
#include "tests/catch.h"

namespace tubewright::changed_answer_tests {

using namespace tubewright::testing;
using Catch::Matchers::WithinRel;

TEST_CASE("each way in which a frame is held has a base: supports, free, or both") {
  const Frame held = ring_box();
  CHECK(held_models(held).by_supports);
  CHECK_FALSE(held_models(held).free);
  Frame driven = box_vehicle();
  add_case(driven, "stop", CaseKind::vehicle).brake = 5;
  CHECK_FALSE(held_models(driven).by_supports);
  CHECK(held_models(driven).free);
  driven.supports.push_back({"fl0", {true, true, true, true, true, true}, {}, {}});
  add_case(driven, "bench").forces.push_back({"rr1", {0, 0, -10}, {}});
  CHECK(held_models(driven).by_supports);
  CHECK(held_models(driven).free);
}

TEST_CASE("the worst of a changed frame is the worst that a whole analysis finds") {
  const Frame f = ring_box();
  const BaseStiffnesses bases = base_stiffnesses(held_models(f));
  const auto worst = changed_answer(f, bases).worst();
  const auto whole = worst_of_all(answer_of(analyse(f)));
  REQUIRE(worst);
  CHECK(worst->item == whole->item);
  CHECK(worst->check == whole->check);
  CHECK_THAT(worst->utilisation, WithinRel(whole->utilisation, 1e-9));
}

TEST_CASE("a case without an answer does not hinder the others, and there is no worst") {
  Frame f = ring_box();
  add_node(f, "lone", 0, 0, 1);
  add_case(f, "pull").forces.push_back({"lone", {0, 0, 1}, {}});
  const ChangedAnswer answer = changed_answer(f, base_stiffnesses(held_models(f)));
  REQUIRE(answer.cases.size() == 3);
  CHECK(answer.cases[0].solved);
  CHECK(answer.cases[1].solved);
  CHECK_FALSE(answer.cases[2].solved);
  CHECK_FALSE(answer.solved());
  CHECK_FALSE(answer.worst());
  CHECK(answer.mechanism);
}

}  // namespace tubewright::changed_answer_tests
