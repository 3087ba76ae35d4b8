#include "io/options/command_line.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <map>
#include <optional>

#include "io/options/command_table.h"
#include "io/options/help_text.h"
#include "io/options/usage_errors.h"
#include "io/text/version.h"

namespace tubewright {

namespace {

using Words = std::vector<std::string>;

const std::map<std::string, Study> studies = {
    {"twist", Study::twist}, {"floor", Study::floor},   {"bench-test", Study::bench_test},
    {"modes", Study::modes}, {"buckle", Study::buckle}, {"cut", Study::cut},
    {"rank", Study::rank},   {"break", Study::losses},  {"ride", Study::ride}};

bool contains(const Words& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

Words command_names() {
  Words names;
  for (const Command& command : command_table()) names.push_back(command.name);
  return names;
}

// One command's own options
// -------------------------

/// The words after a command, sorted by what they are.
struct Given {
  std::string operand;  ///< the first of them
  Words operands;
  std::map<std::string, Words> values;  ///< by the option's long name; of a flag one word a time

  bool has(const std::string& option) const { return values.contains(option); }
  Words all(const std::string& option) const { return has(option) ? values.at(option) : Words{}; }
  std::string value(const std::string& option) const {
    return has(option) ? values.at(option).back() : "";
  }
};

constexpr const char* operand_name = "operand";

std::string declared_names(const CommandOption& option) {
  return (option.letter.empty() ? "" : option.letter + ",") + option.name;
}

/// Nothing is marked as required and no value checked: the messages for that are ours.
void declare_options(CLI::App& app, const Command& command) {
  app.set_help_flag(declared_names(help_option()));
  if (command.operand != Operand::none) {
    CLI::Option* operand = app.add_option(operand_name);
    if (command.most_operands > 1) {
      operand->expected(1, CLI::detail::expected_max_vector_size)->allow_extra_args();
    }
  }
  for (const CommandOption& option : command.options) {
    if (option.value == OptionValue::none) {
      app.add_flag(declared_names(option));
      continue;
    }
    CLI::Option* declared = app.add_option(declared_names(option));
    if (option.repeats) declared->expected(1, CLI::detail::expected_max_vector_size);
    declared->allow_extra_args(false);
  }
}

Given given_words(const CLI::App& app, const Command& command) {
  Given given;
  if (command.operand != Operand::none) {
    given.operands = app.get_option(operand_name)->results();
    if (!given.operands.empty()) given.operand = given.operands.front();
  }
  for (const CommandOption& option : command.options) {
    const Words results = app.get_option(option.name)->results();
    if (!results.empty()) given.values[option.name] = results;
  }
  return given;
}

CheckCommand check_command(const Given& given) {
  CheckCommand command;
  command.frame = given.operand;
  command.directory = given.value("--output");
  command.cases = given.all("--case");
  command.second_order = given.has("--second-order");
  command.large_displacement = given.has("--large-displacement");
  command.no_pictures = given.has("--no-pictures");
  command.changes = given.has("--changes");
  command.json = given.has("--json");
  command.quiet = given.has("--quiet");
  return command;
}

StudyCommand study_command(Study study, const Given& given) {
  StudyCommand command;
  command.study = study;
  command.frame = given.operand;
  command.clamped = given.value("--hold") == "clamped";
  command.json = given.has("--json");
  command.quiet = given.has("--quiet");
  command.directory = given.value("--output");
  if (given.has("--count")) command.count = std::stoi(given.value("--count"));
  command.cases = given.all("--case");
  command.section = given.value("--diagonal");
  return command;
}

SizeCommand size_command(const Given& given) {
  SizeCommand command;
  command.frame = given.operand;
  command.file = given.value("--output");
  command.cheapest = given.has("--cheapest");
  command.fail_safe = given.has("--fail-safe");
  if (given.has("--seconds")) command.seconds = std::stod(given.value("--seconds"));
  command.json = given.has("--json");
  command.quiet = given.has("--quiet");
  return command;
}

ViewCommand view_command(const Given& given) {
  ViewCommand command;
  command.frame = given.operand;
  command.first_case = given.value("--case");
  command.colour = given.value("--colour");
  if (given.has("--times")) command.times = std::stod(given.value("--times"));
  command.quiet = given.has("--quiet");
  return command;
}

VaryCommand vary_command(const Given& given) {
  VaryCommand command;
  command.files = given.operands;
  command.sets = given.all("--set");
  command.shard = given.value("--shard");
  command.merge = given.has("--merge");
  command.directory = given.value("--output");
  command.json = given.has("--json");
  command.csv = given.has("--csv");
  command.quiet = given.has("--quiet");
  return command;
}

CompareCommand compare_command(const Given& given) {
  return {given.operands, given.value("--output"), given.has("--json"), given.has("--quiet")};
}

Words option_names(const Command& command) {
  Words names = names_of(help_option());
  for (const CommandOption& option : command.options) {
    for (const std::string& name : names_of(option)) names.push_back(name);
  }
  return names;
}

// What went wrong
// ---------------

UsageError unexpected(const Command& command, const std::string& word) {
  if (word.size() > 1 && word.starts_with('-')) {
    const std::string name = word.substr(0, word.find('='));
    return option_of_no_use(command.name, name, option_names(command));
  }
  return one_word_too_many(command.name, word);
}

/// The option that CLI11's message starts with: "--output: 1 required DIR missing".
std::string option_named_in(const CLI::ParseError& error) {
  const std::string text = error.what();
  return text.substr(0, text.find_first_of(": "));
}

UsageError misuse_of(const Command& command, const CLI::ParseError& error, const CLI::App& app) {
  if (dynamic_cast<const CLI::ExtrasError*>(&error)) {
    const Words extra = app.remaining();
    if (!extra.empty()) return unexpected(command, extra.front());
  }
  if (dynamic_cast<const CLI::ArgumentMismatch*>(&error)) {
    const std::string option = option_named_in(error);
    const CLI::Option* found = app.get_option_no_throw(option);
    if (found && found->count() > 1) return option_given_twice(command.name, option);
    return option_without_value(command.name, option);
  }
  return {error.what(), see_help(command.name)};
}

std::optional<UsageError> missing_operand(const Command& command, const Given& given) {
  if (!given.operand.empty()) return std::nullopt;
  switch (command.operand) {
    case Operand::none:
      return std::nullopt;
    case Operand::frame:
      return no_frame_file(command.name);
    case Operand::new_file:
      return no_new_file(command.name);
    case Operand::word:
      break;
  }
  return no_word(command.name, command.words);
}

std::optional<UsageError> wrong_value(const Command& command, const Given& given) {
  for (const CommandOption& option : command.options) {
    for (const std::string& value : given.all(option.name)) {
      if (option.value == OptionValue::none) continue;
      if (const auto fault = fault_of_value(option, value)) {
        return UsageError{*fault, option.value == OptionValue::directory  ? "try `-o results`"
                                  : option.value == OptionValue::new_file ? "try `-o lighter.yaml`"
                                                                          : see_help(command.name)};
      }
    }
  }
  return std::nullopt;
}

/// What does not go together in `vary`.
std::optional<UsageError> wrong_vary(const Given& given) {
  if (given.has("--json") && given.has("--csv")) return json_with_csv();
  if (given.has("--merge")) {
    for (const char* option : {"--set", "--shard"}) {
      if (given.has(option)) return merge_with(option);
    }
  } else if (given.operands.size() > 1) {
    return one_word_too_many("vary", given.operands[1]);
  }
  return std::nullopt;
}

std::optional<UsageError> wrong_compare(const Given& given) {
  if (given.operands.size() == 1) return one_frame_only("compare", given.operands.front());
  if (given.operands.size() > 2) return one_word_too_many("compare", given.operands[2]);
  if (given.operands[0] == "-" && given.operands[1] == "-") return standard_input_twice("compare");
  return std::nullopt;
}

std::optional<UsageError> wrong_words(const Command& command, const Given& given) {
  const bool lists_cases = given.has("--cases");  // `completion` then needs no shell
  if (!lists_cases) {
    if (auto usage_error = missing_operand(command, given)) return usage_error;
  } else if (!given.operand.empty()) {
    return cases_with_shell(command.name);
  }
  const Words& known = command.words;
  if (command.operand == Operand::word && !lists_cases && !contains(known, given.operand)) {
    return no_such_word(command.name, given.operand, known);
  }
  if (given.has("--second-order") && given.has("--large-displacement")) {
    return second_order_with_large_displacement();
  }
  if (command.name == "vary") {
    if (auto usage_error = wrong_vary(given)) return usage_error;
  }
  if (command.name == "compare") {
    if (auto usage_error = wrong_compare(given)) return usage_error;
  }
  return wrong_value(command, given);
}

CommandLine read_command(const Command& command, const Words& words) {
  CLI::App app;
  declare_options(app, command);
  try {
    app.parse(Words(words.rbegin(), words.rend()));  // CLI11 takes them from the back
  } catch (const CLI::CallForHelp&) {
    return Answer{command_help(command.name)};
  } catch (const CLI::ParseError& error) {
    return misuse_of(command, error, app);
  }
  const Given given = given_words(app, command);
  if (auto usage_error = wrong_words(command, given)) return *usage_error;
  if (command.name == "check") return check_command(given);
  if (const auto study = studies.find(command.name); study != studies.end()) {
    return study_command(study->second, given);
  }
  if (command.name == "size") return size_command(given);
  if (command.name == "view") return view_command(given);
  if (command.name == "vary") return vary_command(given);
  if (command.name == "compare") return compare_command(given);
  if (command.name == "start") return StartCommand{given.operand};
  if (command.name == "completion") return CompletionCommand{given.operand, given.value("--cases")};
  return SchemaCommand{};
}

// The program's own words
// -----------------------

bool looks_like_frame_file(const std::string& word) {
  return word == "-" || word.ends_with(".yaml") || word.ends_with(".yml");
}

UsageError not_a_command(const std::string& word) {
  if (looks_like_frame_file(word)) return no_command(word);
  if (word.starts_with('-')) {
    const std::string name = word.substr(0, word.find('='));
    for (const Command& command : command_table()) {
      if (command.operand != Operand::frame || !contains(option_names(command), name)) continue;
      return option_before_command(name, command.name);
    }
    Words known;
    for (const CommandOption& option : program_options()) known.push_back(option.name);
    return no_such_option(name, known);
  }
  return no_such_command(word, command_names());
}

CommandLine read_words(const Words& words) {
  if (words.empty()) return UsageError{"", short_usage()};
  const std::string& first = words.front();
  if (first == "--version") return Answer{"tubewright " + std::string(version()) + "\n"};
  if (first == "-h" || first == "--help") return Answer{program_help()};
  if (first == "help") {
    if (words.size() == 1) return Answer{program_help()};
    if (find_command(words[1]) != nullptr) return Answer{command_help(words[1])};
    return not_a_command(words[1]);
  }
  const Command* command = find_command(first);
  if (command == nullptr) return not_a_command(first);
  return read_command(*command, Words(words.begin() + 1, words.end()));
}

}  // namespace

CommandLine read_command_line(const Words& words) {
  CommandLine read = read_words(words);
  if (auto* usage_error = std::get_if<UsageError>(&read))
    usage_error->json = contains(words, "--json");
  return read;
}

}  // namespace tubewright
