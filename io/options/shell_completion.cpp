#include "io/options/shell_completion.h"

#include <algorithm>
#include <cassert>
#include <map>
#include <vector>

#include "io/options/command_table.h"
#include "io/options/completion_files.h"

namespace tubewright {

namespace {

using Words = std::vector<std::string>;

std::string joined(const Words& words, const std::string& between = " ") {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : between) + word;
  return text;
}

std::string replaced(std::string text, const std::string& what, const std::string& by) {
  for (std::size_t at = text.find(what); at != std::string::npos;
       at = text.find(what, at + by.size())) {
    text.replace(at, what.size(), by);
  }
  return text;
}

/// In single quotes, as bash, zsh and fish all read it.
std::string in_quotes(const std::string& text) { return "'" + replaced(text, "'", "'\\''") + "'"; }

// What all shells need of the table
// ---------------------------------

std::vector<CommandOption> options_of(const Command& command) {
  std::vector<CommandOption> options = command.options;
  options.push_back(help_option());
  return options;
}

Words long_names(const std::vector<CommandOption>& options) {
  Words names;
  for (const CommandOption& option : options) names.push_back(option.name);
  return names;
}

bool takes_value(const CommandOption& option) { return option.value != OptionValue::none; }
bool may_repeat(const CommandOption& option) { return option.repeats; }

/// Names of the wanted options, whichever command they belong to, each once.
Words names_among_all(bool (*wanted)(const CommandOption&)) {
  Words names;
  for (const Command& command : command_table()) {
    for (const CommandOption& option : command.options) {
      if (!wanted(option)) continue;
      for (const std::string& name : names_of(option)) {
        if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
      }
    }
  }
  return names;
}

Words commands_with(Operand operand) {
  Words names;
  for (const Command& command : command_table()) {
    if (command.operand == operand) names.push_back(command.name);
  }
  return names;
}

// bash
// ----

std::string bash_value(const CommandOption& option) {
  switch (option.value) {
    case OptionValue::directory:
    case OptionValue::new_file:
      return "_tubewright_directories; ";
    case OptionValue::frame:
      return "_tubewright_frames; ";
    case OptionValue::load_case:
      return "_tubewright_cases; ";
    case OptionValue::word:
      return "_tubewright_words " + in_quotes(joined(option.words)) + "; ";
    case OptionValue::none:
    case OptionValue::count:
    case OptionValue::number:
    case OptionValue::text:
      break;
  }
  return "";
}

std::string bash_operand(const Command& command) {
  switch (command.operand) {
    case Operand::frame:
      return "_tubewright_frames";
    case Operand::new_file:
      return "_tubewright_directories";
    case Operand::word:
      return "_tubewright_words " + in_quotes(joined(command.words));
    case Operand::none:
      break;
  }
  return "";
}

/// One branch for each option with a value; it ends the completion.
std::string bash_values() {
  std::string text;
  for (const Command& command : command_table()) {
    for (const CommandOption& option : command.options) {
      if (!takes_value(option)) continue;
      text += "    " + in_quotes(command.name + " " + option.name) + ") " + bash_value(option) +
              "return ;;\n";
    }
  }
  return text;
}

/// One branch for each letter, which means the same in every command.
std::string bash_long_names() {
  std::map<std::string, std::string> long_name;
  for (const Command& command : command_table()) {
    for (const CommandOption& option : options_of(command)) {
      if (!option.letter.empty()) long_name[option.letter] = option.name;
    }
  }
  std::string text;
  for (const auto& [letter, name] : long_name) {
    text += joined({"       ", letter + ")", "word=" + name, ";;\n"});
  }
  return text;
}

/// One branch for each command: its options after a dash or once it has its operand.
std::string bash_arguments() {
  std::string text;
  for (const Command& command : command_table()) {
    const bool alone = command.operand == Operand::none, many = command.most_operands > 1;
    text += "    " + command.name + ")\n      if [[ ";
    text += alone  ? "$current == -*"
            : many ? "-z $only_operands && $current == -*"
                   : "-z $only_operands && ($current == -* || -n $operand)";
    text += " ]]; then\n        _tubewright_options " +
            in_quotes(joined(long_names(options_of(command)))) + "\n";
    if (!alone) {
      text += (many ? std::string("      else\n        ")
                    : std::string("      elif [[ -z $operand ]]; then\n        ")) +
              bash_operand(command) + "\n";
    }
    text += "      fi\n      ;;\n";
  }
  return text;
}

std::string bash_completion() {
  Words commands;
  for (const Command& command : command_table()) commands.push_back(command.name);
  std::string script = completion_files::bash;
  script = replaced(script, "@PROGRAM_OPTIONS@", joined(long_names(program_options())));
  script = replaced(script, "@COMMANDS@", joined(commands));
  script = replaced(script, "@LONG_NAMES@", bash_long_names());
  script = replaced(script, "@REPEATED@", joined(names_among_all(may_repeat)));
  script = replaced(script, "@VALUED@", joined(names_among_all(takes_value)));
  script = replaced(script, "@VALUES@", bash_values());
  return replaced(script, "@ARGUMENTS@", bash_arguments());
}

// zsh
// ---

std::string zsh_value(const CommandOption& option) {
  switch (option.value) {
    case OptionValue::directory:
      return ":directory:_directories";
    case OptionValue::new_file:
      return ":new file:_directories";
    case OptionValue::frame:
      return ":frame file:_tubewright_frames";
    case OptionValue::load_case:
      return ":load case:_tubewright_cases";
    case OptionValue::word:
      return ":" + option.name.substr(2) + ":(" + joined(option.words) + ")";
    case OptionValue::count:
    case OptionValue::number:
      return ":number: ";
    case OptionValue::text:
      return ":" + option.name.substr(2) + ": ";
    case OptionValue::none:
      break;
  }
  return "";
}

/// A line for _arguments. A name that ends in = takes its value after that or as the next word, one
/// that ends in + at once or as the next word.
std::string zsh_option(const CommandOption& option) {
  const bool valued = takes_value(option);
  const std::string help = replaced(replaced(option.help, "[", "\\["), "]", "\\]");
  const std::string rest = in_quotes("[" + help + "]" + zsh_value(option));
  const std::string name = option.name + (valued ? "=" : "");
  if (option.letter.empty()) return (option.repeats ? "'*'" : "") + name + rest;
  const std::string before =
      option.repeats ? "'*'" : in_quotes("(" + option.letter + " " + option.name + ")");
  return before + "{" + option.letter + (valued ? "+" : "") + "," + name + "}" + rest;
}

std::string zsh_operand(const Command& command) {
  switch (command.operand) {
    case Operand::frame:
      return in_quotes(std::string(command.most_operands > 1 ? "*" : "1") +
                       ":frame file:_tubewright_frames");
    case Operand::new_file:
      return "'1:new file:_directories'";
    case Operand::word:
      return in_quotes("1:" + command.shown + ":(" + joined(command.words) + ")");
    case Operand::none:
      break;
  }
  return "";
}

std::string zsh_arguments() {
  std::string text;
  for (const Command& command : command_table()) {
    Words lines;
    for (const CommandOption& option : options_of(command)) lines.push_back(zsh_option(option));
    if (command.operand != Operand::none) lines.push_back(zsh_operand(command));
    text += "        " + command.name + ")\n          _arguments -S \\\n            " +
            joined(lines, " \\\n            ") + " && ret=0\n          ;;\n";
  }
  return text;
}

std::string zsh_completion() {
  std::string commands, options;
  for (const Command& command : command_table()) {
    commands += "    " + in_quotes(command.name + ":" + command.help) + "\n";
  }
  for (const CommandOption& option : program_options()) {
    options += "    " + zsh_option(option) + " \\\n";
  }
  std::string script = replaced(completion_files::zsh, "@COMMANDS@", commands);
  script = replaced(script, "@VALUED@", joined(names_among_all(takes_value)));
  script = replaced(script, "@PROGRAM_OPTIONS@", options);
  return replaced(script, "@ARGUMENTS@", zsh_arguments());
}

// fish
// ----

std::string fish_value(const CommandOption& option) {
  switch (option.value) {
    case OptionValue::directory:
    case OptionValue::new_file:
      return " -x -a '(__fish_complete_directories)'";
    case OptionValue::frame:
      return " -x -a '(__tubewright_frames)'";
    case OptionValue::load_case:
      return " -x -a '(__tubewright_cases)'";
    case OptionValue::word:
      return " -x -a " + in_quotes(joined(option.words));
    case OptionValue::count:
    case OptionValue::number:
    case OptionValue::text:
      return " -x";
    case OptionValue::none:
      break;
  }
  return "";
}

std::string fish_line(const std::string& condition, const std::string& what,
                      const std::string& help = {}) {
  return "complete -c tubewright -n " + in_quotes(condition) + what +
         (help.empty() ? "" : " -d " + in_quotes(help)) + "\n";
}

std::string fish_option(const std::string& condition, const CommandOption& option) {
  const std::string letter = option.letter.empty() ? "" : " -s " + option.letter.substr(1);
  return fish_line(condition, letter + " -l " + option.name.substr(2) + fish_value(option),
                   option.help);
}

std::string fish_completion() {
  std::string script =
      replaced(completion_files::fish, "@VALUED@", joined(names_among_all(takes_value)));
  for (const CommandOption& option : program_options()) {
    script += fish_option("__tubewright_no_command", option);
  }
  for (const Command& command : command_table()) {
    script += fish_line("__tubewright_no_command", " -a " + command.name, command.help);
  }
  const std::string needs = "__tubewright_needs_operand ";
  script += fish_line(needs + joined(commands_with(Operand::frame)), " -a '(__tubewright_frames)'");
  script += fish_line(needs + joined(commands_with(Operand::new_file)),
                      " -a '(__fish_complete_directories)'");
  for (const Command& command : command_table()) {
    if (command.most_operands > 1) {
      script += fish_line("__tubewright_command " + command.name, " -a '(__tubewright_frames)'");
    }
    if (command.operand == Operand::word) {
      script += fish_line(needs + command.name, " -a " + in_quotes(joined(command.words)));
    }
    for (const CommandOption& option : options_of(command)) {
      script += fish_option("__tubewright_command " + command.name, option);
    }
  }
  return script;
}

}  // namespace

std::string completion_script(const std::string& shell) {
  if (shell == "bash") return bash_completion();
  if (shell == "zsh") return zsh_completion();
  assert(shell == "fish");
  return fish_completion();
}

}  // namespace tubewright
