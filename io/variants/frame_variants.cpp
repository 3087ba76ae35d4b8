#include "io/variants/frame_variants.h"

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <optional>
#include <set>
#include <utility>

#include "cases/analysis/analysis.h"
#include "cases/analysis/in_parallel.h"
#include "cases/frame/nearest_name.h"
#include "cases/rides/load_cases.h"
#include "io/frame_file/read_frame.h"
#include "io/variants/set_errors.h"

namespace tubewright {

namespace {

Diagnostics errors_of(const Diagnostics& diagnostics) {
  Diagnostics errors;
  std::copy_if(diagnostics.begin(), diagnostics.end(), std::back_inserter(errors),
               [](const Diagnostic& d) { return d.severity == Severity::error; });
  return errors;
}

/// False of what stands in for the target of a path that leads nowhere.
bool leads_somewhere(const YamlTarget& target) {
  return !target.steps.empty() || !target.new_key.empty();
}

/// One value of one variable.
struct Choice {
  std::size_t variable = 0;
  std::size_t value = 0;
};

Diagnostics errors_with(const FrameVariants& v, std::initializer_list<Choice> choices) {
  YamlNode root = v.root;
  for (const Choice& c : choices) {
    put(root, v.targets[c.variable], v.variables[c.variable].values[c.value]);
  }
  return errors_of(read_frame(root, v.folder).diagnostics);
}

std::set<std::string> messages_of(const Diagnostics& diagnostics) {
  std::set<std::string> messages;
  for (const Diagnostic& d : diagnostics) messages.insert(d.message);
  return messages;
}

bool any_among(const Diagnostics& diagnostics, const std::set<std::string>& messages) {
  return std::any_of(diagnostics.begin(), diagnostics.end(),
                     [&](const Diagnostic& d) { return messages.contains(d.message); });
}

/// What the reader has against a value whatever the other variables are. `choices`, `alone`: all
/// values of all variables, and what it has against each where nothing else is set.
Diagnostics faults_of(const FrameVariants& v, std::size_t choice,
                      const std::vector<Choice>& choices, const std::vector<Diagnostics>& alone) {
  Diagnostics errors = alone[choice];
  for (std::size_t c = 0; c < choices.size() && !errors.empty(); ++c) {
    if (choices[c].variable == choices[choice].variable) continue;
    const Diagnostics both = errors_with(v, {choices[choice], choices[c]});
    const std::set<std::string> messages = messages_of(both);
    // What is still wrong with the other hides what may be wrong with this.
    if (any_among(alone[c], messages)) continue;
    std::erase_if(errors, [&](const Diagnostic& e) { return !messages.contains(e.message); });
  }
  return errors;
}

std::string set_text(const VaryVariable& variable, std::size_t value) {
  return variable.path + "=" + variable.values[value].text;
}

/// Of a key that is not there, and that the reader does not know either: the name that was meant.
std::optional<Diagnostic> misspelt(const FrameVariants& v, std::size_t variable) {
  const YamlTarget& target = v.targets[variable];
  const std::vector<std::string> known = names_beside(v.root, target);
  if (nearest_name(target.new_key, known).empty()) return std::nullopt;
  const std::string& path = v.variables[variable].path;
  const std::size_t length = path.size() - std::min(path.size(), target.new_key.size() + 1);
  return no_such_part(path, target.new_key, path.substr(0, length), known);
}

/// Every value that no combination can have.
Diagnostics refused_values(const FrameVariants& v) {
  std::vector<Choice> choices;
  for (std::size_t i = 0; i < v.variables.size(); ++i) {
    for (std::size_t k = 0; leads_somewhere(v.targets[i]) && k < v.variables[i].values.size(); ++k)
      choices.push_back({i, k});
  }
  std::vector<Diagnostics> alone(choices.size()), faults(choices.size());
  in_parallel(choices.size(), [&](std::size_t c) { alone[c] = errors_with(v, {choices[c]}); });
  in_parallel(choices.size(), [&](std::size_t c) { faults[c] = faults_of(v, c, choices, alone); });
  Diagnostics all;
  std::set<std::size_t> told;  // variables whose key was misspelt: once is enough
  for (std::size_t c = 0; c < choices.size(); ++c) {
    const auto& [variable, value] = choices[c];
    if (faults[c].empty() || told.contains(variable)) continue;
    if (auto name = misspelt(v, variable)) {
      told.insert(variable);
      all.push_back(std::move(*name));
      continue;
    }
    for (Diagnostic& fault : faults[c]) {
      all.push_back(of_set(set_text(v.variables[variable], value), std::move(fault)));
    }
  }
  return all;
}

}  // namespace

Result<FrameVariants> frame_variants(const FrameText& file, std::vector<VaryVariable> variables) {
  Diagnostics faults;
  FrameVariants v;
  std::optional<YamlNode> root = parse_strict_yaml(file.text, faults);
  if (!root) return faults;
  v.root = std::move(*root);
  v.folder = std::filesystem::path(file.name).parent_path().string();
  v.variables = std::move(variables);
  for (const VaryVariable& variable : v.variables) {
    auto target = find_target(v.root, variable.path);
    if (const auto* errors = target.error()) {
      append(faults, *errors);
      v.targets.emplace_back();
      continue;
    }
    const auto same = std::find_if(v.targets.begin(), v.targets.end(), [&](const YamlTarget& t) {
      return leads_somewhere(t) && overlap(t, *target);
    });
    if (same == v.targets.end()) {
      v.targets.push_back(std::move(*target));
      continue;
    }
    const auto other = static_cast<std::size_t>(same - v.targets.begin());
    faults.push_back(set_twice(variable.path, v.variables[other].path));
    v.targets.emplace_back();
  }
  append(faults, refused_values(v));
  if (!faults.empty()) return faults;
  return v;
}

Result<Frame> variant_of(const FrameVariants& v, std::size_t combination) {
  YamlNode root = v.root;
  const std::vector<std::size_t> places = places_of_values(v.variables, combination);
  for (std::size_t i = 0; i < places.size(); ++i) {
    put(root, v.targets[i], v.variables[i].values[places[i]]);
  }
  FrameReading reading = read_frame(root, v.folder);
  if (!reading.sound()) return errors_of(reading.diagnostics);
  return with_load_cases(std::move(reading.frame));
}

std::string reason_of(const Diagnostics& diagnostics) {
  if (diagnostics.empty()) return "no reason is known";
  const std::size_t more = diagnostics.size() - 1;
  return diagnostics.front().message +
         (more == 0 ? "" : " (and " + std::to_string(more) + " more)");
}

}  // namespace tubewright
