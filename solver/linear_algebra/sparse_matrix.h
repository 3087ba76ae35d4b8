// The sparse matrix of the solver.
#pragma once

#include <Eigen/SparseCore>

namespace tubewright {

using SparseMatrix = Eigen::SparseMatrix<double>;  // column-major, int indices

}  // namespace tubewright
