// G. R. Cowper, J. Appl. Mech. 33 (1966) 335-340: formulas from MEMORY, limits and values checked.
#include "solver/model/shear_coefficient.h"

#include "tests/catch.h"

namespace tubewright::shear_coefficient_test {

TEST_CASE("Cowper's coefficients take their known values") {
  CHECK_THAT(shear_coefficient_rectangle(0), WithinRel(5.0 / 6, 1e-14));
  CHECK_THAT(shear_coefficient_rectangle(0.3), WithinAbs(0.84967, 5e-6));
  CHECK_THAT(shear_coefficient_circle(0.3), WithinAbs(0.88636, 5e-6));
  CHECK_THAT(shear_coefficient_thin_box(0, 1, 1), WithinRel(5.0 / 12, 1e-14));
  CHECK_THAT(shear_coefficient_thin_box(0.3, 1, 1), WithinAbs(0.43551, 5e-6));
  CHECK_THAT(shear_coefficient_thin_box(0.3, 38, 18), WithinAbs(0.64043, 5e-6));
  CHECK_THAT(shear_coefficient_thin_box(0.3, 18, 38), WithinAbs(0.22807, 5e-6));
}

TEST_CASE("a square box follows the square-tube formula 20(1+nu)/(48+39nu)") {
  for (const double nu : {0.0, 0.2, 0.3, 0.45}) {
    CHECK_THAT(shear_coefficient_thin_box(nu, 1, 1),
               WithinRel(20 * (1 + nu) / (48 + 39 * nu), 1e-13));
  }
}

TEST_CASE("a hollow circle goes from the solid to the thin tube") {
  CHECK_THAT(shear_coefficient_hollow_circle(0.3, 0),
             WithinRel(shear_coefficient_circle(0.3), 1e-14));
  CHECK_THAT(shear_coefficient_hollow_circle(0.3, 1), WithinRel(2 * 1.3 / (4 + 0.9), 1e-14));
}

}  // namespace tubewright::shear_coefficient_test
