#include "cases/near_pairs.h"

#include <numeric>
#include <unsupported/Eigen/BVH>

namespace tubewright {
namespace {

/// A visitor as Eigen's bounding volume hierarchy wants it.
struct Overlap {
  const Boxes& a;
  const Boxes& b;
  const std::function<bool(int, int)>& visit;

  using Box = Eigen::AlignedBox3d;
  bool intersectVolumeVolume(const Box& p, const Box& q) const { return p.intersects(q); }
  bool intersectVolumeObject(const Box& p, int j) const { return p.intersects(b[j]); }
  bool intersectObjectVolume(int i, const Box& q) const { return a[i].intersects(q); }
  bool intersectObjectObject(int i, int j) const { return a[i].intersects(b[j]) && visit(i, j); }
};

Eigen::KdBVH<double, 3, int> tree_of(const Boxes& boxes) {
  std::vector<int> index(boxes.size());
  std::iota(index.begin(), index.end(), 0);
  return {index.begin(), index.end(), boxes.begin(), boxes.end()};
}

}  // namespace

void for_overlapping_boxes(const Boxes& a, const Boxes& b,
                           const std::function<bool(int, int)>& visit) {
  if (a.empty() || b.empty()) return;
  Overlap overlap{a, b, visit};
  Eigen::BVIntersect(tree_of(a), tree_of(b), overlap);
}

void for_overlapping_boxes(const Boxes& a, const std::function<bool(int, int)>& visit) {
  for_overlapping_boxes(a, a, [&visit](int i, int j) { return i < j && visit(i, j); });
}

}  // namespace tubewright
