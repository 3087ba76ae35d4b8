// A frame on the bench: what dial gauges should read under weights, and what their readings tell
// about the stiffness of joints and rivets.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"

namespace tubewright {

struct GaugeResult {
  std::string node;
  int direction = 2;
  double predicted = 0;           ///< m
  std::optional<double> reading;  ///< m
};

/// What is fitted: one stiffness for all tube ends, or one for all rivets.
enum class FitKind { joints, rivets };

enum class FitState {
  found,
  at_the_stiff_end,  ///< the readings are no larger than those of the stiffest frame
  at_the_soft_end,
  hardly_explains,  ///< more than half of the difference is left after the fit
  insensitive,      ///< the readings hardly depend on it
};

struct BenchFit {
  FitKind kind = FitKind::joints;
  FitState state = FitState::found;
  double stiffness = 0;           ///< N m/rad a tube end about each bending axis, or N/m a rivet
  std::vector<double> predicted;  ///< of the gauges with readings, after the fit, m
  double rms_before = 0;          ///< root mean square of reading less prediction, m
  double rms_after = 0;
  std::optional<double> torsional_stiffness;  ///< of the frame so corrected, N m/rad
};

/// What can be said of joints and rivets, fitted together.
enum class BothState {
  found,
  too_few_readings,  ///< fewer than three: two values fit any two
  not_told_apart,    ///< a change of one looks like a change of the other
  joints_not_told,   ///< the readings hardly depend on the joints, or they are as good as rigid
  rivets_not_told,
  neither_told,
  hardly_explains,  ///< as of one fit
};

/// One stiffness for all tube ends and one for all rivets, fitted to the readings at once.
struct BenchFitOfBoth {
  BothState state = BothState::found;
  double joint_stiffness = 0;  ///< N m/rad a tube end about each bending axis
  double rivet_stiffness = 0;  ///< N/m
  double condition = 1;        ///< of the two in the readings, see two_factor_fit.h
  double joints_moved_by = 1;  ///< factor, if every gauge is a hundredth of a millimetre off
  double rivets_moved_by = 1;
  std::vector<double> predicted;  ///< as in BenchFit
  double rms_before = 0;
  double rms_after = 0;
  std::optional<double> torsional_stiffness;
};

struct BenchStudy {
  bool held_by_supports = true;  ///< else by the rear pair of the torsion test
  std::vector<GaugeResult> gauges;
  std::vector<BenchFit> fits;          ///< the closest first; empty without readings
  std::optional<BenchFitOfBoth> both;  ///< of a frame with rivets, if there are readings
  /// From the readings at the torsion test's pairs, weights ahead of its middle making the couple.
  std::optional<double> measured_stiffness;  ///< N m/rad
  bool rear_was_measured = false;            ///< else the stands count as frame
  std::optional<double> model_stiffness;     ///< of the same test by the model, gauges taken alike
};

/// Requires: the frame is sound and has a bench test, with supports or a torsion test to hold it.
Result<BenchStudy> bench_study(const Frame& frame);

/// Every end of a tube about both bending axes on a spring of this stiffness, N m/rad. Ends that
/// the file releases and the joints inside a continuous tube stay as they are.
Frame with_joint_stiffness(Frame frame, double stiffness);

}  // namespace tubewright
