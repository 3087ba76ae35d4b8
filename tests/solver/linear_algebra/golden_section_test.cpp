// Minima of functions whose minimum is known in closed form.
#include "solver/linear_algebra/golden_section.h"

#include <cmath>

#include "tests/catch.h"

namespace tubewright::golden_section_test {

TEST_CASE("the least value of a function with one minimum is found within the bracket") {
  // Closed forms: (x - p)^2 at p; x - ln x at 1; cosh(x + 1) at -1.
  for (const double p : {-3.0, 0.2, 4.9}) {
    const double x = golden_section_minimum(-5, 5, [p](double t) { return (t - p) * (t - p); });
    CHECK_THAT(x, WithinAbs(p, 1e-7));
  }
  CHECK_THAT(golden_section_minimum(0.1, 9, [](double t) { return t - std::log(t); }),
             WithinAbs(1, 1e-6));
  CHECK_THAT(golden_section_minimum(-4, 2, [](double t) { return std::cosh(t + 1); }),
             WithinAbs(-1, 1e-6));
}

TEST_CASE("a function that falls or rises all the way is least at an end") {
  CHECK_THAT(golden_section_minimum(1, 2, [](double t) { return t; }), WithinAbs(1, 1e-7));
  CHECK_THAT(golden_section_minimum(1, 2, [](double t) { return -t; }), WithinAbs(2, 1e-7));
}

}  // namespace tubewright::golden_section_test
