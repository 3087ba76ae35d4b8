// One-dimensional bin packing in whole numbers: what is under bar_nesting.h.
#pragma once

#include <cstdint>
#include <vector>

namespace tubewright {

using ItemSize = std::int64_t;
using Counts = std::vector<int>;  ///< per kind
using Bin = std::vector<int>;     ///< kinds, largest first

/// counts[k] >= 0 pieces of sizes[k]; sizes fall or stay and lie in [1, capacity]. The sum of all
/// stays below 2^62 (asserted nowhere: nest_pieces() sees to it).
struct PackingTask {
  ItemSize capacity = 0;
  std::vector<ItemSize> sizes;
  Counts counts;
};

enum class Packed { found, impossible, unknown };

struct FewestBars {
  std::vector<Bin> bars;
  int lower_bound = 0;  ///< proven
};

ItemSize total_size(const PackingTask& task);

std::vector<Bin> first_fit_decreasing(PackingTask task);

/// Whether `bars` bars are enough; `out` then holds them, else nothing. `impossible` is proven.
/// Takes the steps it makes, each some ten nanoseconds, off `effort`, and says `unknown` when none
/// are left.
Packed pack_in(const PackingTask& task, int bars, long& effort, std::vector<Bin>& out);

FewestBars pack_in_fewest(const PackingTask& task, long& effort);

}  // namespace tubewright
