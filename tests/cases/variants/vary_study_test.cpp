#include "cases/variants/vary_study.h"

#include <atomic>

#include "tests/cases/idle_processors.h"
#include "tests/cases/small_frames.h"
#include "tests/catch.h"

namespace tubewright::vary_study_test {

using namespace tubewright::testing;

namespace {

/// A cantilever, its wall thicker by a tenth of a millimetre a combination; number 2 is loose.
Result<Frame> arm(std::size_t combination) {
  if (combination == 5) return Diagnostics{{"there is no number five", ""}};
  Frame f = empty_frame();
  f.sections.front().wall = 0.001 + 0.0001 * static_cast<double>(combination);
  add_node(f, "root", 0, 0, 0);
  add_node(f, "tip", 1, 0, 0);
  add_member(f, "arm", "root", "tip");
  const bool held = combination != 2;
  f.supports.push_back({"root", {true, true, true, held, held, held}, {}, {}});
  add_case(f, "push").forces.push_back({"tip", {0, 0, -100}, {}});
  return f;
}

}  // namespace

TEST_CASE("each combination is answered at its place, and one without answer stops no other") {
  const auto answers = vary_study({1, 2, 3, 5}, arm);
  REQUIRE(answers.size() == 4);
  CHECK(answers[0]);
  CHECK_FALSE(answers[1]);
  CHECK(answers[2]);
  REQUIRE(answers[3].error() != nullptr);
  CHECK(answers[3].error()->front().message == "there is no number five");
  CHECK(answers[0]->mass < answers[2]->mass);
  CHECK(answers[0]->worst->utilisation > answers[2]->worst->utilisation);
  CHECK(vary_study({}, arm).empty());
}

TEST_CASE("the numbers are the same to the last bit on one processor and on several") {
  std::vector<std::size_t> combinations = {0, 1, 3, 4, 6, 7, 8, 9};
  const auto on = [&](int idle) {
    const IdleProcessors processors(idle);
    return vary_study(combinations, arm);
  };
  const auto one = on(0), several = on(3);
  for (std::size_t i = 0; i < combinations.size(); ++i) {
    CHECK(one[i]->mass == several[i]->mass);
    CHECK(one[i]->frequency == several[i]->frequency);
    CHECK(one[i]->worst->utilisation == several[i]->worst->utilisation);
  }
}

TEST_CASE("the steps are told one after the other, each once") {
  std::vector<std::size_t> told;
  vary_study({0, 1, 3, 4}, arm, [&](std::string_view step, std::size_t number, std::size_t count) {
    CHECK(step == "solving combination");
    CHECK(count == 4);
    told.push_back(number);
  });
  CHECK(told == std::vector<std::size_t>{1, 2, 3, 4});
}

}  // namespace tubewright::vary_study_test
