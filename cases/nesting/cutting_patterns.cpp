#include "cases/nesting/cutting_patterns.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace tubewright {
namespace {

constexpr std::int64_t one_bar = 1'000'000'000;         // prices are whole billionths of a bar
constexpr std::int64_t price_gap = 1000;                // 1e-6 of a bar: what pricing may overlook
constexpr long pricing = 50'000, quick_pricing = 5000;  // steps

/// The bar whose pieces are worth most, to within price_gap.
struct Knapsack {
  const PackingTask& task;
  std::vector<std::int64_t> prices;
  std::vector<std::size_t> order;  ///< kinds with a price, dearest by the metre first
  long steps = 0;
  bool cut_short = false;  ///< a bar may be worth more than the best
  Counts bar = {};
  Counts best_bar = {};
  std::int64_t best = 0;
  std::int64_t enough = one_bar + price_gap;  ///< the search for more is then short

  double by_width(std::size_t k) const {
    return static_cast<double>(prices[k]) / static_cast<double>(task.sizes[k]);
  }
};

void fill_knapsack(Knapsack& s, std::size_t from, ItemSize room, std::int64_t value) {
  if (value > s.best) {
    s.best = value;
    s.best_bar = s.bar;
  }
  for (std::size_t i = from; i < s.order.size(); ++i) {
    const std::size_t k = s.order[i];
    const long most = s.best > s.enough ? quick_pricing : pricing;
    s.cut_short = s.cut_short || ++s.steps > most;
    if (s.cut_short) return;
    const double hope = static_cast<double>(value) + static_cast<double>(room) * s.by_width(k);
    if (hope < static_cast<double>(s.best + price_gap) - 0.5) return;
    if (s.task.sizes[k] > room || s.bar[k] == s.task.counts[k]) continue;
    ++s.bar[k];
    fill_knapsack(s, i, room - s.task.sizes[k], value + s.prices[k]);
    --s.bar[k];
  }
}

Knapsack best_bar(const PackingTask& t, const Eigen::VectorXd& prices) {
  Knapsack s{t, {}, {}};
  for (std::size_t k = 0; k < t.sizes.size(); ++k) {
    const double price = std::clamp(prices[static_cast<Eigen::Index>(k)], 0.0, 1e3);
    s.prices.push_back(static_cast<std::int64_t>(price * static_cast<double>(one_bar)));
    if (s.prices[k] > 0 && t.counts[k] > 0) s.order.push_back(k);
  }
  std::stable_sort(s.order.begin(), s.order.end(),
                   [&](std::size_t a, std::size_t b) { return s.by_width(a) > s.by_width(b); });
  s.bar = s.best_bar = Counts(t.sizes.size(), 0);
  fill_knapsack(s, 0, t.capacity, 0);
  return s;
}

}  // namespace

LpRelaxation solve_lp_relaxation(const PackingTask& t, long& effort) {
  const auto kinds = static_cast<Eigen::Index>(t.sizes.size());
  LpRelaxation r;
  Eigen::MatrixXd inverse = Eigen::MatrixXd::Zero(kinds, kinds);
  r.use.resize(kinds);
  for (Eigen::Index i = 0; i < kinds; ++i) {
    const auto k = static_cast<std::size_t>(i);
    Counts& column = r.columns.emplace_back(kinds, 0);
    const ItemSize fit = t.capacity / t.sizes[k];
    column[k] = static_cast<int>(std::clamp<ItemSize>(fit, 1, std::max(1, t.counts[k])));
    inverse(i, i) = 1.0 / column[k];
    r.use[i] = static_cast<double>(t.counts[k]) / column[k];
  }
  while (effort > 0) {
    const Knapsack s = best_bar(t, inverse.colwise().sum().transpose());
    effort -= s.steps + kinds * kinds / 8 + 8 * kinds;
    if (!s.cut_short && s.best > 0) {
      const std::int64_t worth =
          std::inner_product(t.counts.begin(), t.counts.end(), s.prices.begin(), std::int64_t{0});
      r.bound = std::max(r.bound, static_cast<int>((worth - 1) / (s.best + price_gap)) + 1);
    }
    if (s.best <= one_bar + price_gap || r.bound >= std::ceil(r.use.sum() - 1e-6)) break;
    Eigen::VectorXd entering(kinds);
    for (Eigen::Index i = 0; i < kinds; ++i) entering[i] = s.best_bar[static_cast<std::size_t>(i)];
    const Eigen::VectorXd change = inverse * entering;
    Eigen::Index leaving = -1;
    for (Eigen::Index i = 0; i < kinds; ++i) {
      if (change[i] < 1e-9) continue;
      const double ahead =
          leaving < 0 ? -1 : r.use[i] * change[leaving] - r.use[leaving] * change[i];
      if (ahead < 0 || (ahead == 0 && change[i] > change[leaving])) leaving = i;
    }
    if (leaving < 0) break;
    const double step = r.use[leaving] / change[leaving];
    const Eigen::RowVectorXd row = inverse.row(leaving) / change[leaving];
    inverse -= change * row;
    inverse.row(leaving) = row;
    r.use = (r.use - step * change).cwiseMax(0.0);
    r.use[leaving] = step;
    r.columns[static_cast<std::size_t>(leaving)] = s.best_bar;
  }
  return r;
}

std::vector<Bin> minimum_bin_slack(PackingTask t, long& effort) {
  std::vector<Bin> bars;
  for (std::size_t first = 0; first < t.counts.size();) {
    if (t.counts[first] == 0) {
      ++first;
      continue;
    }
    if (effort <= 0) return {};
    Knapsack s{t, t.sizes, {}};
    for (std::size_t k = first; k < t.counts.size(); ++k) {
      if (t.counts[k] > 0) s.order.push_back(k);
    }
    s.bar.assign(t.counts.size(), 0);
    s.bar[first] = 1;
    s.enough = 0;
    fill_knapsack(s, 0, t.capacity - t.sizes[first], t.sizes[first]);
    effort -= s.steps + static_cast<long>(t.counts.size());
    Bin& bar = bars.emplace_back();
    for (std::size_t k = first; k < t.counts.size(); ++k) {
      t.counts[k] -= s.best_bar[k];
      bar.insert(bar.end(), static_cast<std::size_t>(s.best_bar[k]), static_cast<int>(k));
    }
  }
  return bars;
}

}  // namespace tubewright
