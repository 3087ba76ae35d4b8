#include "io/text/terminal.h"

#include "tests/catch.h"

namespace tubewright::terminal_test {

TEST_CASE("colour is for terminals only, and not where NO_COLOR or a dumb terminal forbids it") {
  CHECK(colour_wanted({true, "", "xterm"}));
  CHECK(colour_wanted({true, "", ""}));
  CHECK_FALSE(colour_wanted({false, "", "xterm"}));
  CHECK_FALSE(colour_wanted({true, "1", "xterm"}));
  CHECK_FALSE(colour_wanted({true, "", "dumb"}));
}

TEST_CASE("without colour a word is left as it is, with colour it is switched off again") {
  CHECK(Paint{false}.bad("FAIL") == "FAIL");
  CHECK(Paint{true}.bad("FAIL") == "\x1b[1;31mFAIL\x1b[0m");
}

}  // namespace tubewright::terminal_test
