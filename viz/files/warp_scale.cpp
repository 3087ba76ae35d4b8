#include "viz/files/warp_scale.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

namespace tubewright {

double suggested_warp_scale(const std::vector<CaseDrawing>& cases) {
  Eigen::AlignedBox3d box;
  double largest = 0;
  for (const CaseDrawing& drawing : cases)
    for (const MemberDrawing& member : drawing.members)
      for (const Station& station : member.stations) {
        box.extend(station.point);
        largest = std::max(largest, station.displacement.norm());
      }
  if (box.isEmpty()) return 1;
  const double limit = box.diagonal().norm() / 20 / largest;
  if (!std::isfinite(limit) || !(limit > 0)) return 1;
  const double decade = std::pow(10.0, std::floor(std::log10(limit)));
  for (const double step : {5.0, 2.0})
    if (step * decade <= limit) return step * decade;
  return decade;
}

}  // namespace tubewright
