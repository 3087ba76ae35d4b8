// UTF-8 (RFC 3629): telling whether bytes are valid, and where characters begin.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace tubewright {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// `text` without a leading byte order mark.
std::string_view without_byte_order_mark(std::string_view text);

/// Length in bytes of the valid character at `position`, 0 if there is none.
std::size_t character_length(std::string_view text, std::size_t position);

/// Bytes of a multi-byte character after its first.
inline bool is_continuation(char byte) { return (static_cast<unsigned char>(byte) & 0xC0) == 0x80; }

/// Number of characters. Requires: valid UTF-8.
std::size_t character_count(std::string_view text);

/// Columns that valid UTF-8 takes on a terminal: wide East Asian characters and emoji take two,
/// combining marks none (the common ranges of Unicode Standard Annex 11).
std::size_t display_width(std::string_view text);

/// `text` for use in a message: control characters and invalid bytes as `?`, line ends as spaces,
/// cut after `most` characters.
std::string one_line(std::string_view text, std::size_t most = 60);

}  // namespace tubewright
