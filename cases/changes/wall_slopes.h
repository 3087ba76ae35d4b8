// How fast a frame changes with the wall of its tubes.
//
// With K u = f and g = q'u, K l = q: dg/dt = -l' K' u + l' f' (adjoint method, any textbook on
// design sensitivities). The torsion test is its own adjoint, q = f/couple, and f does not change:
//   d(stiffness)/dt = (stiffness/couple)^2 u' K' u.
// Frequencies: d(omega^2)/dt are the eigenvalues of Phi'(K' - omega^2 M')Phi over the modes Phi
// that share omega, M-normalised: with square tubes modes come in pairs, and the slope of one of
// their shapes means nothing. When the wall grows the lowest follows the least eigenvalue, which is
// given. Buckling: the same with (K' + lambda K_G'), K_G' with what the change does to the axial
// forces. K', M' and K_G' are central differences of the matrices of frames drawn with thicker and
// thinner walls, so that corners, joints and masses follow; error some 1e-9 of them. Utilisation
// and deflection: central differences of exact answers of those two frames.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "cases/changes/tube_edits.h"
#include "cases/frame/frame.h"
#include "cases/studies/buckle_study.h"
#include "cases/studies/frame_modes.h"
#include "cases/studies/torsion.h"
#include "solver/statics/stiffness_update.h"

namespace tubewright {

/// Each per metre of wall; none where there is nothing to change or nothing of the sort is asked.
struct WallSlopes {
  double mass = 0;                    ///< kg/m
  std::optional<double> stiffness;    ///< torsional, N m/rad/m
  std::optional<double> utilisation;  ///< of the item that is nearest its limit, 1/m
  std::optional<double> deflection;   ///< the greatest of all cases, m/m
  std::optional<double> frequency;    ///< lowest elastic, Hz/m
  std::optional<double> buckling;     ///< lowest factor of all cases, 1/m
};

/// What does not depend on which tube is changed.
class SlopeBase {
 public:
  /// `bases`: of the frame, as changed_answer() takes them. Keeps references to all.
  SlopeBase(const Frame& frame, const Analysis& analysis, const BaseStiffnesses& bases);
  ~SlopeBase();
  SlopeBase(const SlopeBase&) = delete;
  SlopeBase& operator=(const SlopeBase&) = delete;

  std::optional<double> frequency() const;   ///< lowest elastic, Hz
  std::optional<double> buckling() const;    ///< lowest factor of all cases
  std::optional<double> deflection() const;  ///< greatest of all cases, m

  /// All `members` changed together. Requires: they are of one section. Nothing: it has no wall.
  std::optional<WallSlopes> slopes(const MemberSet& members) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace tubewright
