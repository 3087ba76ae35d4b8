// The wording of why load cases cannot be solved, and of what is to be doubted in their results.
#pragma once

#include <string>

#include "cases/analysis/large_motion.h"
#include "cases/frame/diagnostic.h"

namespace tubewright {

// No answer
// ---------
Diagnostic weightless_vehicle();
Diagnostic numbers_too_large(const std::string& load_case);
/// `share`: of the greatest force or moment.
Diagnostic out_of_balance(const std::string& load_case, double share);
/// m.
Diagnostic moves_too_far(const std::string& load_case, double moved, double size);
Diagnostic no_large_displacements(const std::string& load_case, const std::string& reason);

/// A case that `limits.displacement` names; `advice`: did_you_mean(), or what_to_name().
Diagnostic displacement_in_unknown_case(const std::string& load_case, const std::string& advice);

// Doubts
// ------
/// `factor`: of the design loads, under which the frame sways.
Diagnostic joints_give_way(const std::string& load_case, double factor);
Diagnostic suspension_gives_way(const std::string& load_case, double factor);
Diagnostic no_equilibrium(const std::string& load_case);
Diagnostic stops_short(const std::string& load_case, const StopsShort& stop);
Diagnostic sheets_not_settled(const std::string& load_case);
Diagnostic turns_over(const std::string& load_case);

}  // namespace tubewright
