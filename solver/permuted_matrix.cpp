#include "solver/permuted_matrix.h"

#include <algorithm>
#include <numeric>

namespace tubewright {

SparseMatrix permuted_upper(const SparseMatrix& lower, const std::vector<int>& order) {
  const int n = static_cast<int>(order.size());
  std::vector<int> position(n);
  for (int k = 0; k < n; ++k) position[order[k]] = k;

  SparseMatrix upper(n, n);
  int* start = upper.outerIndexPtr();
  std::fill(start, start + n + 1, 0);
  for (int j = 0; j < n; ++j) {
    for (SparseMatrix::InnerIterator entry(lower, j); entry; ++entry) {
      ++start[std::max(position[j], position[entry.index()]) + 1];
    }
  }
  std::partial_sum(start, start + n + 1, start);
  upper.resizeNonZeros(start[n]);

  std::vector<int> next(start, start + n);
  for (int j = 0; j < n; ++j) {
    for (SparseMatrix::InnerIterator entry(lower, j); entry; ++entry) {
      const int a = position[j], b = position[entry.index()];
      const int place = next[std::max(a, b)]++;
      upper.innerIndexPtr()[place] = std::min(a, b);
      upper.valuePtr()[place] = entry.value();
    }
  }
  return upper;
}

}  // namespace tubewright
