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

/// What is fitted: one stiffness for all tube ends, one for all rivets, or both at once.
enum class FitKind { joints, rivets, both };

enum class FitState {
  found,
  at_the_stiff_end,  ///< the readings are no larger than those of the stiffest frame
  at_the_soft_end,
  hardly_explains,  ///< more than half of the difference is left after the fit
  insensitive,      ///< the readings hardly depend on it
  not_told_apart,   ///< of both: the readings change alike with either
};

struct BenchFit {
  FitKind kind = FitKind::joints;
  FitState state = FitState::found;
  double stiffness = 0;           ///< N m/rad a tube end about each bending axis, or N/m a rivet
  double rivet_stiffness = 0;     ///< of both: N/m a rivet, `stiffness` being that of the joints
  std::vector<double> predicted;  ///< of the gauges with readings, after the fit, m
  double rms_before = 0;          ///< root mean square of reading less prediction, m
  double rms_after = 0;
  std::optional<double> torsional_stiffness;  ///< of the frame so corrected, N m/rad
};

struct BenchStudy {
  bool held_by_supports = true;  ///< else by the rear pair of the torsion test
  std::vector<GaugeResult> gauges;
  /// The closest first, both at once last; empty without readings.
  std::vector<BenchFit> fits;
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
