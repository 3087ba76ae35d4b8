// The program's commands: each does its work, prints, and returns the exit code.
#pragma once

#include "io/options/command_line.h"

namespace tubewright {

int run_check(const CheckCommand& command);
int run_study(const StudyCommand& command);
int run_size(const SizeCommand& command);
int run_view(const ViewCommand& command);
int run_vary(const VaryCommand& command);
int run_compare(const CompareCommand& command);
int run_start(const StartCommand& command);
int run_schema();
int run_completion(const CompletionCommand& command);

}  // namespace tubewright
