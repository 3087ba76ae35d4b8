// The rules that reports name, held against the chapter on checks in its own file.
#include "io/results/sources.h"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <set>

#include "tests/catch.h"

namespace tubewright::sources_test {

namespace {

/// cases/checks/README.md without its markup.
std::string chapter() {
  std::ifstream stream(TUBEWRIGHT_SOURCE_DIR "/cases/checks/README.md");
  std::string text{std::istreambuf_iterator<char>(stream), {}};
  for (const char* markup : {"`", "*"}) {
    for (size_t at; (at = text.find(markup)) != std::string::npos;) text.erase(at, 1);
  }
  return text;
}

}  // namespace

TEST_CASE("the rules that reports name are those of the chapter on checks") {
  const std::string text = chapter();
  for (const RuleSource& r : rule_sources()) {
    INFO(r.subject);
    CHECK_THAT(text,
               ContainsSubstring("| " + r.subject + " | " + r.rule + " | " + r.source + " |"));
  }
}

TEST_CASE("no rule of the chapter on checks is left out of reports or told twice") {
  const std::string text = chapter();
  const size_t heading = text.find("What is checked, and how\n");
  REQUIRE(heading != std::string::npos);
  const size_t table = text.find("\n|", heading), end = text.find("\n\n", table);
  const auto rows = std::count(text.begin() + static_cast<std::ptrdiff_t>(table),
                               text.begin() + static_cast<std::ptrdiff_t>(end), '\n');
  CHECK(static_cast<size_t>(rows) == rule_sources().size() + 2);  // its head and the line below
  std::set<std::string> subjects;
  for (const RuleSource& r : rule_sources()) CHECK(subjects.insert(r.subject).second);
}

}  // namespace tubewright::sources_test
