// How much more a welded joint gives than beams that meet rigidly at the crossing of their axes.
//
// A mesh of the joint (joint_geometry.py) in, additional compliances out. The brace's end carries
// the stresses of a long tube (linear in bending, uniform along the axis), so that nothing has to
// decay there, and its turn is the one that does their work: u'f. The chord's ends are clamped. The
// same tubes as Timoshenko beams of the program's own sections are solved by the program's own
// statics; the difference of the two is the joint's. Consistent units (the study uses N, mm).
#pragma once

#include <Eigen/Core>
#include <array>
#include <functional>

#include "tests/joint_models/solid10.h"

namespace tubewright {

enum class JointKind { tee, mitre, pair };

/// As joint_geometry.py has it: chord along x, brace from the origin to +z, leaning to +x.
struct JointModel {
  JointKind kind = JointKind::tee;
  double chord_width = 0, chord_depth = 0, chord_wall = 0;
  double brace_width = 0, brace_along = 0, brace_wall = 0;
  double angle = 90;                        ///< degrees between brace and chord
  double chord_start = 0, chord_end = 0;    ///< x
  double brace_end = 0;                     ///< along its axis
  bool through = true;                      ///< the chord is clamped at its far end too
  bool halved_x = false, halved_y = false;  ///< of the mesh there is only x >= 0, y >= 0
};

enum class TipLoad {
  out_of_plane,  ///< moment about the axis in the plane of chord and brace, across the brace
  in_plane,      ///< moment about y
  axial,
  torsion
};
constexpr int tip_loads = 4;

struct JointCompliance {
  /// Of the solid and of the beams under a unit TipLoad, at the tip: rad/(N mm) or mm/N.
  std::array<double, tip_loads> solid = {}, beams = {};
  /// How far a unit axial force moves the brace's end against the middle of the chord's side walls,
  /// less what the brace as a beam that reaches the chord's axis gives, mm/N: the face alone.
  double face = 0;
  /// Pairs: turn of the second brace's tip about x under a unit moment on the first.
  double solid_other = 0, beams_other = 0;
  double area_ratio = 0, inertia_ratio = 0;  ///< brace's section: mesh over formula
};

/// `look` is shown the displacements under each load.
JointCompliance joint_compliance(
    const JointModel& joint, const SolidMesh& mesh, const IsotropicSolid& material,
    const std::function<void(TipLoad, const Eigen::VectorXd&)>& look = nullptr);

}  // namespace tubewright
