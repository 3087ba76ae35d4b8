#include "solver/elements/beam_shapes.h"

namespace tubewright {

BendingShapes bending_shapes(double s, double L, double phi) {
  const double s2 = s * s, s3 = s2 * s, c = 1 / (1 + phi);
  BendingShapes n;
  n.deflection << c * (1 - 3 * s2 + 2 * s3 + phi * (1 - s)),
      c * L * (s - 2 * s2 + s3 + phi / 2 * (s - s2)), c * (3 * s2 - 2 * s3 + phi * s),
      c * L * (s3 - s2 - phi / 2 * (s - s2));
  n.rotation << c * 6 * (s2 - s) / L, c * (1 - 4 * s + 3 * s2 + phi * (1 - s)),
      c * 6 * (s - s2) / L, c * (3 * s2 - 2 * s + phi * s);
  n.slope << c * (6 * (s2 - s) - phi) / L, c * (1 - 4 * s + 3 * s2 + phi / 2 * (1 - 2 * s)),
      c * (6 * (s - s2) + phi) / L, c * (3 * s2 - 2 * s - phi / 2 * (1 - 2 * s));
  return n;
}

}  // namespace tubewright
