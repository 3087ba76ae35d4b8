// What a check comes to: the frame passes, fails, or is not proven, how much of it was checked,
// and why.
//
// It passes only if everything that carries load has a number, every number is within its limit,
// and the cases did what they were asked for. A number from a rule outside its stated range is a
// comparison: it counts like any other. Nothing fails but something has no number, or is in doubt:
// not proven.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cases/analysis/analysis.h"
#include "cases/verdict/fatigue_screening.h"
#include "cases/verdict/limit_checks.h"

namespace tubewright {

/// How many were checked, and how.
struct Tally {
  int by_rule = 0;
  int by_comparison = 0;
  int not_made = 0;

  int made() const { return by_rule + by_comparison; }
  int all() const { return made() + not_made; }
};

/// Something over its limit.
struct Failure {
  std::string check;  ///< "yield", "rivet_shear", "deflection"; "fatigue", or a key of `limits`
  std::string item;   ///< member, panel, attachment, gusset, node; "frame" where it is all of it
  std::string load_case;  ///< empty: of no one case
  double utilisation = 0;
};

struct Verdict {
  enum class Answer { pass, not_proven, fail };

  Answer answer = Answer::not_proven;
  /// Each kind of check of each member, tube end, panel and attachment once, whatever the number of
  /// cases: as the least proven of them.
  Tally checks;
  Tally tube_ends;                      ///< those welded to something, by weld and joint together
  std::vector<Failure> failures;        ///< the worst of each case, limits, fatigue
  std::vector<std::string> not_proven;  ///< what has no number or is in doubt, in words
};

Verdict verdict_of(const Analysis& analysis, const std::vector<LimitCheck>& limits,
                   const std::optional<FatigueScreening>& fatigue);

}  // namespace tubewright
