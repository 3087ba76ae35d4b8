#include <unistd.h>

#include <filesystem>
#include <optional>
#include <system_error>

#include "cases/sizing/size_study.h"
#include "io/changes/resized_file.h"
#include "io/changes/size_output.h"
#include "io/command/command_errors.h"
#include "io/command/command_frame.h"
#include "io/command/commands.h"
#include "io/command/progress.h"
#include "io/command/standard_streams.h"
#include "io/text/terminal.h"
#include "io/text/write_file_atomically.h"

namespace tubewright {

namespace {

bool is_there(const std::filesystem::path& path) {
  std::error_code ignored;
  return std::filesystem::exists(std::filesystem::symlink_status(path, ignored));
}

/// Why the file could not be written, as `size` tells it.
Diagnostic not_written(const WriteFailure& failure) {
  return is_there(failure.path) ? cannot_write_anew("size", failure.path.string(), failure.reason)
                                : cannot_write(failure);
}

/// The exit code where the frame in its new sizes cannot be written.
std::optional<int> write_resized(const SizeCommand& command, const LoadedFrame& loaded,
                                 const SizeStudy& study) {
  const Frame resized = in_sizes(loaded.frame, study.groups, study.best->choice);
  const Result<std::string> text = resized_file(loaded.file, loaded.frame, resized);
  if (const auto* faults = text.error()) return cannot_answer(*faults, loaded.file, command.json);
  if (const auto failure = write_new(command.file, *text)) {
    return cannot_answer(not_written(*failure), command.json);
  }
  if (!command.quiet) {
    print_message("wrote " + command.file + "; next: tubewright check " + command.file + "\n");
  }
  return std::nullopt;
}

}  // namespace

int run_size(const SizeCommand& command) {
  Progress progress(progress_settings(command.quiet));
  progress.stage("reading the frame");
  const auto outcome = load_frame(command.frame, command.json);
  if (const int* code = outcome.error()) return *code;
  const LoadedFrame& loaded = *outcome;
  if (!command.file.empty() && is_there(command.file)) {  // told before the search, not after it
    const std::error_code exists = std::make_error_code(std::errc::file_exists);
    return cannot_answer(cannot_write_anew("size", command.file, exists.message()), command.json);
  }
  progress.stage("choosing sizes");
  SizeOptions options{command.cheapest, command.fail_safe};
  if (command.seconds) options.seconds = *command.seconds;
  const Result<SizeStudy> found = size_study(loaded.frame, options, tell_counted_stage);
  if (const auto* faults = found.error()) {
    Diagnostics all = loaded.warnings;
    append(all, *faults);
    return cannot_answer(all, loaded.file, command.json);
  }
  const SizeStudy& study = *found;
  if (!command.file.empty() && study.best) {
    if (const auto code = write_resized(command, loaded, study)) return *code;
  } else if (!command.file.empty() && !command.quiet) {
    print_message("wrote no " + command.file + ": no sizes that pass were found\n");
  }
  const Paint paint{colour_wanted(terminal_facts(STDOUT_FILENO))};
  const bool answered = size_passes(study) && study.proved;
  const int code = print_results(command.json    ? size_json(loaded.frame, study, loaded.warnings)
                                 : command.quiet ? size_line(loaded.frame, study)
                                                 : size_text(loaded.frame, study, paint),
                                 answered ? 0 : 1);
  if (!command.quiet) print_warnings({loaded.warnings}, loaded.file);
  return code;
}

}  // namespace tubewright
