#include "io/options/help_pages.h"

#include <sstream>

namespace tubewright {

namespace {

using Lines = std::vector<std::string>;

std::vector<Lines> paragraphs(const std::string& text) {
  std::vector<Lines> found(1);
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) {
    if (!line.empty()) {
      found.back().push_back(line);
    } else if (!found.back().empty()) {
      found.emplace_back();
    }
  }
  if (found.back().empty()) found.pop_back();
  return found;
}

/// The words of a line, one space between them.
std::string words_of(const std::string& line) {
  std::istringstream stream(line);
  std::string text;
  for (std::string word; stream >> word;) text += (text.empty() ? "" : " ") + word;
  return text;
}

std::string as_one_line(const Lines& lines) {
  std::string text;
  for (const std::string& line : lines) text += (text.empty() ? "" : " ") + words_of(line);
  return text;
}

/// A row of a list: what it is about, then its explanation from `column` on or, with `column` 0,
/// after two spaces. A row with nothing on the left goes on with the one before.
void add_row(const std::string& line, std::size_t column, std::vector<HelpPage::Entry>& entries) {
  const std::size_t start = line.find_first_not_of(' ');
  const std::size_t gap = column > 0 ? column : line.find("  ", start);
  const bool explained = gap < line.size();
  const std::string left = line.substr(0, explained ? gap : line.size());
  const std::string right = explained ? words_of(line.substr(gap)) : "";
  if (words_of(left).empty() && !entries.empty()) {
    entries.back().second += " " + right;
  } else {
    entries.emplace_back(left.substr(start, left.find_last_not_of(' ') + 1 - start), right);
  }
}

}  // namespace

HelpPage help_page(const std::string& text) {
  constexpr std::size_t explanations = 23;  // the column in which they begin
  HelpPage page;
  for (const Lines& lines : paragraphs(text)) {
    const std::string& first = lines.front();
    const Lines rest(lines.begin() + 1, lines.end());
    if (first == "Examples:") {
      for (const std::string& line : rest) add_row(line, 0, page.examples);
    } else if (first == "Options:") {
      for (const std::string& line : rest) add_row(line, explanations, page.options);
    } else if (first.starts_with("  ")) {
      for (const std::string& line : lines) add_row(line, explanations, page.operands);
    } else if (first.starts_with("Usage:") || first == "Commands:") {
      continue;  // whoever shows it elsewhere has the table of commands
    } else {
      Lines prose;
      Lines* part = &prose;
      Lines exit_code;
      for (const std::string& line : lines) {
        if (line.starts_with("Exit code: ")) {
          part = &exit_code;
          part->push_back(line.substr(line.find(':') + 1));
        } else {
          part->push_back(line);
        }
      }
      if (!prose.empty()) page.notes.push_back(as_one_line(prose));
      if (!exit_code.empty()) page.exit_code = as_one_line(exit_code);
    }
  }
  return page;
}

}  // namespace tubewright
