#include "io/text/terminal.h"

#include <unistd.h>

#include <cstdlib>

namespace tubewright {

namespace {

std::string variable(const char* name) {
  const char* value = std::getenv(name);
  return value ? value : "";
}

// Select Graphic Rendition of ECMA-48 (1991) section 8.3.117: 1 bold, 2 faint, 3x colours.
std::string rendition(bool colour, const char* codes, std::string_view text) {
  if (!colour) return std::string(text);
  return "\x1b[" + std::string(codes) + "m" + std::string(text) + "\x1b[0m";
}

}  // namespace

TerminalFacts terminal_facts(int descriptor) {
  return {::isatty(descriptor) == 1, variable("NO_COLOR"), variable("TERM")};
}

bool colour_wanted(const TerminalFacts& facts) {
  return facts.is_terminal && facts.no_color.empty() && facts.term != "dumb";
}

std::string Paint::good(std::string_view text) const { return rendition(colour, "32", text); }
std::string Paint::doubtful(std::string_view text) const { return rendition(colour, "1;33", text); }
std::string Paint::bad(std::string_view text) const { return rendition(colour, "1;31", text); }
std::string Paint::heading(std::string_view text) const { return rendition(colour, "1", text); }
std::string Paint::faint(std::string_view text) const { return rendition(colour, "2", text); }

}  // namespace tubewright
