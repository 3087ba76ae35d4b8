#include "cases/sizing/lighter_choices.h"

#include <algorithm>
#include <chrono>
#include <map>
#include <numeric>
#include <vector>

#include "cases/analysis/in_parallel.h"

namespace tubewright {

namespace {

/// Goes down from a choice that passes, remembering what was tested.
class Descent {
 public:
  Descent(const ChoiceSearch& search, const Choice& from, double seconds)
      : search_(search), now_(from), seconds_(seconds) {
    tested_.emplace(from, true);
  }

  Choice run() {
    while (time_left() && (lower_lists() || exchange())) {
    }
    return now_;
  }

 private:
  bool time_left() const {
    return std::chrono::duration<double>(Clock::now() - begin_).count() < seconds_;
  }
  double cost(size_t list, int entry) const {
    return search_.costs[list][static_cast<size_t>(entry)];
  }
  bool passes(const Choice& choice);
  bool take_first(const std::vector<Choice>& choices);
  bool lower_lists();
  bool exchange();

  using Clock = std::chrono::steady_clock;
  const Clock::time_point begin_ = Clock::now();
  const ChoiceSearch& search_;
  Choice now_;
  const double seconds_;
  std::map<Choice, bool> tested_;
};

bool Descent::passes(const Choice& choice) {
  const auto known = tested_.find(choice);
  if (known != tested_.end()) return known->second;
  const bool answer = search_.passes(choice);
  tested_.emplace(choice, answer);
  return answer;
}

/// The first of them that passes becomes the choice; a few are tested at once.
bool Descent::take_first(const std::vector<Choice>& choices) {
  constexpr size_t at_once = 4;
  for (size_t begin = 0; begin < choices.size() && time_left(); begin += at_once) {
    const size_t count = std::min(at_once, choices.size() - begin);
    std::vector<char> pass(count);
    in_parallel(count, [&](size_t i) { pass[i] = search_.passes(choices[begin + i]) ? 1 : 0; });
    for (size_t i = 0; i < count; ++i) tested_.emplace(choices[begin + i], pass[i] != 0);
    for (size_t i = 0; i < count; ++i) {
      if (pass[i] == 0) continue;
      now_ = choices[begin + i];
      return true;
    }
  }
  return false;
}

/// Each list by halving as far down as it passes, as if what is heavier were stronger; the most
/// costly first.
bool Descent::lower_lists() {
  std::vector<size_t> order(now_.size());
  std::iota(order.begin(), order.end(), size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](size_t a, size_t b) { return cost(a, now_[a]) > cost(b, now_[b]); });
  const Choice before = now_;
  for (const size_t g : order) {
    int fails = -1;
    while (now_[g] - fails > 1 && time_left()) {
      Choice lower = now_;
      lower[g] = (now_[g] + fails) / 2;
      if (passes(lower)) {
        now_ = lower;
      } else {
        fails = lower[g];
      }
    }
  }
  return now_ != before;
}

/// One list up to three entries up, another down, at less cost than now; cheapest first.
bool Descent::exchange() {
  struct Exchange {
    double cost = 0;
    Choice choice;
  };
  std::vector<Exchange> list;
  const double now = cost_of(search_, now_);
  constexpr int most_up = 3;
  for (size_t up = 0; up < now_.size(); ++up) {
    const int last = static_cast<int>(search_.costs[up].size()) - 1;
    for (int rise = 1; rise <= most_up && now_[up] + rise <= last; ++rise) {
      for (size_t down = 0; down < now_.size(); ++down) {
        if (down == up) continue;
        for (int j = now_[down] - 1; j >= 0; --j) {
          Choice c = now_;
          c[up] += rise;
          c[down] = j;
          const double cost = cost_of(search_, c);
          if (cost < now * (1 - same_cost) && !tested_.contains(c)) list.push_back({cost, c});
        }
      }
    }
  }
  // What costs little less is likeliest to pass.
  std::stable_sort(list.begin(), list.end(),
                   [](const Exchange& a, const Exchange& b) { return a.cost > b.cost; });
  std::vector<Choice> choices;
  for (const Exchange& e : list) choices.push_back(e.choice);
  return take_first(choices);
}

}  // namespace

Choice lighter_choice(const ChoiceSearch& search, const Choice& from, double seconds) {
  return Descent(search, from, seconds).run();
}

namespace {

/// Depth first over the lists, costliest entries first.
class CheaperChoice {
 public:
  CheaperChoice(const ChoiceSearch& search, double cost) : search_(search), most_(cost) {
    double least = 0, greatest = 0;
    least_.push_back(0);
    greatest_.push_back(0);
    for (size_t g = search.costs.size(); g-- > 0;) {
      least_.push_back(least += search.costs[g].front());
      greatest_.push_back(greatest += search.costs[g].back());
    }
    std::reverse(least_.begin(), least_.end());
    std::reverse(greatest_.begin(), greatest_.end());
    choice_.assign(search.costs.size(), 0);
  }

  std::optional<Choice> find() {
    go(0, search_.fixed_cost);
    if (best_.empty()) return std::nullopt;
    return best_;
  }

 private:
  void go(size_t list, double cost);

  const ChoiceSearch& search_;
  const double most_;
  std::vector<double> least_, greatest_;  ///< of the lists from each on
  Choice choice_, best_;
  double best_cost_ = -1;
  long steps_ = 0;
};

void CheaperChoice::go(size_t list, double cost) {
  constexpr long many = 2'000'000, too_many = 20'000'000;
  constexpr double near_enough = 1e-6;
  const double limit = most_ * (1 - same_cost);
  if (++steps_ > many && (best_cost_ > most_ * (1 - near_enough) || steps_ > too_many)) return;
  if (cost + least_[list] >= limit) return;
  if (cost + greatest_[list] <= best_cost_) return;
  if (list == search_.costs.size()) {
    best_cost_ = cost;
    best_ = choice_;
    return;
  }
  for (size_t j = search_.costs[list].size(); j-- > 0;) {
    choice_[list] = static_cast<int>(j);
    go(list + 1, cost + search_.costs[list][j]);
  }
}

}  // namespace

std::optional<Choice> nearest_cheaper(const ChoiceSearch& search, double cost) {
  return CheaperChoice(search, cost).find();
}

}  // namespace tubewright
