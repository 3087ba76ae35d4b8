#include "cases/joint_stiffness/tube_on_tube.h"

#include <array>
#include <cmath>
namespace tubewright {
TableStiffness tube_on_tube(const TubeOnTube& t, double E) {
  const double beta = t.brace_width / t.chord_width;
  if (beta < 0.45 || beta > 1.02) return {{}, "a brace narrower than 0.45 of the face"};
  const std::array<double, 7> x = {.5, .6, .67, .75, .8, .83, 1},
                              o = {8.3, 12, 13.5, 15, 15.6, 16.6, 24},
                              i = {8.4, 17, 22, 34, 42, 50, 115},
                              a = {43. * 1.5, 219, 219, 969, 827, 1940, 1e5};
  const auto at = [&](const std::array<double, 7>& y) {
    size_t k = 0;
    while (k + 2 < x.size() && beta > x[k + 1]) ++k;
    return y[k] + (y[k + 1] - y[k]) * (beta - x[k]) / (x[k + 1] - x[k]);
  };
  const double s = E * std::pow(t.chord_wall, 3);
  JointStiffness k{at(o) * s, at(i) * s, at(a) * 1e6};
  if (beta >= .95) k.axial = rigid;
  const double f = t.end == ChordEnd::open ? .5 : t.end == ChordEnd::capped ? 2 : 1;
  k.out_of_plane *= f * (t.beside ? .5 : 1) * (t.chord_width >= 1.9 * t.chord_depth ? .8 : 1);
  k.in_plane *= f;
  return {k, ""};
}
}  // namespace tubewright
