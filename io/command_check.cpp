#include <unistd.h>

#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <variant>

#include "cases/analysis.h"
#include "io/command_frame.h"
#include "io/commands.h"
#include "io/diagnostics.h"
#include "io/results_json.h"
#include "io/standard_streams.h"
#include "io/summary.h"
#include "io/terminal.h"
#include "io/write_aside.h"
#include "viz/load_files.h"

namespace tubewright {

namespace {

/// Everything into `directory`; the reason in words if that cannot be done.
std::optional<std::string> write_files(const Analysis& analysis, const Problems& warnings,
                                       const std::string& directory) {
  const auto words = [](const std::string& path, const std::string& reason) {
    return "cannot write " + path + ": " + reason;
  };
  const std::filesystem::path results = std::filesystem::path(directory) / "results.json";
  if (const auto failure = make_directory(directory)) {
    return words(failure->path.string(), failure->reason);
  }
  if (const auto failure = write_load_files(analysis, directory)) {
    return words(failure->path, failure->reason);
  }
  if (const auto failure = write_aside(results, results_json(analysis, warnings))) {
    return words(failure->path.string(), failure->reason);
  }
  return std::nullopt;
}

int answer(const CheckCommand& command, const Analysis& analysis, const Problems& warnings,
           const FrameText& file) {
  if (!command.quiet) {
    print_message(render(warnings, file));
    print_message(render(analysis.remarks, file));
  }
  if (!command.directory.empty()) {
    if (const auto failure = write_files(analysis, warnings, command.directory)) {
      return cannot_answer(*failure, command.json);
    }
    if (!command.quiet) {
      print_message("wrote results.json and loads.pvd with its VTK files into " +
                    command.directory + "\n");
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
  const auto outcome = load_frame(command.frame, command.json);
  if (const int* code = std::get_if<int>(&outcome)) return *code;
  const auto& [file, frame, warnings] = std::get<LoadedFrame>(outcome);
  if (Problems faults = faults_of_choice(frame, command.cases); !faults.empty()) {
    append(faults, warnings);
    return cannot_answer(faults, file, command.json);
  }
  const AnalysisOutcome analysis = analyse(frame, command.cases);
  if (const auto* problems = std::get_if<Problems>(&analysis)) {
    Problems all = warnings;
    append(all, *problems);
    return cannot_answer(all, file, command.json);
  }
  return answer(command, std::get<Analysis>(analysis), warnings, file);
}

}  // namespace tubewright
