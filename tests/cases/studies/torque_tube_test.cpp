#include "cases/studies/torque_tube.h"

#include "cases/model/build_model.h"
#include "solver/statics/statics.h"
#include "tests/cases/clad_frames.h"
#include "tests/catch.h"

namespace tubewright::torque_tube_test {

using namespace tubewright::testing;

TEST_CASE("a panel on a flat ladder closes no torque tube, and is told so by name") {
  Frame f = clad_ladder();
  for (const double gain : twist_gain_of_panels(build_model(f).model)) {
    CHECK(gain > 1);  // on the face of the tubes it does a little
    CHECK(gain < 1.02);
  }
  f.sheets.front().offset = 0;
  for (const double gain : twist_gain_of_panels(build_model(f).model)) {
    CHECK_THAT(gain, WithinRel(1.0, 1e-9));
  }
  const Diagnostics diagnostics = idle_panels(f);
  REQUIRE(diagnostics.size() == 2);
  CHECK_THAT(diagnostics.front().message, ContainsSubstring("floor_1"));
  CHECK(diagnostics.front().place.line == f.panels.front().place.line);
}

TEST_CASE("each panel under a braced box closes its torque tube") {
  const Frame f = clad_box();
  const NumberedFrame n = build_model(f);
  for (const double gain : twist_gain_of_panels(n.model)) CHECK(gain > 1.5);
  CHECK(idle_panels(f).empty());
}

TEST_CASE("the gain by one panel is that of solving without it") {
  // The same by brute force: a statically determinate set of supports, forces across the corners.
  const Frame f = clad_box();
  const NumberedFrame n = build_model(f);
  const std::vector<double> gains = twist_gain_of_panels(n.model);
  for (size_t p = 0; p < f.panels.size(); ++p) {
    const auto flexibility = [&](Model model) {
      const Panel& panel = n.model.panels[p];
      model.supports.clear();
      model.supports.push_back({panel.corners[0], {true, true, true}});
      model.supports.push_back({panel.corners[1], {true, false, true}});
      model.supports.push_back({panel.corners[3], {false, false, true}});
      Actions actions = no_actions(model);
      for (int k = 0; k < 4; ++k) {
        actions.nodal[6 * panel.corners[k] + 2] = k % 2 == 0 ? 1 : -1;
      }
      const StaticResult solved = solve_statics(model, {actions});
      const auto& s = solved->front();
      return actions.nodal.dot(s.displacements);
    };
    Model without = n.model;
    without.panels.erase(without.panels.begin() + static_cast<long>(p));
    CHECK_THAT(gains[p], WithinRel(flexibility(without) / flexibility(n.model), 1e-6));
  }
}

TEST_CASE("a panel without which the frame falls apart has an infinite gain") {
  const Frame f = shear_frame(0.6, 0.4, 1);
  Model model = build_model(f).model;
  const std::vector<double> gains = twist_gain_of_panels(model);
  // Four links and a sheet in a plane: out of the plane it is a mechanism anyway.
  CHECK(gains.empty());
}

}  // namespace tubewright::torque_tube_test
