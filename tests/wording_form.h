// What every wording of a fault or doubt keeps to: see Diagnostic.
#pragma once

#include <algorithm>
#include <cctype>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <string>

#include "cases/frame/diagnostic.h"
#include "tests/catch.h"

namespace tubewright::testing {

/// By the name of the function that words it.
using Wordings = std::map<std::string, Diagnostic>;

/// The functions of a header, a path in the tree, that return a Diagnostic.
inline std::set<std::string> declared_wordings(const std::string& header) {
  std::ifstream file(std::string(TUBEWRIGHT_SOURCE_DIR "/") + header);
  REQUIRE(file.good());
  std::set<std::string> names;
  const std::regex declaration("^Diagnostic ([a-z_]+)\\(.*");
  std::smatch match;
  for (std::string line; std::getline(file, line);) {
    if (std::regex_match(line, match, declaration)) names.insert(match[1]);
  }
  return names;
}

/// Lower case at the beginning, but for a person; no full stop, but for dots that go on; one line.
inline void check_form(const std::string& text) {
  INFO(text);
  REQUIRE_FALSE(text.empty());
  CHECK((std::isupper(static_cast<unsigned char>(text.front())) == 0 ||
         text.starts_with("Poisson's")));
  CHECK(std::isspace(static_cast<unsigned char>(text.front())) == 0);
  CHECK((!text.ends_with('.') || text.ends_with("...")));
  CHECK(std::isspace(static_cast<unsigned char>(text.back())) == 0);
  CHECK(text.find("  ") == std::string::npos);
  CHECK(text.find('\n') == std::string::npos);
  CHECK(std::count(text.begin(), text.end(), '`') % 2 == 0);
}

/// One of each function that the header declares: in form, without a place, no two alike.
inline void check_wordings(const std::string& header, const Wordings& one_of_each) {
  std::set<std::string> names, texts;
  for (const auto& [name, wording] : one_of_each) {
    INFO(name);
    names.insert(name);
    check_form(wording.message);
    if (!wording.advice.empty()) check_form(wording.advice);
    CHECK(wording.severity == Severity::error);
    CHECK(wording.place.line == 0);
    CHECK(texts.insert(wording.message + '\n' + wording.advice).second);
  }
  CHECK(names == declared_wordings(header));
}

}  // namespace tubewright::testing
