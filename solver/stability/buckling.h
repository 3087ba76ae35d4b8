// Linear buckling: by what factor the loads of a solved case would have to grow to make it
// unstable.
#pragma once

#include <Eigen/Core>
#include <span>
#include <vector>

#include "solver/model/model.h"
#include "solver/statics/recovery.h"

namespace tubewright {

/// Axial forces whose buckling loads are as far away as this are rounding: frames without any axial
/// force come out near 1e16.
constexpr double beyond_any_load = 1e9;

struct BucklingMode {
  double factor = 0;      ///< alpha_cr, above zero
  Eigen::VectorXd shape;  ///< 6 a node, greatest entry 1
};

struct Buckling {
  std::vector<BucklingMode> modes;  ///< ascending; empty: the case does not buckle (below 1e9)
  bool complete = false;            ///< none below the last one is missing (Sturm count)
};

/// Axial forces of the members in one case, tension positive.
struct AxialForces {
  std::vector<double> beams;   ///< at mid length
  std::vector<double> growth;  ///< from the first end of each beam to its second; empty: none
  std::vector<double> bars;
  std::vector<bool> slack;  ///< one a bar
};

AxialForces axial_forces(const StaticSolution& solution);

/// K_G u of the whole model, six entries a node: with all the stiffness that these forces take away
/// or give.
Eigen::VectorXd apply_stress_stiffness(const Model& model, const AxialForces& forces,
                                       const Eigen::VectorXd& u);

/// (K + alpha K_G) x = 0 with axial forces that change evenly along each member; slack cables are
/// left out. Exact enough only where beams are cut into pieces: one cubic beam finds its own Euler
/// load 22 % too high, four 0.05 % (pinned ends). Panels do not buckle here. Requires: the model is
/// stable without loads, and the forces are sized for it.
Buckling linear_buckling(const Model& model, const AxialForces& forces, int count);

/// The same to five digits, without proof that none is missing: quicker, `complete` is false.
Buckling likely_buckling(const Model& model, const AxialForces& forces, int count);

/// Number of modes with a factor between 0 and `factor`, by one factorisation; -1 if it cannot be
/// told. Requires as linear_buckling.
int modes_below(const Model& model, const AxialForces& forces, double factor);

struct BucklingBelow {
  int count = 0;      ///< as modes_below()
  Buckling buckling;  ///< the lowest `count` of them, at most `most`; one if there is no count
};

/// modes_below() and, if there are any, linear_buckling() of them.
BucklingBelow buckling_below(const Model& model, const AxialForces& forces, double factor,
                             int most);

/// A case, and the factor up to which it is asked whether it buckles.
struct LoadedCase {
  const AxialForces* forces;
  double factor;
};

/// Whether each case surely has no mode with a factor between 0 and its own; where false nothing is
/// said. Several are told by one factorisation: -K_G grows with compression anywhere, so what
/// stands with every member compressed as hard as in any of the cases stands in each of them.
/// Requires as linear_buckling; the same cables are slack in all.
std::vector<bool> surely_stable(const Model& model, std::span<const LoadedCase> cases);

/// Share of a buckling mode's strain energy that a beam takes by bending, about its y and its z.
struct BendingShare {
  double about_y = 0;
  double about_z = 0;
};

/// One a beam. `shape`: six a node, as in BucklingMode; `slack`: bars left out.
std::vector<BendingShare> bending_shares(const Model& model, const std::vector<bool>& slack,
                                         const Eigen::VectorXd& shape);

}  // namespace tubewright
