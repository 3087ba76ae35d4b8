// Solves a cantilever with the installed library and compares its tip with P L^3 / (3 E I), the
// closed form of S. Timoshenko, Strength of Materials Part I (1930), chapter V (chapter from
// MEMORY). The section is shear-rigid, as the formula assumes.
#include <cmath>
#include <cstdio>
#include <variant>

#include "solver/statics/statics.h"

int main() {
  using namespace tubewright;
  const double P = 100, L = 1.2, E = 210e9, I = 1.4835e-8;

  Model model;
  model.nodes = {{0, 0, 0}, {L, 0, 0}};
  Section tube;
  tube.A = 1.737e-4;
  tube.Iy = tube.Iz = I;
  tube.It = 2.5256e-8;
  tube.Wy = tube.Wz = 1.187e-6;
  tube.Wt = 1.804e-6;
  tube.Ay = tube.Az = rigid;
  model.sections = {tube};
  Material steel;
  steel.E = E;
  steel.G = 80.77e9;
  steel.density = 7850;
  steel.yield = 235e6;
  model.materials = {steel};
  Beam beam;
  beam.to = 1;
  model.beams = {beam};
  model.supports = {{0, {true, true, true, true, true, true}}};

  Actions actions = no_actions(model);
  actions.nodal[6 + 2] = -P;
  const StaticResult result = solve_statics(model, {actions});
  const auto* solutions = result.get();
  if (!solutions) return 2;
  const double tip = solutions->front().displacements[6 + 2];
  const double expected = -P * L * L * L / (3 * E * I);
  std::printf("tip %.9g m, closed form %.9g m\n", tip, expected);
  return std::abs(tip / expected - 1) < 1e-9 ? 0 : 1;
}
