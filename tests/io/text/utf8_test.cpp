// UTF-8 against the grammar of RFC 3629, section 4, and an encoder written from its section 3;
// widths against EastAsianWidth.txt and UnicodeData.txt of Unicode 15.0 (from memory).
#include "io/text/utf8.h"

#include <cstdint>
#include <random>

#include "tests/catch.h"

namespace tubewright::utf8_test {

namespace {

/// RFC 3629, section 3: the bits of a character number spread over one to four bytes.
std::string encoded(std::uint32_t code) {
  const auto tail = [&](int shift) { return static_cast<char>(0x80 | (code >> shift & 0x3F)); };
  if (code < 0x80) return {static_cast<char>(code)};
  if (code < 0x800) return {static_cast<char>(0xC0 | code >> 6), tail(0)};
  if (code < 0x10000) return {static_cast<char>(0xE0 | code >> 12), tail(6), tail(0)};
  return {static_cast<char>(0xF0 | code >> 18), tail(12), tail(6), tail(0)};
}

/// RFC 3629, section 4, its rules written out: UTF8-1 to UTF8-4.
std::size_t length_by_grammar(const std::string& text) {
  const auto in = [&](std::size_t i, unsigned low, unsigned high) {
    const unsigned byte = i < text.size() ? static_cast<unsigned char>(text[i]) : 0x100U;
    return byte >= low && byte <= high;
  };
  const auto tail = [&](std::size_t i) { return in(i, 0x80, 0xBF); };
  if (in(0, 0, 0x7F)) return 1;
  if (in(0, 0xC2, 0xDF) && tail(1)) return 2;
  const bool three = (in(0, 0xE0, 0xE0) && in(1, 0xA0, 0xBF)) || (in(0, 0xE1, 0xEC) && tail(1)) ||
                     (in(0, 0xED, 0xED) && in(1, 0x80, 0x9F)) || (in(0, 0xEE, 0xEF) && tail(1));
  if (three && tail(2)) return 3;
  const bool four = (in(0, 0xF0, 0xF0) && in(1, 0x90, 0xBF)) || (in(0, 0xF1, 0xF3) && tail(1)) ||
                    (in(0, 0xF4, 0xF4) && in(1, 0x80, 0x8F));
  return four && tail(2) && tail(3) ? 4 : 0;
}

}  // namespace

TEST_CASE("every character of Unicode is as long as its encoding, surrogates are none") {
  for (std::uint32_t code = 0; code <= 0x110400; code += code < 0x11000 ? 1 : 61) {
    const std::string text = encoded(code);
    const bool character = code <= 0x10FFFF && (code < 0xD800 || code > 0xDFFF);
    if (character_length(text, 0) != (character ? text.size() : 0)) FAIL("code " << code);
    if (character_at(text, 0).code != (character ? code : 0xFFFD)) FAIL("code " << code);
  }
}

TEST_CASE("of any bytes those are characters that the grammar of RFC 3629 makes") {
  std::mt19937 random(1);
  const std::string edges = "\x7F\x80\x8F\x90\x9F\xA0\xBF\xC1\xC2\xDF\xE0\xED\xEF\xF0\xF4\xF5\xFF";
  int characters = 0;
  for (int i = 0; i < 60000; ++i) {
    std::string text;
    for (unsigned n = 1 + random() % 4; n > 0; --n) text += edges[random() % edges.size()];
    const std::size_t expected = length_by_grammar(text);
    if (character_length(text, 0) != expected) FAIL("wrong at trial " << i);
    if (expected > 1) ++characters;
  }
  CHECK(characters > 1000);
  CHECK(character_length("a", 1) == 0);  // past the end
  CHECK(character_length("aé", 1) == 2);
  CHECK(character_length("é", 1) == 0);  // amid a character
}

TEST_CASE("characters are counted whatever their bytes") {
  std::mt19937 random(2);
  for (int i = 0; i < 200; ++i) {
    std::string text;
    const std::size_t count = random() % 20;
    for (std::size_t n = 0; n < count; ++n) {
      const std::uint32_t limit = std::uint32_t{1} << (4 + random() % 17);
      const std::uint32_t code = random() % limit;
      text += encoded(code >= 0xD800 && code <= 0xDFFF ? 0x20AC : code);
    }
    CHECK(character_count(text) == count);
  }
}

TEST_CASE("a terminal gives wide characters two columns and combining marks none") {
  // UAX 11: W or F take two columns, all others one; marks of general category Mn none.
  // U+26A1 and U+2705 are W although they stand among narrow signs.
  for (const char* wide : {"管", "한", "あ", "ア", "Ａ", "（", "😀", "🔧", "𠀀", "⚡", "✅"}) {
    INFO(wide);
    CHECK(display_width(wide) == 2);
  }
  // U+1F321, a thermometer, is N although it stands among emoji.
  for (const char* narrow : {"a", "ä", "€", "ｱ", "Ω", "Ж", "→", "×", "…", "²", "\U0001F321"}) {
    INFO(narrow);
    CHECK(display_width(narrow) == 1);
  }
  CHECK(display_width("a\u0301") == 1);  // a with a combining acute
  CHECK(display_width("ก\u0E34") == 1);  // a Thai consonant with its vowel
  CHECK(display_width("ب\u064E") == 1);  // an Arabic letter with its vowel
  CHECK(display_width("\u200B") == 0);   // zero width space
  CHECK(display_width("") == 0);
  CHECK(display_width("Träger 管x") == 10);  // 6 + 1 + 2 + 1
}

TEST_CASE("text in a message stays on one line, without bytes that a terminal obeys") {
  std::mt19937 random(3);
  for (int i = 0; i < 500; ++i) {
    std::string text;
    for (unsigned n = random() % 40; n > 0; --n) text += static_cast<char>(random() % 256);
    const std::string line = one_line(text, 20);
    for (std::size_t at = 0; at < line.size();) {
      const std::size_t length = character_length(line, at);
      REQUIRE(length > 0);
      REQUIRE(static_cast<unsigned char>(line[at]) >= 0x20);
      REQUIRE(line[at] != 0x7F);
      at += length;
    }
    CHECK(character_count(line) <= 21);
  }
  CHECK(one_line("a\tb\r\nc") == "a b  c");
  CHECK(one_line("a\u009B1mb") == "a?1mb");  // CSI of ECMA-48: what follows would be obeyed
  CHECK(one_line("管管管", 3) == "管管管");
  CHECK(one_line("管管管管", 3) == "管管管…");
  CHECK(one_line(std::string(61, 'x')) == std::string(60, 'x') + "…");
}

TEST_CASE("one byte order mark is taken off the beginning of a text, and only there") {
  const std::string mark = encoded(0xFEFF);
  CHECK(mark == byte_order_mark);
  CHECK(without_byte_order_mark(mark + "a") == "a");
  CHECK(without_byte_order_mark(mark + mark + "a") == mark + "a");
  CHECK(without_byte_order_mark("a" + mark) == "a" + mark);
  CHECK(without_byte_order_mark(mark.substr(0, 2)) == mark.substr(0, 2));
}

}  // namespace tubewright::utf8_test
