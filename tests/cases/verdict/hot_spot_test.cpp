// Hot-spot factors against solids.
#include "cases/verdict/hot_spot.h"

#include <cmath>
#include <string>

#include "tests/catch.h"
#include "tests/truth.h"

namespace tubewright::hot_spot_test {

namespace {

constexpr Source solids = rederived(
    "quadratic 10-node solids with fillets and real corners, extrapolated to the toe; ours must "
    "not be below");

}  // namespace

// Quadratic 10-node solids with fillets and real corners, stress extrapolated to the toe (DERIVED
// for this project, no physical tests): a guide made from tests and shells must not be below.
TEST_CASE("hot-spot factors are not below those of solids", "[truth]") {
  struct Row {
    double beta, b0, t0, t1;
    double sideways, in_plane, axial;
  };
  for (const Row& r : {Row{1, 20, 1.5, 1.5, 2.6, 2.3, 6.9},
                       {0.8, 25, 1.5, 1.5, 2.8, 3.0, 6.9},
                       {0.75, 20, 1.5, 1.5, 2.1, 2.4, 6.8},
                       {2.0 / 3, 30, 2, 1.5, 3.2, 3.0, 5.8},
                       {0.5, 40, 1.5, 1.5, 9.4, 8.7, 18.7}}) {
    const HotSpotFactors f = hot_spot_factors(r.beta, r.b0 / r.t0, r.t1 / r.t0);
    const std::string joint =
        named("T joint, beta ", std::round(100 * r.beta) / 100, ", chord ", r.b0, " x ", r.t0);
    truth(joint + ": hot spot, axial", solids, f.axial, not_below(r.axial, 2.5));
    truth(joint + ": hot spot, in plane", solids, f.in_plane, not_below(r.in_plane, 3));
    truth(joint + ": hot spot, out of plane", solids, f.out_of_plane, not_below(r.sideways, 4));
  }
}

TEST_CASE("outside what the guide was made for nothing gets better") {
  CHECK(hot_spot_factors(0.2, 20, 1).in_plane == hot_spot_factors(0.35, 20, 1).in_plane);
  CHECK(hot_spot_factors(0.6, 8, 1).axial == hot_spot_factors(0.6, 12.5, 1).axial);
  CHECK(hot_spot_factors(0.6, 20, 0.1).axial == hot_spot_factors(0.6, 20, 0.25).axial);
  CHECK(hot_spot_factors(0.6, 30, 1).axial > hot_spot_factors(0.6, 25, 1).axial);
}

}  // namespace tubewright::hot_spot_test
