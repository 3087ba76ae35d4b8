#include "io/command/progress.h"

#include <stdexcept>

#include "io/command/standard_streams.h"
#include "tests/catch.h"

namespace tubewright::progress_test {

namespace {

using std::chrono::milliseconds;

/// Keeps what a Progress writes, and lets the test wait for it: no test depends on how quick the
/// machine is.
struct Terminal {
  std::mutex mutex;
  std::condition_variable written;
  std::string text;

  ProgressSettings settings(milliseconds delay) {
    return {true, delay, milliseconds(1), 40, [this](std::string_view piece) {
              const std::lock_guard lock(mutex);
              text += piece;
              written.notify_all();
            }};
  }

  void wait_for(const std::string& part) {
    std::unique_lock lock(mutex);
    written.wait(lock, [&] { return text.find(part) != std::string::npos; });
  }

  /// What the last row shows: each piece begins with a carriage return and erases what is left.
  std::string last_row() {
    const std::lock_guard lock(mutex);
    std::string row = text.substr(text.rfind('\r') + 1);
    const std::string erase = "\x1b[K";
    if (row.ends_with(erase)) row.resize(row.size() - erase.size());
    return row;
  }
};

constexpr milliseconds at_once{0};
constexpr milliseconds never = std::chrono::hours(1);

}  // namespace

TEST_CASE("progress shows the stage and the seconds, and is gone at the end") {
  Terminal terminal;
  {
    Progress progress(terminal.settings(at_once));
    progress.stage("reading");
    terminal.wait_for("\rreading ... 0.");
    tell_stage("solving");
    terminal.wait_for("\rsolving ... ");
  }
  CHECK(terminal.last_row().empty());
  CHECK_THAT(terminal.text, ContainsSubstring(" s\x1b[K"));
}

TEST_CASE("progress is gone when an exception ends the work") {
  Terminal terminal;
  const auto work = [&] {
    Progress progress(terminal.settings(at_once));
    progress.stage("solving");
    terminal.wait_for("solving");
    throw std::runtime_error("trouble");
  };
  CHECK_THROWS_AS(work(), std::runtime_error);
  CHECK_FALSE(terminal.text.empty());
  CHECK(terminal.last_row().empty());
}

TEST_CASE("progress writes nothing before its delay, before a stage, or where it is not shown") {
  Terminal terminal;
  {
    Progress progress(terminal.settings(never));
    progress.stage("reading");
  }
  { const Progress without_stage(terminal.settings(at_once)); }
  {
    ProgressSettings settings = terminal.settings(at_once);
    settings.shown = false;
    Progress progress(settings);
    progress.stage("reading");
  }
  CHECK(terminal.text.empty());
}

TEST_CASE("while something else is written the line is off the terminal, and comes back after") {
  Terminal terminal;
  Progress progress(terminal.settings(at_once));
  progress.stage("solving");
  terminal.wait_for("solving");
  std::size_t written = 0;
  {
    const ProgressPause pause;
    CHECK(terminal.last_row().empty());
    written = terminal.text.size();
    std::this_thread::sleep_for(milliseconds(20));  // several periods: nothing may come
    CHECK(terminal.text.size() == written);
  }
  progress.stage("writing");
  terminal.wait_for("\rwriting");
}

TEST_CASE("messages and results take the line away by themselves") {
  Terminal terminal;
  Progress progress(terminal.settings(at_once));
  for (int i = 0; i < 2; ++i) {
    progress.stage("stage " + std::to_string(i));
    terminal.wait_for("\rstage " + std::to_string(i));
    // After either function the line has been wiped at least once more than before.
    const auto wipes = [&] {
      const std::lock_guard lock(terminal.mutex);
      std::size_t count = 0;
      for (std::size_t at = 0; (at = terminal.text.find("\r\x1b[K", at)) != std::string::npos; ++at)
        ++count;
      return count;
    };
    const std::size_t before = wipes();
    if (i == 0) print_message("");
    if (i == 1) CHECK(print_results("", 0) == 0);
    CHECK(wipes() > before);
  }
}

TEST_CASE("a line longer than the terminal is cut, so that one row holds it") {
  Terminal terminal;
  {
    Progress progress(terminal.settings(at_once));
    progress.stage(std::string(200, 'x'));
    terminal.wait_for("x\x1b[K");
  }
  CHECK(terminal.text.substr(0, terminal.text.find('\x1b')) == "\r" + std::string(39, 'x'));
}

TEST_CASE("a Progress may follow another, and none is needed") {
  tell_stage("nobody listens");
  { const ProgressPause pause; }
  Terminal terminal;
  for (const char* stage : {"first", "second"}) {
    Progress progress(terminal.settings(at_once));
    progress.stage(stage);
    terminal.wait_for(stage);
  }
  CHECK(terminal.last_row().empty());
}

TEST_CASE("progress is for a terminal that can erase, and for who did not ask for quiet") {
  CHECK(progress_wanted({true, "", "xterm"}, false));
  CHECK(progress_wanted({true, "1", "vt100"}, false));  // NO_COLOR is about colour
  CHECK_FALSE(progress_wanted({true, "", "dumb"}, false));
  CHECK_FALSE(progress_wanted({false, "", "xterm"}, false));
  CHECK_FALSE(progress_wanted({true, "", "xterm"}, true));
}

TEST_CASE("steps are counted where there is more than one") {
  CHECK(stage_of("checking load case", 7, 18) == "checking load case 7 of 18");
  CHECK(stage_of("checking load case", 1, 1) == "checking load case");
  CHECK(stage_of("solving", 0, 0) == "solving");
}

}  // namespace tubewright::progress_test
