// One load case solved and checked: what every output is written from.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/analysis/iterate_case.h"
#include "cases/analysis/large_motion.h"
#include "cases/analysis/pick_ups.h"
#include "cases/attachment_checks/attachment_check.h"
#include "cases/attachment_checks/gusset_check.h"
#include "cases/checks/member_checks.h"
#include "cases/joints/panel_result.h"
#include "cases/vehicle/vehicle_cases.h"
#include "solver/elements/stress.h"
#include "solver/statics/statics.h"

namespace tubewright {

/// One member in one case.
struct MemberResult {
  Vector6 from = Vector6::Zero();  ///< joint on member, local axes, N and N m
  Vector6 to = Vector6::Zero();
  double N = 0;        ///< axial force of greatest size, tension positive
  MemberStress worst;  ///< unused for springs, which have no section
  bool has_stress = true;
  bool slack = false;  ///< a cable that carries nothing in this case
  MemberChecks checks;
};

/// The greatest utilisation of a case.
struct Worst {
  std::string check;  ///< "yield", "buckling"; of a panel "rivet_shear" and so on
  std::string item;   ///< member, panel, attachment or gusset; of a displacement node and direction
  double utilisation = 0;
};

/// What is asked of the checks of a case.
struct CheckedItems {
  /// Nothing but CaseResult::worst and what is not a member's: stresses that cannot be the worst
  /// are left out, read 0 and have no place.
  bool worst_only = false;
  std::string only;  ///< members of other names go unchecked; empty: all are checked
};

struct CaseResult {
  bool passes() const { return !worst || tubewright::passes(worst->utilisation); }

  std::string name;
  StaticSolution solution;
  std::vector<MemberResult> members;          ///< in the order of Frame::members
  std::vector<PanelResult> panels;            ///< in the order of Frame::panels
  std::vector<AttachmentResult> attachments;  ///< in the order of Frame::attachments
  std::vector<GussetResult> gussets;          ///< in the order of Frame::gussets
  bool sheets_converged = true;               ///< the state of those that have buckled
  double safety_factor = 1;                   ///< its checks ask for it, on the loads
  std::optional<double> sway_factor;  ///< alpha_cr of the joints on the design loads, if below 10
  bool sways_in_suspension = false;   ///< there in links, pins or springs
  std::optional<Worst> worst;         ///< none if no check could be made
  int largest_node = -1;              ///< node that moves most
  double deflection = 0;  ///< m, of that node; on springs of the one within the largest weldment
  std::optional<DrivingState> driving;           ///< of cases of kind vehicle
  std::vector<PickUp> pick_ups;                  ///< where links, springs and cables meet the frame
  std::optional<SecondOrderFacts> second_order;  ///< of a second-order analysis
  /// Of an analysis with large displacements; `solution.beams` then only hold end forces.
  std::optional<LargeMotion> large;
  /// Then checks are the worse of those under that share of the design loads and those of first
  /// order.
  std::optional<StopsShort> stops_short;
};

}  // namespace tubewright
