// Which of many boxes overlap.
#pragma once

#include <Eigen/Geometry>
#include <functional>
#include <vector>

namespace tubewright {

using Boxes = std::vector<Eigen::AlignedBox3d>;

/// Calls `visit(i, j)` for every overlap of a[i] with b[j], in no particular order, until it
/// returns true. Work grows as n log n plus the overlaps.
void for_overlapping_boxes(const Boxes& a, const Boxes& b,
                           const std::function<bool(int, int)>& visit);

/// As above for one list with itself: each pair once, i < j.
void for_overlapping_boxes(const Boxes& a, const std::function<bool(int, int)>& visit);

}  // namespace tubewright
