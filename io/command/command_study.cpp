#include <unistd.h>

#include <filesystem>
#include <optional>

#include "cases/changes/loss_study.h"
#include "cases/changes/rank_study.h"
#include "cases/rides/ride_study.h"
#include "cases/rides/ride_verdict.h"
#include "cases/sheets/sheet_blanks.h"
#include "cases/studies/bench_study.h"
#include "cases/studies/buckle_study.h"
#include "cases/studies/floor_study.h"
#include "cases/studies/frame_modes.h"
#include "cases/studies/torsion_study.h"
#include "cases/workshop/cut_list.h"
#include "io/changes/loss_output.h"
#include "io/changes/rank_output.h"
#include "io/command/command_errors.h"
#include "io/command/command_frame.h"
#include "io/command/commands.h"
#include "io/command/progress.h"
#include "io/command/report_date.h"
#include "io/command/standard_streams.h"
#include "io/report/report_data.h"
#include "io/report/report_page.h"
#include "io/results/bench_output.h"
#include "io/results/floor_output.h"
#include "io/results/stability_output.h"
#include "io/results/torsion_output.h"
#include "io/rides/ride_files.h"
#include "io/rides/ride_output.h"
#include "io/text/terminal.h"
#include "io/workshop/cut_files.h"
#include "io/workshop/cut_output.h"
#include "io/yaml/render_diagnostics.h"
#include "viz/files/draw_program.h"
#include "viz/files/load_files.h"
#include "viz/files/mode_files.h"
#include "viz/rides/film_files.h"

namespace tubewright {

namespace {

/// An answer in all its forms.
struct StudyAnswer {
  std::string text, json, line;
  bool passes = true;
  Diagnostics remarks = {};  ///< for the terminal, beside the frame's own warnings
  std::string written = {};  ///< files, for the message that tells of them
};

/// Why there is no answer: the frame, or a file that could not be written.
struct NoAnswer {
  NoAnswer(Diagnostics why) : diagnostics(std::move(why)) {}
  NoAnswer(const WriteFailure& failure) : not_written(cannot_write(failure)) {}

