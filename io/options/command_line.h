// What the user asked for on the command line, or what to tell them instead.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace tubewright {

constexpr int exit_cannot_answer = 2;

/// tubewright check FRAME.yaml [-o DIR] [--json] [--case NAME]... [--no-pictures]
///     [--changes] [-q]
struct CheckCommand {
  std::string frame;               ///< `-` = standard input
  std::string directory;           ///< empty: no files
  std::vector<std::string> cases;  ///< empty: all
  bool second_order = false;
  bool large_displacement = false;
  bool no_pictures = false;
  bool changes = false;
  bool json = false;
  bool quiet = false;

  bool operator==(const CheckCommand&) const = default;
};

/// A question about the frame as a whole.
enum class Study { twist, floor, bench_test, modes, buckle, cut, rank, losses, ride };

/// tubewright twist|floor|bench-test|modes|buckle|cut|rank|break|ride FRAME.yaml [--json] [-q]
struct StudyCommand {
  Study study = Study::twist;
  std::string frame;     ///< `-` = standard input
  bool clamped = false;  ///< twist only: --hold clamped
  bool json = false;
  bool quiet = false;
  std::string directory;           ///< modes, cut, ride; empty: no files
  std::optional<int> count;        ///< modes, buckle: -n
  std::vector<std::string> cases;  ///< buckle only; empty: all
  std::string section;             ///< rank only: of diagonals; empty: the lightest tube

  bool operator==(const StudyCommand&) const = default;
};

/// tubewright size FRAME.yaml [-o FILE] [--cheapest] [--fail-safe] [--seconds N] [--json] [-q]
struct SizeCommand {
  std::string frame;  ///< `-` = standard input
  std::string file;   ///< to write; empty: none
  bool cheapest = false;
  bool fail_safe = false;
  std::optional<double> seconds;
  bool json = false;
  bool quiet = false;

  bool operator==(const SizeCommand&) const = default;
};

/// tubewright view FRAME.yaml [--case NAME] [--colour QUANTITY] [--times N] [-q]
struct ViewCommand {
  std::string frame;            ///< `-` = standard input
  std::string first_case;       ///< empty: the first
  std::string colour;           ///< empty: by stress
  std::optional<double> times;  ///< that the deflection is drawn
  bool quiet = false;

  bool operator==(const ViewCommand&) const = default;
};

/// tubewright vary FRAME.yaml --set PATH=VALUES... [--shard I/N] [-o DIR] [--json] [--csv] [-q]
/// tubewright vary --merge FILE.json... [-o DIR] [--json] [--csv] [-q]
struct VaryCommand {
  std::vector<std::string> files;  ///< the frame file, `-` = standard input; or what is merged
  std::vector<std::string> sets;   ///< as typed, as is `shard`
  std::string shard;               ///< empty: all
  bool merge = false;
  std::string directory;  ///< empty: no files
  bool json = false;
  bool csv = false;
  bool quiet = false;

  bool operator==(const VaryCommand&) const = default;
};

/// tubewright compare A.yaml B.yaml [-o DIR] [--json] [-q]
struct CompareCommand {
  std::vector<std::string> frames;  ///< two; one may be `-`, standard input
  std::string directory;            ///< empty: no files
  bool json = false;
  bool quiet = false;

  bool operator==(const CompareCommand&) const = default;
};

/// tubewright start FILE.yaml
struct StartCommand {
  std::string file;  ///< `-` = standard output

  bool operator==(const StartCommand&) const = default;
};

/// tubewright schema
struct SchemaCommand {
  bool operator==(const SchemaCommand&) const = default;
};

/// tubewright completion bash|zsh|fish, tubewright completion --cases FRAME.yaml
struct CompletionCommand {
  std::string shell;
  std::string frame;  ///< whose load cases are wanted instead

  bool operator==(const CompletionCommand&) const = default;
};

/// Help or the version, asked for.
struct Answer {
  std::string text;

  bool operator==(const Answer&) const = default;
};

/// A command line that cannot be followed.
struct UsageError {
  std::string message;  ///< lower case, no full stop; empty where no words were given at all
  std::string advice;   ///< what to type instead; to no words at all, the short usage page
  bool json = false;    ///< `--json` was among the words: the answer is wanted in JSON

  bool operator==(const UsageError&) const = default;
};

using CommandLine =
    std::variant<CheckCommand, StudyCommand, SizeCommand, ViewCommand, VaryCommand, CompareCommand,
                 StartCommand, SchemaCommand, CompletionCommand, Answer, UsageError>;

/// `words`: the arguments after the program's name.
CommandLine read_command_line(const std::vector<std::string>& words);

}  // namespace tubewright
