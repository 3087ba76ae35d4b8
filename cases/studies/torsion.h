// Torsional stiffness of a frame, and where it twists.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "cases/model/build_model.h"
#include "solver/statics/recovery.h"

namespace tubewright {

/// How the frame is held while the couple acts at the front pair of nodes.
///   free:    the opposite couple acts at the rear pair, and six supports that take nothing keep
///   the
///            frame still, so that it may warp as it does on its wheels;
///   clamped: the rear pair is held in all six directions, nothing else.
enum class TorsionHold { free, clamped };

/// A place along the frame where nodes stand left and right.
struct TwistStation {
  double x = 0;            ///< m
  double twist = 0;        ///< about x, rad, from the rear pair
  std::vector<int> nodes;  ///< that it was taken from
};

/// The frame between two neighbouring stations.
struct TwistBay {
  int behind = 0;  ///< station numbers, from the rear
  int ahead = 0;
  double twist = 0;         ///< rad
  double rate = 0;          ///< rad/m
  double energy_share = 0;  ///< of the strain energy, members cut at the stations
};

struct Torsion {
  TorsionHold hold = TorsionHold::free;
  double couple = 0;                  ///< N m
  double twist = 0;                   ///< of the front pair against the rear pair, rad
  double stiffness = 0;               ///< couple over twist, N m/rad; sheets flat
  std::vector<TwistStation> profile;  ///< from rear to front
  std::vector<TwistBay> bays;         ///< between the two pairs
  int weakest = -1;                   ///< bay with the greatest twist per metre
  std::vector<double> member_share;   ///< of the strain energy, in the order of Frame::members
  std::vector<double> panel_share;    ///< in the order of Frame::panels
  /// Couple at which the first sheet buckles, N m, and which.
  std::optional<double> buckling_couple;
  int first_to_buckle = -1;
  /// Couple over twist with what the sheets have lost at this couple; none if all stay flat.
  std::optional<double> secant_stiffness;
  StaticSolution solution;
};

/// The test of `frame.torsion`: vertical forces couple/(y_left - y_right) at each pair; each pair's
/// twist is the difference of its vertical displacements over that distance.
/// Requires: the frame is sound and has a torsion test.
Result<Torsion> torsion_test(const Frame& frame, TorsionHold hold);

/// Just the stiffness, N m/rad; nothing where the frame is a mechanism.
std::optional<double> torsional_stiffness(const Frame& frame, TorsionHold hold = TorsionHold::free,
                                          const KnownBefore& known = {});

/// The fault of a frame without a torsion test, with a proposal of nodes.
Diagnostics no_torsion_test(const Frame& frame);

/// Nodes that tubes welded at both ends join to `seeds`: the frame proper, without what is hinged,
/// linked or sprung to it.
std::vector<bool> welded_body(const Frame& frame, const NumberedFrame& numbered,
                              const std::vector<int>& seeds);

}  // namespace tubewright
