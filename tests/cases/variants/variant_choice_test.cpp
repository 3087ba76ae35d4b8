// The Pareto front against its definition, tried on every pair.
#include "cases/variants/variant_choice.h"

#include <cmath>
#include <random>

#include "tests/catch.h"

namespace tubewright::variant_choice_test {

namespace {

bool as_good(const Standing& a, const Standing& b) {
  return a.mass <= b.mass && a.stiffness.value_or(-INFINITY) >= b.stiffness.value_or(-INFINITY) &&
         a.utilisation.value_or(INFINITY) <= b.utilisation.value_or(INFINITY);
}

std::vector<bool> front_by_definition(const std::vector<Standing>& all) {
  std::vector<bool> front;
  for (const Standing& one : all) {
    bool beaten = false;
    for (const Standing& other : all) {
      beaten = beaten || (as_good(other, one) && !as_good(one, other));
    }
    front.push_back(!beaten);
  }
  return front;
}

}  // namespace

TEST_CASE("the front holds what nothing else beats, by its definition on every pair") {
  std::mt19937 random(7);
  std::uniform_int_distribution<int> few(0, 4);  // many equals and ties
  for (int round = 0; round < 500; ++round) {
    std::vector<Standing> all(static_cast<std::size_t>(1 + round % 40));
    for (Standing& s : all) {
      s.mass = few(random);
      if (few(random) > 0) s.stiffness = few(random);
      if (few(random) > 0) s.utilisation = few(random);
    }
    CHECK(pareto_front(all) == front_by_definition(all));
  }
}

TEST_CASE("without stiffness the front is that of mass and utilisation") {
  const std::vector<Standing> all = {{1, {}, 0.9}, {2, {}, 0.5}, {3, {}, 0.6}, {2, {}, 0.5}};
  CHECK(pareto_front(all) == std::vector<bool>{true, true, false, true});
  CHECK(pareto_front({}).empty());
}

TEST_CASE(
    "the lightest is looked for among those wanted; of several the stiffest, then the first") {
  const std::vector<Standing> all = {{1, 5.0, {}}, {2, 7.0, {}}, {2, 9.0, {}}, {2, 9.0, {}}};
  CHECK(lightest(all, {true, true, true, true}) == 0U);
  CHECK(lightest(all, {false, true, true, true}) == 2U);
  CHECK(lightest(all, {false, true, false, false}) == 1U);
  CHECK_FALSE(lightest(all, {false, false, false, false}));
}

}  // namespace tubewright::variant_choice_test
