#include "cases/variants/variant_choice.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <tuple>
#include <utility>

namespace tubewright {

namespace {

/// Mass, softness, utilisation: the less the better of each.
using Cost = std::tuple<double, double, double>;

Cost cost_of(const Standing& s) {
  return {s.mass, s.stiffness ? -*s.stiffness : INFINITY, s.utilisation.value_or(INFINITY)};
}

/// The best utilisation for a softness, of what is no heavier: softness rises, utilisation falls.
class Staircase {
 public:
  bool beats(const Cost& cost) const {
    const auto& [mass, softness, utilisation] = cost;
    const auto above = steps_.upper_bound(softness);
    if (above == steps_.begin()) return false;
    const auto& best = std::prev(above)->second;
    return std::get<2>(best) <= utilisation && best != cost;
  }

  void add(const Cost& cost) {
    const auto& [mass, softness, utilisation] = cost;
    auto step = steps_.insert({softness, cost}).first;
    step->second = cost;
    for (++step; step != steps_.end() && std::get<2>(step->second) >= utilisation;) {
      step = steps_.erase(step);
    }
  }

 private:
  std::map<double, Cost> steps_;
};

}  // namespace

std::vector<bool> pareto_front(const std::vector<Standing>& variants) {
  std::vector<Cost> costs;
  for (const Standing& s : variants) costs.push_back(cost_of(s));
  std::vector<std::size_t> order(variants.size());
  std::iota(order.begin(), order.end(), 0);
  std::sort(order.begin(), order.end(),
            [&](std::size_t a, std::size_t b) { return costs[a] < costs[b]; });
  // Whatever may beat a variant stands before it.
  std::vector<bool> front(variants.size(), false);
  Staircase lighter;
  for (const std::size_t i : order) {
    if (lighter.beats(costs[i])) continue;
    front[i] = true;
    lighter.add(costs[i]);
  }
  return front;
}

std::optional<std::size_t> lightest(const std::vector<Standing>& variants,
                                    const std::vector<bool>& wanted) {
  std::optional<std::size_t> best;
  const auto key = [&](std::size_t i) {
    const auto [mass, softness, utilisation] = cost_of(variants[i]);
    return std::pair(mass, softness);
  };
  for (std::size_t i = 0; i < variants.size(); ++i) {
    if (wanted[i] && (!best || key(i) < key(*best))) best = i;
  }
  return best;
}

}  // namespace tubewright
