// A help page taken apart: on a page of our own every part is known, on the program's pages no word
// may be lost.
#include "io/options/help_pages.h"

#include <map>
#include <sstream>

#include "io/options/command_table.h"
#include "io/options/help_text.h"
#include "tests/catch.h"

namespace tubewright::help_pages_test {

namespace {

using Words = std::vector<std::string>;
using Entry = HelpPage::Entry;

constexpr const char* page_of_a_kettle = R"(Boil water
in a kettle.

Examples:
  kettle cup.txt
  kettle cup.txt --hot   boils  it
  kettle -               what it is told

Usage: kettle CUP.txt [options]

  CUP.txt              the cup; `-` reads
                       standard input
  SPOON                stirs

It whistles.

Options:
  -t, --temperature N  degrees, not
                       above a hundred
  --a-name-of-20-signs explained
  -q, --quiet          no whistle

It stops by itself.
Exit code: 0 boiled;
           2 no water.
)";

/// How often each word occurs.
std::map<std::string, int> count(const std::string& text) {
  std::map<std::string, int> times;
  std::istringstream stream(text);
  for (std::string word; stream >> word;) ++times[word];
  return times;
}

std::string all_words(const HelpPage& page) {
  std::string text;
  for (const auto* entries : {&page.examples, &page.operands, &page.options}) {
    for (const auto& [left, right] : *entries) text += left + " " + right + " ";
  }
  for (const std::string& note : page.notes) text += note + " ";
  return text + page.exit_code;
}

}  // namespace

TEST_CASE("a help page comes apart into examples, operands, options, notes and exit code") {
  const HelpPage page = help_page(page_of_a_kettle);
  CHECK(page.examples == std::vector<Entry>{{"kettle cup.txt", ""},
                                            {"kettle cup.txt --hot", "boils it"},
                                            {"kettle -", "what it is told"}});
  CHECK(page.operands ==
        std::vector<Entry>{{"CUP.txt", "the cup; `-` reads standard input"}, {"SPOON", "stirs"}});
  CHECK(page.options == std::vector<Entry>{{"-t, --temperature N", "degrees, not above a hundred"},
                                           {"--a-name-of-20-signs", "explained"},
                                           {"-q, --quiet", "no whistle"}});
  CHECK(page.notes == Words{"Boil water in a kettle.", "It whistles.", "It stops by itself."});
  CHECK(page.exit_code == "0 boiled; 2 no water.");
}

TEST_CASE("a help page without some part has nothing there") {
  const HelpPage page = help_page("Only a sentence.\n");
  CHECK(page.notes == Words{"Only a sentence."});
  CHECK(page.examples.empty());
  CHECK(page.operands.empty());
  CHECK(page.options.empty());
  CHECK(page.exit_code.empty());
  CHECK(help_page("").notes.empty());
  CHECK(help_page("\n\n\n").notes.empty());
}

TEST_CASE("of the pages of all commands no word is lost or doubled when they come apart") {
  for (const Command& command : command_table()) {
    INFO(command.name);
    const std::string text = command_help(command.name);
    // What a reader of the parts has from elsewhere: headings and the usage.
    std::string kept;
    bool usage = false;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) {
      usage = line.starts_with("Usage:") || (usage && !line.empty());
      if (usage || line == "Examples:" || line == "Options:") continue;
      if (line.starts_with("Exit code:")) line = line.substr(10);
      kept += line + "\n";
    }
    CHECK(count(all_words(help_page(text))) == count(kept));
    CHECK_FALSE(help_page(text).notes.empty());
  }
}

}  // namespace tubewright::help_pages_test
