// Effective lengths of members in one load case: what EN 1993-1-1 6.3 needs for member buckling.
//
// A member between two nodes that the frame holds in place buckles at its own length, or later.
// Where the frame itself gives way sideways that is not on the safe side. So the nodes' own
// buckling modes are looked for: each that comes below ten times the design loads
// (EN 1993-1-1 5.2.1) makes the compressed members that bend in it longer, N_cr = alpha_cr N.
#pragma once

#include <optional>
#include <vector>

#include "cases/checks/member_checks.h"
#include "solver/stability/buckling.h"

namespace tubewright {

/// EN 1993-1-1 5.2.1: below this factor second-order effects count in an elastic analysis.
constexpr double second_order_limit = 10;

struct FrameSway {
  /// Lowest alpha_cr on the design loads, if below 10. A suspension that swings on its springs does
  /// not count.
  std::optional<double> factor;
  bool in_suspension = false;        ///< links, pins or springs move, not the frame proper
  std::vector<CaseLengths> lengths;  ///< one a member
};

/// Whether each node is one of the frame proper, the largest weldment. Empty without a vehicle.
std::vector<bool> nodes_of_body(const Frame& frame, const NumberedFrame& numbered);

/// A buckling mode that lives in what the frame proper is hung on: links, springs and beams that do
/// not stand in it with both ends have half of the strain energy or more (judgement). `body`: see
/// nodes_of_body(), for every node of `model`; empty: never.
bool suspension_gives_way(const Model& model, const std::vector<bool>& slack,
                          const Eigen::VectorXd& shape, const std::vector<bool>& body);

/// Of a case known not to sway.
FrameSway no_sway(const std::vector<MemberFacts>& facts);

/// `model`: as solved, held by something, its beams not cut. `forces`: of the case without its
/// safety factor; `safety_factor`: what multiplies it; `body`: see nodes_of_body(). Lengths that
/// the frame file gives are left alone, and none becomes shorter than the member's own.
FrameSway frame_sway(const Model& model, const std::vector<MemberSlot>& slots,
                     const std::vector<MemberFacts>& facts, const AxialForces& forces,
                     double safety_factor, const std::vector<bool>& body = {});

}  // namespace tubewright
