// What a check says, and where the line between passing and failing is drawn.
#pragma once

#include <optional>
#include <string>

namespace tubewright {

/// One check of one item. `utilisation` is 1 at the limit; empty when the check does not apply or
/// cannot be made, and `reason` then says why.
struct CheckResult {
  std::optional<double> utilisation;
  std::string reason;
  std::string clause;  ///< the rule it follows
  bool needed = true;  ///< false: nothing there to check, as buckling of a tube in tension
};

/// At the limit is within it.
constexpr bool passes(double utilisation) { return utilisation <= 1; }

}  // namespace tubewright
