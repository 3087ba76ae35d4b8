// The help pages among each other; command_table_test.cpp holds them against the table of commands.
#include "io/options/help_text.h"

#include <set>
#include <sstream>

#include "io/options/command_line.h"
#include "io/options/command_table.h"
#include "tests/catch.h"

namespace tubewright::help_text_test {

namespace {

std::vector<std::string> all_pages() {
  std::vector<std::string> pages = {short_usage(), program_help()};
  for (const Command& command : command_table()) pages.push_back(command_help(command.name));
  return pages;
}

bool has_option(const Command& command, const std::string& name) {
  for (const CommandOption& option : command.options) {
    if (option.name == name) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("each help page is one of its own, in plain signs, with one line end at its end") {
  std::set<std::string> pages;
  for (const std::string& page : all_pages()) {
    INFO(page);
    CHECK(pages.insert(page).second);
    CHECK(page.ends_with("\n"));
    CHECK_FALSE(page.ends_with("\n\n"));
    CHECK(page.find("\n\n\n") == std::string::npos);
    for (const char c : page) {
      if (c != '\n' && (c < 0x20 || c > 0x7E)) FAIL("sign " << static_cast<int>(c));
    }
    CHECK_FALSE(page.front() == ' ');
  }
}

TEST_CASE("a help page of a command shows examples before anything about how it is used") {
  for (const Command& command : command_table()) {
    const std::string page = command_help(command.name);
    INFO(command.name);
    const std::size_t examples = page.find("\nExamples:\n");
    const std::size_t usage = page.find("\nUsage: ");
    const std::size_t options = page.find("\nOptions:\n");
    REQUIRE(options != std::string::npos);
    CHECK(examples < usage);
    CHECK(usage < options);
    // The first paragraph is a sentence of what the command does.
    const std::string first = page.substr(0, page.find("\n\n"));
    CHECK((first.back() == '.' || first.back() == '?' || first.find(". ") != std::string::npos));
  }
}

TEST_CASE("whatever answers in JSON tells its exit codes, the last the one for no answer") {
  const std::string none = std::to_string(exit_cannot_answer) + " could not answer.\n";
  for (const Command& command : command_table()) {
    INFO(command.name);
    const std::string page = command_help(command.name);
    if (!has_option(command, "--json")) continue;
    CHECK_THAT(page, ContainsSubstring("\nExit code: 0 answered"));
    CHECK(page.ends_with(none));
  }
  CHECK(program_help().ends_with(none));
}

TEST_CASE("the short usage is a beginning of the whole help, and says where that is") {
  const std::string usage = short_usage();
  CHECK(usage.size() < program_help().size() / 2);
  CHECK(usage.substr(0, usage.find('\n')) == program_help().substr(0, program_help().find('\n')));
  CHECK_THAT(usage, ContainsSubstring("`tubewright --help`"));
  std::istringstream stream(usage);
  int commands = 0;
  for (std::string line; std::getline(stream, line);) {
    if (!line.starts_with("  tubewright ")) continue;
    std::istringstream words(line);
    std::string program, command;
    words >> program >> command;
    CHECK(find_command(command) != nullptr);
    ++commands;
  }
  CHECK(commands == 2);
}

}  // namespace tubewright::help_text_test
