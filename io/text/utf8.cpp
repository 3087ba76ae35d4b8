#include "io/text/utf8.h"

#include <utf8proc.h>

#include <algorithm>

namespace tubewright {
namespace {

utf8proc_int32_t number_of(const Character& c) { return static_cast<utf8proc_int32_t>(c.code); }

/// A terminal obeys these: U+0000 to U+001F, U+007F to U+009F.
bool is_control(const Character& c) {
  return utf8proc_category(number_of(c)) == UTF8PROC_CATEGORY_CC;
}

}  // namespace

std::string_view without_byte_order_mark(std::string_view text) {
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  return text;
}

Character character_at(std::string_view text, std::size_t position) {
  if (position >= text.size()) return {};
  const std::string_view rest = text.substr(position);
  utf8proc_int32_t code = 0;
  const utf8proc_ssize_t length =
      utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(rest.data()),
                       static_cast<utf8proc_ssize_t>(rest.size()), &code);
  if (length <= 0) return {};
  return {static_cast<std::size_t>(length), static_cast<char32_t>(code)};
}

std::size_t character_length(std::string_view text, std::size_t position) {
  return character_at(text, position).length;
}

std::size_t character_count(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return !is_continuation(c); }));
}

std::size_t display_width(std::string_view text) {
  std::size_t width = 0;
  for (std::size_t i = 0; i < text.size();) {
    const Character c = character_at(text, i);
    width += static_cast<std::size_t>(utf8proc_charwidth(number_of(c)));
    i += std::max<std::size_t>(c.length, 1);
  }
  return width;
}

std::string one_line(std::string_view text, std::size_t most) {
  std::string line;
  std::size_t characters = 0;
  for (std::size_t i = 0; i < text.size(); ++characters) {
    if (characters == most) return line + "…";
    const Character c = character_at(text, i);
    if (text[i] == '\n' || text[i] == '\r' || text[i] == '\t') {
      line += ' ';
    } else if (c.length == 0 || is_control(c)) {
      line += '?';
    } else {
      line += text.substr(i, c.length);
    }
    i += std::max<std::size_t>(c.length, 1);
  }
  return line;
}

}  // namespace tubewright
