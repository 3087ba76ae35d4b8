#include "cases/sizing/choice_search.h"

#include <limits>
#include <memory>
#include <mutex>
#include <set>

#include "tests/cases/sizing/choice_lists.h"
#include "tests/catch.h"

namespace tubewright::choice_search_tests {

using namespace tubewright::testing;

namespace {

constexpr double no_cost = std::numeric_limits<double>::infinity();

/// Bounds a box by its cheapest choice; that is proposed if `exact`, else nothing is.
class CheapestOfBox : public Relaxation {
 public:
  CheapestOfBox(const ChoiceSearch& search, bool exact) : search_(search), exact_(exact) {}

  BoxAnswer bound(const ChoiceBox& box, double /*cutoff*/) const override {
    BoxAnswer answer;
    answer.box = box;
    answer.bound = cost_of(search_, box.first);
    answer.exact = exact_;
    if (exact_) answer.proposal = box.first;
    return answer;
  }
  void learn(const SeparableCut& /*cut*/) override {}

 private:
  const ChoiceSearch& search_;
  bool exact_;
};

/// Lists, and which choices pass.
struct Puzzle {
  ChoiceSearch search;
  std::vector<Choice> all, passing;
  std::set<Choice> best;  ///< all cheapest ones that pass
  double cost = no_cost;
};

Puzzle random_puzzle(Random& random, double share_that_passes, bool whole) {
  Puzzle puzzle;
  puzzle.search.costs = random_costs(random, 4, 5, whole);
  puzzle.search.fixed_cost = whole ? whole_number(random, 0, 20) : number(random, 0, 20);
  puzzle.all = choices_in(all_of(puzzle.search.costs));
  for (const Choice& choice : puzzle.all) {
    if (number(random, 0, 1) < share_that_passes) puzzle.passing.push_back(choice);
  }
  const auto cost = [&](const Choice& choice) {
    return puzzle.search.fixed_cost + sum_of(puzzle.search.costs, choice);
  };
  for (const Choice& choice : puzzle.passing) puzzle.cost = std::min(puzzle.cost, cost(choice));
  for (const Choice& choice : puzzle.passing) {
    if (cost(choice) <= puzzle.cost * (1 + 1e-10)) puzzle.best.insert(choice);
  }
  puzzle.search.passes = [set = std::set<Choice>(puzzle.passing.begin(), puzzle.passing.end())](
                             const Choice& choice) { return set.contains(choice); };
  return puzzle;
}

void check_answer(const SearchAnswer& found, const Puzzle& puzzle) {
  CHECK(found.proved);
  CHECK(std::set<Choice>(found.best.begin(), found.best.end()) == puzzle.best);
  CHECK(found.best.size() == puzzle.best.size());
  CHECK(std::is_sorted(found.best.begin(), found.best.end()));
  if (puzzle.best.empty()) {
    CHECK(found.cost == no_cost);
    CHECK(found.bound == no_cost);
  } else {
    CHECK_THAT(found.cost, WithinRel(puzzle.cost, 1e-12));
    CHECK(found.bound == found.cost);
  }
}

/// Knows cuts that all passing choices meet, and finds some only where a blend lacks them.
std::unique_ptr<CutRelaxation> with_valid_cuts(Random& random, const Puzzle& puzzle) {
  std::vector<SeparableCut> pool;
  for (int k = 0; k < 6; ++k)
    pool.push_back(cut_round(random, puzzle.search.costs, puzzle.passing));
  auto relaxation = std::make_unique<CutRelaxation>(puzzle.search.costs, puzzle.search.fixed_cost,
                                                    [pool](const Shares& shares) {
                                                      std::vector<SeparableCut> lacking;
                                                      for (const SeparableCut& cut : pool) {
                                                        if (lacks(cut, shares) > 0)
                                                          lacking.push_back(cut);
                                                      }
                                                      return lacking;
                                                    });
  relaxation->learn(cut_round(random, puzzle.search.costs, puzzle.passing));
  return relaxation;
}

/// 6 lists of 10 entries that cost 1 to 10.
ChoiceSearch million_choices() {
  ChoiceSearch search;
  std::vector<double> list;
  for (int cost = 1; cost <= 10; ++cost) list.push_back(cost);
  search.costs.assign(6, list);
  search.seconds = 0;
  return search;
}

}  // namespace

TEST_CASE("the search ends at all the cheapest that enumeration finds, however boxes are bounded") {
  Random random(1);
  size_t ties = 0, without = 0;
  for (int trial = 0; trial < 300; ++trial) {
    const double share = trial % 5 == 0 ? 0.004 : trial % 5 == 1 ? 0.9 : 0.2;
    const Puzzle puzzle = random_puzzle(random, share, trial % 3 != 0);
    INFO("trial " << trial);
    for (const bool exact : {true, false}) {
      CheapestOfBox relaxation(puzzle.search, exact);
      check_answer(find_cheapest(puzzle.search, relaxation, {}), puzzle);
    }
    check_answer(find_cheapest(puzzle.search, *with_valid_cuts(random, puzzle), {}), puzzle);
    ties += puzzle.best.size() > 1 ? 1 : 0;
    without += puzzle.best.empty() ? 1 : 0;
  }
  CHECK(ties > 30);
  CHECK(without > 20);
}

TEST_CASE("a choice to start from changes nothing in the answer") {
  Random random(2);
  int started = 0;
  for (int trial = 0; trial < 100; ++trial) {
    const Puzzle puzzle = random_puzzle(random, 0.15, true);
    if (puzzle.passing.empty()) continue;
    ++started;
    const auto any =
        static_cast<size_t>(whole_number(random, 0, static_cast<int>(puzzle.passing.size()) - 1));
    CheapestOfBox relaxation(puzzle.search, true);
    INFO("trial " << trial);
    check_answer(find_cheapest(puzzle.search, relaxation, {puzzle.passing[any]}), puzzle);
    check_answer(
        find_cheapest(puzzle.search, *with_valid_cuts(random, puzzle), {puzzle.passing[any]}),
        puzzle);
  }
  CHECK(started > 50);
}

TEST_CASE("what surely fails is not tested, and the answer is the same") {
  Random random(3);
  int spared = 0;
  for (int trial = 0; trial < 60; ++trial) {
    Puzzle puzzle = random_puzzle(random, 0.1, true);
    std::set<Choice> hopeless;
    for (const Choice& choice : puzzle.all) {
      if (!puzzle.search.passes(choice) && number(random, 0, 1) < 0.5) hopeless.insert(choice);
    }
    std::mutex one_at_a_time;
    std::multiset<Choice> tested;
    puzzle.search.passes = [&, judge = puzzle.search.passes](const Choice& choice) {
      const std::lock_guard lock(one_at_a_time);
      tested.insert(choice);
      return judge(choice);
    };
    puzzle.search.surely_fails = [&](const Choice& choice) { return hopeless.contains(choice); };
    CheapestOfBox relaxation(puzzle.search, true);
    INFO("trial " << trial);
    check_answer(find_cheapest(puzzle.search, relaxation, {}), puzzle);
    for (const Choice& choice : tested) {
      CHECK_FALSE(hopeless.contains(choice));
      CHECK(tested.count(choice) == 1);
    }
    spared += hopeless.empty() ? 0 : 1;
  }
  CHECK(spared > 30);
}

TEST_CASE("without time the search proves nothing but says below which cost nothing passes") {
  ChoiceSearch search = million_choices();
  search.passes = [](const Choice& /*choice*/) { return false; };
  CheapestOfBox relaxation(search, true);
  const SearchAnswer none = find_cheapest(search, relaxation, {});
  CHECK_FALSE(none.proved);
  CHECK(none.best.empty());
  CHECK(none.cost == no_cost);
  CHECK(none.bound > 6);  // the one choice at 6 was tested
  CHECK(none.bound <= 7);
  CHECK(none.rounds == 1);

  // Only what costs 30 or more passes: the bound stays below that, whatever was found.
  search.passes = [&](const Choice& choice) { return cost_of(search, choice) >= 30; };
  const SearchAnswer some = find_cheapest(search, relaxation, {Choice(6, 9)});
  CHECK_FALSE(some.proved);
  CHECK(some.best == std::vector<Choice>{Choice(6, 9)});
  CHECK(some.cost == 60);
  CHECK(some.bound <= 30);
  CHECK(some.bound >= 6);
}

TEST_CASE("with a cut that says what passes a million choices are done at once") {
  ChoiceSearch search = million_choices();
  search.seconds = 60;
  search.passes = [&](const Choice& choice) {
    return choice[0] == 9 && cost_of(search, choice) >= 58;
  };
  SeparableCut cut{search.costs, 58};
  CutRelaxation relaxation(search.costs, 0, [&](const Shares& shares) {
    return lacks(cut, shares) > 0 ? std::vector{cut} : std::vector<SeparableCut>{};
  });
  const SearchAnswer found = find_cheapest(search, relaxation, {});
  CHECK(found.proved);
  CHECK_THAT(found.cost, WithinRel(58, 1e-12));
  CHECK(found.best.size() == 5 + 10);  // two steps down in one of five lists, or one in two
}

TEST_CASE("what a relaxation leaves out of the whole is not tested") {
  struct Narrowing : CheapestOfBox {
    using CheapestOfBox::CheapestOfBox;
    ChoiceBox narrow(const ChoiceBox& box, double /*cutoff*/) override {
      ChoiceBox left = box;
      for (int& first : left.first) first = 8;
      return left;
    }
  };
  ChoiceSearch search = million_choices();
  search.seconds = 60;
  std::mutex one_at_a_time;
  std::set<Choice> tested;
  search.passes = [&](const Choice& choice) {
    const std::lock_guard lock(one_at_a_time);
    tested.insert(choice);
    return false;
  };
  Narrowing relaxation(search, true);
  CHECK(find_cheapest(search, relaxation, {}).proved);
  CHECK(tested.size() == 64);
  for (const Choice& choice : tested) {
    CHECK(*std::min_element(choice.begin(), choice.end()) >= 8);
  }
}

}  // namespace tubewright::choice_search_tests
