#include "cases/sizing/lighter_choices.h"

#include <mutex>
#include <set>

#include "tests/cases/sizing/choice_lists.h"
#include "tests/catch.h"

namespace tubewright::lighter_choices_tests {

using namespace tubewright::testing;

namespace {

constexpr double time_enough = 60;

ChoiceSearch random_search(Random& random, bool whole) {
  ChoiceSearch search;
  search.costs = random_costs(random, 4, 6, whole);
  search.fixed_cost = whole ? whole_number(random, 0, 9) : number(random, 0, 9);
  return search;
}

double own_cost(const ChoiceSearch& search, const Choice& choice) {
  return search.fixed_cost + sum_of(search.costs, choice);
}

}  // namespace

TEST_CASE("the nearest cheaper choice is that of enumeration, and there is none below the least") {
  Random random(8);
  int none = 0;
  for (int trial = 0; trial < 300; ++trial) {
    const ChoiceSearch search = random_search(random, trial % 2 == 0);
    const std::vector<Choice> all = choices_in(all_of(search.costs));
    const Choice& from =
        all[static_cast<size_t>(whole_number(random, 0, static_cast<int>(all.size()) - 1))];
    const double cost = own_cost(search, from);
    double nearest = -1;
    for (const Choice& choice : all) {
      const double c = own_cost(search, choice);
      if (c < cost * (1 - 1e-9)) nearest = std::max(nearest, c);
    }
    const std::optional<Choice> found = nearest_cheaper(search, cost);
    INFO("trial " << trial);
    REQUIRE(found.has_value() == (nearest >= 0));
    if (found) CHECK_THAT(own_cost(search, *found), WithinRel(nearest, 1e-12));
    none += found ? 0 : 1;
  }
  CHECK(none > 10);
}

TEST_CASE("a lighter choice passes and costs no more than what it came from") {
  Random random(9);
  int lighter = 0;
  for (int trial = 0; trial < 300; ++trial) {
    ChoiceSearch search = random_search(random, trial % 2 == 0);
    std::set<Choice> passing;
    for (const Choice& choice : choices_in(all_of(search.costs))) {
      if (number(random, 0, 1) < 0.3) passing.insert(choice);
    }
    if (passing.empty()) continue;
    search.passes = [&](const Choice& choice) { return passing.contains(choice); };
    const Choice from =
        *std::next(passing.begin(), whole_number(random, 0, static_cast<int>(passing.size()) - 1));
    const Choice found = lighter_choice(search, from, time_enough);
    INFO("trial " << trial);
    CHECK(passing.contains(found));
    CHECK(own_cost(search, found) <= own_cost(search, from));
    lighter += own_cost(search, found) < own_cost(search, from) ? 1 : 0;
    CHECK(lighter_choice(search, from, 0) == from);
  }
  CHECK(lighter > 100);
}

TEST_CASE("where nothing cheaper passes the choice stays as it is") {
  Random random(10);
  for (int trial = 0; trial < 200; ++trial) {
    ChoiceSearch search = random_search(random, false);
    const std::vector<Choice> all = choices_in(all_of(search.costs));
    const Choice& from =
        all[static_cast<size_t>(whole_number(random, 0, static_cast<int>(all.size()) - 1))];
    const double least = own_cost(search, from);
    search.passes = [&](const Choice& choice) { return own_cost(search, choice) >= least; };
    INFO("trial " << trial);
    CHECK(lighter_choice(search, from, time_enough) == from);
  }
}

TEST_CASE("lists that each must keep an entry of their own come down to just these") {
  Random random(11);
  for (int trial = 0; trial < 100; ++trial) {
    ChoiceSearch search = random_search(random, false);
    const ChoiceBox all = all_of(search.costs);
    Choice least;
    for (const int last : all.last) least.push_back(whole_number(random, 0, last));
    search.passes = [&](const Choice& choice) { return lies_in({least, all.last}, choice); };
    INFO("trial " << trial);
    CHECK(lighter_choice(search, all.last, time_enough) == least);
  }
}

TEST_CASE("one list goes up where another then comes down by more") {
  ChoiceSearch search;
  search.costs = {{1, 2, 3}, {10, 20, 30}};
  search.passes = [](const Choice& choice) {
    return choice == Choice{0, 2} || choice == Choice{2, 1};
  };
  CHECK(lighter_choice(search, {0, 2}, time_enough) == Choice{2, 1});
}

TEST_CASE("what surely fails is not tested on the way down") {
  Random random(12);
  for (int trial = 0; trial < 100; ++trial) {
    ChoiceSearch search = random_search(random, true);
    std::mutex one_at_a_time;
    std::set<Choice> passing, hopeless, tested;
    for (const Choice& choice : choices_in(all_of(search.costs))) {
      (whole_number(random, 0, 2) == 0 ? passing : hopeless).insert(choice);
    }
    if (passing.empty()) continue;
    search.passes = [&](const Choice& choice) {
      const std::lock_guard lock(one_at_a_time);
      tested.insert(choice);
      return passing.contains(choice);
    };
    search.surely_fails = [&](const Choice& choice) { return hopeless.contains(choice); };
    INFO("trial " << trial);
    CHECK(passing.contains(lighter_choice(search, *passing.rbegin(), time_enough)));
    for (const Choice& choice : tested) CHECK_FALSE(hopeless.contains(choice));
  }
}

}  // namespace tubewright::lighter_choices_tests
