// A help page taken apart, for whoever shows its parts in another form.
#pragma once

#include <string>
#include <utility>
#include <vector>

namespace tubewright {

struct HelpPage {
  using Entry = std::pair<std::string, std::string>;  ///< what it is about, what the page says

  std::vector<Entry> examples;  ///< what to type, what it is for ("" where the page does not say)
  std::vector<Entry> operands;
  std::vector<Entry> options;      ///< "-o, --output DIR" and its explanation
  std::vector<std::string> notes;  ///< the paragraphs, the first says what the command is for
  std::string exit_code;           ///< what follows "Exit code:", "" where the page does not say
};

/// Takes apart a page of help_text.h: paragraphs between empty lines, some under a heading.
HelpPage help_page(const std::string& text);

}  // namespace tubewright
