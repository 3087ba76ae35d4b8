#include "cases/lint/small_kinks.h"

#include <Eigen/Geometry>
#include <cmath>

#include "cases/bends/member_arc.h"

namespace tubewright {

std::vector<SmallKink> small_kinks(const Frame& frame, const Layout& layout) {
  constexpr double straight = 0.05 * degree;
  std::vector<SmallKink> kinks;
  for (std::size_t i = 1; i < frame.members.size(); ++i) {
    const Member &before = frame.members[i - 1], &after = frame.members[i];
    if (after.tube.empty() || before.tube != after.tube || bends_on(before, after)) continue;
    const auto [a, b] = layout.ends[i - 1];
    const auto [c, d] = layout.ends[i];
    if (a < 0 || c < 0 || b != c) continue;
    const auto at = [&](int node) { return layout.at[static_cast<std::size_t>(node)]; };
    const Eigen::Vector3d in = (at(b) - at(a)).normalized(), out = (at(d) - at(c)).normalized();
    const double angle = std::atan2(in.cross(out).norm(), in.dot(out));
    if (angle > straight && angle < clearly_meant) kinks.push_back({i, after.from, angle});
  }
  return kinks;
}

}  // namespace tubewright
