#include <unistd.h>

#include <filesystem>
#include <utility>
#include <vector>

#include "cases/variants/frame_comparison.h"
#include "io/command/command_frame.h"
#include "io/command/commands.h"
#include "io/command/progress.h"
#include "io/command/standard_streams.h"
#include "io/results/json_parts.h"
#include "io/text/terminal.h"
#include "io/text/write_file_atomically.h"
#include "io/variants/compare_output.h"
#include "io/variants/compare_page.h"
#include "io/yaml/render_diagnostics.h"

namespace tubewright {

namespace {

/// Says what is wrong with the files that could not be loaded, each with its name.
int cannot_compare(const std::vector<NotLoaded>& faulty, bool json) {
  std::vector<FaultsOfFile> files;
  for (const NotLoaded& why : faulty) {
    if (why.unreadable) {
      print_error(*why.unreadable);
      files.push_back({{*why.unreadable}, ""});
    } else {
      print_message(render(why.diagnostics, why.file));
      files.push_back({why.diagnostics, why.file.name});
    }
  }
  return json ? print_results(error_json(files), exit_cannot_answer) : exit_cannot_answer;
}

/// With the file's name, since places of two files would be taken for those of one.
Diagnostics warnings_with_file(const LoadedFrame& loaded) {
  Diagnostics warnings = loaded.warnings;
  for (Diagnostic& warning : warnings) {
    std::string place = loaded.file.name;
    if (warning.place.line > 0) place += ":" + std::to_string(warning.place.line);
    warning.message = place + ": " + warning.message;
    warning.place = {};
  }
  return warnings;
}

/// Neither frame has an answer.
bool both_without_answer(const Comparison& c) {
  return !c.result.sides[0].numbers && !c.result.sides[1].numbers;
}

}  // namespace

int run_compare(const CompareCommand& command) {
  Progress progress(progress_settings(command.quiet));
  progress.stage("reading the frames");
  std::vector<NotLoaded> faulty;
  std::vector<LoadedFrame> loaded;
  for (const std::string& path : command.frames) {
    auto outcome = try_to_load(path);
    if (NotLoaded* why = outcome.error()) {
      faulty.push_back(std::move(*why));
    } else {
      loaded.push_back(std::move(*outcome));
    }
  }
  if (!faulty.empty()) return cannot_compare(faulty, command.json);
  progress.stage("solving both frames");
  const Comparison c{{loaded[0].file.name, loaded[1].file.name},
                     {loaded[0].frame, loaded[1].frame},
                     compare_frames(loaded[0].frame, loaded[1].frame)};
  if (both_without_answer(c)) {
    for (const std::size_t i : {0U, 1U}) {
      faulty.push_back({loaded[i].file, c.result.sides[i].trouble, std::nullopt});
    }
    return cannot_compare(faulty, command.json);
  }
  if (!command.directory.empty()) {
    const std::filesystem::path folder(command.directory);
    auto failure = make_directory(folder);
    if (!failure) failure = write_file_atomically(folder / "compare.html", compare_page(c));
    if (failure) return cannot_answer(cannot_write(*failure), command.json);
    if (!command.quiet) print_message("wrote compare.html into " + command.directory + "\n");
  }
  Diagnostics warnings = warnings_with_file(loaded[0]);
  append(warnings, warnings_with_file(loaded[1]));
  const Paint paint{colour_wanted(terminal_facts(STDOUT_FILENO))};
  const int code = print_results(command.json    ? compare_json(c, warnings)
                                 : command.quiet ? compare_line(c)
                                                 : compare_text(c, paint),
                                 comparison_passes(c.result) ? 0 : 1);
  for (const LoadedFrame& frame : loaded) {
    if (!command.quiet) print_warnings({frame.warnings}, frame.file);
  }
  return code;
}

}  // namespace tubewright
