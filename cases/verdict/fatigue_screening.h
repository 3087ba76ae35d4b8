// Fatigue screening: the stress range at the ends of every tube, through what the frame goes
// through in its life, against one detail category (EN 1993-1-9, cases/checks/fatigue_life.h).
//
// A screening, no proof: the joints of light frames have walls below the 4 mm that the tests behind
// the classes begin at, and their hot spots depend on the joint's shape, which a beam model does
// not know.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "cases/checks/check_result.h"
#include "cases/checks/fatigue_life.h"
#include "cases/frame/diagnostic.h"

namespace tubewright {

/// Up and down by 1 g: what ISO 7176-8 asks of a wheelchair on its drums; strikes at a kerb, the
/// same (both from memory).
constexpr double usual_road_cycles = 200000;
constexpr double usual_bump_cycles = 6666;

struct MemberFatigue {
  int end = 0;                 ///< 0 at `from`, 1 at `to`: the worse
  std::vector<double> ranges;  ///< Pa at its worst point, one a block
  double damage = 0;           ///< Miner's sum, with gamma_Mf
  double cycles = 0;           ///< of the first block alone until D = 1, may be infinite
  /// Utilisation in stress: what the ranges may be divided by until the sum is 1.
  CheckResult result;
};

struct FatigueBlockUsed {
  std::string words;  ///< "1 g up and down", "bump_front_left from standing"
  double cycles = 0;
};

struct FatigueScreening {
  bool counts = false;  ///< in the verdict: the file has a `life`
  double category = 0;  ///< Pa
  double gamma_Mf = 0;
  std::string source;  ///< of the category
  std::vector<FatigueBlockUsed> blocks;
  std::vector<MemberFatigue> members;  ///< in the order of Frame::members
  int worst = -1;                      ///< member, -1 if none was checked

  bool passes() const;
};

/// Nothing where there is no spectrum: no vehicle and no `life`. Diagnostics: a case that is not
/// there or has no answer. Cases that `analysis` does not hold are solved.
Result<std::optional<FatigueScreening>> fatigue_screening(const Analysis& analysis);

}  // namespace tubewright
