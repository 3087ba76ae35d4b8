#include <unistd.h>

#include <filesystem>
#include <optional>
#include <string>
#include <variant>

#include "cases/changes/loss_study.h"
#include "cases/changes/rank_study.h"
#include "cases/verdict/frame_studies.h"
#include "io/command/command_frame.h"
#include "io/command/commands.h"
#include "io/command/progress.h"
#include "io/command/report_date.h"
#include "io/command/standard_streams.h"
#include "io/report/report_data.h"
#include "io/report/report_page.h"
#include "io/results/results_json.h"
#include "io/results/verdict_words.h"
#include "io/summary/summary.h"
#include "io/text/terminal.h"
#include "io/text/write_file_atomically.h"
#include "io/workshop/cut_files.h"
#include "io/yaml/render_diagnostics.h"
#include "viz/files/draw_program.h"
#include "viz/files/load_files.h"
#include "viz/files/mode_files.h"

namespace tubewright {

namespace {

/// Everything into `directory`: what was written, or why not.
struct Written {
  std::string files;
  std::optional<Diagnostic> failure = {};
  std::optional<std::string> no_pictures = {};  ///< why there are none
};

/// The animation of the lowest modes; whether there is one. There is none of very large frames,
/// where `modes -o` makes it, and where nothing has mass.
Outcome<bool, WriteFailure> write_modes(const FrameStudies& studies, const std::string& directory) {
  constexpr int drawn = 6;
  if (!studies.modes || studies.modes->modes.empty()) return false;
  if (const auto failure =
          write_mode_files(studies.analysis.frame, *studies.modes, directory, drawn)) {
    return *failure;
  }
  return true;
}

/// What changes are worth and what must hold, as far as it could be found.
struct Changes {
  std::optional<RankStudy> rank;
  std::optional<LossStudy> losses;
};

Changes find_changes(const Frame& frame) {
  Changes changes;
  auto rank = rank_study(frame, {}, tell_counted_stage);
  if (auto* found = rank.get()) changes.rank = std::move(*found);
  auto losses = loss_study(frame, tell_counted_stage);
  if (auto* found = losses.get()) changes.losses = std::move(*found);
  return changes;
}

Written write_files(FrameStudies& studies, const Diagnostics& warnings, const FrameText& file,
                    const std::string& directory, bool pictures, bool changes, Progress& progress) {
  const std::filesystem::path folder(directory);
  const Frame& frame = studies.analysis.frame;
  progress.stage("writing 3D files");
  if (const auto failure = make_directory(directory)) return {"", cannot_write(*failure)};
  if (const auto failure = write_load_files(studies.analysis, directory)) {
    return {"", cannot_write(*failure)};
  }
  std::optional<DrawProgram> drawing;  // while the rest is found and written
  if (pictures) drawing.emplace(pictures_of(directory));
  complete_studies(studies, tell_counted_stage);
  progress.stage("writing results");
  if (const auto failure = write_cut_files(frame, *studies.cut, *studies.sheets, directory)) {
    return {"", cannot_write(*failure)};
  }
  const auto modes = write_modes(studies, directory);
  if (const auto* failure = modes.error()) {
    return {"", cannot_write(*failure)};
  }
  if (const auto failure =
          write_file_atomically(folder / "results.json", results_json(studies, warnings))) {
    return {"", cannot_write(*failure)};
  }
  std::optional<Changes> changed;
  if (changes) changed = find_changes(frame);
  progress.stage("writing the report");
  const auto data = report_data({studies, warnings, file, report_date(),
                                 changed && changed->rank ? &*changed->rank : nullptr,
                                 changed && changed->losses ? &*changed->losses : nullptr});
  if (const auto failure = write_file_atomically(folder / "report.html",
                                                 report_page(data, frame, summary(studies)))) {
    return {"", cannot_write(*failure)};
  }
  Written written{
      "report.html, results.json, " + cut_file_names(*studies.sheets) + ", " +
      (*modes ? "loads.pvd and modes.pvd with their VTK files" : "loads.pvd with its VTK files")};
  if (!drawing) return written;
  progress.stage("drawing pictures");
  written.no_pictures = drawing->finish();
  if (!written.no_pictures) written.files += ", a .png and a .glb of each case";
  return written;
}

int answer(const CheckCommand& command, FrameStudies& studies, const Diagnostics& warnings,
           const FrameText& file, Progress& progress) {
  if (!command.directory.empty()) {
    const Written written = write_files(studies, warnings, file, command.directory,
                                        !command.no_pictures, command.changes, progress);
    if (written.failure) return cannot_answer(*written.failure, command.json);
    if (!command.quiet) {
      print_message("wrote " + written.files + " into " + command.directory + "\n");
      if (written.no_pictures) print_message("no pictures: " + *written.no_pictures + "\n");
    }
  }
  const Paint paint{colour_wanted(terminal_facts(STDOUT_FILENO))};
  const int code = print_results(command.json    ? results_json(studies, warnings)
                                 : command.quiet ? verdict(studies, paint) + "\n"
                                                 : summary(studies, paint),
                                 exit_code(studies));
  if (!command.quiet) print_warnings({warnings, studies.analysis.remarks}, file);
  return code;
}

}  // namespace

int run_check(const CheckCommand& command) {
  Progress progress(progress_settings(command.quiet));
  progress.stage("reading the frame");
  const auto outcome = load_frame(command.frame, command.json);
  if (const int* code = outcome.error()) return *code;
  const auto& [file, frame, warnings] = *outcome;
  if (Diagnostics faults = errors_of_choice(frame, command.cases); !faults.empty()) {
    append(faults, warnings);
    return cannot_answer(faults, file, command.json);
  }
  const AnalysisOptions options{command.second_order, command.large_displacement, {}};
  const bool verdict_only = command.quiet && !command.json && command.directory.empty();
  auto checked = verdict_only ? verdict_check(frame, command.cases, options, tell_counted_stage)
                              : full_check(frame, command.cases, options, tell_counted_stage);
  progress.stage("putting together the answer");
  if (const auto* diagnostics = checked.error()) {
    Diagnostics all = warnings;
    append(all, *diagnostics);
    return cannot_answer(all, file, command.json);
  }
  return answer(command, *checked, warnings, file, progress);
}

}  // namespace tubewright
