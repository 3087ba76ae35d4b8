// G. R. Cowper, J. Appl. Mech. 33 (1966) 335-340: formulas from MEMORY, limits and values checked.
#include "solver/model/shear_coefficient.h"

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::shear_coefficient_test {

namespace {

constexpr Source cowper = from_memory(
    "G. R. Cowper, J. Appl. Mech. 33 (1966) 335-340 (formulas from memory, limiting cases "
    "checked)");
constexpr Source energy = rederived("energy of the shear flow in a thin square tube: A_s = 5/12 A");

}  // namespace

TEST_CASE("Cowper's coefficients take their known values", "[truth]") {
  truth("shear coefficient of a rectangle, nu 0", cowper, shear_coefficient_rectangle(0),
        within_rel(5.0 / 6, 1e-14));
  truth("shear coefficient of a rectangle, nu 0.3", cowper, shear_coefficient_rectangle(0.3),
        within_abs(0.84967, 5e-6));
  truth("shear coefficient of a solid circle, nu 0.3", cowper, shear_coefficient_circle(0.3),
        within_abs(0.88636, 5e-6));
  truth("shear coefficient of a thin square tube, nu 0", energy,
        shear_coefficient_thin_box(0, 1, 1), within_rel(5.0 / 12, 1e-14));
  truth("shear coefficient of a thin square tube, nu 0.3", cowper,
        shear_coefficient_thin_box(0.3, 1, 1), within_abs(0.43551, 5e-6));
  truth("shear coefficient of a 40 x 20 x 2 box, strong way, nu 0.3", cowper,
        shear_coefficient_thin_box(0.3, 38, 18), within_abs(0.64043, 5e-6));
  truth("shear coefficient of a 40 x 20 x 2 box, weak way, nu 0.3", cowper,
        shear_coefficient_thin_box(0.3, 18, 38), within_abs(0.22807, 5e-6));
}

TEST_CASE("a square box follows the square-tube formula 20(1+nu)/(48+39nu)") {
  for (const double nu : {0.0, 0.2, 0.3, 0.45}) {
    CHECK_THAT(shear_coefficient_thin_box(nu, 1, 1),
               WithinRel(20 * (1 + nu) / (48 + 39 * nu), 1e-13));
  }
}

TEST_CASE("a hollow circle goes from the solid to the thin tube", "[truth]") {
  CHECK_THAT(shear_coefficient_hollow_circle(0.3, 0),
             WithinRel(shear_coefficient_circle(0.3), 1e-14));
  truth("shear coefficient of a thin round tube, nu 0.3", cowper,
        shear_coefficient_hollow_circle(0.3, 1), within_rel(2 * 1.3 / (4 + 0.9), 1e-14));
}

}  // namespace tubewright::shear_coefficient_test
