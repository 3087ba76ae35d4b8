// Lines of a text, for tests of what is printed.
#pragma once

#include <sstream>
#include <string>

namespace tubewright::testing {

/// The first line that holds `part`; empty if none does.
inline std::string line_with(const std::string& text, const std::string& part) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.find(part) != std::string::npos) return line;
  }
  return {};
}

}  // namespace tubewright::testing
