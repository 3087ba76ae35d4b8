// The subjects of lint(), one function each. Each starts with an empty list and stops once it has
// `most_of_a_kind` doubts.
#pragma once

#include "cases/frame/diagnostic.h"
#include "cases/frame/frame.h"
#include "cases/frame/layout.h"

namespace tubewright {

constexpr std::size_t most_of_a_kind = 100;

Diagnostics lint_unused(const Frame& frame, const Layout& layout);
Diagnostics lint_strengths(const Frame& frame);
Diagnostics lint_duplicates(const Frame& frame, const Layout& layout);
Diagnostics lint_close_nodes(const Frame& frame, const Layout& layout);
Diagnostics lint_nodes_on_members(const Frame& frame, const Layout& layout);
Diagnostics lint_crossings(const Frame& frame, const Layout& layout);
Diagnostics lint_bays(const Frame& frame, const Layout& layout);
Diagnostics lint_ends(const Frame& frame, const Layout& layout);
Diagnostics lint_joints(const Frame& frame);  ///< none where the file says that they are rigid
Diagnostics lint_bends(const Frame& frame);
Diagnostics lint_sheets(const Frame& frame);

/// Smaller outer size of each member's tube, m; 0 for springs. Where only properties are given, the
/// side of the thin square tube with the same radius of gyration, sqrt(6) i.
std::vector<double> tube_sides(const Frame& frame);

}  // namespace tubewright
