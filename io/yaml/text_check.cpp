#include "io/yaml/text_check.h"

#include "io/text/utf8.h"
#include "io/yaml/yaml_errors.h"

namespace tubewright {
namespace {

bool is_utf16(std::string_view text) {
  return text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF");
}

bool allowed_control(std::string_view text, std::size_t i) {
  const char c = text[i];
  if (c == '\r') return i + 1 < text.size() && text[i + 1] == '\n';
  return c == '\n' || c == '\t';
}

bool is_blank_or_comment(std::string_view text, std::size_t i) {
  i = text.find_first_not_of(" \t\r", i);
  return i == std::string_view::npos || text[i] == '\n' || text[i] == '#';
}

}  // namespace

Diagnostics check_text(std::string_view text) {
  constexpr std::size_t most = 20;
  if (is_utf16(text)) return {error_at({1, 1}, other_encoding())};
  Diagnostics diagnostics;
  SourceLocation place{1, 1};
  bool indenting = true;
  for (std::size_t i = 0; i < text.size() && diagnostics.size() < most; ++place.column) {
    const std::size_t length = character_length(text, i);
    const char c = text[i];
    if (length == 0) {
      diagnostics.push_back(error_at(place, invalid_byte(c)));
    } else if ((static_cast<unsigned char>(c) < 0x20 || c == 0x7F) && !allowed_control(text, i)) {
      diagnostics.push_back(error_at(place, control_character(c)));
    } else if (c == '\t' && indenting && !is_blank_or_comment(text, i)) {
      diagnostics.push_back(error_at(place, tab_in_indentation()));
      indenting = false;
    }
    indenting = c == '\n' || (indenting && (c == ' ' || c == '\t'));
    if (c == '\n') place = {place.line + 1, 0};
    i += length == 0 ? 1 : length;
  }
  return diagnostics;
}

}  // namespace tubewright
