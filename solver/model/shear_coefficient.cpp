#include "solver/model/shear_coefficient.h"

namespace tubewright {

double shear_coefficient_rectangle(double nu) { return 10 * (1 + nu) / (12 + 11 * nu); }

double shear_coefficient_circle(double nu) { return 6 * (1 + nu) / (7 + 6 * nu); }

double shear_coefficient_hollow_circle(double nu, double ratio) {
  const double m2 = ratio * ratio;
  const double s = (1 + m2) * (1 + m2);
  return 6 * (1 + nu) * s / ((7 + 6 * nu) * s + (20 + 12 * nu) * m2);
}

double shear_coefficient_thin_box(double nu, double web, double flange) {
  const double n = flange / web;
  const double m = n;  // m = b t_1 / (h t) with one wall thickness
  const double m2 = m * m;
  const double m3 = m2 * m;
  const double stiff = 10 * (1 + nu) * (1 + 3 * m) * (1 + 3 * m);
  const double soft = (12 + 72 * m + 150 * m2 + 90 * m3) + nu * (11 + 66 * m + 135 * m2 + 90 * m3) +
                      10 * n * n * ((3 + nu) * m + 3 * m2);
  return stiff / soft;
}

}  // namespace tubewright
