#include "cases/frame/near_pairs.h"

#include <algorithm>
#include <numeric>

namespace tubewright {
namespace {

int axis_of_spread(const Boxes& boxes) {
  Eigen::AlignedBox3d middles;
  Eigen::Vector3d extent = Eigen::Vector3d::Zero();
  for (const Eigen::AlignedBox3d& box : boxes) {
    middles.extend(box.center());
    extent += box.sizes();
  }
  // How many boxes one after the other fill the axis.
  const Eigen::Vector3d count = middles.sizes().cwiseQuotient(extent.cwiseMax(1e-300));
  int axis = 0;
  count.maxCoeff(&axis);
  return axis;
}

}  // namespace

void for_overlapping_boxes(const Boxes& boxes, const std::function<bool(int, int)>& visit) {
  if (boxes.empty()) return;
  const int axis = axis_of_spread(boxes);
  std::vector<int> order(boxes.size());
  std::iota(order.begin(), order.end(), 0);
  std::sort(order.begin(), order.end(),
            [&](int i, int j) { return boxes[i].min()[axis] < boxes[j].min()[axis]; });
  Boxes sorted;  // side by side in memory
  for (const int i : order) sorted.push_back(boxes[i]);

  for (std::size_t a = 0; a < sorted.size(); ++a) {
    const Eigen::AlignedBox3d& box = sorted[a];
    for (std::size_t b = a + 1; b < sorted.size(); ++b) {
      if (sorted[b].min()[axis] > box.max()[axis]) break;
      if (!box.intersects(sorted[b])) continue;
      if (visit(std::min(order[a], order[b]), std::max(order[a], order[b]))) return;
    }
  }
}

}  // namespace tubewright
