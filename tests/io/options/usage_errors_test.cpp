// The wording of command lines that cannot be followed, against the form of the house.
#include "io/options/usage_errors.h"

#include "tests/catch.h"
#include "tests/wording_form.h"

namespace tubewright::usage_errors_test {

TEST_CASE("every wording of a misused command line has the form of the house and an advice") {
  const std::vector<std::string> words = {"bash", "zsh"};
  std::set<std::string> messages;
  for (const UsageError& error :
       {no_such_command("chekc", {"check"}), no_command("a.yaml"),
        no_such_option("--versoin", {"--version"}), option_before_command("--json", "check"),
        option_of_no_use("check", "--jsno", {"--json"}), one_word_too_many("check", "b.yaml"),
        option_given_twice("check", "-o"), option_without_value("check", "-o"),
        no_frame_file("check"), no_new_file("start"), no_word("completion", words),
        no_such_word("completion", "tcsh", words), cases_with_shell("completion"),
        second_order_with_large_displacement(), json_with_csv(),
        one_frame_only("compare", "a.yaml"), standard_input_twice("compare"),
        merge_with("--set")}) {
    testing::check_form(error.message);
    testing::check_form(error.advice);
    CHECK_FALSE(error.json);
    CHECK(messages.insert(error.message).second);
  }
}

TEST_CASE("a misspelt command or option is answered by the near one, another by the help") {
  CHECK(no_such_command("chekc", {"check"}).advice == "did you mean `check`?");
  CHECK(no_such_command("zzz", {"check"}).advice == "see `tubewright --help`");
  CHECK(option_of_no_use("check", "--jsno", {"--json"}).advice == "did you mean `--json`?");
  CHECK(option_of_no_use("check", "--zzz", {"--json"}).advice == "see `tubewright check --help`");
}

TEST_CASE("a missing word is answered by one to try, an unknown one by all there are") {
  CHECK(no_word("completion", {"bash", "zsh"}).message == "`completion` needs `bash` or `zsh`");
  CHECK(no_word("completion", {"bash", "zsh"}).advice == "try `tubewright completion bash`");
  CHECK(no_such_word("completion", "tcsh", {"bash", "zsh"}).advice == "it knows `bash` and `zsh`");
}

}  // namespace tubewright::usage_errors_test
