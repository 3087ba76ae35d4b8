// The commands and their options: one table that the command line, its hints, shell completion and
// the manual page share. The help pages are written by hand and held against it by a test.
//
// To add an option: a row here, its line in the help page, a line where command_line.cpp fills the
// command's struct. To add a command: the same, and its branch in main.cpp.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace tubewright {

/// What stands after an option's name.
enum class OptionValue {
  none,       ///< nothing: a flag
  directory,  ///< a directory, which need not exist
  new_file,   ///< a file to write
  frame,      ///< a frame file
  load_case,  ///< the name of a load case of the frame
  word,       ///< one of `words`
  count,      ///< a whole number from `least` to `most`
  number,     ///< a finite number from `least` to `most`
  text        ///< anything; who uses it says what is wrong with it
};

struct CommandOption {
  std::string name;    ///< "--output"
  std::string letter;  ///< "-o", "" = none
  std::string shown;   ///< how the help writes its value, "DIR"; "" for a flag
  std::string help;    ///< lower case, no full stop, on one line
  OptionValue value = OptionValue::none;
  bool repeats = false;  ///< may be given several times, each with a value
  std::vector<std::string> words = {};
  double least = 0;
  double most = 0;
};

/// The word without a dash that a command takes.
enum class Operand {
  none,
  frame,     ///< a frame file, or `-` for standard input
  new_file,  ///< a file to write, or `-` for standard output
  word       ///< one of `words`
};

struct Command {
  std::string name;
  Operand operand = Operand::none;
  std::string shown;                   ///< how the help writes the operand, "FRAME.yaml"
  std::string help;                    ///< lower case, no full stop, on one line
  std::vector<CommandOption> options;  ///< `--help`, which every command has, left out
  std::vector<std::string> words = {};
  int most_operands = 1;
};

/// In the order of the help.
const std::vector<Command>& command_table();

/// nullptr if there is none of that name.
const Command* find_command(const std::string& name);

/// `--help`, which every command and the program itself take.
const CommandOption& help_option();

/// The program's own options, `--help` and `--version`.
const std::vector<CommandOption>& program_options();

/// Long name, then the letter if there is one.
std::vector<std::string> names_of(const CommandOption& option);

/// "-o, --output DIR", as the help writes it.
std::string spelt(const CommandOption& option);

/// What is wrong with `text` as a value of the option, in words; nothing if it can be one.
std::optional<std::string> fault_of_value(const CommandOption& option, const std::string& text);

}  // namespace tubewright
