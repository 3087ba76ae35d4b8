#include "io/command_line.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <map>
#include <memory>
#include <optional>
#include <utility>

#include "cases/nearest_name.h"
#include "io/help_text.h"
#include "io/version.h"

namespace tubewright {

namespace {

using Words = std::vector<std::string>;

const Words commands = {"check", "twist",      "floor", "modes", "buckle",
                        "cut",   "bench-test", "start", "schema"};
const Words later_commands = {"rank", "size"};
const std::map<std::string, Study> studies = {
    {"twist", Study::twist}, {"floor", Study::floor},   {"bench-test", Study::bench_test},
    {"modes", Study::modes}, {"buckle", Study::buckle}, {"cut", Study::cut}};

bool contains(const Words& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

// One command's own options
// -------------------------

struct Parsed {
  CheckCommand check;
  StudyCommand study;
  StartCommand start;
};

/// The frame or file is not marked as required: the message for a missing one is ours.
void declare_options(CLI::App& app, const std::string& command, Parsed& parsed) {
  app.set_help_flag("-h,--help");
  if (command == "check") {
    app.add_option("FRAME.yaml", parsed.check.frame);
    app.add_option("-o,--output", parsed.check.directory)->type_name("DIR");
    app.add_option("--case", parsed.check.cases)->type_name("NAME")->allow_extra_args(false);
    app.add_flag("--second-order", parsed.check.second_order);
    app.add_flag("--large-displacement", parsed.check.large_displacement);
    app.add_flag("--json", parsed.check.json);
    app.add_flag("-q,--quiet", parsed.check.quiet);
  } else if (command == "start") {
    app.add_option("FILE.yaml", parsed.start.file);
  } else if (const auto study = studies.find(command); study != studies.end()) {
    parsed.study.study = study->second;
    app.add_option("FRAME.yaml", parsed.study.frame);
    app.add_flag("--json", parsed.study.json);
    app.add_flag("-q,--quiet", parsed.study.quiet);
    if (study->second == Study::modes || study->second == Study::buckle) {
      app.add_option("-n,--count", parsed.study.count)->check(CLI::Range(1, 200))->type_name("N");
    }
    if (study->second == Study::modes || study->second == Study::cut) {
      app.add_option("-o,--output", parsed.study.directory)->type_name("DIR");
    }
    if (study->second == Study::buckle) {
      app.add_option("--case", parsed.study.cases)->type_name("NAME")->allow_extra_args(false);
    }
    if (study->second == Study::twist) {
      const std::map<std::string, bool> holds = {{"free", false}, {"clamped", true}};
      app.add_option_function<std::string>("--hold",
                                           [&parsed, holds](const std::string& word) {
                                             const auto hold = holds.find(word);
                                             if (hold == holds.end())
                                               throw CLI::ValidationError("--hold",
                                                                          "`" + word + "`");
                                             parsed.study.clamped = hold->second;
                                           })
          ->type_name("free|clamped");
    }
  }
}

Words option_names(const CLI::App& app) {
  Words names;
  for (const CLI::Option* option : app.get_options()) {
    for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
    for (const std::string& name : option->get_snames()) names.push_back("-" + name);
  }
  return names;
}

// What went wrong
// ---------------

std::string see_help(const std::string& command) {
  return "see `tubewright" + (command.empty() ? "" : " " + command) + " --help`";
}

std::string or_else(const std::string& advice, const std::string& otherwise) {
  return advice.empty() ? otherwise : advice;
}

Misuse unexpected(const std::string& command, const std::string& word, const CLI::App& app) {
  if (word.size() > 1 && word.starts_with('-')) {
    const std::string name = word.substr(0, word.find('='));
    return {"`" + command + "` has no option `" + name + "`",
            or_else(did_you_mean(name, option_names(app)), see_help(command))};
  }
  return {"`" + word + "` is one word too many for `" + command + "`", see_help(command)};
}

/// The option that CLI11's message starts with: "--output: 1 required DIR missing".
std::string option_named_in(const CLI::ParseError& error) {
  const std::string text = error.what();
  return text.substr(0, text.find_first_of(": "));
}

Misuse misuse_of(const std::string& command, const CLI::ParseError& error, const CLI::App& app) {
  if (dynamic_cast<const CLI::ExtrasError*>(&error)) {
    const Words extra = app.remaining();
    if (!extra.empty()) return unexpected(command, extra.front(), app);
  }
  const std::string option = option_named_in(error);
  if (dynamic_cast<const CLI::ArgumentMismatch*>(&error)) {
    const CLI::Option* found = app.get_option_no_throw(option);
    if (found && found->count() > 1) {
      return {"`" + option + "` is given more than once", see_help(command)};
    }
    return {"`" + option + "` needs a value after it", see_help(command)};
  }
  if (option == "--count" || option == "-n") {
    return {"`-n` takes a number from 1 to 200", see_help(command)};
  }
  if (dynamic_cast<const CLI::ValidationError*>(&error)) {
    return {"`--hold` is `free` or `clamped`", see_help(command)};
  }
  return {error.what(), see_help(command)};
}

std::optional<Misuse> missing_or_empty(const std::string& command, const CLI::App& app,
                                       const Parsed& parsed) {
  const std::string& frame = studies.contains(command) ? parsed.study.frame : parsed.check.frame;
  if ((command == "check" || studies.contains(command)) && frame.empty()) {
    return Misuse{"`" + command + "` needs a frame file",
                  "try `tubewright " + command + " frame.yaml`"};
  }
  if (command == "start" && parsed.start.file.empty()) {
    return Misuse{"`start` needs the name of the file to write",
                  "try `tubewright start frame.yaml`"};
  }
  if (parsed.check.second_order && parsed.check.large_displacement) {
    return Misuse{"`--second-order` and `--large-displacement` exclude each other",
                  "large displacements hold what second order counts, and more"};
  }
  const bool names_directory = command == "check" || command == "modes" || command == "cut";
  const std::string& directory =
      command == "check" ? parsed.check.directory : parsed.study.directory;
  if (names_directory && app.count("--output") > 0 && directory.empty()) {
    return Misuse{"`--output` needs the name of a directory", "try `-o results`"};
  }
  return std::nullopt;
}

CommandLine read_command(const std::string& command, const Words& words) {
  CLI::App app;
  Parsed parsed;
  declare_options(app, command, parsed);
  try {
    app.parse(Words(words.rbegin(), words.rend()));  // CLI11 takes them from the back
  } catch (const CLI::CallForHelp&) {
    return Answer{command_help(command)};
  } catch (const CLI::ParseError& error) {
    return misuse_of(command, error, app);
  }
  if (auto misuse = missing_or_empty(command, app, parsed)) return *misuse;
  if (command == "check") return parsed.check;
  if (studies.contains(command)) return parsed.study;
  if (command == "start") return parsed.start;
  return SchemaCommand{};
}

// The program's own words
// -----------------------

bool looks_like_frame_file(const std::string& word) {
  return word == "-" || word.ends_with(".yaml") || word.ends_with(".yml");
}

Misuse not_a_command(const std::string& word) {
  if (contains(later_commands, word)) {
    return {"this version does not have `" + word + "` yet",
            "see `tubewright --help` for those it has"};
  }
  if (looks_like_frame_file(word)) {
    return {"no command given", "to check this frame: `tubewright check " + word + "`"};
  }
  if (word.starts_with('-')) {
    Words known = {"--help", "--version"};
    const std::map<std::string, std::string> command_of = {
        {"--json", "check"},         {"--output", "check"}, {"-o", "check"}, {"--case", "check"},
        {"--second-order", "check"}, {"--quiet", "check"},  {"-q", "check"}, {"--hold", "twist"},
        {"--count", "modes"},        {"-n", "modes"}};
    const std::string name = word.substr(0, word.find('='));
    if (const auto found = command_of.find(name); found != command_of.end()) {
      return {"`" + name + "` stands before the command",
              "options come after it: `tubewright " + found->second + " frame.yaml " + name + "`"};
    }
    return {"there is no option `" + name + "`", or_else(did_you_mean(name, known), see_help(""))};
  }
  return {"there is no command `" + word + "`",
          or_else(did_you_mean(word, commands), see_help(""))};
}

CommandLine read_words(const Words& words) {
  if (words.empty()) return Misuse{"", short_usage()};
  const std::string& first = words.front();
  if (first == "--version") return Answer{"tubewright " + std::string(version()) + "\n"};
  if (first == "-h" || first == "--help") return Answer{program_help()};
  if (first == "help") {
    if (words.size() == 1) return Answer{program_help()};
    if (contains(commands, words[1])) return Answer{command_help(words[1])};
    return not_a_command(words[1]);
  }
  if (!contains(commands, first)) return not_a_command(first);
  return read_command(first, Words(words.begin() + 1, words.end()));
}

}  // namespace

CommandLine read_command_line(const Words& words) {
  CommandLine read = read_words(words);
  if (auto* misuse = std::get_if<Misuse>(&read)) misuse->json = contains(words, "--json");
  return read;
}

}  // namespace tubewright
