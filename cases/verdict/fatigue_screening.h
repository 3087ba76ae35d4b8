// Fatigue screening: the stress range at the ends of every tube, through what the frame goes
// through in its life, against one detail category (EN 1993-1-9, cases/verdict/fatigue_life.h).
//
// A screening, no proof: the joints of light frames have walls below the 4 mm that the tests behind
// the classes begin at.
//
// At each end count together (8(3)):
// * direct stress, the greatest of: nominal, at the worst point of the tube, against the category;
//   in a T, Y or X joint of hollow rectangles the hot spot's (cases/verdict/hot_spot.h) against its
//   own; across the throat of its weld, for the root, against category 36 (Table 8.5, MEMORY).
//   Other joints have no hot-spot factors here: the category alone, which is no floor.
// * shear stress, of the tube and along the throat, against category 80, m = 5 (Table 8.5 for the
//   throat; a tube has 100; MEMORY).
// Ranges above 1.5 f_y, shear 1.5 f_y/sqrt(3), are over the limit of 8(1). Steel only: aluminium
// (EN 1999-1-3) has no number.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "cases/checks/check_result.h"
#include "cases/frame/diagnostic.h"
#include "cases/verdict/fatigue_life.h"

namespace tubewright {

/// Up and down by 1 g: what ISO 7176-8 asks of a wheelchair on its drums; strikes at a kerb, the
/// same (both from memory).
constexpr double usual_road_cycles = 200000;
constexpr double usual_bump_cycles = 6666;

/// gamma_Mf as the file has it designed.
double partial_factor_of(const Life& life);

struct MemberFatigue {
  int end = 0;                 ///< 0 at `from`, 1 at `to`: the worse
  std::vector<double> ranges;  ///< nominal, Pa at its worst point, one a block
  /// Category that these nominal ranges are as bad as, by what governs the first block, Pa.
  double category = 0;
  double damage = 0;  ///< Miner's sum, with gamma_Mf
  double cycles = 0;  ///< of the first block alone until D = 1, may be infinite
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

  /// What was screened passes. Says nothing of unchecked().
  bool passes() const;
  /// Members that something bends and that have no number, each with its reason in `members`.
  std::vector<int> unchecked() const;
};

/// Nothing where there is no spectrum: no vehicle and no `life`. Diagnostics: a case that is not
/// there or has no answer. Cases that `analysis` does not hold are solved.
Result<std::optional<FatigueScreening>> fatigue_screening(const Analysis& analysis);

}  // namespace tubewright
