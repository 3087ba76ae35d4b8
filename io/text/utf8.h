// UTF-8 (RFC 3629): telling whether bytes are valid, where characters begin, how wide they are.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace tubewright {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// `text` without a leading byte order mark.
std::string_view without_byte_order_mark(std::string_view text);

struct Character {
  std::size_t length = 0;     ///< in bytes, 0 where there is none
  char32_t code = U'\uFFFD';  ///< its number, the replacement character's where there is none
};

/// The character that begins at `position`.
Character character_at(std::string_view text, std::size_t position);

/// Length in bytes of the valid character at `position`, 0 if there is none.
std::size_t character_length(std::string_view text, std::size_t position);

/// Bytes of a multi-byte character after its first.
inline bool is_continuation(char byte) { return (static_cast<unsigned char>(byte) & 0xC0) == 0x80; }

/// Number of characters. Requires: valid UTF-8.
std::size_t character_count(std::string_view text);

/// Columns that UTF-8 takes on a terminal: wide East Asian characters and emoji take two (Unicode
/// Standard Annex 11), combining marks and control characters none.
std::size_t display_width(std::string_view text);

/// `text` for use in a message: control characters and invalid bytes as `?`, line ends as spaces,
/// cut after `most` characters.
std::string one_line(std::string_view text, std::size_t most = 60);

}  // namespace tubewright
