#include "io/command/command_frame.h"

#include <algorithm>
#include <utility>

#include "cases/analysis/analysis.h"
#include "cases/frame/wording.h"
#include "cases/lint/lint.h"
#include "cases/rides/load_cases.h"
#include "cases/studies/torque_tube.h"
#include "io/command/command_errors.h"
#include "io/command/standard_streams.h"
#include "io/frame_file/frame_source.h"
#include "io/frame_file/read_frame.h"
#include "io/options/command_line.h"
#include "io/results/json_parts.h"
#include "io/yaml/render_diagnostics.h"

namespace tubewright {

Diagnostics errors_of_choice(const Frame& frame, const std::vector<std::string>& wanted_cases) {
  if (frame.cases.empty()) return Diagnostics{no_load_cases()};
  std::vector<std::string> names;
  for (const Case& c : frame.cases) {
    names.push_back(c.name);
    if (!c.part_of.empty()) names.push_back(c.part_of);
  }
  Diagnostics faults;
  for (const std::string& wanted : wanted_cases) {
    if (std::find(names.begin(), names.end(), wanted) != names.end()) continue;
    add_error(faults, {}, no_such_case(wanted, names));
  }
  return faults;
}

Diagnostics errors_of_section(const Frame& frame, const std::string& wanted) {
  if (wanted.empty()) return {};
  std::vector<std::string> names;
  for (const SectionEntry& s : frame.sections) names.push_back(s.name);
  if (std::find(names.begin(), names.end(), wanted) != names.end()) return {};
  Diagnostics faults;
  add_error(faults, {}, no_such_section(wanted, names));
  return faults;
}

int cannot_answer(const Diagnostics& diagnostics, const FrameText& file, bool json) {
  print_message(render(diagnostics, file));
  return json ? print_results(error_json(diagnostics, file.name), exit_cannot_answer)
              : exit_cannot_answer;
}

void print_warnings(std::initializer_list<Diagnostics> lists, const FrameText& file) {
  Diagnostics all;
  for (const Diagnostics& list : lists) append(all, list);
  print_message(render_by_kind(all, file));
}

Diagnostic cannot_write(const WriteFailure& failure) {
  return cannot_write(failure.path.string(), failure.reason);
}

int cannot_answer(const Diagnostic& trouble, bool json) {
  print_error(trouble);
  return json ? print_results(error_json(Diagnostics{trouble}), exit_cannot_answer)
              : exit_cannot_answer;
}

Outcome<LoadedFrame, NotLoaded> try_to_load(const std::string& path) {
  Outcome<FrameText, std::string> source = read_source(path);
  if (const auto* failure = source.error()) {
    return NotLoaded{{path, {}}, {}, cannot_read(path, *failure)};
  }
  LoadedFrame loaded{std::move(*source), {}, {}};
  FrameReading reading = read_frame(loaded.file);
  if (!reading.sound()) {
    return NotLoaded{std::move(loaded.file), std::move(reading.diagnostics), std::nullopt};
  }
  loaded.warnings = std::move(reading.diagnostics);
  auto completed = with_load_cases(std::move(reading.frame));
  if (const auto* diagnostics = completed.error()) {
    append(loaded.warnings, *diagnostics);
    return NotLoaded{std::move(loaded.file), std::move(loaded.warnings), std::nullopt};
  }
  loaded.frame = std::move(*completed);
  append(loaded.warnings, lint(loaded.frame));
  append(loaded.warnings, idle_panels(loaded.frame));
  return loaded;
}

Outcome<LoadedFrame, int> load_frame(const std::string& path, bool json) {
  auto outcome = try_to_load(path);
  if (const NotLoaded* why = outcome.error()) {
    if (why->unreadable) return cannot_answer(*why->unreadable, json);
    return cannot_answer(why->diagnostics, why->file, json);
  }
  return std::move(*outcome);
}

}  // namespace tubewright
