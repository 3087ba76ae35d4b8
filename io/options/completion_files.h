// The files of io/options/completion/, as they were when the program was built: what a shell's
// script has beside the table of commands. `@NAME@` marks where parts of the table go.
#pragma once

namespace tubewright::completion_files {

extern const char* const bash;
extern const char* const zsh;
extern const char* const fish;

}  // namespace tubewright::completion_files
