// A screen to draw on where there is none: what is said, and that no process is left behind.
#include "viz/draw/display.h"

#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <filesystem>
#include <fstream>

#include "tests/catch.h"
#include "tests/viz/files/scratch.h"

namespace tubewright::display_test {

namespace {

namespace fs = std::filesystem;

/// A variable of the environment, as it was before when this ends.
class Environment {
 public:
  Environment(const char* name, const std::string& value) : name_(name) {
    const char* before = getenv(name);
    if (before != nullptr) before_ = before;
    setenv(name, value.c_str(), 1);
  }
  ~Environment() {
    if (before_) setenv(name_, before_->c_str(), 1);
    if (!before_) unsetenv(name_);
  }
  Environment(const Environment&) = delete;
  Environment& operator=(const Environment&) = delete;

 private:
  const char* name_;
  std::optional<std::string> before_;
};

/// A program of that name in the directory.
void put_program(const fs::path& directory, const std::string& text) {
  const fs::path program = directory / "Xvfb";
  std::ofstream(program) << "#!/bin/bash\n" << text;
  fs::permissions(program, fs::perms::owner_all);
}

bool no_child_is_left() { return waitpid(-1, nullptr, WNOHANG) == -1 && errno == ECHILD; }

}  // namespace

TEST_CASE("a display that is not there cannot draw") {
  // X(7): DISPLAY is host:display.screen; nothing listens at these.
  for (const char* name : {"", ":98765", "no such display"}) {
    INFO(name);
    const Environment display("DISPLAY", name);
    CHECK_FALSE(display_can_draw());
  }
}

TEST_CASE("without a display server the reason names what is missing") {
  const Scratch empty("no_server");
  const Environment display("DISPLAY", ""), path("PATH", empty.path.string());
  {
    VirtualDisplay own;
    const auto reason = own.start();
    REQUIRE(reason);
    CHECK_THAT(*reason, ContainsSubstring("no display"));
    CHECK_THAT(*reason, ContainsSubstring("xvfb"));
    CHECK(std::string(getenv("DISPLAY")).empty());
  }
  CHECK(no_child_is_left());
}

TEST_CASE("a display server that ends at once or draws nothing is a reason, not a wait") {
  const auto start = std::chrono::steady_clock::now();
  const Scratch scratch("bad_server");
  const Environment display("DISPLAY", ""), path("PATH", scratch.path.string() + ":/usr/bin:/bin");
  put_program(scratch.path, "exit 3\n");
  {
    VirtualDisplay own;
    CHECK(own.start());
  }
  // It tells a number, but no display answers there.
  put_program(scratch.path, "echo 98765 >&$2\nexec sleep 600\n");
  {
    VirtualDisplay own;
    const auto reason = own.start();
    REQUIRE(reason);
    CHECK_THAT(*reason, ContainsSubstring("cannot draw"));
  }
  CHECK(no_child_is_left());  // the one that sleeps is ended too
  CHECK(std::chrono::steady_clock::now() - start < std::chrono::seconds(15));
}

TEST_CASE("a display that never was started leaves everything as it is") {
  const Environment display("DISPLAY", ":98765");
  { const VirtualDisplay never_started; }
  CHECK(std::string(getenv("DISPLAY")) == ":98765");
  CHECK(no_child_is_left());
}

}  // namespace tubewright::display_test
