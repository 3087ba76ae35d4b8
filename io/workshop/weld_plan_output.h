// Weld order and shrinkage, as text and JSON: part of what `cut` answers.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "cases/workshop/cut_list.h"
#include "io/text/terminal.h"

namespace tubewright {

/// What both ends of a piece draw in together, mm; "-" where no rule is known.
std::string shrink_text(const EndShrinkage& ends);

/// A table a weldment.
std::string weld_order_table(const CutList& list, Paint paint);
/// Empty where the wall is enough.
std::string throat_lines(const Frame& frame, const CutList& list, Paint paint);
/// Of each weldment.
std::string shrinkage_lines(const CutList& list, Paint paint);

/// Both ends, mm; null where no rule is known.
nlohmann::ordered_json shrinkage_json(const EndShrinkage& ends);

/// The steps in order, and what the welds draw in by along each axis.
nlohmann::ordered_json weld_order_json(const std::vector<WeldStep>& order);
nlohmann::ordered_json draw_in_json(const WeldShrinkage& shrinkage);
/// What throat_lines() says, mm.
nlohmann::ordered_json throats_json(const CutList& list);

}  // namespace tubewright
