// The help pages, examples first.
#pragma once

#include <string>

namespace tubewright {

/// `tubewright` alone: what it is, two examples, where to read on.
std::string short_usage();

/// `tubewright --help`
std::string program_help();

/// `tubewright COMMAND --help`. Requires: a command.
std::string command_help(const std::string& command);

}  // namespace tubewright
