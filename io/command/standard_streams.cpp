#include "io/command/standard_streams.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <optional>

#include "io/command/command_errors.h"
#include "io/command/progress.h"
#include "io/options/command_line.h"
#include "io/text/write_file_atomically.h"

namespace tubewright {

namespace {

// Standard output is put on a descriptor that cannot be written, so that the loss is noticed.
void fill_if_closed(int descriptor, int flags) {
  if (::fcntl(descriptor, F_GETFD) != -1 || errno != EBADF) return;
  const int opened = ::open("/dev/null", flags);
  if (opened < 0 || opened == descriptor) return;
  ::dup2(opened, descriptor);
  ::close(opened);
}

}  // namespace

void prepare_standard_streams() {
  std::signal(SIGPIPE, SIG_IGN);
  std::signal(SIGXFSZ, SIG_IGN);
  fill_if_closed(STDIN_FILENO, O_RDONLY);
  fill_if_closed(STDOUT_FILENO, O_RDONLY);
  fill_if_closed(STDERR_FILENO, O_WRONLY);
}

int print_results(std::string_view text, int exit_code) {
  const std::optional<std::string> failure = [&] {
    const ProgressPause pause;
    return write_all(STDOUT_FILENO, text);
  }();
  if (!failure) return exit_code;
  print_error(cannot_write_results(*failure));
  return exit_cannot_answer;
}

void print_message(std::string_view text) {
  const ProgressPause pause;
  (void)write_all(STDERR_FILENO, text);
}

void print_error(const Diagnostic& error) {
  print_message("tubewright: error: " + error.message + "\n" +
                (error.advice.empty() ? "" : "  " + error.advice + "\n"));
}

}  // namespace tubewright
