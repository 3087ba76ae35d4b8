#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <optional>
#include <string>
#include <system_error>
#include <variant>

#include "cases/analysis/analysis.h"
#include "cases/verdict/frame_studies.h"
#include "io/command/command_errors.h"
#include "io/command/command_frame.h"
#include "io/command/commands.h"
#include "io/command/progress.h"
#include "io/command/standard_streams.h"
#include "io/results/verdict_words.h"
#include "io/text/terminal.h"
#include "io/yaml/render_diagnostics.h"
#include "viz/files/draw_program.h"
#include "viz/files/load_files.h"

namespace tubewright {

namespace {

/// A directory of our own, gone with everything in it when this goes.
class TemporaryDirectory {
 public:
  TemporaryDirectory() {
    std::error_code error;
    std::filesystem::path place = std::filesystem::temp_directory_path(error);
    std::string name = (error ? std::filesystem::path("/tmp") : place) / "tubewright-XXXXXX";
    if (mkdtemp(name.data()) == nullptr)
      trouble_ = cannot_make_directory(place.string(), std::strerror(errno));
    else
      path_ = name;
  }
  TemporaryDirectory(const TemporaryDirectory&) = delete;
  TemporaryDirectory& operator=(const TemporaryDirectory&) = delete;
  ~TemporaryDirectory() {
    std::error_code unimportant;
    if (!path_.empty()) std::filesystem::remove_all(path_, unimportant);
  }

  const std::string& path() const { return path_; }
  const std::optional<Diagnostic>& trouble() const { return trouble_; }

 private:
  std::string path_;
  std::optional<Diagnostic> trouble_;
};

/// Interrupting ends the window, which is a program of its own; we then still tidy up.
std::optional<std::string> show(const std::string& directory, const ViewCommand& command) {
  const auto before = std::signal(SIGINT, SIG_IGN);
  const std::string colour = command.colour.empty() ? drawn_quantities.front() : command.colour;
  DrawProgram window(window_on(directory, command.first_case, colour, command.times));
  auto trouble = window.finish();
  std::signal(SIGINT, before);
  return trouble;
}

}  // namespace

int run_view(const ViewCommand& command) {
  std::optional<Progress> progress(std::in_place, progress_settings(command.quiet));
  progress->stage("reading the frame");
  const auto outcome = load_frame(command.frame, false);
  if (const int* code = outcome.error()) return *code;
  const auto& [file, frame, warnings] = *outcome;
  const auto wanted = command.first_case.empty() ? std::vector<std::string>{}
                                                 : std::vector<std::string>{command.first_case};
  if (Diagnostics faults = errors_of_choice(frame, wanted); !faults.empty()) {
    append(faults, warnings);
    return cannot_answer(faults, file, false);
  }
  ViewCommand shown = command;
  if (!wanted.empty()) {
    shown.first_case = std::find_if(frame.cases.begin(), frame.cases.end(), [&](const Case& c) {
                         return is_asked_for(c, wanted);
                       })->name;
  }
  progress->stage("solving and checking load cases");
  const auto solved = verdict_check(frame);
  if (const auto* diagnostics = solved.error()) {
    Diagnostics all = warnings;
    append(all, *diagnostics);
    return cannot_answer(all, file, false);
  }
  const FrameStudies& studies = *solved;
  const TemporaryDirectory directory;
  if (directory.trouble()) return cannot_answer(*directory.trouble(), false);
  if (const auto failure = write_load_files(studies.analysis, directory.path()))
    return cannot_answer(cannot_write(*failure), false);
  progress.reset();  // the window takes as long as it takes
  const Paint paint{colour_wanted(terminal_facts(STDOUT_FILENO))};
  const int code = print_results(verdict(studies, paint) + "\n", exit_code(studies));
  if (!command.quiet) print_warnings({warnings, studies.analysis.remarks}, file);
  if (const auto trouble = show(directory.path(), shown))
    return cannot_answer(no_window(*trouble), false);
  return code;
}

}  // namespace tubewright
