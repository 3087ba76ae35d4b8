// Sets that are only ever joined (union-find): which parts of something hang together.
#pragma once

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <vector>

namespace tubewright {

/// The numbers from 0 to count - 1, each at first a set of its own. The least of a set stands for
/// it.
class DisjointSets {
 public:
  explicit DisjointSets(std::size_t count) : above_(count) {
    std::iota(above_.begin(), above_.end(), 0);
  }

  /// The least number in the set of i: the same for two numbers if and only if they are together.
  int first_of(int i) {
    // Every second step of the way is cut out, so that the next search is short.
    while (above_[i] != i) i = above_[i] = above_[above_[i]];
    return i;
  }

  void join(int a, int b) {
    a = first_of(a);
    b = first_of(b);
    above_[std::max(a, b)] = std::min(a, b);
  }

  /// What stands for the set of each number.
  std::vector<int> firsts() {
    std::vector<int> firsts(above_.size());
    for (std::size_t i = 0; i < firsts.size(); ++i) firsts[i] = first_of(static_cast<int>(i));
    return firsts;
  }

 private:
  std::vector<int> above_;  // never greater than its index; a set's first is above itself
};

}  // namespace tubewright
