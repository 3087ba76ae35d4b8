#include "viz/files/load_files.h"

#include <cctype>
#include <filesystem>
#include <system_error>
#include <vector>

#include "viz/files/attachment_bodies.h"
#include "viz/files/member_stations.h"
#include "viz/files/panel_quads.h"
#include "viz/files/pvd_index.h"
#include "viz/files/tube_lines.h"
#include "viz/files/tube_skin.h"
#include "viz/files/warp_scale.h"

namespace tubewright {

namespace {

/// Longer names are cut: file systems end at 255 bytes, and the number keeps files apart.
constexpr std::size_t longest_name_part = 100;

std::string file_stem(int step, const std::string& case_name) {
  std::string stem = step < 10 ? "loads_0" : "loads_";
  stem += std::to_string(step) + "_";
  for (const char c : case_name.substr(0, longest_name_part)) {
    const bool safe =
        std::isalnum(static_cast<unsigned char>(c)) || c == '_' || c == '-' || c == '.';
    stem += safe ? c : '_';
  }
  return stem;
}

/// Pictures of an earlier run would show what no longer holds.
void remove_pictures(const std::filesystem::path& folder, const std::string& stem) {
  std::error_code unimportant;
  for (const char* ending : {".png", ".glb"})
    std::filesystem::remove(folder / (stem + ending), unimportant);
}

using Failure = std::optional<WriteFailure>;

Failure write_all(const Analysis& analysis, const std::filesystem::path& folder) {
  std::vector<CaseDrawing> drawings;
  for (const CaseResult& result : analysis.cases)
    drawings.push_back(draw_case(analysis, result, static_cast<int>(drawings.size()) + 1));
  const double scale = suggested_warp_scale(drawings);
  std::string entries;
  for (const CaseDrawing& drawing : drawings) {
    const CaseResult& result = analysis.cases[static_cast<std::size_t>(drawing.step - 1)];
    const std::string stem = file_stem(drawing.step, drawing.name);
    const std::string lines = stem + "_tubes.vtp", skin = stem + "_skin.vtu";
    remove_pictures(folder, stem);
    if (auto failure = put_file(folder / lines, tube_lines_file(analysis.frame, drawing, scale)))
      return failure;
    if (auto failure = put_file(folder / skin, tube_skin_file(drawing, scale))) return failure;
    entries += index_entry(std::to_string(drawing.step), 0, lines) +
               index_entry(std::to_string(drawing.step), 1, skin);
    if (!result.panels.empty()) {
      const std::string panels = stem + "_panels.vtp";
      if (auto failure =
              put_file(folder / panels, panel_quads_file(analysis, result, drawing.step, scale)))
        return failure;
      entries += index_entry(std::to_string(drawing.step), 2, panels);
    }
    if (!drawing.arms.empty() || !analysis.frame.gussets.empty()) {
      const std::string bodies = stem + "_attachments.vtp";
      if (auto failure =
              put_file(folder / bodies, attachment_bodies_file(analysis, result, drawing, scale)))
        return failure;
      entries += index_entry(std::to_string(drawing.step), 3, bodies);
    }
  }
  return put_file(folder / "loads.pvd", index_file(entries));
}

}  // namespace

std::optional<WriteFailure> write_load_files(const Analysis& analysis,
                                             const std::string& directory) {
  return fill_directory(
      directory, [&](const std::filesystem::path& folder) { return write_all(analysis, folder); });
}

}  // namespace tubewright
