// Completion scripts for shells, made from the table of commands.
#pragma once

#include <string>

namespace tubewright {

/// For `bash`, `zsh` or `fish`. Pressing the completion key runs the program that is being typed,
/// as `completion --cases FRAME`, to learn the names of load cases; nothing else is run.
/// Requires: one of these shells.
std::string completion_script(const std::string& shell);

}  // namespace tubewright
