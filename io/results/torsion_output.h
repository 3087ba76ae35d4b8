// What `twist` answers, as text and as JSON.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "cases/studies/torsion_study.h"
#include "io/text/terminal.h"

namespace tubewright {

std::string torsion_text(const Frame& frame, const TorsionStudy& study, Paint paint);
std::string torsion_json(const Frame& frame, const TorsionStudy& study, const Problems& warnings);

/// `torsion` of torsion_json().
nlohmann::ordered_json torsion_part(const Frame& frame, const TorsionStudy& study);

/// "123 N m/deg (free to warp)"
std::string torsion_line(const Frame& frame, const TorsionStudy& study);

}  // namespace tubewright
