#include "solver/linear_algebra/permuted_matrix.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace tubewright {

namespace {

/// `place(a, b)`: row and column of the entry that couples the positions a and b.
template <typename SourceLocation>
SparseMatrix permuted(const SparseMatrix& lower, const std::vector<int>& order,
                      SourceLocation place) {
  const int n = static_cast<int>(order.size());
  std::vector<int> position(n);
  for (int k = 0; k < n; ++k) position[order[k]] = k;

  SparseMatrix result(n, n);
  int* start = result.outerIndexPtr();
  std::fill(start, start + n + 1, 0);
  for (int j = 0; j < n; ++j) {
    for (SparseMatrix::InnerIterator entry(lower, j); entry; ++entry) {
      ++start[place(position[j], position[entry.index()]).second + 1];
    }
  }
  std::partial_sum(start, start + n + 1, start);
  result.resizeNonZeros(start[n]);

  std::vector<int> next(start, start + n);
  for (int j = 0; j < n; ++j) {
    for (SparseMatrix::InnerIterator entry(lower, j); entry; ++entry) {
      const auto [row, column] = place(position[j], position[entry.index()]);
      const int at = next[column]++;
      result.innerIndexPtr()[at] = row;
      result.valuePtr()[at] = entry.value();
    }
  }
  return result;
}

}  // namespace

SparseMatrix permuted_upper(const SparseMatrix& lower, const std::vector<int>& order) {
  return permuted(lower, order, [](int a, int b) { return std::minmax({a, b}); });
}

SparseMatrix permuted_lower(const SparseMatrix& lower, const std::vector<int>& order) {
  return permuted(lower, order,
                  [](int a, int b) { return std::pair<int, int>(std::max(a, b), std::min(a, b)); });
}

}  // namespace tubewright
