// What a check says, and where the line between passing and failing is drawn.
#pragma once

#include <optional>
#include <string>

namespace tubewright {

/// One check of one item. `utilisation` is 1 at the limit; empty when the check does not apply or
/// cannot be made, and `reason` then says why. A check by a rule outside its stated range is a
/// comparison: its number counts like any other, `reason` says what the rule was not written for.
struct CheckResult {
  std::optional<double> utilisation;
  std::string reason;
  std::string clause;       ///< the rule it follows
  bool needed = true;       ///< false: nothing there to check, as buckling of a tube in tension
  bool comparison = false;  ///< of a check that was made
};

/// A check that was not made, and why.
inline CheckResult not_made(const std::string& reason, const char* clause = "") {
  CheckResult r;
  r.reason = reason;
  r.clause = clause;
  return r;
}

/// One of what is not there.
inline CheckResult not_needed(const std::string& reason, const char* clause = "") {
  CheckResult r = not_made(reason, clause);
  r.needed = false;
  return r;
}

/// Something is there to check and no number was found for it.
inline bool lacks_number(const CheckResult& c) { return c.needed && !c.utilisation; }

/// At the limit is within it.
constexpr bool passes(double utilisation) { return utilisation <= 1; }

}  // namespace tubewright
