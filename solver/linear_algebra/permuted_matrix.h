// A symmetric sparse matrix put into elimination order.
#pragma once

#include <vector>

#include "solver/linear_algebra/sparse_matrix.h"

namespace tubewright {

/// The upper or lower triangle of P K P', from the lower triangle of K: unknown order[k] becomes
/// the k-th. Rows within a column are in no particular order.
SparseMatrix permuted_upper(const SparseMatrix& lower, const std::vector<int>& order);
SparseMatrix permuted_lower(const SparseMatrix& lower, const std::vector<int>& order);

}  // namespace tubewright
