#include <filesystem>
#include <string>
#include <system_error>
#include <utility>

#include "cases/analysis/analysis.h"
#include "cases/rides/load_cases.h"
#include "io/command/commands.h"
#include "io/command/standard_streams.h"
#include "io/frame_file/frame_source.h"
#include "io/frame_file/read_frame.h"
#include "io/options/shell_completion.h"

namespace tubewright {

namespace {

/// Of a name that YAML took from quotation marks the shell would not know where it ends.
bool is_plain_name(const std::string& name) {
  return !name.empty() &&
         name.find_first_not_of(
             "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-.") ==
             std::string::npos;
}

/// One a line, also of a frame that is being written and has faults. Whoever presses the completion
/// key wants no messages: where nothing can be read there is nothing to offer. A pipe would be used
/// up by looking into it, so only files are read.
std::string names_of_cases(const std::string& path) {
  std::error_code error;
  if (!std::filesystem::is_regular_file(path, error)) return "";
  const auto source = read_source(path);
  const auto* file = source.get();
  if (file == nullptr) return "";
  FrameReading reading = read_frame(*file);
  Frame frame = std::move(reading.frame);
  if (reading.sound()) {
    auto completed = with_load_cases(frame);
    if (auto* with_standard_cases = completed.get()) {
      frame = std::move(*with_standard_cases);
    }
  }
  std::string names;
  for (const Case& c : frame.cases) {
    if (is_plain_name(c.name)) names += c.name + "\n";
  }
  return names;
}

}  // namespace

int run_completion(const CompletionCommand& command) {
  if (!command.frame.empty()) return print_results(names_of_cases(command.frame), 0);
  return print_results(completion_script(command.shell), 0);
}

}  // namespace tubewright