  Diagnostics diagnostics;
  std::optional<Diagnostic> not_written;
};

struct Answered : Outcome<StudyAnswer, NoAnswer> {
  using Outcome::Outcome;
  Answered(Diagnostics why) : Outcome(NoAnswer(std::move(why))) {}
  Answered(const WriteFailure& why) : Outcome(NoAnswer(why)) {}
};

Answered twist(const LoadedFrame& loaded, bool clamped, const Diagnostics& warnings, Paint paint) {
  const Frame& frame = loaded.frame;
  if (!frame.torsion) return no_torsion_test(frame);
  auto outcome = torsion_study(frame, clamped ? TorsionHold::clamped : TorsionHold::free);
  if (auto* diagnostics = outcome.error()) return std::move(*diagnostics);
  const TorsionStudy& study = *outcome;
  return StudyAnswer{torsion_text(frame, study, paint), torsion_json(frame, study, warnings),
                     torsion_line(frame, study), torsion_passes(frame, study)};
}

Answered floor(const LoadedFrame& loaded, const Diagnostics& warnings, Paint paint) {
  const Frame& frame = loaded.frame;
  Diagnostics missing;
  if (frame.panels.empty()) missing.push_back(no_panels());
  if (!frame.torsion) append(missing, no_torsion_test(frame));
  if (!missing.empty()) return missing;
  Result<FloorStudy> outcome = floor_study(frame);
  if (const auto* diagnostics = outcome.error()) return *diagnostics;
  const auto& study = *outcome;
  return StudyAnswer{floor_text(frame, study, paint), floor_json(frame, study, warnings),
                     study.verdict.sentence + "\n", floor_passes(frame, study)};
}

Answered bench_test(const LoadedFrame& loaded, const Diagnostics& warnings, Paint paint) {
  const Frame& frame = loaded.frame;
  Diagnostics missing;
  if (!frame.bench_test) {
    missing.push_back(no_bench_test());
  } else if (frame.supports.empty() && !frame.torsion) {
    missing.push_back(nothing_on_the_bench());
  }
  if (!missing.empty()) return missing;
  Result<BenchStudy> outcome = bench_study(frame);
  if (const auto* diagnostics = outcome.error()) return *diagnostics;
  const auto& study = *outcome;
  return StudyAnswer{bench_text(frame, study, paint), bench_json(frame, study, warnings),
                     bench_lines(study), true};
}

Answered modes(const StudyCommand& command, const LoadedFrame& loaded, const Diagnostics& warnings,
               Paint paint) {
  constexpr int usual_count = 10;
  auto outcome = frame_modes(loaded.frame, command.count.value_or(usual_count));
  if (const auto* diagnostics = outcome.error()) return *diagnostics;
  const auto& found = *outcome;
  if (!command.directory.empty()) {
    tell_stage("writing 3D files");
    if (const auto failure = write_mode_files(loaded.frame, found, command.directory)) {
      return *failure;
    }
  }
  return StudyAnswer{modes_text(loaded.frame, found, paint),
                     modes_json(loaded.frame, found, warnings),
                     modes_lines(found),
                     modes_pass(loaded.frame, found),
                     {},
                     "modes.pvd with its VTK files"};
}

Answered buckle(const StudyCommand& command, const LoadedFrame& loaded, const Diagnostics& warnings,
                Paint paint) {
  constexpr int usual_count = 4;
  if (Diagnostics faults = errors_of_choice(loaded.frame, command.cases); !faults.empty())
    return faults;
  auto outcome = buckle_study(loaded.frame, command.cases, command.count.value_or(usual_count));
  if (const auto* diagnostics = outcome.error()) return *diagnostics;
  const auto& study = *outcome;
  Diagnostics all = warnings;
  append(all, study.remarks);
  return StudyAnswer{buckling_text(loaded.frame, study, paint),
                     buckling_json(loaded.frame, study, all), buckling_lines(study),
                     buckling_passes(study)};
}

Answered cut(const StudyCommand& command, const LoadedFrame& loaded, const Diagnostics& warnings,
             Paint paint) {
  const Frame& frame = loaded.frame;
  const CutList list = cut_list(frame);
  const SheetBlanks sheets = sheet_blanks(frame);
  if (!command.directory.empty()) {
    auto failure = make_directory(command.directory);
    if (!failure) failure = write_cut_files(frame, list, sheets, command.directory);
    if (failure) return *failure;
  }
  Diagnostics remarks = list.remarks;
  append(remarks, sheets.remarks);
  return StudyAnswer{cut_text(frame, list, sheets, paint),
                     cut_json(frame, list, sheets, warnings),
                     cut_line(list),
                     true,
                     std::move(remarks),
                     cut_file_names(sheets)};
}

Answered rank(const StudyCommand& command, const LoadedFrame& loaded, const Diagnostics& warnings,
              Paint paint) {
  const Frame& frame = loaded.frame;
  if (Diagnostics faults = errors_of_section(frame, command.section); !faults.empty())
    return faults;
  const auto outcome = rank_study(frame, command.section, tell_counted_stage);
  if (const auto* diagnostics = outcome.error()) return *diagnostics;
  const RankStudy& study = *outcome;
  return StudyAnswer{rank_text(frame, study, paint), rank_json(frame, study, warnings),
                     best_sentence(frame, study) + "\n", study.whole.passes};
}

Answered losses(const LoadedFrame& loaded, const Diagnostics& warnings, Paint paint) {
  Result<LossStudy> outcome = loss_study(loaded.frame, tell_counted_stage);
  if (const auto* diagnostics = outcome.error()) return *diagnostics;
  const auto& study = *outcome;
  return StudyAnswer{loss_text(loaded.frame, study, paint),
                     loss_json(loaded.frame, study, warnings), loss_sentence(study) + "\n",
                     losses_pass(study)};
}

/// The worst instant of each ride as VTK files, drawn while the report of all is written. Takes the
/// instants out of the rides. `no_pictures`: why there are none.
std::optional<WriteFailure> write_ride_report(RideStudy& study, const LoadedFrame& loaded,
                                              const Diagnostics& warnings,
                                              const std::filesystem::path& folder,
                                              std::optional<std::string>& no_pictures) {
  const FrameStudies instants = take_instants(study);
  if (auto failure = write_load_files(worst_instants(instants.analysis, study), folder.string())) {
    return failure;
  }
  DrawProgram drawing(pictures_of(folder.string()));
  const auto data =
      report_data({instants, warnings, loaded.file, report_date(), nullptr, nullptr, &study});
  auto failure = write_file_atomically(folder / "report.html",
                                       report_page(data, loaded.frame, ride_text(study, Paint{})));
  tell_stage("drawing pictures");
  no_pictures = drawing.finish();
  return failure;
}

Answered rides(const StudyCommand& command, const LoadedFrame& loaded, const Diagnostics& warnings,
               Paint paint) {
  const Films films = command.directory.empty() ? Films::none : Films::taken;
  Result<RideStudy> outcome = ride_study(loaded.frame, tell_counted_stage, films);
  if (const auto* diagnostics = outcome.error()) return *diagnostics;
  RideStudy& study = *outcome;
  std::string json = ride_json(study, warnings);
  std::optional<std::string> no_pictures;
  if (!command.directory.empty()) {
    auto failure = make_directory(command.directory);
    if (!failure) failure = write_ride_files(study, json, command.directory);
    if (!failure) failure = write_film_files(study, command.directory);
    if (!failure) {
      failure = write_ride_report(study, loaded, warnings, command.directory, no_pictures);
    }
    if (failure) return *failure;
  }
  return StudyAnswer{
      ride_text(study, paint),
      std::move(json),
      ride_lines(study),
      rides_pass(study),
      {},
      "report.html, rides.json, the wheel forces, of each ride a .pvd and of their worst instants "
      "loads.pvd with the VTK files" +
          (no_pictures ? " (no pictures: " + *no_pictures + ")"
                       : std::string(", and a .png and a .glb of each"))};
}

const char* stage_of(Study study) {
  switch (study) {
    case Study::twist:
      return "twisting the frame";
    case Study::floor:
      return "solving the frame with its sheet, without, and with tubes instead";
    case Study::modes:
      return "finding natural modes";
    case Study::buckle:
      return "finding buckling factors";
    case Study::cut:
      return "laying pieces out on bars";
    case Study::rank:
      return "changing one tube at a time";
    case Study::losses:
      return "taking away one part at a time";
    case Study::ride:
      return "driving the vehicle";
    case Study::bench_test:
      break;
  }
  return "solving the bench test";
}

Answered answer(const StudyCommand& command, const LoadedFrame& loaded, const Diagnostics& warnings,
                Paint paint) {
  switch (command.study) {
    case Study::twist:
      return twist(loaded, command.clamped, warnings, paint);
    case Study::floor:
      return floor(loaded, warnings, paint);
    case Study::modes:
      return modes(command, loaded, warnings, paint);
    case Study::buckle:
      return buckle(command, loaded, warnings, paint);
    case Study::cut:
      return cut(command, loaded, warnings, paint);
    case Study::rank:
      return rank(command, loaded, warnings, paint);
    case Study::losses:
      return losses(loaded, warnings, paint);
    case Study::ride:
      return rides(command, loaded, warnings, paint);
    case Study::bench_test:
      break;
  }
  return bench_test(loaded, warnings, paint);
}

}  // namespace

int run_study(const StudyCommand& command) {
  Progress progress(progress_settings(command.quiet));
  progress.stage("reading the frame");
  const auto outcome = load_frame(command.frame, command.json);
  if (const int* code = outcome.error()) return *code;
  const auto& loaded = *outcome;
  progress.stage(stage_of(command.study));
  Diagnostics warnings = loaded.warnings;
  const Paint paint{colour_wanted(terminal_facts(STDOUT_FILENO))};
  const Answered found = answer(command, loaded, warnings, paint);
  if (const NoAnswer* why = found.error()) {
    if (why->not_written) return cannot_answer(*why->not_written, command.json);
    append(warnings, why->diagnostics);
    return cannot_answer(warnings, loaded.file, command.json);
  }
  const auto& [text, json, line, passes, remarks, written] = *found;
  if (!command.quiet && !command.directory.empty()) {
    print_message("wrote " + written + " into " + command.directory + "\n");
  }
  const int code = print_results(command.json ? json : command.quiet ? line : text, passes ? 0 : 1);
  if (!command.quiet) print_warnings({warnings, remarks}, loaded.file);
  return code;
}

}  // namespace tubewright
