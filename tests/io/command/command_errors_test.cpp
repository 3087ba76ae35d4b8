// The wording of why a command cannot answer, against the form of the house.
#include "io/command/command_errors.h"

#include "tests/catch.h"
#include "tests/wording_form.h"

namespace tubewright::command_errors_test {

namespace {

testing::Wordings one_of_each() {
  return {{"no_load_cases", no_load_cases()},
          {"no_such_case", no_such_case("brkae", {"brake"})},
          {"no_panels", no_panels()},
          {"no_bench_test", no_bench_test()},
          {"nothing_on_the_bench", nothing_on_the_bench()},
          {"cannot_read", cannot_read("a.yaml", "Is a directory")},
          {"cannot_write", cannot_write("a.yaml", "Disk full")},
          {"cannot_write_anew", cannot_write_anew("start", "a.yaml", "File exists")},
          {"no_such_section", no_such_section("raill", {"rail", "cross"})},
          {"cannot_write_results", cannot_write_results("Broken pipe")},
          {"cannot_make_directory", cannot_make_directory("tmp", "Disk full")},
          {"no_window", no_window("no display")},
          {"out_of_memory", out_of_memory()},
          {"unexpected_trouble", unexpected_trouble("vector")}};
}

}  // namespace

TEST_CASE("every wording of what cannot be answered has the form of the house") {
  testing::check_wordings("io/command/command_errors.h", one_of_each());
}

TEST_CASE("a case that is not there is answered by a near one, or by all there are") {
  CHECK(no_such_case("brkae", {"brake", "bump"}).advice == "did you mean `brake`?");
  CHECK(no_such_case("zzz", {"brake", "bump"}).advice == "it has `brake` `bump`");
  CHECK(no_such_section("raill", {"rail", "cross"}).advice == "did you mean `rail`?");
  CHECK(no_such_section("zzz", {"rail", "cross"}).advice == "it has `rail` `cross`");
}

TEST_CASE("what cannot be read or written is named with the reason of the system") {
  CHECK(cannot_read("a.yaml", "Is a directory").message == "cannot read a.yaml: Is a directory");
  CHECK(cannot_write("a.yaml", "Disk full").message == "cannot write a.yaml: Disk full");
  CHECK(cannot_write_anew("start", "a.yaml", "File exists").message ==
        "cannot write a.yaml: File exists");
}

}  // namespace tubewright::command_errors_test
