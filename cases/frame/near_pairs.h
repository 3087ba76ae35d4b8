// Which of many boxes overlap.
#pragma once

#include <Eigen/Geometry>
#include <functional>
#include <vector>

namespace tubewright {

using Boxes = std::vector<Eigen::AlignedBox3d>;

/// Calls `visit(i, j)` once for every pair i < j of overlapping boxes, in no particular order,
/// until it returns true. Boxes are swept along the axis on which they are spread furthest: the
/// work grows with the number of pairs that overlap on that axis.
void for_overlapping_boxes(const Boxes& boxes, const std::function<bool(int, int)>& visit);

}  // namespace tubewright
