// What `rank` answers, as text and as JSON.
#pragma once

#include <string>

#include "cases/changes/rank_study.h"
#include "io/text/terminal.h"

namespace tubewright {

/// The one change that pays most, in a sentence without its full stop.
std::string best_sentence(const Frame& frame, const RankStudy& study);

std::string rank_text(const Frame& frame, const RankStudy& study, Paint paint);
std::string rank_json(const Frame& frame, const RankStudy& study, const Diagnostics& warnings);

}  // namespace tubewright
