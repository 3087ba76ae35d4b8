// The program's three standard streams: results to standard output, messages to standard error.
// A line of progress (progress.h) is taken off the terminal before either.
#pragma once

#include <string_view>

#include "cases/frame/diagnostic.h"

namespace tubewright {

/// Call first. A pipe that nobody reads, a file that grows too large, then fail the write instead
/// of ending the program; a stream that was closed is never mistaken for a file opened later.
void prepare_standard_streams();

/// Writes `text` to standard output and returns `exit_code`; if it cannot be written, says so on
/// standard error and returns exit_cannot_answer.
int print_results(std::string_view text, int exit_code);

/// Writes to standard error. If that fails there is nobody left to tell.
void print_message(std::string_view text);

/// "tubewright: error: MESSAGE", then the advice if there is any, to standard error.
void print_error(const Diagnostic& error);

}  // namespace tubewright
