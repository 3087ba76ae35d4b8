// What goes to which stream, seen through files put in their place; what a stream that cannot be
// written does to the exit code.
#include "io/command/standard_streams.h"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdio>
#include <functional>

#include "io/options/command_line.h"
#include "tests/catch.h"

namespace tubewright::standard_streams_test {

namespace {

/// Standard output and error are pipes or files while this lives. Little is written, so that a pipe
/// holds it.
class Redirected {
 public:
  Redirected(int descriptor, int to) : descriptor_(descriptor), before_(dup(descriptor)) {
    std::fflush(nullptr);
    dup2(to, descriptor_);
  }
  ~Redirected() {
    std::fflush(nullptr);
    dup2(before_, descriptor_);
    close(before_);
  }
  Redirected(const Redirected&) = delete;
  Redirected& operator=(const Redirected&) = delete;

 private:
  int descriptor_, before_;
};

std::string drained(int pipe_end) {
  std::string text;
  std::array<char, 4096> block;
  for (ssize_t count; (count = read(pipe_end, block.data(), block.size())) > 0;) {
    text.append(block.data(), static_cast<std::size_t>(count));
  }
  close(pipe_end);
  return text;
}

struct Written {
  std::string out, err;
  int code = 0;
};

Written written_by(const std::function<int()>& work) {
  int out[2], err[2];
  REQUIRE(pipe(out) == 0);
  REQUIRE(pipe(err) == 0);
  Written written;
  {
    const Redirected to_out(STDOUT_FILENO, out[1]), to_err(STDERR_FILENO, err[1]);
    written.code = work();
  }
  close(out[1]);
  close(err[1]);
  written.out = drained(out[0]);
  written.err = drained(err[0]);
  return written;
}

/// The exit code of a child that does `work`, 100 + signal if one ends it.
int child(const std::function<int()>& work) {
  std::fflush(nullptr);
  const pid_t pid = fork();
  if (pid == 0) _exit(work());
  int status = 0;
  waitpid(pid, &status, 0);
  return WIFSIGNALED(status) ? 100 + WTERMSIG(status) : WEXITSTATUS(status);
}

}  // namespace

TEST_CASE("results go to standard output whole, with the exit code they came with") {
  for (const int code : {0, 1}) {
    const Written w = written_by([&] { return print_results("a result\n", code); });
    CHECK(w.code == code);
    CHECK(w.out == "a result\n");
    CHECK(w.err.empty());
  }
}

TEST_CASE("messages and errors go to standard error, an error in the program's name with advice") {
  const Written w = written_by([] {
    print_message("a message\n");
    print_error({"no such thing", ""});
    print_error({"no such thing", "take another"});
    return 0;
  });
  CHECK(w.out.empty());
  CHECK(w.err ==
        "a message\n"
        "tubewright: error: no such thing\n"
        "tubewright: error: no such thing\n  take another\n");
}

TEST_CASE("results that cannot be written are no answer, and the reason is said") {
  const int full = open("/dev/full", O_WRONLY);
  REQUIRE(full >= 0);
  const Written w = written_by([&] {
    const Redirected to_full(STDOUT_FILENO, full);
    return print_results("a result", 0);
  });
  close(full);
  CHECK(w.code == exit_cannot_answer);
  CHECK(w.err ==
        "tubewright: error: cannot write the results to standard output: No space left on "
        "device\n");
}

TEST_CASE("a pipe that nobody reads fails the write instead of ending the program") {
  const auto into_broken_pipe = [](bool prepared) {
    return child([&] {
      if (prepared) prepare_standard_streams();
      int ends[2];
      if (pipe(ends) != 0) return 50;
      close(ends[0]);
      dup2(ends[1], STDOUT_FILENO);
      dup2(open("/dev/null", O_WRONLY), STDERR_FILENO);
      return print_results("a result", 0);
    });
  };
  CHECK(into_broken_pipe(true) == exit_cannot_answer);
  // Without, POSIX ends the program (signal(7)): what the preparation is for. The child takes the
  // signal's default back, whatever the test program was started with.
  CHECK(child([&] {
          std::signal(SIGPIPE, SIG_DFL);
          return into_broken_pipe(false) == 100 + SIGPIPE ? 7 : 8;
        }) == 7);
}

TEST_CASE("a stream that was closed is never mistaken for a file opened later") {
  const int code = child([] {
    for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) close(stream);
    prepare_standard_streams();
    int ends[2];
    if (pipe(ends) != 0 || ends[0] <= STDERR_FILENO) return 50;  // the first free ones are later
    char byte = 0;
    if (read(STDIN_FILENO, &byte, 1) != 0) return 51;                    // nothing to read
    return print_results("a result", 0) == exit_cannot_answer ? 0 : 52;  // the loss is noticed
  });
  CHECK(code == 0);
}

}  // namespace tubewright::standard_streams_test
