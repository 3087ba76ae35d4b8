// What lies beyond the load cases: fatigue screening, and the frame coming out otherwise than
// drawn.
#pragma once

#include <string>

#include "cases/analysis/analysis.h"
#include "io/text/json_lines.h"
#include "io/text/terminal.h"

namespace tubewright {

/// Nothing where there is none.
std::string fatigue_lines(const Analysis& analysis, Paint paint);
std::string what_if_lines(const Analysis& analysis, Paint paint);

void write_fatigue(JsonLines& out, const Analysis& analysis);
void write_what_ifs(JsonLines& out, const Analysis& analysis);

}  // namespace tubewright
