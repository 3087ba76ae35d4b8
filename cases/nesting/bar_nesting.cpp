#include "cases/nesting/bar_nesting.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <tuple>
#include <utility>

#include "cases/nesting/bin_packing.h"

namespace tubewright {
namespace {

// Widths are whole nanometres, so that sums are exact.
constexpr double per_metre = 1e9;
constexpr ItemSize slight = 1000;          // 1 um: below any saw, above the rounding of sums
constexpr ItemSize rest_step = 1'000'000;  // 1 mm: an off-cut is not measured more finely
constexpr double longest_bar = 1e4;        // m; keeps sums of 10000 sizes far below 2^63
// Steps of work, see pack_in(); together about a second at most.
constexpr long effort_for_bars = 100'000'000, effort_for_rest = 3'000'000;

ItemSize to_width(double metres) { return std::llround(metres * per_metre); }
double to_metres(ItemSize width) { return static_cast<double>(width) / per_metre; }

/// A piece to cut: a copy of an entry.
struct Part {
  ItemSize width = 0;  ///< with its kerf
  double length = 0;
  int id = 0;
};

/// What the saw makes of the options: the header's model with `slight` more capacity.
struct Saw {
  ItemSize usable = 0;
  ItemSize kerf = 0;
  ItemSize capacity() const { return usable + kerf + slight; }
  /// The off-cut behind pieces of this width in all.
  ItemSize rest(ItemSize used) const { return std::max<ItemSize>(0, usable - used); }
};

Saw saw_of(const NestingOptions& options) {
  const double usable = usable_length(options);
  const double kerf = std::clamp(std::isnan(options.kerf) ? 0.0 : options.kerf, 0.0, usable);
  return {to_width(usable), to_width(kerf)};
}

/// The pieces that fit a bar, longest first; the others are named in `nesting`.
std::vector<Part> sort_out(const std::vector<Piece>& pieces, double usable, ItemSize kerf,
                           Nesting& nesting) {
  std::vector<Part> parts;
  for (const Piece& p : pieces) {
    if (p.count <= 0) continue;
    if (!(p.length >= to_metres(slight))) {
      nesting.no_length.push_back(p.id);
    } else if (usable <= 0 || p.length > usable + to_metres(slight)) {
      nesting.too_long.push_back(p.id);
    } else if (p.count > most_nested_pieces - static_cast<int>(parts.size())) {
      nesting.too_many = true;
    } else {
      const ItemSize length = std::min(to_width(p.length), to_width(usable) + slight);
      parts.insert(parts.end(), static_cast<std::size_t>(p.count),
                   Part{length + kerf, p.length, p.id});
    }
  }
  std::sort(nesting.no_length.begin(), nesting.no_length.end());
  std::sort(nesting.too_long.begin(), nesting.too_long.end());
  std::sort(parts.begin(), parts.end(), [](const Part& a, const Part& b) {
    return std::tie(b.width, b.length, a.id) < std::tie(a.width, a.length, b.id);
  });
  return parts;
}

PackingTask task_of(const std::vector<Part>& parts, ItemSize capacity) {
  PackingTask task{capacity, {}, {}};
  for (const Part& p : parts) {
    if (task.sizes.empty() || task.sizes.back() != p.width) {
      task.sizes.push_back(p.width);
      task.counts.push_back(0);
    }
    ++task.counts.back();
  }
  return task;
}

ItemSize used_width(const PackingTask& task, const Bin& bar) {
  ItemSize used = 0;
  for (const int k : bar) used += task.sizes[static_cast<std::size_t>(k)];
  return used;
}

ItemSize longest_rest(const PackingTask& task, const std::vector<Bin>& bars, const Saw& saw) {
  ItemSize rest = 0;
  for (const Bin& bar : bars) rest = std::max(rest, saw.rest(used_width(task, bar)));
  return rest;
}

/// Packs the task together with an off-cut of length `rest`, which then comes out of the bars.
Packed pack_with_rest(PackingTask task, ItemSize rest, const Saw& saw, int bars, long& effort,
                      std::vector<Bin>& out) {
  const ItemSize width = rest + saw.kerf + slight;
  const auto at = std::lower_bound(task.sizes.begin(), task.sizes.end(), width, std::greater<>());
  const auto kind = at - task.sizes.begin();
  task.sizes.insert(at, width);
  task.counts.insert(task.counts.begin() + kind, 1);
  const Packed packed = pack_in(task, bars, effort, out);
  for (Bin& bar : out) {
    std::erase(bar, static_cast<int>(kind));
    for (int& k : bar) k -= k > kind ? 1 : 0;
  }
  std::erase_if(out, [](const Bin& bar) { return bar.empty(); });
  return packed;
}

/// Halves the gap between the off-cut there is and the longest there can be. Returns whether the
/// result is proven.
bool lengthen_rest(const PackingTask& task, const Saw& saw, std::vector<Bin>& bars) {
  const int count = static_cast<int>(bars.size());
  const ItemSize slack = count * saw.capacity() - total_size(task);
  // No longer than all that is left over in one bar, nor than what one piece leaves of a bar.
  ItemSize most = std::min(slack - saw.kerf - slight, saw.rest(task.sizes.back()));
  ItemSize best = longest_rest(task, bars, saw);
  long effort = effort_for_rest;
  bool proven = true;
  for (ItemSize trial = most; best < most && trial > best; trial = best + (most - best + 1) / 2) {
    std::vector<Bin> found;
    const Packed packed = pack_with_rest(task, trial, saw, count, effort, found);
    if (packed == Packed::found) {
      bars = std::move(found);
      // The off-cut can turn out to have had a bar to itself, if the bars were not the fewest.
      if (static_cast<int>(bars.size()) < count) return lengthen_rest(task, saw, bars);
      best = longest_rest(task, bars, saw);
    } else {
      proven = proven && packed == Packed::impossible;
      most = trial - 1;
    }
    if (most - best < rest_step) break;
  }
  return proven;
}

}  // namespace

double usable_length(const NestingOptions& options) {
  const double trim = std::isnan(options.end_trim) ? 0.0 : std::max(0.0, options.end_trim);
  const double usable = options.bar_length - 2 * trim;
  return options.bar_length <= longest_bar && usable >= to_metres(slight) ? usable : 0.0;
}

Nesting nest_pieces(const std::vector<Piece>& pieces, const NestingOptions& options) {
  Nesting nesting;
  const Saw saw = saw_of(options);
  const std::vector<Part> parts = sort_out(pieces, usable_length(options), saw.kerf, nesting);
  if (nesting.too_many) return nesting;
  nesting.optimal = nesting.longest_rest_proven = true;
  if (parts.empty()) return nesting;

  const PackingTask task = task_of(parts, saw.capacity());
  long effort = effort_for_bars;
  FewestBars fewest = pack_in_fewest(task, effort);
  const bool longest = lengthen_rest(task, saw, fewest.bars);
  nesting.bars_needed = static_cast<int>(fewest.bars.size());
  nesting.lower_bound = fewest.lower_bound;
  nesting.optimal = nesting.bars_needed == nesting.lower_bound;
  nesting.longest_rest_proven = longest && nesting.optimal;

  std::stable_sort(fewest.bars.begin(), fewest.bars.end(), [&](const Bin& a, const Bin& b) {
    return std::pair(-used_width(task, a), a) < std::pair(-used_width(task, b), b);
  });
  std::vector<std::size_t> next(task.counts.size(), 0);  // part of each kind
  for (std::size_t k = 1; k < next.size(); ++k) {
    next[k] = next[k - 1] + static_cast<std::size_t>(task.counts[k - 1]);
  }
  nesting.waste = nesting.bars_needed * options.bar_length;
  for (const Bin& bar : fewest.bars) {
    CutBar& cut = nesting.bars.emplace_back();
    cut.rest = to_metres(saw.rest(used_width(task, bar)));
    for (const int k : bar) {
      const Part& part = parts[next[static_cast<std::size_t>(k)]++];
      cut.pieces.push_back(part.id);
      nesting.waste -= part.length;
    }
  }
  nesting.longest_rest = nesting.bars.back().rest;
  return nesting;
}

}  // namespace tubewright
