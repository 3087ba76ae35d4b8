// Completion scripts: bash itself reads ours and completes with it. tests/program types at all
// three shells.
#include "io/options/shell_completion.h"

#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

#include "io/options/command_table.h"
#include "tests/catch.h"

namespace tubewright::shell_completion_test {

namespace {

namespace fs = std::filesystem;

/// What bash prints when it runs `commands` after the script.
std::string from_bash(const std::string& commands) {
  std::string name = (fs::temp_directory_path() / "tubewright-XXXXXX").string();
  const int file = mkstemp(name.data());
  REQUIRE(file >= 0);
  close(file);
  std::ofstream(name) << completion_script("bash") << "\n" << commands << "\n";
  FILE* shell = popen(("bash --norc '" + name + "' 2>&1").c_str(), "r");
  REQUIRE(shell != nullptr);
  std::string output;
  std::array<char, 4096> block;
  while (std::fgets(block.data(), block.size(), shell) != nullptr) output += block.data();
  const int status = pclose(shell);
  fs::remove(name);
  INFO(output);
  REQUIRE(WEXITSTATUS(status) == 0);
  return output;
}

std::set<std::string> words_in(const std::string& text) {
  std::set<std::string> words;
  std::istringstream stream(text);
  for (std::string word; stream >> word;) words.insert(word);
  return words;
}

/// The words that bash offers for the last of `words`.
std::set<std::string> offered(const std::string& words, int count) {
  return words_in(from_bash("COMP_WORDS=(tubewright " + words +
                            "); COMP_CWORD=" + std::to_string(count) +
                            "; _tubewright tubewright; printf '%s\\n' \"${COMPREPLY[@]}\""));
}

std::set<std::string> long_names(const Command& command) {
  std::set<std::string> names = {"--help"};
  for (const CommandOption& option : command.options) names.insert(option.name);
  return names;
}

}  // namespace

TEST_CASE("a completion script has every command and option and no mark that was left unfilled") {
  for (const char* shell : {"bash", "zsh", "fish"}) {
    INFO(shell);
    const std::string script = completion_script(shell);
    CHECK_FALSE(std::regex_search(script, std::regex("@[A-Z_]+@")));
    for (const Command& command : command_table()) {
      CHECK_THAT(script, ContainsSubstring(command.name));
      for (const CommandOption& option : command.options) {
        // fish writes `-l output` for --output.
        CHECK_THAT(script,
                   ContainsSubstring(shell == std::string("fish") ? " -l " + option.name.substr(2)
                                                                  : option.name));
        for (const std::string& word : option.words) CHECK_THAT(script, ContainsSubstring(word));
      }
    }
  }
}

TEST_CASE("bash takes the script without a word and offers the commands of the table") {
  CHECK(from_bash("complete -p tubewright") == "complete -F _tubewright tubewright\n");
  std::set<std::string> commands;
  for (const Command& command : command_table()) commands.insert(command.name);
  CHECK(offered("''", 1) == commands);
}

TEST_CASE("bash offers after a dash the options of the command that were not given yet") {
  for (const char* name : {"check", "twist", "schema", "completion"}) {
    INFO(name);
    CHECK(offered(std::string(name) + " -", 2) == long_names(*find_command(name)));
  }
  std::set<std::string> left = long_names(*find_command("twist"));
  left.erase("--json");
  left.erase("--quiet");  // by its letter
  CHECK(offered("twist --json -q -", 4) == left);
}

TEST_CASE("bash offers the words that an option or an operand takes") {
  CHECK(offered("twist --hold ''", 3) == std::set<std::string>{"free", "clamped"});
  CHECK(offered("view --colour a", 3) == std::set<std::string>{"axial"});
  CHECK(offered("completion ''", 2) == std::set<std::string>{"bash", "zsh", "fish"});
  CHECK(offered("modes --count ''", 3).empty());  // a number: nothing to offer
}

}  // namespace tubewright::shell_completion_test
