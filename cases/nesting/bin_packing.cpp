#include "cases/nesting/bin_packing.h"

#include <algorithm>
#include <limits>
#include <map>
#include <numeric>
#include <utility>

#include "cases/nesting/cutting_patterns.h"

namespace tubewright {
namespace {

constexpr int most_searched = 1000;      // pieces; bounds the depth of the recursion
constexpr std::size_t most_kinds = 500;  // in the linear programme, whose basis is dense
constexpr long quick_search = 3000, thorough_search = 100'000;  // steps

int ceil_ratio(ItemSize a, ItemSize b) { return static_cast<int>((a + b - 1) / b); }

/// L2 of Martello and Toth, Discrete Applied Mathematics 28 (1990) 59-70: pieces longer than half a
/// bar need one each; those of at least `least` fill what these leave, if they fit at all.
int martello_toth_bound(const PackingTask& t) {
  int bound = ceil_ratio(total_size(t), t.capacity);
  for (const ItemSize least : t.sizes) {
    if (2 * least > t.capacity && least != t.sizes.back()) continue;
    int alone = 0;
    ItemSize left_beside = 0;
    ItemSize small = 0;
    for (std::size_t k = 0; k < t.sizes.size(); ++k) {
      const ItemSize w = t.sizes[k];
      if (2 * w > t.capacity) {
        alone += t.counts[k];
        if (w <= t.capacity - least) left_beside += t.counts[k] * (t.capacity - w);
      } else if (w >= least) {
        small += t.counts[k] * w;
      }
    }
    const ItemSize over = std::max<ItemSize>(0, small - left_beside);
    bound = std::max(bound, alone + ceil_ratio(over, t.capacity));
  }
  return bound;
}

/// Depth-first search bar by bar (bin completion: Korf, AAAI 2002; Martello and Toth 1990): each
/// takes the longest piece left, and nothing left over may still fit into it.
struct Completion {
  PackingTask left;
  long steps = 0;
  std::vector<Bin> bars = {};
  std::map<Counts, int> failed = {};  ///< pieces left, and for how many bars they are too much
};

bool next_bar(Completion& c, int bars_left, ItemSize slack);

/// Fills the last bar with kinds from `from` on. `slack` is what may be wasted from this bar on,
/// `skipped` the shortest piece passed over, behind[k] the width of all pieces of kinds k and on.
bool fill_bar(Completion& c, const std::vector<ItemSize>& behind, std::size_t from, ItemSize room,
              ItemSize skipped, int bars_left, ItemSize slack) {
  if (--c.steps <= 0) return false;
  for (std::size_t k = from; k < behind.size(); ++k) {
    if (c.left.counts[k] == 0 || c.left.sizes[k] > room) continue;
    if (room - behind[k] > slack || room - behind[k] >= skipped) return false;
    --c.left.counts[k];
    c.bars.back().push_back(static_cast<int>(k));
    if (fill_bar(c, behind, k, room - c.left.sizes[k], skipped, bars_left, slack)) return true;
    c.bars.back().pop_back();
    ++c.left.counts[k];
    if (c.steps <= 0) return false;
    skipped = c.left.sizes[k];
  }
  return room < skipped && room <= slack && next_bar(c, bars_left - 1, slack - room);
}

bool next_bar(Completion& c, int bars_left, ItemSize slack) {
  const auto longest =
      std::find_if(c.left.counts.begin(), c.left.counts.end(), [](int n) { return n > 0; });
  if (longest == c.left.counts.end()) return true;
  if (bars_left <= 0 || slack < 0) return false;
  if (const auto seen = c.failed.find(c.left.counts);
      seen != c.failed.end() && seen->second >= bars_left) {
    return false;
  }
  std::vector<ItemSize> behind(c.left.counts.size());
  ItemSize sum = 0;
  for (std::size_t k = behind.size(); k-- > 0;) {
    behind[k] = sum += c.left.counts[k] * c.left.sizes[k];
  }
  const Counts state = c.left.counts;
  const std::size_t first = static_cast<std::size_t>(longest - c.left.counts.begin());
  --c.left.counts[first];
  c.bars.push_back({static_cast<int>(first)});
  if (fill_bar(c, behind, first, c.left.capacity - c.left.sizes[first],
               std::numeric_limits<ItemSize>::max(), bars_left, slack)) {
    return true;
  }
  c.bars.pop_back();
  ++c.left.counts[first];
  c.failed[state] = std::max(c.failed[state], bars_left);
  return false;
}

/// Whether the pieces come from `bars` bars; if so, adds them to `out`.
Packed complete(const PackingTask& t, int bars, long steps, long& effort, std::vector<Bin>& out) {
  if (std::accumulate(t.counts.begin(), t.counts.end(), 0) > most_searched) return Packed::unknown;
  if (effort <= 0) return Packed::unknown;
  const long allowed = std::min(steps, effort);
  Completion c{t, allowed};
  const bool found = next_bar(c, bars, bars * t.capacity - total_size(t));
  effort -= allowed - std::max(0L, c.steps);
  if (found) out.insert(out.end(), c.bars.begin(), c.bars.end());
  return found ? Packed::found : c.steps > 0 ? Packed::impossible : Packed::unknown;
}

/// Bars cut already, and what is left to cut.
struct PartlyCut {
  PackingTask left;
  std::vector<Bin> bars = {};
};

void cut(PartlyCut& p, const Counts& column, int times) {
  for (; times > 0; --times) {
    Bin bar;
    for (std::size_t k = 0; k < column.size(); ++k) {
      const int taken = std::min(column[k], p.left.counts[k]);
      p.left.counts[k] -= taken;
      bar.insert(bar.end(), static_cast<std::size_t>(taken), static_cast<int>(k));
    }
    if (!bar.empty()) p.bars.push_back(std::move(bar));
  }
}

/// What is worth a try: all bars that the linear programme uses whole, then one of those it uses
/// most. `fewest` becomes its bound.
std::vector<PartlyCut> first_cuts(const PackingTask& t, long& effort, int& fewest) {
  constexpr double whole = 1 - 1e-6;
  constexpr std::size_t branches = 3;  // more would only stay near the bottom of the tree
  const LpRelaxation r = solve_lp_relaxation(t, effort);
  fewest = r.bound;
  std::vector<std::pair<double, std::size_t>> used;
  for (std::size_t i = 0; i < r.columns.size(); ++i) {
    const double use = r.use[static_cast<Eigen::Index>(i)];
    if (use > 1 - whole) used.emplace_back(-use, i);
  }
  std::sort(used.begin(), used.end());
  std::vector<PartlyCut> tries(1, PartlyCut{t});
  for (const auto& [use, i] : used) {
    cut(tries[0], r.columns[i], static_cast<int>(1 - use - whole));
    if (tries.size() > branches) continue;
    cut(tries.emplace_back(PartlyCut{t}), r.columns[i], 1);
  }
  std::erase_if(tries, [](const PartlyCut& p) { return p.bars.empty(); });
  return tries;
}

/// A quick search; then some bars are cut and the rest is packed in the same way.
Packed pack(const PackingTask& t, int bars, long& effort, std::vector<Bin>& out) {
  if (const Packed quick = complete(t, bars, quick_search, effort, out); quick != Packed::unknown) {
    return quick;
  }
  if (t.sizes.size() > most_kinds || effort <= 0) return Packed::unknown;
  int fewest = 0;
  for (PartlyCut& p : first_cuts(t, effort, fewest)) {
    if (fewest > bars) return Packed::impossible;
    const int bars_left = bars - static_cast<int>(p.bars.size());
    if (bars_left < 0 || pack(p.left, bars_left, effort, p.bars) != Packed::found) continue;
    out.insert(out.end(), p.bars.begin(), p.bars.end());
    return Packed::found;
  }
  return Packed::unknown;
}

}  // namespace

ItemSize total_size(const PackingTask& t) {
  return std::inner_product(t.counts.begin(), t.counts.end(), t.sizes.begin(), ItemSize{0});
}

std::vector<Bin> first_fit_decreasing(PackingTask t) {
  std::vector<Bin> bars;
  for (std::size_t first = 0; first < t.counts.size();) {
    if (t.counts[first] == 0) {
      ++first;
      continue;
    }
    ItemSize room = t.capacity;
    Bin& bar = bars.emplace_back();
    for (std::size_t k = first; k < t.counts.size() && room >= t.sizes.back(); ++k) {
      for (; t.counts[k] > 0 && t.sizes[k] <= room; --t.counts[k]) {
        room -= t.sizes[k];
        bar.push_back(static_cast<int>(k));
      }
    }
  }
  return bars;
}

Packed pack_in(const PackingTask& t, int bars, long& effort, std::vector<Bin>& out) {
  const long kinds = static_cast<long>(t.sizes.size());
  out = first_fit_decreasing(t);
  effort -= kinds * static_cast<long>(out.size()) / 4;
  if (static_cast<int>(out.size()) <= bars) return Packed::found;
  out = minimum_bin_slack(t, effort);
  if (!out.empty() && static_cast<int>(out.size()) <= bars) return Packed::found;
  out.clear();
  effort -= kinds * kinds / 4;
  if (martello_toth_bound(t) > bars) return Packed::impossible;
  const Packed packed = pack(t, bars, effort, out);
  return packed == Packed::unknown ? complete(t, bars, thorough_search, effort, out) : packed;
}

FewestBars pack_in_fewest(const PackingTask& t, long& effort) {
  FewestBars fewest{first_fit_decreasing(t), martello_toth_bound(t)};
  for (int bars = fewest.lower_bound; bars < static_cast<int>(fewest.bars.size()); ++bars) {
    if (effort <= 0) break;
    std::vector<Bin> found;
    long share = (effort + 1) / 2;  // for easier targets some is kept
    effort -= share;
    const Packed packed = pack_in(t, bars, share, found);
    effort += share;
    if (packed == Packed::found) fewest.bars = std::move(found);
    if (packed == Packed::impossible) fewest.lower_bound = bars + 1;
  }
  return fewest;
}

}  // namespace tubewright
