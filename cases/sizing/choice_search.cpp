#include "cases/sizing/choice_search.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>
#include <map>
#include <set>

#include "cases/analysis/in_parallel.h"

namespace tubewright {

namespace {

constexpr size_t boxes_a_round = 4;
constexpr double no_cost = std::numeric_limits<double>::infinity();

struct OpenBox {
  double bound = 0;
  long number = 0;  ///< in the order they were made
  ChoiceBox box;
  Choice refused;  ///< the proposal that it was bounded at last and that failed

  bool operator<(const OpenBox& other) const {
    return bound != other.bound ? bound < other.bound : number < other.number;
  }
};

class BranchAndBound {
 public:
  BranchAndBound(const ChoiceSearch& search, Relaxation& relaxation)
      : search_(search), relaxation_(relaxation) {}

  SearchAnswer run(const std::vector<Choice>& start);

 private:
  double cutoff() const { return best_cost_ * (1 + same_cost); }
  double least_cost(const ChoiceBox& box) const { return cost_of(search_, box.first); }
  void take(const Choice& choice);
  void push(const ChoiceBox& box, double bound, const Choice& refused = {});
  void test(const std::vector<Choice>& proposals);
  void go_on(const OpenBox& from, const BoxAnswer& answer);
  void split(const BoxAnswer& answer);
  void leave_out(const ChoiceBox& box, const Choice& choice, double bound);

