// The words the drawing program is run with, and what is told where it does not do its work.
#include "viz/files/draw_program.h"

#include <sys/wait.h>

#include <cerrno>
#include <string>

#include "tests/catch.h"

namespace tubewright::draw_program_test {

TEST_CASE("the words for pictures and for a window are those the drawing program takes") {
  // As its usage says: pictures DIR | window DIR CASE QUANTITY TIMES, empty where left open.
  CHECK(pictures_of("out dir") == std::vector<std::string>{"pictures", "out dir"});
  CHECK(window_on("d", "", "stress", {}) ==
        std::vector<std::string>{"window", "d", "", "stress", ""});
  CHECK(window_on("d", "bump", "axial", 2.0)[2] == "bump");
}

TEST_CASE("the magnification reaches the drawing program to the last bit") {
  for (const double times : {1.0 / 3, 1e-300, 2.5e17, 0.0, -4.75}) {
    const std::vector<std::string> words = window_on("d", "c", "stress", times);
    REQUIRE(words.size() == 5);
    CHECK(std::stod(words[4]) == times);
  }
}

TEST_CASE("a drawing program that is missing or refuses gives its reason in one line, every time") {
  DrawProgram program({"nonsense"});
  const std::optional<std::string> reason = program.finish();
  REQUIRE(reason);
  CHECK_FALSE(reason->empty());
  CHECK_THAT(*reason, ContainsSubstring("tubewright-draw"));
  CHECK(reason->find('\n') == std::string::npos);
  CHECK(program.finish() == reason);
}

TEST_CASE("a drawing program nobody waits for is ended and leaves no process behind") {
  { const DrawProgram program({"nonsense"}); }
  CHECK(waitpid(-1, nullptr, WNOHANG) == -1);
  CHECK(errno == ECHILD);
}

}  // namespace tubewright::draw_program_test
