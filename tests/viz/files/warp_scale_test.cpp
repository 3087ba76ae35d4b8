#include "viz/files/warp_scale.h"

#include <cmath>

#include "tests/catch.h"

namespace tubewright::warp_scale_test {

namespace {

/// A straight line one metre long whose far end moves by `displacement`.
CaseDrawing moved_by(double displacement) {
  CaseDrawing drawing;
  drawing.members.resize(1);
  for (const double x : {0.0, 1.0})
    drawing.members[0].stations.push_back({x, {x, 0, 0}, {0, 0, x * displacement}, {0, 0, 0}, {}});
  return drawing;
}

}  // namespace

TEST_CASE("the suggested warp is the largest of 1, 2, 5 that draws within a twentieth") {
  const double moved = GENERATE(1e-12, 3.1e-5, 4e-4, 0.001, 0.0123, 0.07, 3.0, 1e6);
  const double scale = suggested_warp_scale({moved_by(moved / 2), moved_by(moved)});
  CHECK(scale * moved <= 0.05 * (1 + 1e-12));
  CHECK(2.5 * scale * moved >= 0.05 * (1 - 1e-12));
  const double mantissa = scale / std::pow(10, std::floor(std::log10(scale) + 1e-9));
  CHECK((mantissa == Approx(1) || mantissa == Approx(2) || mantissa == Approx(5)));
}

TEST_CASE("nothing that moves is drawn as it is") {
  CHECK(suggested_warp_scale({}) == 1);
  CHECK(suggested_warp_scale({moved_by(0)}) == 1);
}

}  // namespace tubewright::warp_scale_test
