// Colour on a terminal, and plain text everywhere else.
#pragma once

#include <string>
#include <string_view>

namespace tubewright {

/// What decides about colour. Empty strings where a variable is not set.
struct TerminalFacts {
  bool is_terminal = false;
  std::string no_color;  ///< NO_COLOR: any text turns colour off (no-color.org)
  std::string term;      ///< TERM: `dumb` cannot show it
};

TerminalFacts terminal_facts(int descriptor);

bool colour_wanted(const TerminalFacts& facts);

/// Paints words if `colour`, else returns them as they are. Colour never carries the meaning alone.
struct Paint {
  bool colour = false;

  std::string good(std::string_view text) const;
  std::string doubtful(std::string_view text) const;
  std::string bad(std::string_view text) const;
  std::string heading(std::string_view text) const;
  std::string faint(std::string_view text) const;
};

}  // namespace tubewright
