#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <utility>
#include <variant>

#include "cases/analysis/analysis.h"
#include "cases/analysis/analysis_steps.h"
#include "cases/sheets/sheet_blanks.h"
#include "cases/studies/buckle_study.h"
#include "cases/studies/floor_study.h"
#include "cases/studies/frame_modes.h"
#include "cases/workshop/cut_list.h"
#include "io/command/command_frame.h"
#include "io/command/commands.h"
#include "io/command/progress.h"
#include "io/command/standard_streams.h"
#include "io/report/report_data.h"
#include "io/report/report_page.h"
#include "io/results/cautions.h"
#include "io/results/floor_output.h"
#include "io/results/results_json.h"
#include "io/results/stability_output.h"
#include "io/results/summary.h"
#include "io/results/torsion_output.h"
#include "io/text/terminal.h"
#include "io/text/write_file_atomically.h"
#include "io/workshop/cut_files.h"
#include "io/workshop/cut_output.h"
#include "io/yaml/diagnostics.h"
#include "viz/files/draw_program.h"
#include "viz/files/load_files.h"
#include "viz/files/mode_files.h"

namespace tubewright {

namespace {

/// Members beyond which studies take too long to be made unasked.
constexpr std::size_t large_frame = 2000;

enum class ModeFiles { written, left_out };

/// The animation of the lowest modes. Left out of very large frames, where `modes -o` makes it, and
/// where there are none (nothing has mass, a single bar between supports).
std::variant<ModeFiles, std::string> write_modes(const Frame& frame, const std::string& directory) {
  constexpr int drawn = 6;
  if (frame.members.size() > large_frame) return ModeFiles::left_out;
  const auto modes = frame_modes(frame, drawn);
  const auto* found = std::get_if<FrameModes>(&modes);
  if (found == nullptr || found->modes.empty()) return ModeFiles::left_out;
  if (const auto failure = write_mode_files(frame, *found, directory)) {
    return cannot_write(failure->path, failure->reason);
  }
  return ModeFiles::written;
}

/// Of a study's own JSON answer the part that the report shows, and its cautions.
nlohmann::ordered_json part_of(const std::string& answer, const char* key,
                               std::vector<std::string>& cautions) {
  const auto whole = nlohmann::ordered_json::parse(answer);
  for (const auto& line : whole.at("cautions")) {
    const auto text = line.get<std::string>();
    if (std::find(cautions.begin(), cautions.end(), text) == cautions.end()) {
      cautions.push_back(text);
    }
  }
  return whole.at(key);
}

/// The date of the report, UTC; SOURCE_DATE_EPOCH, where it is set, makes it the same every time.
std::string today() {
  std::time_t now = std::time(nullptr);
  if (const char* given = std::getenv("SOURCE_DATE_EPOCH")) now = std::strtoll(given, nullptr, 10);
  std::tm parts{};
  gmtime_r(&now, &parts);
  char text[32];
  std::strftime(text, sizeof text, "%Y-%m-%d", &parts);
  return text;
}

/// The report, with the studies that the frame has what it takes for. Of very large frames only the
/// checks.
std::string report(const Analysis& analysis, const CutList& list, const SheetBlanks& sheets,
                   const Problems& warnings, const FrameText& file) {
  const Frame& frame = analysis.frame;
  ReportSource source{analysis, warnings, file, today(), {}, {}, {}, {}, cautions()};
  if (frame.members.size() <= large_frame) {
    if (frame.torsion) {
      tell_stage("twisting the frame for the report");
      const auto torsion = torsion_answer(frame, false);
      if (const auto* answer = std::get_if<TorsionAnswer>(&torsion)) {
        source.torsion = part_of(torsion_json(*answer, {}), "torsion", source.cautions);
      }
    }
    if (frame.torsion && !frame.panels.empty()) {
      tell_stage("judging the floor for the report");
      const FloorOutcome floor = floor_study(frame);
      if (const auto* study = std::get_if<FloorStudy>(&floor)) {
        source.floor = part_of(floor_json(frame, *study, {}), "floor", source.cautions);
      }
    }
    source.cut = part_of(cut_json(frame, list, sheets, {}), "cut", source.cautions);
    constexpr int modes_shown = 10, factors_shown = 4;
    tell_stage("finding natural modes for the report");
    const auto modes = frame_modes(frame, modes_shown);
    if (const auto* found = std::get_if<FrameModes>(&modes)) {
      source.modes = part_of(modes_json(frame, *found, {}), "modes", source.cautions);
    }
    tell_stage("finding buckling factors for the report");
    const auto buckling = buckle_study(frame, {}, factors_shown);
    if (const auto* study = std::get_if<BuckleStudy>(&buckling)) {
      part_of(buckling_json(frame, *study, {}), "buckling", source.cautions);
      source.buckling = buckling_list(*study);
    }
  }
  tell_stage("writing the report");
  return report_page(report_data(source), frame, summary(analysis));
}

/// Everything into `directory`: what was written, or the reason why not, in words.
struct Written {
  std::string files;
  std::optional<std::string> failure = {};
  std::optional<std::string> no_pictures = {};  ///< why there are none
};

Written write_files(const Analysis& analysis, const Problems& warnings, const FrameText& file,
                    const std::string& directory, bool pictures) {
  tell_stage("writing 3D files");
  const std::filesystem::path results = std::filesystem::path(directory) / "results.json";
  if (const auto failure = make_directory(directory)) {
    return {"", cannot_write(failure->path.string(), failure->reason)};
  }
  if (const auto failure = write_load_files(analysis, directory)) {
    return {"", cannot_write(failure->path, failure->reason)};
  }
  std::optional<DrawProgram> drawing;  // while the rest is written
  if (pictures) drawing.emplace(pictures_of(directory));
  tell_stage("writing the cut list");
  const CutList list = cut_list(analysis.frame);
  const SheetBlanks sheets = sheet_blanks(analysis.frame);
  if (const auto failure = write_cut_files(analysis.frame, list, sheets, directory)) {
    return {"", cannot_write(failure->path.string(), failure->reason)};
  }
  tell_stage("finding and drawing natural modes");
  const auto modes = write_modes(analysis.frame, directory);
  if (const auto* failure = std::get_if<std::string>(&modes)) return {"", *failure};
  tell_stage("writing results");
  if (const auto failure = write_file_atomically(results, results_json(analysis, warnings))) {
    return {"", cannot_write(failure->path.string(), failure->reason)};
  }
  const std::filesystem::path page = std::filesystem::path(directory) / "report.html";
  if (const auto failure =
          write_file_atomically(page, report(analysis, list, sheets, warnings, file))) {
    return {"", cannot_write(failure->path.string(), failure->reason)};
  }
  const bool animated = std::get<ModeFiles>(modes) == ModeFiles::written;
  Written written{
      "report.html, results.json, " + cut_file_names(sheets) + ", " +
      (animated ? "loads.pvd and modes.pvd with their VTK files" : "loads.pvd with its VTK files")};
  if (!drawing) return written;
  tell_stage("drawing pictures");
  written.no_pictures = drawing->finish();
  if (!written.no_pictures) written.files += ", a .png and a .glb of each case";
  return written;
}

int answer(const CheckCommand& command, const Analysis& analysis, const Problems& warnings,
           const FrameText& file) {
  if (!command.quiet) {
    print_message(render(warnings, file));
    print_message(render(analysis.remarks, file));
  }
  if (!command.directory.empty()) {
    const Written written =
        write_files(analysis, warnings, file, command.directory, !command.no_pictures);
    if (written.failure) return cannot_answer(*written.failure, command.json);
    if (!command.quiet) {
      print_message("wrote " + written.files + " into " + command.directory + "\n");
      if (written.no_pictures) print_message("no pictures: " + *written.no_pictures + "\n");
    }
  }
  const int code = exit_code(analysis);
  if (command.json) return print_results(results_json(analysis, warnings), code);
  const Paint paint{colour_wanted(terminal_facts(STDOUT_FILENO))};
  return print_results(command.quiet ? verdict(analysis, paint) + "\n" : summary(analysis, paint),
                       code);
}

}  // namespace

int run_check(const CheckCommand& command) {
  Progress progress(progress_settings(command.quiet));
  progress.stage("reading the frame");
  const auto outcome = load_frame(command.frame, command.json);
  if (const int* code = std::get_if<int>(&outcome)) return *code;
  const auto& [file, frame, warnings] = std::get<LoadedFrame>(outcome);
  if (Problems faults = faults_of_choice(frame, command.cases); !faults.empty()) {
    append(faults, warnings);
    return cannot_answer(faults, file, command.json);
  }
  const bool verdict_only = command.quiet && !command.json && command.directory.empty();
  const AnalysisOptions options{command.second_order, command.large_displacement};
  const auto tell = [&progress](std::string_view step, std::size_t number, std::size_t count) {
    progress.stage(stage_of(step, number, count));
  };
  const AnalysisOutcome analysis = verdict_only && !frame.life
                                       ? analyse(frame, command.cases, options, tell)
                                       : full_check(frame, command.cases, options, tell);
  progress.stage("putting together the answer");
  if (const auto* problems = std::get_if<Problems>(&analysis)) {
    Problems all = warnings;
    append(all, *problems);
    return cannot_answer(all, file, command.json);
  }
  return answer(command, std::get<Analysis>(analysis), warnings, file);
}

}  // namespace tubewright
