// Bin packing against a search of all partitions, on instances small enough for it.
#include "cases/nesting/bin_packing.h"

#include <algorithm>
#include <functional>
#include <random>

#include "tests/catch.h"

namespace tubewright::bin_packing_test {

namespace {

PackingTask random_task(std::mt19937& draw, int pieces) {
  PackingTask t{100, {}, {}};
  std::vector<ItemSize> sizes;
  for (int i = 0; i < pieces; ++i) sizes.push_back(10 + draw() % 70);
  std::sort(sizes.begin(), sizes.end(), std::greater<>());
  for (const ItemSize s : sizes) {
    if (t.sizes.empty() || t.sizes.back() != s) {
      t.sizes.push_back(s);
      t.counts.push_back(0);
    }
    ++t.counts.back();
  }
  return t;
}

/// Puts piece after piece into every bar it fits, and into a new one.
int fewest_by_force(const PackingTask& t) {
  std::vector<ItemSize> pieces, rooms;
  for (std::size_t k = 0; k < t.sizes.size(); ++k) {
    pieces.insert(pieces.end(), static_cast<std::size_t>(t.counts[k]), t.sizes[k]);
  }
  std::size_t best = pieces.size();
  const std::function<void(std::size_t)> place = [&](std::size_t i) {
    if (rooms.size() >= best) return;
    if (i == pieces.size()) {
      best = rooms.size();
      return;
    }
    for (std::size_t b = 0; b < rooms.size(); ++b) {
      if (rooms[b] < pieces[i]) continue;
      rooms[b] -= pieces[i];
      place(i + 1);
      rooms[b] += pieces[i];
    }
    rooms.push_back(t.capacity - pieces[i]);
    place(i + 1);
    rooms.pop_back();
  };
  place(0);
  return static_cast<int>(best);
}

/// Every piece once, no bar over-full.
bool is_packing(const PackingTask& t, const std::vector<Bin>& bars) {
  Counts left = t.counts;
  for (const Bin& bar : bars) {
    ItemSize used = 0;
    for (const int k : bar) {
      used += t.sizes[static_cast<std::size_t>(k)];
      --left[static_cast<std::size_t>(k)];
    }
    if (used > t.capacity) return false;
  }
  return std::all_of(left.begin(), left.end(), [](int n) { return n == 0; });
}

}  // namespace

TEST_CASE("the fewest bars are those of a search of all partitions, and proven") {
  std::mt19937 draw(1);
  for (int trial = 0; trial < 150; ++trial) {
    const PackingTask t = random_task(draw, 4 + trial % 7);
    long effort = 10'000'000;
    const FewestBars fewest = pack_in_fewest(t, effort);
    const int bars = fewest_by_force(t);
    INFO(trial);
    CHECK(is_packing(t, fewest.bars));
    CHECK(static_cast<int>(fewest.bars.size()) == bars);
    CHECK(fewest.lower_bound == bars);
  }
}

TEST_CASE("one bar fewer than the fewest is impossible, and the proof says so") {
  std::mt19937 draw(2);
  for (int trial = 0; trial < 100; ++trial) {
    const PackingTask t = random_task(draw, 8);
    const int bars = fewest_by_force(t);
    std::vector<Bin> out;
    long effort = 10'000'000;
    CHECK(pack_in(t, bars - 1, effort, out) == Packed::impossible);
    CHECK(out.empty());
    CHECK(pack_in(t, bars, effort, out) == Packed::found);
    CHECK(is_packing(t, out));
  }
}

TEST_CASE("first fit decreasing packs all and takes at most 11/9 of the fewest and 6/9 more") {
  // The bound: G. Dosa, LNCS 4614 (2007) 1-11, FFD <= 11/9 OPT + 6/9 (from memory).
  std::mt19937 draw(3);
  for (int trial = 0; trial < 100; ++trial) {
    const PackingTask t = random_task(draw, 9);
    const std::vector<Bin> bars = first_fit_decreasing(t);
    CHECK(is_packing(t, bars));
    CHECK(9 * static_cast<int>(bars.size()) <= 11 * fewest_by_force(t) + 6);
  }
}

TEST_CASE("without effort nothing is claimed that was not found") {
  // Two fit only as 60 + 40 and 50 + 30 + 20; first fit decreasing finds it, a third is refused.
  const PackingTask t{100, {60, 50, 40, 30, 20}, {1, 1, 1, 1, 1}};
  CHECK(total_size(t) == 200);
  std::vector<Bin> out;
  long none = 0;
  CHECK(pack_in(t, 2, none, out) == Packed::found);
  CHECK(pack_in(t, 1, none, out) != Packed::found);
  CHECK(out.empty());
}

}  // namespace tubewright::bin_packing_test
