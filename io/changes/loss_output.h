// What `break` answers, as text and as JSON.
#pragma once

#include <string>

#include "cases/changes/loss_study.h"
#include "io/text/terminal.h"

namespace tubewright {

/// "2 of 12 welds and 3 of 6 tubes must hold: ..."
std::string loss_sentence(const LossStudy& study);

/// Without it: "can move freely", "joint of `a` in `case`".
std::string what_follows(const Loss& loss);

std::string loss_text(const Frame& frame, const LossStudy& study, Paint paint);
std::string loss_json(const Frame& frame, const LossStudy& study, const Diagnostics& warnings);

}  // namespace tubewright
