#include "solver/statics/strain_energy.h"

#include <cmath>
#include <numeric>

#include "solver/elements/bar_element.h"
#include "solver/elements/beam_element.h"
#include "solver/elements/shear_panel.h"
#include "solver/statics/assembly.h"

namespace tubewright {

namespace {

// The unloaded beam with the right ends, plus the held beam under its loads: the two do no work on
// each other. End springs: force^2 / stiffness.
double beam_energy(const BeamState& b) {
  const Vector12& d = b.end_displacements;
  double twice =
      d.dot(local_stiffness(b.element) * d) + held_flexibility(b.element, b.actions, b.actions);
  for (int i = 0; i < 12; ++i) {
    const double s = b.element.connection[i];
    if (std::isfinite(s) && s > 0) twice += b.end_forces[i] * b.end_forces[i] / s;
  }
  for (const EndSpring& spring : joint_springs(b.element)) {
    const double force = spring.along.dot(b.end_forces);
    twice += force * force * spring.flexibility;
  }
  return twice / 2;
}

}  // namespace

double StrainEnergy::total() const {
  const auto sum = [](const std::vector<double>& list) {
    return std::accumulate(list.begin(), list.end(), 0.0);
  };
  return sum(beams) + sum(bars) + sum(panels);
}

StrainEnergy strain_energy(const Model& model, const StaticSolution& s) {
  StrainEnergy e;
  for (const BeamState& b : s.beams) e.beams.push_back(beam_energy(b));
  for (size_t i = 0; i < model.bars.size(); ++i) {
    const Bar& bar = model.bars[i];
    const double L = (model.nodes[bar.to] - model.nodes[bar.from]).norm();
    const double line = s.bar_lines[i].dot(bar_direction(model, bar));
    e.bars.push_back((s.bar_forces[i] * s.bar_forces[i] + line * line * L * L / 12) /
                     (2 * bar.stiffness));
  }
  e.panels = panel_energies(model, s.panel_flows);
  return e;
}

}  // namespace tubewright
