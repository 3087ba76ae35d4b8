// Random symmetric positive definite matrices with the block pattern of a frame.
#pragma once

#include <array>
#include <vector>

#include "solver/linear_algebra/sparse_matrix.h"

namespace tubewright {

struct FrameMatrix {
  SparseMatrix lower;
  std::vector<int> node_of;
};

/// `DOFs`: one count a node; a full random positive definite block for each member, and the
/// identity on every node.
FrameMatrix random_frame_matrix(const std::vector<int>& unknowns,
                                const std::vector<std::array<int, 2>>& members);

/// A grid of bays with nodes of three to six DOFs.
FrameMatrix random_lattice_matrix(int bays_x, int bays_y, int bays_z);

}  // namespace tubewright
