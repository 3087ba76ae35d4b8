#include "cases/sizing/cut_relaxation.h"

#include <algorithm>
#include <cmath>

#include "solver/linear_algebra/linear_program.h"

namespace tubewright {

namespace {

using Eigen::Index;

/// Of a cut: the greatest and least that the box can give.
struct Reach {
  double least = 0, most = 0;
};

Reach reach_of(const SeparableCut& cut, const ChoiceBox& box) {
  Reach reach;
  for (size_t g = 0; g < cut.weights.size(); ++g) {
    const auto begin = cut.weights[g].begin();
    const auto [low, high] = std::minmax_element(begin + box.first[g], begin + box.last[g] + 1);
    reach.least += *low;
    reach.most += *high;
  }
  return reach;
}

double size_of(const SeparableCut& cut) {
  double size = std::abs(cut.least);
  for (const std::vector<double>& list : cut.weights) {
    for (const double w : list) size = std::max(size, std::abs(w));
  }
  return size;
}

constexpr double violated = 1e-7;  // of a cut's greatest number: less is rounding

/// The entries of a box but the first of each list, whose share is what the others leave.
class BlendProgram {
 public:
  BlendProgram(const std::vector<std::vector<double>>& costs, const ChoiceBox& box);
  void add(const SeparableCut& cut);
  void solve();

  bool infeasible() const { return answer_.state == LinearAnswer::State::infeasible; }
  /// Least of cost - y'weights over the box, list by list, plus y'least.
  double bound();
  /// Leaves out what costs more than `spare` above the bound; true if anything.
  bool tighten(double spare, ChoiceBox& box) const;
  Shares shares() const;

