// Lists drawn at random and all the choices that there are, for tests of what looks for the best.
#pragma once

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <random>
#include <vector>

#include "cases/sizing/cut_relaxation.h"

namespace tubewright::testing {

using Random = std::mt19937;
using Costs = std::vector<std::vector<double>>;

inline int whole_number(Random& random, int least, int most) {
  return std::uniform_int_distribution<int>(least, most)(random);
}

inline double number(Random& random, double least, double most) {
  return std::uniform_real_distribution<double>(least, most)(random);
}

/// Up to `most_lists` lists of up to `most_entries` entries; whole costs of 1 to 4 make many ties.
inline Costs random_costs(Random& random, int most_lists, int most_entries, bool whole) {
  Costs costs(static_cast<size_t>(whole_number(random, 1, most_lists)));
  for (std::vector<double>& list : costs) {
    list.resize(static_cast<size_t>(whole_number(random, 1, most_entries)));
    for (double& cost : list) cost = whole ? whole_number(random, 1, 4) : number(random, 1, 9);
    std::sort(list.begin(), list.end());
  }
  return costs;
}

inline ChoiceBox all_of(const Costs& costs) {
  ChoiceBox box;
  for (const std::vector<double>& list : costs) {
    box.first.push_back(0);
    box.last.push_back(static_cast<int>(list.size()) - 1);
  }
  return box;
}

/// Every choice of the box, by counting up.
inline std::vector<Choice> choices_in(const ChoiceBox& box) {
  std::vector<Choice> all;
  Choice choice = box.first;
  for (;;) {
    all.push_back(choice);
    size_t g = 0;
    while (g < choice.size() && choice[g] == box.last[g]) {
      choice[g] = box.first[g];
      ++g;
    }
    if (g == choice.size()) return all;
    ++choice[g];
  }
}

inline bool lies_in(const ChoiceBox& box, const Choice& choice) {
  for (size_t g = 0; g < choice.size(); ++g) {
    if (choice[g] < box.first[g] || choice[g] > box.last[g]) return false;
  }
  return true;
}

inline double sum_of(const Costs& costs, const Choice& choice) {
  double sum = 0;
  for (size_t g = 0; g < choice.size(); ++g) sum += costs[g][static_cast<size_t>(choice[g])];
  return sum;
}

/// Whole numbers from -5 to 5 as weights.
inline SeparableCut random_weights(Random& random, const Costs& costs) {
  SeparableCut cut;
  for (const std::vector<double>& list : costs) {
    cut.weights.emplace_back();
    for (size_t j = 0; j < list.size(); ++j) {
      cut.weights.back().push_back(whole_number(random, -5, 5));
    }
  }
  return cut;
}

/// A cut that all of these choices meet, at least one of them barely.
inline SeparableCut cut_round(Random& random, const Costs& costs,
                              const std::vector<Choice>& passing) {
  SeparableCut cut = random_weights(random, costs);
  cut.least = std::numeric_limits<double>::infinity();
  for (const Choice& choice : passing) cut.least = std::min(cut.least, sum_of(cut.weights, choice));
  if (passing.empty()) cut.least = whole_number(random, -5, 10);
  return cut;
}

/// Shares drawn at random; of a list of many some are 0.
inline Shares random_shares(Random& random, const Costs& costs) {
  Shares shares;
  for (const std::vector<double>& list : costs) {
    shares.emplace_back();
    double sum = 0;
    for (size_t j = 0; j < list.size(); ++j) {
      const double share = j > 0 && whole_number(random, 0, 2) == 0 ? 0 : number(random, 0.1, 1);
      shares.back().push_back(share);
      sum += share;
    }
    for (double& share : shares.back()) share /= sum;
  }
  return shares;
}

inline Shares whole_shares(const Costs& costs, const Choice& choice) {
  Shares shares;
  for (size_t g = 0; g < costs.size(); ++g) {
    shares.emplace_back(costs[g].size(), 0.0);
    shares.back()[static_cast<size_t>(choice[g])] = 1;
  }
  return shares;
}

}  // namespace tubewright::testing
