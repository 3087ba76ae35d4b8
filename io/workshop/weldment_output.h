// The weldments of a frame, where there are several: what each is made of.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "cases/workshop/cut_list.h"
#include "io/text/terminal.h"

namespace tubewright {

bool several_weldments(const CutList& list);

/// " of the frame", " of arm_l", for a heading; empty where there is but one weldment.
std::string of_weldment(const CutList& list, const WeldmentPlan& weldment);

/// One line a weldment, and the pieces that nothing is welded to. Empty where there is but one.
std::string weldments_table(const CutList& list, Paint paint);

/// Of each weldment the pieces by label, and jig, order of welds and shrinkage as those of the
/// whole list.
nlohmann::ordered_json weldments_json(const CutList& list);

/// The diagonals of each bay, mm.
nlohmann::ordered_json jig_json(const std::vector<JigCheck>& checks);

}  // namespace tubewright
