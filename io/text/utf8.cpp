#include "io/text/utf8.h"

#include <algorithm>
#include <array>
#include <cstdint>

namespace tubewright {
namespace {

struct CodeRange {
  std::uint32_t first;
  std::uint32_t last;
};

// Unicode Standard Annex 11 (East Asian Width): the blocks whose characters are W or F.
constexpr std::array<CodeRange, 9> wide = {{{0x1100, 0x115F},
                                            {0x2E80, 0x303E},
                                            {0x3041, 0xA4CF},
                                            {0xAC00, 0xD7A3},
                                            {0xF900, 0xFAFF},
                                            {0xFE30, 0xFE6F},
                                            {0xFF00, 0xFF60},
                                            {0x1F300, 0x1FAFF},
                                            {0x20000, 0x3FFFD}}};

// Combining diacritical marks, zero-width characters and variation selectors.
constexpr std::array<CodeRange, 4> zero_width = {
    {{0x0300, 0x036F}, {0x200B, 0x200F}, {0xFE00, 0xFE0F}, {0x20D0, 0x20F0}}};

template <std::size_t n>
bool among(const std::array<CodeRange, n>& ranges, std::uint32_t code) {
  return std::any_of(ranges.begin(), ranges.end(),
                     [&](const CodeRange& r) { return code >= r.first && code <= r.last; });
}

std::uint32_t code_point(std::string_view character) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(character[i]); };
  static constexpr std::array<std::uint32_t, 5> lead_mask = {0, 0x7F, 0x1F, 0x0F, 0x07};
  std::uint32_t code = byte(0) & lead_mask[character.size()];
  for (std::size_t i = 1; i < character.size(); ++i) code = code << 6 | (byte(i) & 0x3FU);
  return code;
}

}  // namespace

std::string_view without_byte_order_mark(std::string_view text) {
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  return text;
}

std::size_t character_length(std::string_view text, std::size_t position) {
  if (position >= text.size()) return 0;
  const auto lead = static_cast<unsigned char>(text[position]);
  if (lead < 0x80) return 1;
  const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  if (lead < 0xC2 || lead > 0xF4 || position + length > text.size()) return 0;
  for (std::size_t i = 1; i < length; ++i) {
    if (!is_continuation(text[position + i])) return 0;
  }
  const std::uint32_t code = code_point(text.substr(position, length));
  const bool overlong = (length == 3 && code < 0x800) || (length == 4 && code < 0x10000);
  const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
  return overlong || surrogate || code > 0x10FFFF ? 0 : length;
}

std::size_t character_count(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return !is_continuation(c); }));
}

std::size_t display_width(std::string_view text) {
  std::size_t width = 0;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = std::max<std::size_t>(character_length(text, i), 1);
    const std::uint32_t code = code_point(text.substr(i, length));
    width += among(zero_width, code) ? 0 : among(wide, code) ? 2 : 1;
    i += length;
  }
  return width;
}

std::string one_line(std::string_view text, std::size_t most) {
  std::string line;
  std::size_t characters = 0;
  for (std::size_t i = 0; i < text.size(); ++characters) {
    if (characters == most) return line + "…";
    const std::size_t length = character_length(text, i);
    const auto first = static_cast<unsigned char>(text[i]);
    if (text[i] == '\n' || text[i] == '\r' || text[i] == '\t') {
      line += ' ';
    } else if (length == 0 || first < 0x20 || first == 0x7F) {
      line += '?';
    } else {
      line += text.substr(i, length);
    }
    i += std::max<std::size_t>(length, 1);
  }
  return line;
}

}  // namespace tubewright
