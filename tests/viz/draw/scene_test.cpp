// The scene without a screen: where the camera puts the points of a case, by its own matrix, and
// what is told of a point.
#include "viz/draw/scene.h"

#include <vtkCamera.h>
#include <vtkMapper.h>
#include <vtkMatrix4x4.h>
#include <vtkRenderer.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "tests/catch.h"
#include "tests/viz/draw/hand_made_case.h"

namespace tubewright::scene_test {

namespace {

/// Where the camera puts a point: 0 to 1 from left to right and from bottom to top of a window.
std::array<double, 2> seen(Scene& scene, double aspect, const std::array<double, 3>& point) {
  vtkMatrix4x4* projection =
      scene.frame_renderer().GetActiveCamera()->GetCompositeProjectionTransformMatrix(aspect, -1,
                                                                                      1);
  const std::array<double, 4> in = {point[0], point[1], point[2], 1};
  std::array<double, 4> out = {};
  projection->MultiplyPoint(in.data(), out.data());
  return {(out[0] / out[3] + 1) / 2, (out[1] / out[3] + 1) / 2};
}

/// The corners of the strip of hand_made_case(), deformed as it is drawn.
std::vector<std::array<double, 3>> corners(const DrawnCase& drawn) {
  std::vector<std::array<double, 3>> points;
  for (const double x : {0.0, 2000.0})
    for (const double y : {0.0, 1000.0}) points.push_back({x, y, drawn.warp_scale * x / 1000});
  return points;
}

}  // namespace

TEST_CASE("every point of a frame is seen between title, legend and small print, in any window") {
  for (const auto& [width, height] : {std::pair{1280, 800}, {500, 1500}, {3000, 400}}) {
    INFO(width << " x " << height);
    DrawnCase small = hand_made_case(), large = hand_made_case();
    large.warp_scale = 2000;
    vtkNew<vtkRenderWindow> window;  // never drawn in
    window->SetOffScreenRendering(1);
    Scene scene({small, large});
    scene.place_in(*window, width, height);
    const double aspect = static_cast<double>(width) / height;
    double least[2] = {1, 1}, most[2] = {0, 0};
    for (const DrawnCase& drawn : scene.cases()) {
      for (const auto& corner : corners(drawn)) {
        const auto at = seen(scene, aspect, corner);
        for (const int i : {0, 1}) {
          least[i] = std::min(least[i], at[i]);
          most[i] = std::max(most[i], at[i]);
        }
      }
    }
    // The legend begins at 0.885, the title at 0.89 with a line below, the small print ends near
    // 0.05 of the window.
    CHECK(least[0] > 0.03);
    CHECK(most[0] < 0.85);
    CHECK(least[1] > 0.07);
    CHECK(most[1] < 0.85);
    // It fills that place in one direction.
    CHECK((most[0] - least[0] > 0.75 || most[1] - least[1] > 0.7));
    CHECK(scene.frame_renderer().GetActiveCamera()->GetParallelProjection() == 1);
  }
}

TEST_CASE("the first view is from the front left and above") {
  vtkNew<vtkRenderWindow> window;
  window->SetOffScreenRendering(1);
  Scene scene({hand_made_case()});
  scene.place_in(*window, 1280, 800);
  const double aspect = 1.6;
  const auto origin = seen(scene, aspect, {1000, 500, 0});
  const auto forward = seen(scene, aspect, {1100, 500, 0});
  const auto to_left = seen(scene, aspect, {1000, 600, 0});
  const auto up = seen(scene, aspect, {1000, 500, 100});
  CHECK(forward[1] < origin[1]);  // toward the eye, which looks down
  CHECK(to_left[1] < origin[1]);
  CHECK(forward[0] < origin[0]);  // seen from the left, the front is on the left
  CHECK(to_left[0] > origin[0]);
  CHECK(up[1] > origin[1]);
  CHECK_THAT(up[0], WithinAbs(origin[0], 1e-9));
  // The same again after somebody turned the view.
  scene.frame_renderer().GetActiveCamera()->Azimuth(70);
  CHECK(std::abs(seen(scene, aspect, {1100, 500, 0})[0] - forward[0]) > 1e-3);
  scene.look_from_front_left();
  CHECK_THAT(seen(scene, aspect, {1100, 500, 0})[0], WithinAbs(forward[0], 1e-9));
}

TEST_CASE("a shown case is deformed as often as asked and painted from nothing to its worst") {
  vtkNew<vtkRenderWindow> window;
  window->SetOffScreenRendering(1);
  Scene scene({hand_made_case()});
  scene.place_in(*window, 1280, 800);
  for (const double warp : {0.0, 1.0, 300.0}) {
    scene.show({0, 0, warp});
    double box[6];
    scene.skin().GetBounds(box);
    CHECK_THAT(box[5] - box[4], WithinAbs(warp * 2, 1e-3));  // 2 mm at x = 2000 mm
    const double* range = scene.skin().GetMapper()->GetScalarRange();
    CHECK(range[0] == 0);
    CHECK(range[1] == 200);  // MPa, the greatest of x / 10
  }
  scene.show({0, 2, 1});  // axial force, with a sign: 100 to -1900 N
  const double* range = scene.skin().GetMapper()->GetScalarRange();
  CHECK(range[0] == -range[1]);
  CHECK(range[1] >= 1900);
  CHECK_THROWS_AS(scene.show({1, 0, 1}), std::out_of_range);
}

TEST_CASE("a point is told by its member and by every quantity that the skin has") {
  const Scene scene({hand_made_case()});
  // Cell 0 lies on `front`; point 4 is at x = 2000: 200 MPa, 0.5 of the limit, -1900 N.
  CHECK(scene.numbers_at(0, 0, 4) ==
        "front here: 200 MPa von Mises stress;  0.5 share of the yield limit;  -1900 N axial "
        "force, tension +");
  CHECK_THAT(scene.numbers_at(0, 1, 0), ContainsSubstring("rear here: 0 MPa"));
  CHECK(scene.numbers_at(0, -1, 0).empty());  // beside the frame
  CHECK(scene.numbers_at(0, 2, 0).empty());
  CHECK(scene.numbers_at(0, 0, 99) == "front");
}

TEST_CASE("how often a deflection is drawn is said in words where there is one") {
  CHECK(warp_in_words(0) == "not drawn");
  CHECK(warp_in_words(1) == "drawn to scale");
  CHECK(warp_in_words(20) == "drawn \u00d7 20");
  CHECK(warp_in_words(0.25) == "drawn \u00d7 0.25");
}

}  // namespace tubewright::scene_test
