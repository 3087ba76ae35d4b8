#include "io/options/command_table.h"

#include <map>
#include <set>
#include <sstream>

#include "io/options/command_line.h"
#include "io/options/help_text.h"
#include "tests/catch.h"

namespace tubewright::command_table_test {

namespace {

using Words = std::vector<std::string>;

Words lines_of(const std::string& text) {
  Words lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

std::string trimmed(std::string text) {
  text.erase(text.find_last_not_of(' ') + 1);
  return text.erase(0, text.find_first_not_of(' '));
}

/// The lines from the one that reads `heading` to the next empty one.
Words under(const std::string& heading, const std::string& page) {
  Words found;
  bool inside = false;
  for (const std::string& line : lines_of(page)) {
    if (inside && line.empty()) break;
    if (inside) found.push_back(line);
    if (line == heading) inside = true;
  }
  return found;
}

/// What stands left of the explanations, which begin in one column.
std::set<std::string> options_shown(const std::string& page, std::size_t column) {
  std::set<std::string> shown;
  for (const std::string& line : under("Options:", page)) {
    INFO(line);
    REQUIRE(line.size() > column);
    CHECK(line[column] != ' ');
    CHECK(line[column - 1] == ' ');
    const std::string left = trimmed(line.substr(0, column));
    if (!left.empty()) CHECK(shown.insert(left).second);
  }
  return shown;
}

/// A command line without that option, and a value that it may have.
Words plain_line(const Command& command) {
  Words line = {command.name};
  if (command.operand == Operand::word) line.push_back(command.words.front());
  if (command.operand == Operand::frame) line.emplace_back("a.yaml");
  if (command.operand == Operand::new_file) line.emplace_back("a.yaml");
  if (command.most_operands == 2) line.emplace_back("b.yaml");
  return line;
}

std::string example_value(const CommandOption& option) {
  if (option.value == OptionValue::word) return option.words.back();
  if (option.value == OptionValue::count) return "7";
  return option.value == OptionValue::number ? "0.5" : "some";
}

}  // namespace

TEST_CASE("names of commands and options are unique, and a letter means the same everywhere") {
  std::set<std::string> commands;
  std::map<std::string, std::string> name_of_letter;
  std::map<std::string, bool> has_value;
  for (const Command& command : command_table()) {
    CHECK(commands.insert(command.name).second);
    CHECK(find_command(command.name) == &command);
    CHECK((command.operand == Operand::word) == !command.words.empty());
    std::set<std::string> names = {"--help", "-h"};
    for (const CommandOption& option : command.options) {
      INFO(command.name << " " << option.name);
      CHECK(option.name.starts_with("--"));
      for (const std::string& name : names_of(option)) CHECK(names.insert(name).second);
      const bool valued = option.value != OptionValue::none;
      CHECK(has_value.try_emplace(option.name, valued).first->second == valued);
      CHECK(valued == !option.shown.empty());
      if (!option.letter.empty()) {
        CHECK(option.letter.size() == 2);
        CHECK(name_of_letter.try_emplace(option.letter, option.name).first->second == option.name);
      }
      CHECK((option.value == OptionValue::word) == !option.words.empty());
    }
  }
  CHECK(find_command("chekc") == nullptr);
}

TEST_CASE("every option of the table is understood and changes what is done") {
  for (const Command& command : command_table()) {
    for (const CommandOption& option : command.options) {
      for (const std::string& name : names_of(option)) {
        INFO(command.name << " " << name);
        Words words = plain_line(command);
        const CommandLine without = read_command_line(words);
        REQUIRE_FALSE(std::holds_alternative<UsageError>(without));
        if (command.name == "completion") words.pop_back();  // its option goes without a shell
        words.push_back(name);
        if (option.value != OptionValue::none) words.push_back(example_value(option));
        const CommandLine with = read_command_line(words);
        REQUIRE_FALSE(std::holds_alternative<UsageError>(with));
        CHECK_FALSE(with == without);
      }
    }
  }
}

TEST_CASE("only options that repeat may be given twice") {
  for (const Command& command : command_table()) {
    for (const CommandOption& option : command.options) {
      if (option.value == OptionValue::none || command.name == "completion") continue;
      INFO(command.name << " " << option.name);
      Words words = plain_line(command);
      for (int i = 0; i < 2; ++i) {
        words.push_back(option.name);
        words.push_back(example_value(option));
      }
      CHECK(std::holds_alternative<UsageError>(read_command_line(words)) == !option.repeats);
    }
  }
}

TEST_CASE("the help page of a command shows the options of the table and no others") {
  for (const Command& command : command_table()) {
    INFO(command.name);
    std::set<std::string> known = {spelt(help_option())};
    for (const CommandOption& option : command.options) known.insert(spelt(option));
    const std::string page = command_help(command.name);
    CHECK(options_shown(page, 23) == known);
    const std::string usage =
        "Usage: tubewright " + command.name + (command.shown.empty() ? "" : " " + command.shown);
    CHECK_THAT(page, ContainsSubstring("\n" + usage));
    if (!command.shown.empty()) {
      std::string operand = "\n  " + command.shown;
      operand.resize(24, ' ');
      CHECK_THAT(page, ContainsSubstring(operand));
    }
    for (const std::string& word : command.words) CHECK_THAT(page, ContainsSubstring(word));
  }
}

TEST_CASE("the program's help page lists the commands and options of the table and no others") {
  Words expected;
  for (const Command& command : command_table()) {
    std::string line = "  " + command.name + (command.shown.empty() ? "" : " " + command.shown);
    line.resize(25, ' ');
    expected.push_back(line + command.help);
  }
  CHECK(under("Commands:", program_help()) == expected);
  std::set<std::string> options;
  for (const CommandOption& option : program_options()) options.insert(spelt(option));
  CHECK(options_shown(program_help(), 23) == options);
}

TEST_CASE("every help page has examples that run, and fits into 80 columns") {
  Words pages = {program_help(), short_usage()};
  for (const Command& command : command_table()) {
    const std::string page = command_help(command.name);
    pages.push_back(page);
    int of_this_command = 0;
    for (const std::string& line : under("Examples:", page)) {
      if (line.find("tubewright " + command.name) != std::string::npos) ++of_this_command;
    }
    INFO(command.name);
    CHECK(of_this_command > 0);
  }
  for (const std::string& page : pages) {
    for (const std::string& line : lines_of(page)) {
      INFO(line);
      CHECK(line.size() <= 80);
      CHECK((line.empty() || line.back() != ' '));
    }
    // The words of each example up to the first that is the shell's.
    for (const std::string& line : under("Examples:", page)) {
      const std::size_t at = line.find("tubewright ");
      if (at == std::string::npos) continue;
      const std::string rest = line.substr(at + 11);
      std::istringstream stream(
          rest.substr(0, std::min(rest.find("  "), rest.find_first_of("|<>)"))));
      Words words;
      for (std::string word; stream >> word;) words.push_back(word);
      INFO(line);
      CHECK_FALSE(std::holds_alternative<UsageError>(read_command_line(words)));
    }
  }
}

TEST_CASE("values are held against what an option takes") {
  const CommandOption count = {"--count", "-n", "N", "", OptionValue::count, false, {}, 1, 200};
  for (const char* text : {"1", "7", "200"}) CHECK_FALSE(fault_of_value(count, text));
  for (const char* text : {"0", "201", "-1", "2.5", "1e2", "few", "", "7 ", "99999999999"}) {
    INFO(text);
    CHECK(fault_of_value(count, text) == "`-n` takes a whole number from 1 to 200");
  }
  const CommandOption number = {"--scale", "", "N", "", OptionValue::number, false, {}, 0.5, 100};
  for (const char* text : {"0.5", "1e1", "99.5"}) CHECK_FALSE(fault_of_value(number, text));
  for (const char* text : {"0.4", "nan", "inf", "1x", ""}) {
    INFO(text);
    CHECK(fault_of_value(number, text) == "`--scale` takes a number from 0.5 to 100");
  }
  const CommandOption word = {"--hold", "", "a|b", "", OptionValue::word, false, {"a", "b"}};
  CHECK_FALSE(fault_of_value(word, "a"));
  CHECK(fault_of_value(word, "A") == "`--hold` is `a` or `b`");
}

}  // namespace tubewright::command_table_test
