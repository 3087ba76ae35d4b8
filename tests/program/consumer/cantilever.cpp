// How to use the solver library in a program of your own: a tube that sticks out of a wall.
//
// What it does   Solves a cantilever of square tube with a force on its tip, prints how far the tip
//                goes down and what the wall does to the tube, and compares both with closed forms.
// Its sources    Deflection P L^3 / (3 E I): S. Timoshenko, Strength of Materials Part I (1930),
//                chapter V (chapter from MEMORY). Reactions: equilibrium. Section: EN 10219-2.
// To build it    Install the library (the package tubewright-dev, or from a build of tubewright):
//                  cmake --install build/release --prefix PREFIX --component library
//                then, in a copy of this folder:
//                  cmake -B build -DCMAKE_PREFIX_PATH=PREFIX
//                  cmake --build build
//                  build/cantilever
// Units          SI throughout: m, N, Pa, kg, rad. Axes: x forward, y left, z up.
// It ends with   0 if the answers agree, 1 if not, 2 if the frame has no answer.
#include <cmath>
#include <cstdio>

#include "solver/model/section_shapes.h"
#include "solver/statics/statics.h"

int main() {
  using namespace tubewright;
  const double force = 100, length = 1.2;

  // 1. A model: nodes, sections, materials, members and supports, each named by its place in its
  //    list. A member not told otherwise has the first section and the first material.
  Model model;
  model.nodes = {{0, 0, 0}, {length, 0, 0}};

  Material steel;
  steel.E = 210e9;
  steel.G = 80.77e9;
  steel.density = 7850;
  steel.yield = 235e6;
  model.materials = {steel};

  const double side = 0.025, wall = 0.002;
  Section tube =
      hollow_rectangle(side, side, wall, cold_formed_corners(wall), poisson_ratio(steel));
  tube.Ay = tube.Az = rigid;  // no shear deformation: the closed form below knows of none
  model.sections = {tube};

  Beam beam;
  beam.from = 0;
  beam.to = 1;
  model.beams = {beam};

  Support built_in;
  built_in.node = 0;
  built_in.restrained = {true, true, true, true, true, true};  // ux uy uz rx ry rz
  model.supports = {built_in};

  // 2. What acts on it. DOF d of node n has the number 6 n + d; the force is along -z.
  const int tip_z = dofs_per_node * 1 + 2;
  Actions actions = no_actions(model);
  actions.nodal[tip_z] = -force;

  // 3. Solve. All load cases of the list share one factorisation; here there is one.
  const StaticResult result = solve_statics(model, {actions});

  // 4. A frame that can move without resistance has no answer, but a list of its free motions.
  if (const StaticFailure* failure = result.error()) {
    for (const FreeMotion& motion : failure->mechanism.motions) {
      std::printf("node %d is free to move\n", motion.node);
    }
    return 2;
  }

  // 5. Read the answer: displacements and reactions stand in the order of the DOFs. A positive
  //    moment about y turns z towards x, so the wall's moment against the drooping tip is negative.
  const StaticSolution& solution = result->front();
  const double tip = solution.displacements[tip_z];
  const double wall_force = solution.reactions[2], wall_moment = solution.reactions[4];

  // 6. Compare with what must come out.
  const double expected = -force * std::pow(length, 3) / (3 * steel.E * tube.Iy);
  std::printf("tip %.9g m, closed form %.9g m\n", tip, expected);
  std::printf("wall %.9g N and %.9g N m, by equilibrium %.9g N and %.9g N m\n", wall_force,
              wall_moment, force, -force * length);
  const bool agrees = std::abs(tip / expected - 1) < 1e-9 &&
                      std::abs(wall_force / force - 1) < 1e-9 &&
                      std::abs(wall_moment / (-force * length) - 1) < 1e-9;
  return agrees ? 0 : 1;
}
