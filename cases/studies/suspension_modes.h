// How a vehicle rides: the modes in which its springs and tyres give, and the frame without them.
#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <vector>

#include "cases/frame/frame.h"
#include "cases/model/build_model.h"
#include "solver/stability/modes.h"

namespace tubewright {

/// The vertical spring between a wheel's contact and the ground.
struct Tyre {
  double rate = 0;         ///< N/m
  std::vector<int> nodes;  ///< the wheel's carriers
  Eigen::VectorXd lift;  ///< how far each of their DOFs lifts the contact: as a force there spreads
};

/// Empty without `tyre_rate`.
std::vector<Tyre> tyres_of(const Frame& frame, const NumberedFrame& numbered);

std::vector<GroundStiffness> ground_of(const std::vector<Tyre>& tyres);

/// `model`, of the frame's members as `numbered` or cut from it, with a stiff link for each spring.
Model with_locked_springs(const Frame& frame, const NumberedFrame& numbered, const Model& model);

/// A mode of the suspension in words.
struct Ride {
  std::string words;  ///< "body bounce", "wheel hop, rear_left"
  double share = 0;   ///< of the kinetic energy that moves so, 0..1
};

/// Tells the modes in which springs and tyres take half of the strain energy or more, and wheels
/// and the frame proper as a rigid body half of the kinetic energy (judgement). Of those it is a
/// wheel hop where the unsprung parts have more of the kinetic energy than the frame proper, the
/// largest weldment. Unsprung: the carriers of a wheel and what is welded to them.
class SuspensionReader {
 public:
  SuspensionReader(const Frame& frame, const NumberedFrame& numbered,
                   const std::vector<double>& masses, std::vector<Tyre> tyres);

  /// Requires: `mode` is elastic, the numbered nodes are its first. Nothing: the frame's own.
  std::optional<Ride> ride(const Mode& mode) const;

 private:
  struct Unsprung {
    std::string wheel;
    std::vector<int> nodes;
  };

  double sprung_share(const Mode& mode) const;
  double kinetic(const std::vector<int>& nodes, const Eigen::VectorXd& shape) const;
  Ride body_ride(const Eigen::VectorXd& shape, double all) const;
  std::optional<Ride> hop(const Eigen::VectorXd& shape, double all) const;

  const Model& model_;
  const std::vector<double>& masses_;
  std::vector<Tyre> tyres_;
  std::vector<int> springs_;  ///< bars
  std::vector<int> body_;     ///< nodes of the frame proper
  std::vector<Unsprung> unsprung_;
};

}  // namespace tubewright
