// The files for the workshop: the list of pieces and a drawing of each piece of sheet metal.
#pragma once

#include <optional>
#include <string>

#include "cases/sheets/sheet_blanks.h"
#include "cases/workshop/cut_list.h"
#include "io/text/write_file_atomically.h"

namespace tubewright {

/// cut_list.csv, and sheet_NAME.dxf and .svg for each piece, into a directory that is there.
std::optional<WriteFailure> write_cut_files(const Frame& frame, const CutList& list,
                                            const SheetBlanks& sheets,
                                            const std::string& directory);

/// "cut_list.csv", with the drawings where there are any: for the message that tells of them.
std::string cut_file_names(const SheetBlanks& sheets);

}  // namespace tubewright
