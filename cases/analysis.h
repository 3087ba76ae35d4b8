// A frame solved for its load cases: the finished results that every output is written from.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "cases/build_model.h"
#include "cases/frame.h"
#include "cases/mass_summary.h"
#include "cases/panel_result.h"
#include "cases/pick_ups.h"
#include "cases/place.h"
#include "cases/vehicle_cases.h"
#include "cases/yield_check.h"
#include "solver/model.h"
#include "solver/statics.h"
#include "solver/stress.h"

namespace tubewright {

/// One member in one case.
struct MemberResult {
  Vector6 from = Vector6::Zero();  ///< joint on member, local axes, N and N m
  Vector6 to = Vector6::Zero();
  double N = 0;        ///< axial force of greatest size, tension positive
  MemberStress worst;  ///< unused for springs, which have no section
  bool has_stress = true;
  bool slack = false;  ///< a cable that carries nothing in this case
  CheckResult yield;
  CheckResult buckling;
  CheckResult weld;
};

/// The greatest utilisation of a case.
struct Worst {
  std::string check;  ///< "yield"; of a panel "rivet_shear" and so on
  std::string item;   ///< member or panel
  double utilisation = 0;
};

struct CaseResult {
  std::string name;
  StaticSolution solution;
  std::vector<MemberResult> members;    ///< in the order of Frame::members
  std::vector<PanelResult> panels;      ///< in the order of Frame::panels
  double yield_factor = 1;              ///< the reserve against yield its checks ask for
  std::optional<Worst> worst;           ///< none if no check could be made
  int largest_node = -1;                ///< node that moves most
  std::optional<DrivingState> driving;  ///< of cases of kind vehicle
  std::vector<PickUp> pick_ups;         ///< where links, springs and cables meet the frame
};

struct Analysis {
  Frame frame;
  Model model;
  std::vector<MemberSlot> slots;  ///< in the order of Frame::members
  MassSummary mass;
  std::optional<VehicleFacts> vehicle;
  std::vector<CaseResult> cases;
  Problems remarks;  ///< what the reader should know about these results

  bool passes() const;  ///< every check made is at most 1
};

/// Why there is no answer: a mechanism, a part of the job this version does not do.
using AnalysisOutcome = std::variant<Analysis, Problems>;

/// The frame with the load cases it is to be checked for: its own, or the standard set of a vehicle
/// whose file names none. A frame with neither comes back without cases.
std::variant<Frame, Problems> with_load_cases(Frame frame);

/// Solves the named cases (all if empty) and makes all checks. Requires: validate() found no error.
AnalysisOutcome analyse(const Frame& frame, const std::vector<std::string>& only = {});

}  // namespace tubewright
