#include <unistd.h>

#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "cases/variants/vary_study.h"
#include "io/command/command_errors.h"
#include "io/command/command_frame.h"
#include "io/command/commands.h"
#include "io/command/progress.h"
#include "io/command/standard_streams.h"
#include "io/frame_file/frame_source.h"
#include "io/results/json_parts.h"
#include "io/text/terminal.h"
#include "io/text/write_file_atomically.h"
#include "io/variants/frame_variants.h"
#include "io/variants/set_errors.h"
#include "io/variants/set_option.h"
#include "io/variants/vary_json.h"
#include "io/variants/vary_output.h"
#include "io/variants/vary_svg.h"
#include "io/variants/vary_table.h"
#include "io/variants/yaml_path.h"
#include "io/yaml/strict_yaml.h"

namespace tubewright {

namespace {

constexpr std::size_t most_combinations = 100'000;  // of one run: minutes, and a table of 20 MB

constexpr std::size_t most_bytes_of_a_part = std::size_t{1} << 30U;

/// Faults of the command line's values: each an error of its own.
int cannot_vary(const Diagnostics& faults, bool json) {
  for (const Diagnostic& fault : faults) print_error(fault);
  return json ? print_results(error_json(faults), exit_cannot_answer) : exit_cannot_answer;
}

std::string example_in(const FrameText& file) {
  Diagnostics none;  // the file has been read without a fault
  const auto root = parse_strict_yaml(file.text, none);
  return root ? example_path(*root) : std::string();
}

struct Question {
  std::vector<VaryVariable> variables;
  std::optional<Shard> shard;
};

/// As far as it can be read; `faults`: the rest.
Question question_of(const VaryCommand& command, Diagnostics& faults) {
  Question question;
  for (const std::string& set : command.sets) {
    auto variable = read_set(set);
    if (const auto* errors = variable.error()) {
      append(faults, *errors);
    } else {
      question.variables.push_back(std::move(*variable));
    }
  }
  if (!command.shard.empty()) {
    const auto shard = read_shard(command.shard);
    if (const auto* errors = shard.error()) {
      append(faults, *errors);
    } else {
      question.shard = *shard;
    }
  }
  return question;
}

/// Faults of all the values together; false if there are too many even to look at each.
bool check_size(const Question& question, Diagnostics& faults) {
  const std::size_t all = combinations_of(question.variables);
  if (share_of(question.shard.value_or(Shard()), all) <= most_combinations) return true;
  const std::size_t shards = all / most_combinations + (all % most_combinations == 0 ? 0 : 1);
  faults.push_back(
      too_many_combinations(all, most_combinations, shards > most_shards ? 0 : shards));
  return false;
}

Result<VaryTable> solved(const VaryCommand& command, const LoadedFrame& loaded,
                         Progress& progress) {
  progress.stage("reading what is set");
  Diagnostics faults;
  Question question = question_of(command, faults);
  if (command.sets.empty()) faults.push_back(nothing_to_vary(example_in(loaded.file)));
  if (!check_size(question, faults)) return faults;
  const auto variants = frame_variants(loaded.file, question.variables);
  if (const auto* errors = variants.error()) append(faults, *errors);
  if (!faults.empty()) return faults;
  const auto combinations =
      combinations_in(question.shard.value_or(Shard()), combinations_of(question.variables));
  const auto answers = vary_study(
      combinations, [&](std::size_t k) { return variant_of(*variants, k); }, tell_counted_stage);
  VaryTable table;
  table.title = loaded.frame.title;
  table.fingerprint = fingerprint_of(loaded.file.text);
  table.variables = std::move(question.variables);
  table.shard = question.shard;
  table.warnings = loaded.warnings;
  for (std::size_t i = 0; i < combinations.size(); ++i) {
    table.rows.push_back(vary_row(combinations[i], answers[i]));
  }
  judge(table);
  return table;
}

/// What was written, or why not.
Outcome<std::string, WriteFailure> write_vary_files(const VaryTable& table,
                                                    const std::string& directory) {
  const std::filesystem::path folder(directory);
  if (auto failure = make_directory(folder)) return *failure;
  std::string name = "vary";
  if (table.shard) {
    name += "_" + std::to_string(table.shard->index) + "_of_" + std::to_string(table.shard->count);
  }
  std::vector<std::pair<std::string, std::string>> files = {{name + ".csv", vary_csv(table)},
                                                            {name + ".json", vary_json(table)}};
  // A part of the points would be no picture of the whole.
  if (!table.shard) files.emplace_back(name + ".svg", vary_svg(table));
  std::string written;
  for (const auto& [file, content] : files) {
    if (auto failure = write_file_atomically(folder / file, content)) return *failure;
    written += (written.empty() ? "" : ", ") + file;
  }
  return written;
}

int write_answer(const VaryCommand& command, const VaryTable& table) {
  if (!command.directory.empty()) {
    const auto written = write_vary_files(table, command.directory);
    if (const auto* failure = written.error()) {
      return cannot_answer(cannot_write(*failure), command.json);
    }
    if (!command.quiet) print_message("wrote " + *written + " into " + command.directory + "\n");
  }
  const Paint paint{colour_wanted(terminal_facts(STDOUT_FILENO))};
  return print_results(command.json    ? vary_json(table)
                       : command.csv   ? vary_csv(table)
                       : command.quiet ? vary_line(table)
                                       : vary_text(table, paint),
                       vary_passes(table) ? 0 : 1);
}

int merge(const VaryCommand& command) {
  Diagnostics faults;
  std::vector<VaryFile> files;
  for (const std::string& path : command.files) {
    auto source = read_source(path, most_bytes_of_a_part);
    if (const auto* reason = source.error()) {
      faults.push_back(cannot_read(path, *reason));
    } else {
      files.push_back({path, std::move(source->text)});
    }
  }
  if (!faults.empty()) return cannot_vary(faults, command.json);
  const auto table = merged_tables(files);
  if (const auto* errors = table.error()) return cannot_vary(*errors, command.json);
  return write_answer(command, *table);
}

}  // namespace

int run_vary(const VaryCommand& command) {
  Progress progress(progress_settings(command.quiet));
  if (command.merge) {
    progress.stage("putting answers together");
    return merge(command);
  }
  progress.stage("reading the frame");
  const auto outcome = load_frame(command.files.front(), command.json);
  if (const int* code = outcome.error()) return *code;
  const auto table = solved(command, *outcome, progress);
  if (const auto* faults = table.error()) return cannot_vary(*faults, command.json);
  const int code = write_answer(command, *table);
  if (!command.quiet) print_warnings({outcome->warnings}, outcome->file);
  return code;
}

}  // namespace tubewright
