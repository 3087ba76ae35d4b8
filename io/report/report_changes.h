// What a change is worth and what must hold, as the report tells it.
#pragma once

#include <nlohmann/json.hpp>

#include "cases/changes/loss_study.h"
#include "cases/changes/rank_study.h"

namespace tubewright {

/// What each tube is worth, in words and numbers, members by index.
nlohmann::ordered_json report_rank(const Frame& frame, const RankStudy& study);

/// What is left without each weld, tube and part of a sheet.
nlohmann::ordered_json report_losses(const LossStudy& study);

}  // namespace tubewright
