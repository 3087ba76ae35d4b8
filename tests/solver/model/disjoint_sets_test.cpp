// Sets that are joined, against a flood through the same graph: laws, no source.
#include "solver/model/disjoint_sets.h"

#include <random>
#include <utility>

#include "tests/catch.h"

namespace tubewright::disjoint_sets_test {

namespace {

using Pairs = std::vector<std::pair<int, int>>;

/// The least number that can be reached from each, by handing it on until nothing changes.
std::vector<int> least_reached(int count, const Pairs& joined) {
  std::vector<int> least(count);
  for (int i = 0; i < count; ++i) least[i] = i;
  for (bool changed = true; changed;) {
    changed = false;
    for (const auto& [a, b] : joined) {
      changed = changed || least[a] != least[b];
      least[a] = least[b] = std::min(least[a], least[b]);
    }
  }
  return least;
}

}  // namespace

TEST_CASE("numbers stand alone until they are joined, and the least stands for its set") {
  DisjointSets sets(5);
  CHECK(sets.firsts() == std::vector<int>{0, 1, 2, 3, 4});
  sets.join(4, 2);
  sets.join(1, 4);
  sets.join(2, 1);  // together already
  sets.join(3, 3);
  CHECK(sets.firsts() == std::vector<int>{0, 1, 1, 3, 1});
  CHECK(sets.first_of(4) == 1);
  CHECK(DisjointSets(0).firsts().empty());
}

TEST_CASE("joined numbers are those that a flood reaches, whatever the order of joining") {
  std::mt19937 random(4);
  for (int trial = 0; trial < 200; ++trial) {
    const int count = 1 + static_cast<int>(random() % 60);
    Pairs joined;
    for (unsigned n = random() % 60; n > 0; --n) {
      joined.emplace_back(random() % count, random() % count);
    }
    DisjointSets sets(count);
    for (const auto& [a, b] : joined) sets.join(a, b);
    CHECK(sets.firsts() == least_reached(count, joined));
  }
}

TEST_CASE("a long chain is searched in no time, joined from either end") {
  constexpr int count = 200000;
  DisjointSets forward(count), backward(count);
  for (int i = 1; i < count; ++i) {
    forward.join(i - 1, i);
    backward.join(count - i - 1, count - i);
  }
  CHECK(forward.firsts() == std::vector<int>(count, 0));
  CHECK(backward.firsts() == std::vector<int>(count, 0));
}

}  // namespace tubewright::disjoint_sets_test
