// What frame stiffness is for: how much of the suspension's balance a flexible frame passes on, or,
// on wheels without springs, how high a bump must be to lift a wheel.
#pragma once

#include <optional>
#include <string>

#include "cases/frame/frame.h"
#include "cases/model/build_model.h"

namespace tubewright {

/// Share of the intended roll-stiffness balance that survives frame twist:
///   eta = kappa / (kappa + lambda (1 - lambda)),  kappa = K_frame/(K_f + K_r),
/// lambda: front share of roll stiffness. Derived (two axles, frame as a torsion spring between);
/// independent of where the mass sits.
double balance_kept(double frame_stiffness, double front_roll_stiffness, double rear_roll_stiffness,
                    double front_share);

struct RollSupport {
  bool sprung = false;
  /// Roll stiffness of each axle with the frame held rigid: suspension and tyres in series, N
  /// m/rad; infinite for rigid wheels on a rigid axle.
  double front = 0;
  double rear = 0;
  double front_share = 0.5;    ///< as given, else by stiffness
  std::optional<double> kept;  ///< balance_kept; sprung vehicles
  double lifting_couple = 0;   ///< see wheel_lift.h, N m
  double lifting_bump = 0;     ///< height that lifts the other front wheel, m
  bool tyres_known = false;    ///< `tyre_rate` was given; else they are rigid here
};

/// The reason in words where there is none: no vehicle, not two wheels on each axle.
struct RollSupportOutcome {
  std::optional<RollSupport> support;
  std::string reason;
};

/// Requires: the frame is sound and has a torsion test, whose nodes are part of the frame proper.
RollSupportOutcome roll_support(const Frame& frame, double frame_stiffness);

}  // namespace tubewright
