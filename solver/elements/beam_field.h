// Forces and displacements along a beam, in closed form between its ends.
//
// Section forces act on the cut whose outward normal is local +x: N is tension positive, M_y bends
// so that z > 0 is in tension, M_z so that y < 0 is in tension; dM_y/dx = V_z, dM_z/dx = -V_y.
#pragma once

#include <Eigen/Core>
#include <vector>

#include "solver/elements/beam_element.h"

namespace tubewright {

struct SectionForces {
  double N = 0;
  double Vy = 0;
  double Vz = 0;
  double T = 0;
  double My = 0;
  double Mz = 0;
};

/// One solved beam: enough to evaluate it anywhere.
struct BeamState {
  BeamElement element;
  BeamActions actions;         ///< as applied and from panels, global axes
  Vector12 end_forces;         ///< joint on member, local axes
  Vector12 end_displacements;  ///< of the member's ends (inside any release), local axes
};

/// Section forces at fraction `s` (0..1) of the length. At a point action the value just after it,
/// or with `before` just before it.
SectionForces section_forces(const BeamState& beam, double s, bool before = false);

struct BeamDisplacement {
  Eigen::Vector3d displacement;  ///< global axes, m
  Eigen::Vector3d rotation;      ///< global axes, rad
};

BeamDisplacement beam_displacement(const BeamState& beam, double s);

/// Work of `uniform`, loads without point actions, on the displacements that `any` would cause in
/// the member held at both ends. Symmetric where both are uniform.
double held_flexibility(const BeamElement& e, const BeamActions& uniform, const BeamActions& any);

/// The ends and every point action, ascending fractions: between them all fields are smooth.
std::vector<double> smooth_intervals(const BeamState& beam);

}  // namespace tubewright
