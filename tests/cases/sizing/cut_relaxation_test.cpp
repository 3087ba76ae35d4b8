#include "cases/sizing/cut_relaxation.h"

#include <limits>
#include <optional>

#include "tests/cases/sizing/choice_lists.h"
#include "tests/catch.h"

namespace tubewright::cut_relaxation_tests {

using namespace tubewright::testing;

namespace {

constexpr double no_cost = std::numeric_limits<double>::infinity();

struct Puzzle {
  Costs costs;
  double fixed_cost = 0;
  std::vector<SeparableCut> known, hidden;  ///< from the start; found where a blend lacks them

  double cost(const Choice& choice) const { return fixed_cost + sum_of(costs, choice); }
  bool meets_all(const Choice& choice) const {
    for (const auto* cuts : {&known, &hidden}) {
      for (const SeparableCut& cut : *cuts) {
        if (sum_of(cut.weights, choice) < cut.least) return false;
      }
    }
    return true;
  }
};

Puzzle random_puzzle(Random& random, int cuts, bool whole) {
  Puzzle puzzle;
  puzzle.costs = random_costs(random, 4, 5, whole);
  puzzle.fixed_cost = whole_number(random, 0, 20);
  for (int k = 0; k < cuts; ++k) {
    SeparableCut cut = random_weights(random, puzzle.costs);
    cut.least = whole_number(random, -8, 6);
    (whole_number(random, 0, 1) == 0 ? puzzle.known : puzzle.hidden).push_back(cut);
  }
  return puzzle;
}

CutRelaxation relaxation_of(const Puzzle& puzzle) {
  CutRelaxation relaxation(puzzle.costs, puzzle.fixed_cost, [&puzzle](const Shares& shares) {
    std::vector<SeparableCut> lacking;
    for (const SeparableCut& cut : puzzle.hidden) {
      if (lacks(cut, shares) > 0) lacking.push_back(cut);
    }
    return lacking;
  });
  for (const SeparableCut& cut : puzzle.known) relaxation.learn(cut);
  return relaxation;
}

ChoiceBox random_box(Random& random, const Costs& costs) {
  ChoiceBox box = all_of(costs);
  for (size_t g = 0; g < costs.size(); ++g) {
    if (whole_number(random, 0, 1) == 0) continue;
    box.first[g] = whole_number(random, 0, box.last[g]);
    box.last[g] = whole_number(random, box.first[g], box.last[g]);
  }
  return box;
}

struct Tally {
  int empty = 0, tightened = 0, exact = 0, proposed = 0;
};

/// Held against every choice of the box.
void check_bound(const Puzzle& puzzle, const ChoiceBox& box, double cutoff, Tally& tally) {
  const BoxAnswer answer = relaxation_of(puzzle).bound(box, cutoff);
  double best = no_cost;
  bool all_kept = true;
  for (const Choice& choice : choices_in(box)) {
    if (!puzzle.meets_all(choice) || puzzle.cost(choice) > cutoff) continue;
    best = std::min(best, puzzle.cost(choice));
    all_kept = all_kept && (answer.empty || lies_in(answer.box, choice));
  }
  if (answer.empty) {
    ++tally.empty;
    CHECK(best == no_cost);
    return;
  }
  CHECK(answer.bound <= best * (1 + 1e-12));
  CHECK(all_kept);
  CHECK((lies_in(box, answer.box.first) && lies_in(box, answer.box.last)));
  CHECK(lies_in({Choice(box.first.size(), 0), answer.box.last}, answer.box.first));
  if (answer.box.first != box.first || answer.box.last != box.last) ++tally.tightened;
  if (answer.exact) {
    ++tally.exact;
    REQUIRE_FALSE(answer.proposal.empty());
    CHECK(lies_in(answer.box, answer.proposal));
  } else if (!answer.proposal.empty()) {
    ++tally.proposed;
    for (const SeparableCut& cut : answer.cuts) {
      CHECK(sum_of(cut.weights, answer.proposal) >= cut.least - 1e-5);
    }
  }
}

}  // namespace

TEST_CASE("no choice that meets the cuts costs less than the bound or is left out of the box") {
  Random random(4);
  Tally tally;
  for (int trial = 0; trial < 1500; ++trial) {
    const Puzzle puzzle = random_puzzle(random, whole_number(random, 0, 5), trial % 2 == 0);
    const ChoiceBox box = random_box(random, puzzle.costs);
    INFO("trial " << trial);
    check_bound(puzzle, box, no_cost, tally);
    double best = no_cost;
    for (const Choice& choice : choices_in(box)) {
      if (puzzle.meets_all(choice)) best = std::min(best, puzzle.cost(choice));
    }
    if (best == no_cost) continue;
    // As tight as a search asks it, a little above, and below all there is.
    for (const double room : {1 + same_cost, 1.1, 0.9}) {
      check_bound(puzzle, box, best * room, tally);
    }
  }
  CHECK(tally.empty > 100);
  CHECK(tally.tightened > 100);
  CHECK(tally.exact > 100);
  CHECK(tally.proposed > 100);
}

TEST_CASE("more cuts than one programme takes make no bound or box too tight") {
  Random random(5);
  Tally tally;
  for (int trial = 0; trial < 40; ++trial) {
    Puzzle puzzle = random_puzzle(random, 0, false);
    const std::vector<Choice> all = choices_in(all_of(puzzle.costs));
    std::vector<Choice> passing;
    for (const Choice& choice : all) {
      if (whole_number(random, 0, 3) == 0) passing.push_back(choice);
    }
    if (passing.empty()) continue;
    for (int k = 0; k < 250; ++k) {
      puzzle.hidden.push_back(cut_round(random, puzzle.costs, passing));
    }
    double best = no_cost;
    for (const Choice& choice : all) {
      if (puzzle.meets_all(choice)) best = std::min(best, puzzle.cost(choice));
    }
    INFO("trial " << trial);
    check_bound(puzzle, all_of(puzzle.costs), best * (1 + same_cost), tally);
    check_bound(puzzle, all_of(puzzle.costs), best * 1.2, tally);
  }
  CHECK(tally.tightened > 10);
}

TEST_CASE("a bound reached before the strongest cut fell out tightens no box further") {
  // The strong cut asks that `a` or `b` be dear and is the first found; then come so many weak ones
  // at once that a programme has no room for it.
  Puzzle puzzle;
  puzzle.costs = {{1, 11}, {1, 11}, {1, 1.5, 2, 2.5}};
  const SeparableCut strong{{{0, 1}, {0, 1}, {0, 0, 0, 0}}, 1};
  const SeparableCut weak{{{0, 0}, {0, 0}, {0, 1, 2, 3}}, 1};
  const CutRelaxation relaxation(puzzle.costs, 0, [&](const Shares& shares) {
    if (lacks(strong, shares) > 0) return std::vector<SeparableCut>{strong};
    return std::vector<SeparableCut>(lacks(weak, shares) > 0 ? 200 : 0, weak);
  });
  puzzle.hidden = {strong, weak};
  const ChoiceBox box = all_of(puzzle.costs);
  for (const double cutoff : {13.5, 13.6, 14.0, 15.0}) {
    const BoxAnswer answer = relaxation.bound(box, cutoff);
    INFO(cutoff);
    REQUIRE_FALSE(answer.empty);
    CHECK(answer.bound <= 13.5);
    for (const Choice& choice : choices_in(box)) {
      if (puzzle.meets_all(choice) && puzzle.cost(choice) <= cutoff) {
        CHECK(lies_in(answer.box, choice));
      }
    }
  }
}

TEST_CASE("one cut bounds a list by the chord between its entries, and is given back") {
  // Cost against weight (1, 0), (2, 1), (10, 2): at least 1.5 costs 2 + 8 / 2.
  const SeparableCut cut{{{0, 1, 2}}, 1.5};
  const CutRelaxation relaxation({{1, 2, 10}}, 100,
                                 [&](const Shares&) { return std::vector<SeparableCut>{cut}; });
  const BoxAnswer answer = relaxation.bound({{0}, {2}}, no_cost);
  CHECK_THAT(answer.bound, WithinRel(106, 1e-9));
  CHECK_FALSE(answer.exact);
  REQUIRE(answer.cuts.size() == 1);
  CHECK(answer.cuts.front().least == 1.5);
  const BoxAnswer upper = relaxation.bound({{2}, {2}}, no_cost);
  CHECK_THAT(upper.bound, WithinRel(110, 1e-9));
  CHECK(upper.proposal == Choice{2});
  CHECK(relaxation.bound({{0}, {1}}, no_cost).empty);
}

TEST_CASE("a whole choice lacks what its sum lacks, and a blend the blend of that") {
  Random random(6);
  for (int trial = 0; trial < 100; ++trial) {
    const Costs costs = random_costs(random, 4, 5, true);
    SeparableCut cut = random_weights(random, costs);
    cut.least = whole_number(random, -8, 8);
    for (const Choice& choice : choices_in(all_of(costs))) {
      CHECK_THAT(lacks(cut, whole_shares(costs, choice)),
                 WithinAbs(cut.least - sum_of(cut.weights, choice), 1e-12));
    }
    // The blend as the mean over all choices, each with the product of its shares.
    const Shares shares = random_shares(random, costs);
    double mean = 0;
    for (const Choice& choice : choices_in(all_of(costs))) {
      double product = 1;
      for (size_t g = 0; g < choice.size(); ++g) {
        product *= shares[g][static_cast<size_t>(choice[g])];
      }
      mean += product * (cut.least - sum_of(cut.weights, choice));
    }
    CHECK_THAT(lacks(cut, shares), WithinAbs(mean, 1e-10));
  }
}

}  // namespace tubewright::cut_relaxation_tests
