#include "io/workshop/cut_files.h"

#include <filesystem>

#include "io/workshop/cut_output.h"
#include "io/workshop/sheet_dxf.h"
#include "io/workshop/sheet_output.h"
#include "io/workshop/sheet_svg.h"

namespace tubewright {

std::optional<WriteFailure> write_cut_files(const Frame& frame, const CutList& list,
                                            const SheetBlanks& sheets,
                                            const std::string& directory) {
  const std::filesystem::path into = directory;
  if (auto failure = write_file_atomically(into / "cut_list.csv", cut_csv(frame, list)))
    return failure;
  for (const SheetBlank& blank : sheets.blanks) {
    const std::string name = drawing_name(blank);
    if (auto failure = write_file_atomically(into / (name + ".dxf"), sheet_dxf(frame, blank)))
      return failure;
    if (auto failure = write_file_atomically(into / (name + ".svg"), sheet_svg(frame, blank)))
      return failure;
  }
  return std::nullopt;
}

std::string cut_file_names(const SheetBlanks& sheets) {
  if (sheets.blanks.empty()) return "cut_list.csv";
  const std::string name = drawing_name(sheets.blanks.front());
  const std::size_t more = sheets.blanks.size() - 1;
  return "cut_list.csv, " + name + ".dxf and .svg" +
         (more > 0 ? " and those of " + std::to_string(more) + " more" : "");
}

}  // namespace tubewright