 private:
  const std::vector<std::vector<double>>& costs_;
  const ChoiceBox box_;
  std::vector<const SeparableCut*> cuts_;
  LinearProgram program_;
  LinearAnswer answer_;
  std::vector<std::vector<double>> reduced_;  ///< from `first` of each list
};

BlendProgram::BlendProgram(const std::vector<std::vector<double>>& costs, const ChoiceBox& box)
    : costs_(costs), box_(box) {}

void BlendProgram::add(const SeparableCut& cut) { cuts_.push_back(&cut); }

void BlendProgram::solve() {
  Index columns = 0, wide = 0;
  for (size_t g = 0; g < costs_.size(); ++g) {
    columns += box_.last[g] - box_.first[g];
    if (box_.last[g] > box_.first[g] + 1) ++wide;
  }
  const auto count = static_cast<Index>(cuts_.size());
  program_.cost.resize(columns);
  program_.lo = Eigen::VectorXd::Zero(columns);
  program_.up = Eigen::VectorXd::Ones(columns);
  program_.rows = Eigen::MatrixXd::Zero(count + wide, columns);
  program_.least.resize(count + wide);
  for (Index k = 0; k < count; ++k) program_.least[k] = cuts_[static_cast<size_t>(k)]->least;
  Index column = 0, row = count;
  for (size_t g = 0; g < costs_.size(); ++g) {
    const auto first = static_cast<size_t>(box_.first[g]);
    const auto last = static_cast<size_t>(box_.last[g]);
    for (Index k = 0; k < count; ++k) {
      program_.least[k] -= cuts_[static_cast<size_t>(k)]->weights[g][first];
    }
    for (size_t j = first + 1; j <= last; ++j, ++column) {
      program_.cost[column] = costs_[g][j] - costs_[g][first];
      for (Index k = 0; k < count; ++k) {
        const std::vector<double>& weights = cuts_[static_cast<size_t>(k)]->weights[g];
        program_.rows(k, column) = weights[j] - weights[first];
      }
      if (last > first + 1) program_.rows(row, column) = -1;
    }
    if (last > first + 1) program_.least[row++] = -1;
  }
  answer_ = tubewright::solve(program_);
}

double BlendProgram::bound() {
  reduced_.clear();
  double sum = 0, size = 0;
  for (size_t k = 0; k < cuts_.size(); ++k) {
    const double term = answer_.multipliers[static_cast<Index>(k)] * cuts_[k]->least;
    sum += term;
    size += std::abs(term);
  }
  for (size_t g = 0; g < costs_.size(); ++g) {
    std::vector<double> list;
    for (auto j = static_cast<size_t>(box_.first[g]); j <= static_cast<size_t>(box_.last[g]); ++j) {
      double r = costs_[g][j];
      for (size_t k = 0; k < cuts_.size(); ++k) {
        const double term = answer_.multipliers[static_cast<Index>(k)] * cuts_[k]->weights[g][j];
        r -= term;
        size += std::abs(term);
      }
      list.push_back(r);
    }
    sum += *std::min_element(list.begin(), list.end());
    reduced_.push_back(std::move(list));
  }
  constexpr double rounding = 1e-13;
  return sum - rounding * size;
}

bool BlendProgram::tighten(double spare, ChoiceBox& box) const {
  bool any = false;
  for (size_t g = 0; g < reduced_.size(); ++g) {
    const std::vector<double>& list = reduced_[g];
    const double least = *std::min_element(list.begin(), list.end());
    const auto out = [&](int j) {
      return list[static_cast<size_t>(j - box_.first[g])] - least > spare;
    };
    while (box.first[g] < box.last[g] && out(box.first[g])) {
      ++box.first[g];
      any = true;
    }
    while (box.last[g] > box.first[g] && out(box.last[g])) {
      --box.last[g];
      any = true;
    }
  }
  return any;
}

Shares BlendProgram::shares() const {
  Shares shares;
  Index column = 0;
  for (size_t g = 0; g < costs_.size(); ++g) {
    std::vector<double> list(costs_[g].size(), 0.0);
    double left = 1;
    const auto first = static_cast<size_t>(box_.first[g]);
    for (size_t j = first + 1; j <= static_cast<size_t>(box_.last[g]); ++j, ++column) {
      constexpr double nothing = 1e-9;
      const double share = answer_.x.size() > column ? answer_.x[column] : 0;
      if (share < nothing) continue;
      list[j] = std::min(share, left);
      left -= list[j];
    }
    list[first] = std::max(0.0, left);
    shares.push_back(std::move(list));
  }
  return shares;
}

/// Of each list the entry with the greatest share, and whether it has all.
Choice nearest_choice(const Shares& shares, bool& whole) {
  Choice choice;
  whole = true;
  for (const std::vector<double>& list : shares) {
    const auto most = std::max_element(list.begin(), list.end());
    constexpr double all = 1 - 1e-6;
    whole = whole && *most >= all;
    choice.push_back(static_cast<int>(most - list.begin()));
  }
  return choice;
}

bool meets(const SeparableCut& cut, const Choice& choice) {
  double sum = 0;
  for (size_t g = 0; g < choice.size(); ++g) sum += cut.weights[g][static_cast<size_t>(choice[g])];
  return sum >= cut.least - violated * size_of(cut);
}

/// Of each list the first entry that costs at least what the blend does.
Choice rounded_up(const std::vector<std::vector<double>>& costs, const Shares& shares,
                  const ChoiceBox& box) {
  Choice choice;
  for (size_t g = 0; g < costs.size(); ++g) {
    double cost = 0;
    for (size_t j = 0; j < costs[g].size(); ++j) cost += shares[g][j] * costs[g][j];
    int j = box.first[g];
    while (j < box.last[g] && costs[g][static_cast<size_t>(j)] < cost * (1 - 1e-9)) ++j;
    choice.push_back(j);
  }
  return choice;
}

/// The list whose blend is spread widest in cost, split there.
void choose_branch(const std::vector<std::vector<double>>& costs, const Shares& shares,
                   BoxAnswer& answer) {
  double widest = 0;
  for (size_t g = 0; g < costs.size(); ++g) {
    double mean = 0, spread = 0;
    for (size_t j = 0; j < costs[g].size(); ++j) mean += shares[g][j] * costs[g][j];
    for (size_t j = 0; j < costs[g].size(); ++j) {
      spread += shares[g][j] * std::abs(costs[g][j] - mean);
    }
    if (!(spread > widest) || answer.box.first[g] == answer.box.last[g]) continue;
    widest = spread;
    answer.branch = static_cast<int>(g);
    int last = answer.box.first[g];
    while (last + 1 < answer.box.last[g] && costs[g][static_cast<size_t>(last) + 1] <= mean) ++last;
    answer.split = last;
  }
}

constexpr int most_cut_rounds = 20;   // of cuts in one box
constexpr size_t newest_cuts = 150;   // in one programme, the newest
constexpr double little_gain = 1e-4;  // of the bound, by a round of cuts

}  // namespace

double lacks(const SeparableCut& cut, const Shares& shares) {
  double sum = 0;
  for (size_t g = 0; g < shares.size(); ++g) {
    for (size_t j = 0; j < shares[g].size(); ++j) {
      if (shares[g][j] > 0) sum += shares[g][j] * cut.weights[g][j];
    }
  }
  return cut.least - sum;
}

BoxAnswer CutRelaxation::bound(const ChoiceBox& box, double cutoff) const {
  BoxAnswer answer;
  answer.box = box;
  double before = -INFINITY;
  Shares shares;
  for (int round = 0; round < most_cut_rounds; ++round) {
    BlendProgram program(costs_, answer.box);
    const auto offer = [&](const std::vector<SeparableCut>& cuts) {
      size_t used = 0;
      for (auto cut = cuts.rbegin(); cut != cuts.rend() && used < newest_cuts; ++cut) {
        const Reach reach = reach_of(*cut, answer.box);
        const double rounding = violated * size_of(*cut);
        if (reach.most < cut->least - rounding) return false;
        if (reach.least >= cut->least) continue;
        program.add(*cut);
        ++used;
      }
      return true;
    };
    if (!offer(answer.cuts) || !offer(cuts_)) {
      answer.empty = true;
      return answer;
    }
    program.solve();
    if (program.infeasible()) {
      answer.empty = true;
      return answer;
    }
    const double bound = fixed_cost_ + program.bound();  // below an earlier one if a cut fell out
    answer.bound = std::max(answer.bound, bound);
    if (answer.bound > cutoff) return answer;
    shares = program.shares();
    const bool smaller = program.tighten(cutoff - bound, answer.box);
    std::vector<SeparableCut> more;
    for (SeparableCut& cut : source_(shares)) {
      if (lacks(cut, shares) > violated * size_of(cut)) more.push_back(std::move(cut));
    }
    if (more.empty() && !smaller) break;
    bool whole = false;
    nearest_choice(shares, whole);
    if (!whole && round > 0 && answer.bound < before + little_gain * std::abs(before)) break;
    before = answer.bound;
    for (SeparableCut& cut : more) answer.cuts.push_back(std::move(cut));
  }
  answer.proposal = nearest_choice(shares, answer.exact);
  const auto fits = [&](const Choice& choice) {
    return std::all_of(cuts_.begin(), cuts_.end(),
                       [&](const auto& c) { return meets(c, choice); }) &&
           std::all_of(answer.cuts.begin(), answer.cuts.end(),
                       [&](const auto& c) { return meets(c, choice); });
  };
  for (size_t g = 0; g < answer.proposal.size() && answer.exact; ++g) {
    answer.exact =
        answer.proposal[g] >= answer.box.first[g] && answer.proposal[g] <= answer.box.last[g];
  }
  if (!answer.exact && !fits(answer.proposal)) {
    answer.proposal = rounded_up(costs_, shares, answer.box);
    if (!fits(answer.proposal)) answer.proposal.clear();
  }
  choose_branch(costs_, shares, answer);
  return answer;
}

}  // namespace tubewright
