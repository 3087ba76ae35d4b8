#include "io/command/command_frame.h"

#include <algorithm>
#include <utility>

#include "cases/analysis/analysis.h"
#include "cases/frame/nearest_name.h"
#include "cases/lint/lint.h"
#include "cases/studies/torque_tube.h"
#include "io/command/standard_streams.h"
#include "io/frame_file/frame_source.h"
#include "io/frame_file/read_frame.h"
#include "io/options/command_line.h"
#include "io/results/json_parts.h"
#include "io/yaml/diagnostics.h"

namespace tubewright {

Problems faults_of_choice(const Frame& frame, const std::vector<std::string>& wanted_cases) {
  if (frame.cases.empty()) {
    return {{Severity::error,
             {},
             "the frame has no load cases and no vehicle, so there is nothing to check",
             "add `cases`, such as `standing: {kind: static, gravity: [0, 0, -1]}`"}};
  }
  std::vector<std::string> names;
  for (const Case& c : frame.cases) names.push_back(c.name);
  Problems faults;
  for (const std::string& wanted : wanted_cases) {
    if (std::find(names.begin(), names.end(), wanted) != names.end()) continue;
    std::string advice = did_you_mean(wanted, names);
    if (advice.empty()) {
      advice = "it has";
      for (const std::string& name : names) advice += " `" + name + "`";
    }
    faults.push_back({Severity::error, {}, "the frame has no case `" + wanted + "`", advice});
  }
  return faults;
}

int cannot_answer(const Problems& problems, const FrameText& file, bool json) {
  print_message(render(problems, file));
  return json ? print_results(error_json(problems, file.name), exit_cannot_answer)
              : exit_cannot_answer;
}

std::string cannot_write(const std::string& path, const std::string& reason) {
  return "cannot write " + path + ": " + reason;
}

std::string cannot_write(const WriteFailure& failure) {
  return cannot_write(failure.path.string(), failure.reason);
}

int cannot_answer(const std::string& message, bool json) {
  print_error(message);
  return json ? print_results(error_json({{Severity::error, {}, message, {}}}), exit_cannot_answer)
              : exit_cannot_answer;
}

std::variant<LoadedFrame, int> load_frame(const std::string& path, bool json) {
  std::variant<FrameText, ReadFailure> source = read_source(path);
  if (const auto* failure = std::get_if<ReadFailure>(&source)) {
    return cannot_answer("cannot read " + path + ": " + failure->reason, json);
  }
  LoadedFrame loaded{std::move(std::get<FrameText>(source)), {}, {}};
  FrameReading reading = read_frame(loaded.file);
  if (!reading.sound()) return cannot_answer(reading.problems, loaded.file, json);
  loaded.warnings = std::move(reading.problems);
  auto completed = with_load_cases(std::move(reading.frame));
  if (const auto* problems = std::get_if<Problems>(&completed)) {
    append(loaded.warnings, *problems);
    return cannot_answer(loaded.warnings, loaded.file, json);
  }
  loaded.frame = std::move(std::get<Frame>(completed));
  append(loaded.warnings, lint(loaded.frame));
  append(loaded.warnings, idle_panels(loaded.frame));
  return loaded;
}

}  // namespace tubewright
