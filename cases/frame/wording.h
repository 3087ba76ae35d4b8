// Faults and doubts on their way to the user: how names and numbers are put, the list, its order.
#pragma once

#include <string>
#include <vector>

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"

namespace tubewright {

/// The name in backticks.
std::string quoted(const std::string& name);

/// "`a`, `b` and `c`".
std::string quoted_list(const std::vector<std::string>& names);

/// A length for the reader's eye: "12.5 mm".
std::string in_mm(double metres);

/// With so many decimals: "0.58".
std::string decimals(double value, int count);

/// `what`: one of the wordings in `*_errors.h` and `*_warnings.h`, which know no place.
void add_error(Diagnostics& diagnostics, const SourceLocation& place, Diagnostic what);
void add_warning(Diagnostics& diagnostics, const SourceLocation& place, Diagnostic what);

/// In file order, what has no place last. Of problems that differ only in the piece of a path, or
/// in the side of a mirrored pair, the first is kept.
Diagnostics in_file_order(Diagnostics diagnostics, const Frame& frame);

}  // namespace tubewright
