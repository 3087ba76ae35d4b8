#include "cases/pieces/end_cuts.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tubewright {

double begin_at(const CutPlane& p, double y, double z) { return p.at + p.mitre * y + p.bevel * z; }

bool only_divides(const CutPlane& plane) { return std::hypot(plane.mitre, plane.bevel) > 20; }

double begin_at(const EndCut& cut, double y, double z) {
  double nearest = std::numeric_limits<double>::infinity();
  for (const CutPlane& p : cut.planes) nearest = std::min(nearest, begin_at(p, y, z));
  return nearest;
}

bool along_a_face(const EndCut& cut) {
  return cut.kind != EndKind::mitre && cut.kind != EndKind::square;
}

bool is_fitting(EndKind kind) { return kind == EndKind::eye || kind == EndKind::joint; }

double TubeEnd::begin(double y, double z) const {
  double farthest = -std::numeric_limits<double>::infinity();
  for (const EndCut& cut : cuts) farthest = std::max(farthest, begin_at(cut, y, z));
  return cuts.empty() ? 0 : farthest;
}

}  // namespace tubewright
