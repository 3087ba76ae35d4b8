#include "io/help_text.h"

#include <cassert>

namespace tubewright {

namespace {

constexpr const char* usage_page =
    R"(tubewright tells whether a light welded tube frame will hold, and how stiff it is.

  tubewright start frame.yaml      write a small frame to begin with
  tubewright check frame.yaml      solve its load cases and make every check

`tubewright --help` lists everything.
)";

constexpr const char* program_page =
    R"(tubewright tells whether a light welded tube frame will hold, and how stiff it is.

Examples:
  tubewright start frame.yaml                 write a small commented frame to begin with
  tubewright check frame.yaml                 solve its load cases and make every check
  tubewright check frame.yaml -o results      the same, with all numbers and 3D files
  tubewright check frame.yaml --json          the same, for another program to read
  tubewright schema > frame.schema.json       let an editor complete and check frame files

Usage: tubewright COMMAND ...

Commands:
  check FRAME.yaml     solve all load cases, make all checks
  start FILE.yaml      write a commented starter frame that passes
  schema               print the JSON Schema (draft-07) of the frame file

Options:
  -h, --help           this page; `tubewright COMMAND --help` for one command
  --version            print the version

Exit code: 0 answered and every check passes; 1 answered, some check fails; 2 could not answer.
)";

constexpr const char* check_page =
    R"(Solve the load cases of a frame and make every check.

Examples:
  tubewright check frame.yaml
  tubewright check frame.yaml -o results --case brake --case left_turn
  tubewright check - --json < frame.yaml

Usage: tubewright check FRAME.yaml [options]

  FRAME.yaml           the frame file; `-` reads standard input

Options:
  -o, --output DIR     also write results.json and loads.pvd with its VTK files into DIR
  --case NAME          solve this load case only; may be given several times
  --json               print the results as one JSON object instead of the summary
  -q, --quiet          print the verdict only
  -h, --help           this page

The summary is coloured on a terminal, unless NO_COLOR is set.
Exit code: 0 answered and every check passes; 1 answered, some check fails; 2 could not answer.
)";

constexpr const char* start_page =
    R"(Write a small commented frame that passes its checks, to begin a new frame from.

Examples:
  tubewright start frame.yaml
  tubewright start - | tubewright check -

Usage: tubewright start FILE.yaml

  FILE.yaml            the file to write, never over an existing one; `-` writes standard output

Options:
  -h, --help           this page
)";

constexpr const char* schema_page =
    R"(Print the JSON Schema (draft-07) of the frame file.

Examples:
  tubewright schema > frame.schema.json
  # then, as the first line of a frame file, for editors with a YAML language server:
  # yaml-language-server: $schema=frame.schema.json

Usage: tubewright schema

Options:
  -h, --help           this page
)";

}  // namespace

std::string short_usage() { return usage_page; }

std::string program_help() { return program_page; }

std::string command_help(const std::string& command) {
  if (command == "check") return check_page;
  if (command == "start") return start_page;
  assert(command == "schema");
  return schema_page;
}

}  // namespace tubewright
