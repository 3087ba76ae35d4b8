#include "cases/rides/load_cases.h"

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "cases/analysis/analysis_errors.h"
#include "cases/frame/frame_errors.h"
#include "cases/frame/nearest_name.h"
#include "cases/frame/wording.h"
#include "cases/joint_stiffness/joint_springs.h"
#include "cases/model/mechanism_report.h"
#include "cases/rides/ride_cases.h"
#include "cases/rides/standard_obstacles.h"
#include "cases/vehicle/standard_cases.h"

namespace tubewright {

namespace {

/// Limits for cases that are not among the standard ones; where the file names its cases,
/// validate() has looked.
Diagnostics unknown_displacement_cases(const Frame& frame) {
  Diagnostics diagnostics;
  std::vector<std::string> names;
  for (const Case& c : frame.cases) names.push_back(c.name);
  for (const DisplacementLimit& limit : frame.limits.displacements) {
    const std::string& name = limit.load_case;
    if (std::find(names.begin(), names.end(), name) != names.end()) continue;
    std::string advice = did_you_mean(name, names);
    if (advice.empty()) advice = what_to_name("case", "cases", names);
    add_error(diagnostics, limit.place, displacement_in_unknown_case(name, advice));
  }
  return diagnostics;
}

/// Of a vehicle whose file names no cases.
Result<Frame> with_standard_cases(Frame frame) {
  const NumberedFrame numbered = jointed_model(frame);
  if (Diagnostics diagnostics = without_mass(frame, numbered); !diagnostics.empty())
    return diagnostics;
  const auto facts = vehicle_facts(frame, numbered);
  if (const auto* failure = facts.error()) {
    return failure_diagnostics(frame, numbered, *failure, "");
  }
  const std::optional<DrivenFactors> driven = driven_factors(frame, numbered);
  frame.cases = standard_cases(frame, *facts, driven ? &*driven : nullptr);
  if (Diagnostics unknown = unknown_displacement_cases(frame); !unknown.empty()) return unknown;
  return frame;
}

}  // namespace

Result<Frame> with_load_cases(Frame frame) {
  if (!frame.vehicle) return frame;
  if (frame.cases.empty()) return with_standard_cases(std::move(frame));
  return with_ride_cases(std::move(frame));
}

}  // namespace tubewright
