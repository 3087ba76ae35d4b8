// From the solution of a case to its results and checks.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "cases/analysis/case_result.h"
#include "cases/analysis/iterate_case.h"
#include "cases/analysis/large_motion.h"
#include "cases/checks/member_checks.h"
#include "cases/frame/frame.h"
#include "cases/joints/joint_check.h"
#include "cases/joints/panel_result.h"
#include "cases/model/build_model.h"

namespace tubewright {

/// What holds for every case of a frame.
struct CheckFacts {
  std::vector<PanelFacts> panels;
  std::vector<MemberFacts> members;
  std::vector<std::array<JointEnd, 2>> joint_ends;
};

CheckFacts check_facts(const Frame& frame, const NumberedFrame& numbered);

/// A displacement that `limits.displacement` limits in this case.
struct LimitedDisplacement {
  std::string item;        ///< node and direction, "top z"
  double utilisation = 0;  ///< of its limit, either way
};
std::vector<LimitedDisplacement> limited_displacements(const Frame& frame,
                                                       const CaseResult& result);

/// `driven`: by its wheels, held by nothing.
CaseResult summarise_case(const Frame& frame, const NumberedFrame& numbered,
                          const CheckFacts& facts, const Case& load_case, bool driven,
                          IteratedCase iterated, const CheckedItems& checked = {});

/// `service`: under the loads, which the numbers are those of; `design`: under the loads times the
/// safety factor, which the checks are made with.
CaseResult summarise_large_case(const Frame& frame, const NumberedFrame& numbered,
                                const CheckFacts& facts, const Case& load_case, bool driven,
                                StaticSolution first_order, LargeAnswer service,
                                const LargeAnswer& design);

}  // namespace tubewright
