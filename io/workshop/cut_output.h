// What `cut` answers, as text, JSON and CSV.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "cases/sheets/sheet_blanks.h"
#include "cases/workshop/cut_list.h"
#include "io/text/terminal.h"

namespace tubewright {

std::string cut_text(const Frame& frame, const CutList& list, const SheetBlanks& sheets,
                     Paint paint);
std::string cut_json(const Frame& frame, const CutList& list, const SheetBlanks& sheets,
                     const Diagnostics& warnings);

/// `cut` of cut_json().
nlohmann::ordered_json cut_part(const Frame& frame, const CutList& list, const SheetBlanks& sheets);

/// One line a group of pieces that are cut alike, with a heading; RFC 4180. Gussets come last and
/// fill columns of their own, which are left out where there are none.
std::string cut_csv(const Frame& frame, const CutList& list);

/// "12 bars, 46.1 kg"
std::string cut_line(const CutList& list);

}  // namespace tubewright
