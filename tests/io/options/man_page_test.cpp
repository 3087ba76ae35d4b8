#include "io/options/man_page.h"

#include <set>
#include <sstream>

#include "io/options/command_table.h"
#include "io/options/help_pages.h"
#include "io/options/help_text.h"
#include "io/results/cautions.h"
#include "tests/catch.h"

namespace tubewright::man_page_test {

namespace {

using Words = std::vector<std::string>;

/// The page without what makes letters bold or italic, one line for each paragraph.
std::string plain_text() {
  std::string text;
  std::istringstream stream(man_page());
  for (std::string line; std::getline(stream, line);) {
    text += line[0] == '.' ? "\n" + line + "\n" : line + " ";
  }
  const std::pair<const char*, const char*> signs[] = {{"\\fB", ""}, {"\\fI", ""},   {"\\fR", ""},
                                                       {"\\&", ""},  {"\\(aq", "'"}, {"\\(ga", "`"},
                                                       {"\\-", "-"}};
  for (const auto& [roff, sign] : signs) {
    for (std::size_t at; (at = text.find(roff)) != std::string::npos;) {
      text.replace(at, std::string(roff).size(), sign);
    }
  }
  return text;
}

/// The part from one heading to the next of its kind.
std::string part(const std::string& text, const std::string& kind, const std::string& heading) {
  const std::size_t start = text.find(kind + " " + heading + "\n");
  INFO(heading);
  REQUIRE(start != std::string::npos);
  std::size_t end = text.find("\n" + kind, start);
  if (kind == ".SS") end = std::min(end, text.find("\n.SH", start));
  return text.substr(start, end - start);
}

}  // namespace

TEST_CASE("a help page is taken apart without losing a word") {
  const HelpPage page = help_page(command_help("modes"));
  CHECK(page.notes == Words{"Natural frequencies of a frame with everything it carries; free if it "
                            "has no supports: a vehicle with `tyre_rate` on its tyres, and beside "
                            "that the frame's own, springs locked and tyres left out."});
  REQUIRE(page.examples.size() == 3);
  CHECK(page.examples[1].first == "tubewright modes frame.yaml -n 20 --json");
  REQUIRE(page.operands.size() == 1);
  CHECK(page.operands[0].first == "FRAME.yaml");
  REQUIRE(page.options.size() == 5);
  CHECK(page.options[1].first == "-o, --output DIR");
  CHECK(page.options[1].second ==
        "also write modes.pvd with its VTK files, an animation, into DIR");
  CHECK(page.exit_code ==
        "0 answered; 1 answered, the lowest is below `limits: {frequency}`; 2 could not answer.");
  CHECK(help_page(program_help()).examples.front() ==
        HelpPage::Entry{"tubewright start frame.yaml", "write a small commented frame to begin"});
}

TEST_CASE("the manual page has the usual sections in the usual order") {
  // man-pages(7) of the Linux man-pages project, from memory; COMMANDS and CAUTIONS are ours.
  std::vector<std::string> sections;
  std::istringstream stream(man_page());
  for (std::string line; std::getline(stream, line);) {
    if (line.starts_with(".SH ")) sections.push_back(line.substr(4));
  }
  CHECK(sections == Words{"NAME", "SYNOPSIS", "DESCRIPTION", "COMMANDS", "OPTIONS", "EXIT STATUS",
                          "FILES", "ENVIRONMENT", "EXAMPLES", "CAUTIONS", "SEE ALSO"});
}

TEST_CASE("the manual page has every command and option of the table and no others") {
  const std::string text = plain_text();
  const std::string synopsis = part(text, ".SH", "SYNOPSIS");
  const std::string commands = part(text, ".SH", "COMMANDS");
  std::size_t entries = 0;
  for (const Command& command : command_table()) {
    INFO(command.name);
    const std::string shown = command.name + (command.shown.empty() ? "" : " " + command.shown);
    CHECK_THAT(synopsis, ContainsSubstring("\ntubewright " + shown + " "));
    CHECK_THAT(commands, ContainsSubstring(".TP\n" + shown + " "));
    ++entries;
    if (command.options.empty()) continue;
    const std::string options = part(text, ".SS", "tubewright " + command.name);
    std::size_t tags = 0;
    for (std::size_t at = 0; (at = options.find(".TP\n-", at)) != std::string::npos; ++at) ++tags;
    CHECK(tags == command.options.size());
    for (const CommandOption& option : command.options) {
      CHECK_THAT(options, ContainsSubstring(".TP\n" + spelt(option) + " "));
    }
  }
  std::size_t tags = 0;
  for (std::size_t at = 0; (at = commands.find(".TP\n", at)) != std::string::npos; ++at) ++tags;
  CHECK(tags == entries);
  for (const CommandOption& option : program_options()) {
    CHECK_THAT(part(text, ".SH", "OPTIONS"), ContainsSubstring(".TP\n" + spelt(option) + " "));
  }
}

TEST_CASE("the manual page names every file that the help pages name, and every caution") {
  const std::string files = part(plain_text(), ".SH", "FILES");
  for (const Command& command : command_table()) {
    std::istringstream stream(help_page(command_help(command.name)).options.front().second);
    for (std::string word; stream >> word;) {
      if (word.ends_with(',')) word.pop_back();
      if (word.find('.') == std::string::npos || word.find('.') + 1 == word.size()) continue;
      CHECK_THAT(files, ContainsSubstring("DIR/" + word));
    }
  }
  const std::string shown = part(plain_text(), ".SH", "CAUTIONS");
  for (const std::string& caution : cautions()) CHECK_THAT(shown, ContainsSubstring(caution));
}

TEST_CASE("no line of the manual page is a request by accident or wider than 80 columns") {
  const std::set<std::string> requests = {".SH", ".SS", ".TP", ".IP", ".PP", ".br", ".TH", ".\\\""};
  std::istringstream stream(man_page());
  for (std::string line; std::getline(stream, line);) {
    INFO(line);
    CHECK(line.size() <= 80);
    CHECK_FALSE(line.empty());
    if (line[0] == '.') CHECK(requests.contains(line.substr(0, line.find(' '))));
    CHECK(line[0] != '\'');
  }
}

}  // namespace tubewright::man_page_test
