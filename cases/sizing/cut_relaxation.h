// A box of choices bounded by a linear programme over shares of the entries: each list is blended
// of its entries (shares from 0 to 1 that sum to 1), and the blend meets every cut known. Where the
// programme ends new cuts are asked for until there are none.
//
// With multipliers y of the cuts every choice in the box that passes costs at least
//   sum_k y_k least_k + sum_g min over the box of (cost_gj - sum_k y_k weights_kgj)
// which is formed from the cuts themselves. An entry that would raise this above the cutoff is left
// out of the box.
#pragma once

#include <functional>
#include <vector>

#include "cases/sizing/choice_search.h"

namespace tubewright {

/// Of each list the share of each entry, none below 0, sum 1.
using Shares = std::vector<std::vector<double>>;

/// Cuts that a blend does not meet; none where none is known. Called on several threads at once.
using CutSource = std::function<std::vector<SeparableCut>(const Shares& shares)>;

class CutRelaxation : public Relaxation {
 public:
  CutRelaxation(std::vector<std::vector<double>> costs, double fixed_cost, CutSource source)
      : costs_(std::move(costs)), fixed_cost_(fixed_cost), source_(std::move(source)) {}

  BoxAnswer bound(const ChoiceBox& box, double cutoff) const override;
  void learn(const SeparableCut& cut) override { cuts_.push_back(cut); }

 private:
  std::vector<std::vector<double>> costs_;
  double fixed_cost_;
  CutSource source_;
  std::vector<SeparableCut> cuts_;
};

/// What a blend lacks of a cut; 0 or less: it meets it.
double lacks(const SeparableCut& cut, const Shares& shares);

}  // namespace tubewright
