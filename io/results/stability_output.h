// What `modes` and `buckle` answer, as text and as JSON.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "cases/studies/buckle_study.h"
#include "cases/studies/frame_modes.h"
#include "io/text/terminal.h"

namespace tubewright {

/// False if the lowest elastic mode lies below `limits.frequency`.
bool modes_pass(const Frame& frame, const FrameModes& modes);
std::string modes_text(const Frame& frame, const FrameModes& modes, Paint paint);
std::string modes_json(const Frame& frame, const FrameModes& modes, const Problems& warnings);
std::string modes_lines(const FrameModes& modes);

/// False if some case buckles under its own loads or less.
bool buckling_passes(const BuckleStudy& study);
std::string buckling_text(const Frame& frame, const BuckleStudy& study, Paint paint);
std::string buckling_json(const Frame& frame, const BuckleStudy& study, const Problems& warnings);
std::string buckling_lines(const BuckleStudy& study);

/// {case, factors, members} of each case, the least factor first, as reports show it.
nlohmann::ordered_json buckling_list(const BuckleStudy& study);

}  // namespace tubewright
