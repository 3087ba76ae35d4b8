// Faults of the text itself, against a check that goes line by line and is written another way.
#include "io/yaml/text_check.h"

#include <random>
#include <tuple>

#include "io/yaml/yaml_errors.h"
#include "tests/catch.h"

namespace tubewright::text_check_test {

namespace {

/// Line, column, message.
using Found = std::vector<std::tuple<int, int, std::string>>;

Found found_in(const std::string& text) {
  Found found;
  for (const Diagnostic& p : check_text(text)) {
    CHECK(p.severity == Severity::error);
    CHECK_FALSE(p.advice.empty());
    found.emplace_back(p.place.line, p.place.column, p.message);
  }
  return found;
}

/// The same by lines, of text whose signs are one byte each or `é`, and bytes 0xFF.
Found expected_in(const std::string& text) {
  Found found;
  int number = 0;
  for (std::size_t start = 0; start <= text.size();) {
    ++number;
    const std::size_t end = text.find('\n', start);
    const bool ended = end != std::string::npos;
    const std::string line = text.substr(start, ended ? end - start : end);
    start = ended ? end + 1 : text.size() + 1;
    const std::size_t first = line.find_first_not_of(" \t");
    const bool content = line.find_first_not_of(" \t\r") != std::string::npos &&
                         line[line.find_first_not_of(" \t\r")] != '#';
    const std::size_t tab = line.substr(0, first).find('\t');
    int column = 0;
    for (std::size_t i = 0; i < line.size(); ++i) {
      if (line[i] == '\xA9') continue;  // second byte of é
      ++column;
      const bool line_end = line[i] == '\r' && ended && i + 1 == line.size();
      if (line[i] == '\xFF') {
        found.emplace_back(number, column, invalid_byte(line[i]).message);
      } else if (line[i] == '\x01' || (line[i] == '\r' && !line_end)) {
        found.emplace_back(number, column, control_character(line[i]).message);
      } else if (content && i == tab) {
        found.emplace_back(number, column, tab_in_indentation().message);
      }
    }
  }
  return found;
}

}  // namespace

TEST_CASE("faults of random text are found where a search line by line finds them") {
  std::mt19937 random(5);
  const std::vector<std::string> signs = {"a",    "é",  " ", " ",    "\t",   "\n",
                                          "\r\n", "\r", "#", "\x01", "\xFF", ":"};
  int faults = 0;
  for (int i = 0; i < 3000; ++i) {
    std::string text;
    for (unsigned n = random() % 16; n > 0; --n) text += signs[random() % signs.size()];
    INFO(text);
    const Found expected = expected_in(text);
    CHECK(found_in(text) == expected);
    faults += static_cast<int>(expected.size());
  }
  CHECK(faults > 1000);
}

TEST_CASE("sound text has no fault, whatever its line ends") {
  for (const char* text : {"", "a: 1\n", "a: 1\r\nb: 2\r\n",
                           "\xEF\xBB\xBF"
                           "a: 1\n",
                           "a:\tx\n", "  \t\n", " \t # said\n", "Träger: 管\n"}) {
    INFO(text);
    CHECK(check_text(text).empty());
  }
}

TEST_CASE("every control character but tab and line ends is refused, NUL and DEL among them") {
  for (int c = 0; c < 0x80; ++c) {
    const std::string text = std::string("ab") + static_cast<char>(c) + "\nd";
    const bool allowed = c >= 0x20 ? c != 0x7F : c == '\t' || c == '\n' || c == '\r';
    INFO(c);
    CHECK(check_text(text).empty() == allowed);
  }
}

TEST_CASE("a file in UTF-16 is one fault, not one for each byte") {
  // Byte order marks of RFC 2781, 3.2.
  for (const std::string& text : {std::string("\xFF\xFE"
                                              "a\0:\0",
                                              6),
                                  std::string("\xFE\xFF\0a", 4)}) {
    const Diagnostics diagnostics = check_text(text);
    REQUIRE(diagnostics.size() == 1);
    CHECK(diagnostics[0].message == other_encoding().message);
    CHECK(diagnostics[0].place.line == 1);
  }
}

TEST_CASE("of a file that is no text at all the first faults are enough") {
  const Diagnostics diagnostics = check_text(std::string(100000, '\xFF'));
  CHECK(diagnostics.size() == 20);
  CHECK(diagnostics.back().place.column == 20);
}

}  // namespace tubewright::text_check_test
