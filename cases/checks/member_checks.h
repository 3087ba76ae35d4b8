// All checks of one member in one load case: yield, cross-section, member buckling, end welds.
//
// Steel by EN 1993-1-1 and EN 1993-1-8, aluminium by EN 1999-1-1; other metals are checked for
// yield only. The safety factor of a case multiplies its forces. Stresses and forces are those of
// the elastic frame.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "cases/checks/check_result.h"
#include "cases/checks/governing_cuts.h"
#include "cases/checks/member_buckling.h"
#include "cases/checks/sideways_runs.h"
#include "cases/checks/welded_ends.h"
#include "cases/frame/frame.h"
#include "cases/model/build_model.h"
#include "solver/elements/stress.h"

namespace tubewright {

/// What holds for a member in every case.
struct MemberFacts {
  bool has_section = true;  ///< springs have none
  Metal metal = Metal::steel;
  Material material;
  Section section;
  BucklingCurve curve = BucklingCurve::c;
  double length = 0;                   ///< between its nodes, m
  BucklingLengths lengths;             ///< length between its nodes times the factors given, m
  std::array<bool, 2> length_given{};  ///< for bending about y, z: by the frame file
  SidewaysRun tips;                    ///< what it may tip over sideways with; empty: it cannot
  std::array<bool, 2> welded{};        ///< its ends; no weld inside a tube that runs through
  std::array<WeldedEnd, 2> ends;       ///< what is welded there; `welded` stands there too
  HeatAffected heat_affected;
  AlloyClass alloy_class = AlloyClass::B;
  /// Of a bend: what its curved walls make of stresses from bending about y and z.
  std::optional<std::array<double, 2>> bent;
};

std::vector<MemberFacts> member_facts(const Frame& frame, const NumberedFrame& numbered);

/// Effective lengths in one case, and whether the ends sway as the member buckles that way.
struct CaseLengths {
  BucklingLengths lengths;
  std::array<bool, 2> sway{};             ///< bending about y, z
  std::optional<double> critical_moment;  ///< see CompressedMember; infinite: not bent that way
};

/// What CaseLengths::critical_moment is in a case, one a member. `forces` need not be scaled.
std::vector<std::optional<double>> critical_moments(const Frame& frame,
                                                    const NumberedFrame& numbered,
                                                    const std::vector<MemberFacts>& facts,
                                                    const ForcesAlong& forces);

struct MemberChecks {
  CheckResult yield;
  CheckResult section;
  CheckResult buckling;
  CheckResult weld;                    ///< the worse of `weld_at`
  CheckResult joint;                   ///< the worse of `joint_at`
  std::array<CheckResult, 2> weld_at;  ///< at `from`, at `to`; not needed where nothing is welded
  std::array<CheckResult, 2>
      joint_at;           ///< see joint_check.h; not needed where it stands on nothing
  int section_class = 0;  ///< the worst met along the member, 0 where it cannot be told
  int weld_end = 0;       ///< 0 at `from`, 1 at `to`: the end with the worse weld
};

struct NamedMemberCheck {
  const char* name;
  const CheckResult* result;
};

/// The worse of two ends: the greater number of those there are, and the reason of one that has
/// none, or else its own.
CheckResult worse_end(const std::array<CheckResult, 2>& ends);

/// In the order of the reports: yield, section, buckling, weld, joint.
std::array<NamedMemberCheck, 5> named_checks(const MemberChecks& checks);

/// The check nearest its limit; its `result` is null if none was made.
NamedMemberCheck nearest_limit(const MemberChecks& checks);

/// `cuts`: as governing_cuts() finds them; `worst`: the greatest stress along the member. In a bend
/// moments count for more (MemberFacts::bent), and what is checked is a comparison: the standards'
/// members are straight. `at_least`: a lesser utilisation of the section is told as this, which is
/// quicker.
MemberChecks beam_checks(const MemberFacts& facts, const std::vector<SectionCut>& cuts,
                         const Stress& worst, const CaseLengths& lengths, double factor,
                         double at_least = 0);

/// A link or a cable; `N` is its axial force where it is greatest, tension positive.
MemberChecks bar_checks(const MemberFacts& facts, double N, const Stress& worst, bool cable,
                        double factor);

}  // namespace tubewright
