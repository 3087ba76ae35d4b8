// What the forces of a ride do to the parts of a frame, on the fly: section forces at both ends of
// every tube, when each part is hit hardest, and the stress cycles that its ends go through.
#pragma once

#include <Eigen/Core>
#include <array>
#include <cstdint>
#include <vector>

#include "cases/analysis/summarise_case.h"
#include "cases/rides/ride_model.h"
#include "solver/dynamics/rainflow.h"

namespace tubewright {

/// Rows of `forces`: N, Vy, Vz, T, My, Mz at the start and at the end of each beam, then the force
/// of each bar, then the flow of each panel; columns as RideModel::loads.
struct RideChannels {
  Eigen::MatrixXd forces;
  Eigen::Index beams = 0, bars = 0, panels = 0;

  Eigen::Index row_of_beam(Eigen::Index beam, int end) const { return 12 * beam + 6 * end; }
  Eigen::Index row_of_bar(Eigen::Index bar) const { return 12 * beams + bar; }
  Eigen::Index row_of_panel(Eigen::Index panel) const { return 12 * beams + bars + panel; }
};

/// Diagnostics: the frame can move, or a load meets nothing that resists it.
Result<RideChannels> ride_channels(const Frame& frame, const NumberedFrame& numbered,
                                   const RideModel& model);

/// An instant of a ride and what acts then.
struct RideInstant {
  std::int64_t step = -1;
  double value = 0;   ///< of what is greatest then
  Eigen::VectorXd x;  ///< see RideModel
};

/// Finds when each part is hit hardest: of a beam the greatest stress at an end, bounded from above
/// by |N|/A + |M_y|/W_y + |M_z|/W_z and the shear stresses, and the greatest compression; of a bar
/// the greatest tension and compression; of a panel the greatest flow.
class HardestInstants {
 public:
  /// Keeps a reference to the channels.
  HardestInstants(const Model& model, const RideChannels& channels);

  /// `x`: columns as RideInstant::x, at steps `first`, `first` + stride, ...; `forces`: channels of
  /// it, one a column, a row a step.
  void add(std::int64_t first, std::int64_t stride, const Eigen::MatrixXd& x,
           const Eigen::MatrixXd& forces);

  /// Fewer instants in which every part has at least that share of its greatest value, ascending.
  /// Parts whose greatest value is below `least` times that of the hardest hit are left out: beams
  /// by stress, beams by compression, bars and panels apart.
  std::vector<RideInstant> covering(double share, double least = 0) const;

 private:
  Eigen::Index parts() const { return static_cast<Eigen::Index>(hardest_.size()); }
  std::vector<bool> hardly_hit(double least) const;
  void values(const Eigen::MatrixXd& forces, Eigen::Index part, Eigen::ArrayXd& value) const;

  const RideChannels& channels_;
  std::vector<std::array<double, 6>> weights_;  ///< 1/m2 and 1/m3, of each beam's section forces
  std::vector<RideInstant> hardest_;
};

/// Stress cycles at the ends of tubes: rainflow-counted signed sums of weighted section forces.
struct EndWeights {
  int beam = 0;
  int end = 0;
  bool round = false;
  std::array<double, 3> direct = {};  ///< on N, My, Mz, 1/m2 and 1/m3
  std::array<double, 3> shear = {};   ///< on T, Vy, Vz
};

/// Of each end of each steel beam of a member: per force the greatest of the nominal stress, the
/// hot spot's and the weld root's, each as a nominal stress of the `category` that does as much
/// damage (fatigue_screening.h).
std::vector<EndWeights> end_weights(const Frame& frame, const NumberedFrame& numbered,
                                    const CheckFacts& facts, double category);

class EndCycles {
 public:
  /// `category`, Pa, over its partial factor; shear counts by category 80 over the same.
  EndCycles(std::vector<EndWeights> ends, double category, double gamma);

  void add(const RideChannels& channels, const Eigen::MatrixXd& forces);

  /// Miner's sum at each end if the ride is repeated for ever, per ride: its residue closed by the
  /// repeated history.
  std::vector<double> damage() const;
  const std::vector<EndWeights>& ends() const { return ends_; }

 private:
  struct Channel {
    RainflowCounter counter;
    double damage = 0;
  };
  static constexpr size_t shear_signs = 4;
  double damage_of(double range, bool shear) const;

  std::vector<EndWeights> ends_;
  double category_, shear_category_;
  std::vector<std::vector<Channel>> channels_;  ///< of each end: direct ones, then shear
};

}  // namespace tubewright
