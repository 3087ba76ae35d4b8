// Stress at the toes of the weld of a tee, as fatigue by hot spots asks for it.
//
// A solved quarter of a tee in (through chord, 90 degrees, a weld all round: `on_corner` of
// joint_geometry.py), stress concentration factors out: stress on the surface normal to the toe, at
// 0.3, 0.6, 0.9 and 1.2 of the wall from the toe, a straight line through them by least squares,
// its value at the toe; the greatest along the toe over the brace's nominal stress.
#pragma once

#include <Eigen/Core>

#include "tests/joint_models/joint_compliance.h"
#include "tests/joint_models/solid10.h"

namespace tubewright {

/// Over the nominal stress; the sign is left out.
struct HotSpots {
  double chord = 0;  ///< greatest along the toe on the chord
  double brace = 0;  ///< on the brace
};

/// Stress at a point of the surface along a direction: the stress of the element the point lies in.
/// Throws std::runtime_error if it lies in none.
double stress_along(const SolidMesh& mesh, const Eigen::VectorXd& u, const IsotropicSolid& material,
                    const Eigen::Vector3d& point, const Eigen::Vector3d& direction);

/// `u`: displacements under the unit `load`; `leg`: of the weld.
HotSpots hot_spots(const JointModel& joint, double leg, const SolidMesh& mesh,
                   const Eigen::VectorXd& u, const IsotropicSolid& material, TipLoad load);

}  // namespace tubewright
