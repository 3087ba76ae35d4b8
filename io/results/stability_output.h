// What `modes` and `buckle` answer, as text and as JSON.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "cases/studies/buckle_study.h"
#include "cases/studies/frame_modes.h"
#include "io/text/terminal.h"

namespace tubewright {

std::string modes_text(const Frame& frame, const FrameModes& modes, Paint paint);
std::string modes_json(const Frame& frame, const FrameModes& modes, const Problems& warnings);
std::string modes_lines(const FrameModes& modes);

/// `modes` of modes_json().
nlohmann::ordered_json modes_list(const FrameModes& modes);

std::string buckling_text(const Frame& frame, const BuckleStudy& study, Paint paint);
std::string buckling_json(const Frame& frame, const BuckleStudy& study, const Problems& warnings);
std::string buckling_lines(const BuckleStudy& study);

/// {case, factors, members} of each case, the least factor first, as reports show it.
nlohmann::ordered_json buckling_list(const BuckleStudy& study);

}  // namespace tubewright