  const ChoiceSearch& search_;
  Relaxation& relaxation_;
  std::set<OpenBox> open_;
  long made_ = 0;
  std::map<Choice, bool> tested_;
  std::set<Choice> best_;
  double best_cost_ = no_cost;
};

void BranchAndBound::take(const Choice& choice) {
  const double cost = cost_of(search_, choice);
  if (cost > cutoff()) return;
  if (cost < best_cost_ * (1 - same_cost) || best_.empty()) {
    best_.clear();
    best_cost_ = cost;
  }
  best_.insert(choice);
}

void BranchAndBound::push(const ChoiceBox& box, double bound, const Choice& refused) {
  bound = std::max(bound, least_cost(box));
  if (bound <= cutoff()) open_.insert({bound, made_++, box, refused});
}

/// Those that are not tested yet.
void BranchAndBound::test(const std::vector<Choice>& proposals) {
  std::vector<Choice> untested;
  for (const Choice& p : proposals) {
    if (!tested_.contains(p) && std::find(untested.begin(), untested.end(), p) == untested.end()) {
      untested.push_back(p);
    }
  }
  std::vector<char> passes(untested.size());
  in_parallel(untested.size(), [&](size_t i) { passes[i] = search_.passes(untested[i]) ? 1 : 0; });
  for (size_t i = 0; i < untested.size(); ++i) {
    tested_.emplace(untested[i], passes[i] != 0);
    if (passes[i] != 0) take(untested[i]);
  }
}

/// Everything in the box but that choice.
void BranchAndBound::leave_out(const ChoiceBox& box, const Choice& choice, double bound) {
  ChoiceBox rest = box;
  for (size_t g = 0; g < choice.size(); ++g) {
    ChoiceBox part = rest;
    if (choice[g] > rest.first[g]) {
      part.last[g] = choice[g] - 1;
      push(part, bound);
      part.last[g] = rest.last[g];
    }
    if (choice[g] < rest.last[g]) {
      part.first[g] = choice[g] + 1;
      push(part, bound);
    }
    rest.first[g] = rest.last[g] = choice[g];
  }
}

void BranchAndBound::split(const BoxAnswer& answer) {
  int list = answer.branch, last = answer.split;
  const ChoiceBox& box = answer.box;
  const auto cuts_through = [&] {
    return list >= 0 && box.first[static_cast<size_t>(list)] <= last &&
           last < box.last[static_cast<size_t>(list)];
  };
  if (!cuts_through()) {
    for (size_t g = 0; g < box.first.size(); ++g) {
      const int width = box.last[g] - box.first[g];
      if (list < 0 ||
          width > box.last[static_cast<size_t>(list)] - box.first[static_cast<size_t>(list)]) {
        list = static_cast<int>(g);
      }
    }
    const auto widest = static_cast<size_t>(list);
    last = (box.first[widest] + box.last[widest]) / 2;
  }
  const auto g = static_cast<size_t>(list);
  ChoiceBox lower = box, upper = box;
  lower.last[g] = last;
  upper.first[g] = last + 1;
  push(lower, answer.bound);
  push(upper, answer.bound);
}

void BranchAndBound::go_on(const OpenBox& from, const BoxAnswer& answer) {
  if (answer.empty || answer.bound > cutoff()) return;
  if (answer.box.single()) return;  // its one choice was tested
  if (!answer.exact) {
    split(answer);
    return;
  }
  const bool passed = tested_.at(answer.proposal);
  if (!passed && !answer.cuts.empty() && from.refused != answer.proposal) {
    push(answer.box, answer.bound, answer.proposal);
  } else {
    leave_out(answer.box, answer.proposal, answer.bound);
  }
}

SearchAnswer BranchAndBound::run(const std::vector<Choice>& start) {
  using Clock = std::chrono::steady_clock;
  const auto begin = Clock::now();
  const auto seconds = [&] { return std::chrono::duration<double>(Clock::now() - begin).count(); };
  for (const Choice& choice : start) {
    tested_.emplace(choice, true);
    take(choice);
  }
  ChoiceBox all;
  for (const std::vector<double>& list : search_.costs) {
    all.first.push_back(0);
    all.last.push_back(static_cast<int>(list.size()) - 1);
  }
  push(all, 0);

  SearchAnswer answer;
  while (!open_.empty() && open_.begin()->bound <= cutoff()) {
    if (answer.rounds > 0 && seconds() > search_.seconds) break;
    search_.tell("choosing sizes", static_cast<size_t>(++answer.rounds), 0);
    std::vector<OpenBox> taken;
    while (taken.size() < boxes_a_round && !open_.empty() && open_.begin()->bound <= cutoff()) {
      taken.push_back(*open_.begin());
      open_.erase(open_.begin());
    }
    std::vector<BoxAnswer> answers(taken.size());
    in_parallel(taken.size(),
                [&](size_t i) { answers[i] = relaxation_.bound(taken[i].box, cutoff()); });
    std::vector<Choice> proposals;
    for (size_t i = 0; i < taken.size(); ++i) {
      BoxAnswer& a = answers[i];
      a.bound = std::max(a.bound, taken[i].bound);
      if (!a.empty && a.box.single()) {
        a.proposal = a.box.first;
        a.exact = true;
      }
      for (const SeparableCut& cut : a.cuts) relaxation_.learn(cut);
      const bool worth_it = !a.empty && a.bound <= cutoff() && !a.proposal.empty();
      if (worth_it && (a.exact || cost_of(search_, a.proposal) <= cutoff())) {
        proposals.push_back(a.proposal);
      }
    }
    test(proposals);
    for (size_t i = 0; i < taken.size(); ++i) go_on(taken[i], answers[i]);
  }
  answer.proved = open_.empty() || open_.begin()->bound > cutoff();
  answer.best.assign(best_.begin(), best_.end());
  answer.cost = best_cost_;
  answer.bound = answer.proved ? best_cost_ : std::min(best_cost_, open_.begin()->bound);
  return answer;
}

}  // namespace

double cost_of(const ChoiceSearch& search, const Choice& choice) {
  double cost = search.fixed_cost;
  for (size_t g = 0; g < choice.size(); ++g) {
    cost += search.costs[g][static_cast<size_t>(choice[g])];
  }
  return cost;
}

SearchAnswer find_cheapest(const ChoiceSearch& search, Relaxation& relaxation,
                           const std::vector<Choice>& start) {
  return BranchAndBound(search, relaxation).run(start);
}

}  // namespace tubewright
