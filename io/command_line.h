// What the user asked for on the command line, or what to tell them instead.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace tubewright {

constexpr int exit_cannot_answer = 2;

/// tubewright check FRAME.yaml [-o DIR] [--json] [--case NAME]... [-q]
struct CheckCommand {
  std::string frame;               ///< `-` = standard input
  std::string directory;           ///< empty: no files
  std::vector<std::string> cases;  ///< empty: all
  bool second_order = false;
  bool large_displacement = false;
  bool json = false;
  bool quiet = false;
};

/// A question about the frame as a whole.
enum class Study { twist, floor, bench_test, modes, buckle, cut };

/// tubewright twist|floor|bench-test|modes|buckle|cut FRAME.yaml [--json] [-q]
struct StudyCommand {
  Study study = Study::twist;
  std::string frame;     ///< `-` = standard input
  bool clamped = false;  ///< twist only: --hold clamped
  bool json = false;
  bool quiet = false;
  std::string directory;           ///< modes, cut; empty: no files
  std::optional<int> count;        ///< modes, buckle: -n
  std::vector<std::string> cases;  ///< buckle only; empty: all
};

/// tubewright start FILE.yaml
struct StartCommand {
  std::string file;  ///< `-` = standard output
};

/// tubewright schema
struct SchemaCommand {};

/// Help or the version, asked for.
struct Answer {
  std::string text;
};

/// A command line that cannot be followed.
struct Misuse {
  std::string message;  ///< lower case, no full stop; empty where no words were given at all
  std::string advice;   ///< what to type instead; to no words at all, the short usage page
  bool json = false;    ///< `--json` was among the words: the answer is wanted in JSON
};

using CommandLine =
    std::variant<CheckCommand, StudyCommand, StartCommand, SchemaCommand, Answer, Misuse>;

/// `words`: the arguments after the program's name.
CommandLine read_command_line(const std::vector<std::string>& words);

}  // namespace tubewright
