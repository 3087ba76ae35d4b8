// A frame solved for its load cases: the finished results that every output is written from.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/analysis/case_result.h"
#include "cases/analysis/tell_step.h"
#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "cases/joint_stiffness/joint_springs.h"
#include "cases/model/build_model.h"
#include "cases/model/mass_summary.h"
#include "cases/vehicle/vehicle_cases.h"
#include "solver/model/model.h"

namespace tubewright {

struct AnalysisOptions {
  bool second_order = false;        ///< axial forces act on the displaced frame
  bool large_displacement = false;  ///< equilibrium on the deformed frame, however far; excludes it
  CheckedItems checked = {};        ///< of large displacements no difference
};

/// What is known of a frame before it is analysed.
struct KnownBefore {
  /// Of a frame that differs from this one in few tubes, see StaticSolver; null: none.
  const BaseStiffnesses* bases = nullptr;
  const JointedFrame* jointed = nullptr;  ///< null: to be made
};

struct Analysis {
  Frame frame;
  Model model;
  std::vector<MemberSlot> slots;  ///< in the order of Frame::members
  std::vector<ArmSlot> arms;      ///< in the order of Frame::attachments
  MassSummary mass;
  std::optional<VehicleFacts> vehicle;
  std::vector<CaseResult> cases;
  AnalysisOptions options;
  JointSummary joints;
  Diagnostics remarks;  ///< what the reader should know about these results
};

/// The item that is nearest its limit over all cases.
struct WorstOfAll {
  std::string load_case;
  std::string check;
  std::string item;
  double utilisation = 0;
};

/// Of equals the first; none if no check could be made.
std::optional<WorstOfAll> worst_of_all(const Analysis& analysis);

/// Mass of tubes and panels over `limits.mass`; none without that limit.
std::optional<double> mass_share(const Analysis& analysis);

/// Without mass there is no weight on the wheels and nothing to balance them.
Diagnostics without_mass(const Frame& frame, const NumberedFrame& numbered);

/// Whether a case, or the ride that it is an instant of, is among those.
bool is_asked_for(const Case& load_case, const std::vector<std::string>& names);

/// Solves the named cases (all if empty) and makes the checks of each. Requires: validate() found
/// no error.
Result<Analysis> analyse(const Frame& frame, const std::vector<std::string>& only = {},
                         const AnalysisOptions& options = {}, const TellStep& tell = tell_nobody,
                         const KnownBefore& known = {});

struct CheckFacts;  // summarise_case.h

/// A case of a vehicle that nothing holds, given by what acts on it.
struct GivenCase {
  Case load_case;   ///< its name and place
  Actions actions;  ///< in balance
};

/// Solved and checked as analyse() does driven cases, sheets that buckle included; linear. In their
/// order. Diagnostics: the frame can move, or a case has no answer.
Result<std::vector<CaseResult>> check_given(const Frame& frame, const NumberedFrame& numbered,
                                            const CheckFacts& facts, const FreeVehicle& vehicle,
                                            const std::vector<GivenCase>& cases);

}  // namespace tubewright
