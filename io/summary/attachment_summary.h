// The attachments and gussets of one load case in the terminal summary.
#pragma once

#include <string>

#include "cases/analysis/analysis.h"
#include "io/text/terminal.h"

namespace tubewright {

/// How many attachments have a utilisation above 1.
int failing_attachments(const CaseResult& result);

int failing_gussets(const CaseResult& result);

/// The attachments nearest their limit (at most five): the check, the force at the hole; then the
/// gussets, with the force along the free edge, tension positive. Empty without either.
std::string attachment_rows(const Analysis& analysis, const CaseResult& result, Paint paint);

}  // namespace tubewright
